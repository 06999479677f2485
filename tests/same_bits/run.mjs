// Runs the cases in a WebAssembly build under Node and prints their digests: run.mjs MODULE CASES
import { readFileSync } from "node:fs";
import { Worker, isMainThread, workerData } from "node:worker_threads";

const [module, cases] = isMainThread ? process.argv.slice(2) : workerData;

if (isMainThread) {
  // The deepest sheets that the limits allow need a deep stack, which only a thread of its own can be given.
  new Worker(new URL(import.meta.url), { workerData: [module, cases], resourceLimits: { stackSizeMb: 240 } }).on(
    "error",
    (error) => {
      console.error(error);
      process.exitCode = 1;
    },
  );
} else {
  const { instance } = await WebAssembly.instantiate(readFileSync(module), {});
  const { memory, same_bits_input, same_bits_run, same_bits_examples, same_bits_output } = instance.exports;
  const answer = (length) => new TextDecoder().decode(new Uint8Array(memory.buffer, same_bits_output(), length));
  let digests = "";
  for (const line of readFileSync(cases, "utf8").split("\n")) {
    const bytes = new TextEncoder().encode(line);
    const place = same_bits_input(bytes.length);
    new Uint8Array(memory.buffer, place, bytes.length).set(bytes);
    digests += answer(same_bits_run());
  }
  digests += answer(same_bits_examples());
  process.stdout.write(digests);
}
