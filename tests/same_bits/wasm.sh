#!/usr/bin/env bash
# Holds a second platform against this one: the language and the trade library, built for WebAssembly and run under
# Node, must come to the same digests. It needs Node, and a Rust whose standard library can be built from its sources
# (Debian: rustc-web, cargo-web, rust-web-src, lld). Where these are not to be had it says so and ends well.
set -euo pipefail
cd "$(dirname "$0")/../.."

skip() { printf 'SKIPPED: no second platform: %s\n' "$1"; exit 0; }

command -v node >/dev/null || skip 'there is no Node'
rust=''
for bin in /usr/bin "$(dirname "$(command -v rustc)")"; do
    sysroot=$("$bin/rustc" --print sysroot 2>/dev/null) || continue
    if [ -e "$sysroot/lib/rustlib/src/rust/library/Cargo.lock" ]; then rust=$bin; break; fi
done
[ -n "$rust" ] || skip 'no Rust here has the sources of its standard library (Debian: rust-web-src)'
linker=''
for one in wasm-ld wasm-ld-19 wasm-ld-14 rust-lld; do
    if command -v "$one" >/dev/null; then linker=$one; break; fi
done
[ -n "$linker" ] || skip 'there is no linker for WebAssembly (Debian: lld)'
wanted=$(sed -n 's/^rust-version = "\(.*\)"/\1/p' Cargo.toml)
have=$("$rust/rustc" --version | cut -d' ' -f2)
[ "$(printf '%s\n%s\n' "$wanted" "$have" | sort -V | head -1)" = "$wanted" ] || skip "Rust $have is older than $wanted"

target=${CARGO_TARGET_DIR:-target}
out=$target/same_bits
mkdir -p "$out"
profile=${1:-dev}
cargo run --quiet --locked --example same_bits -p dewline-tests -- cases "$(realpath "$out")"

# A target folder of its own, since another compiler builds here.
PATH=$rust:$PATH RUSTC=$rust/rustc RUSTC_BOOTSTRAP=1 CARGO_TARGET_DIR=$out/target \
    CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER=$linker \
    RUSTFLAGS='-C link-arg=-zstack-size=268435456' \
    "$rust/cargo" build --quiet --locked --profile "$profile" -p dewline-same-bits \
    --target wasm32-unknown-unknown -Zbuild-std=std,panic_abort
folder=$([ "$profile" = dev ] && echo debug || echo "$profile")
node tests/same_bits/run.mjs "$out/target/wasm32-unknown-unknown/$folder/dewline_same_bits.wasm" \
    "$out/cases.jsonl" > "$out/wasm.txt"
diff "$out/digests.txt" "$out/wasm.txt" || { echo 'WebAssembly comes to OTHER BITS' >&2; exit 1; }
printf '%s digests are the same on WebAssembly (Rust %s)\n' "$(wc -l < "$out/wasm.txt")" "$have"
