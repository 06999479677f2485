//! What uncertainty costs on the demo job, and what trials cost on a job of 40 units.
#![allow(missing_docs, clippy::unwrap_used)]

use std::fmt::Write as _;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use dewline::FolderHost;
use dewline_lang::host::Host;
use dewline_lang::job::{self, Settings, Trials};
use dewline_tests::sheet::Shelf;

/// Benches run in the folder of their crate.
const SHEET: &str = "../examples/clinic/clinic.dew";

/// The demo job with everything taken out that states an uncertainty.
fn without_doubt(text: &str) -> String {
    let stated = |line: &&str| !line.starts_with("  accuracy") && !line.starts_with("  repeats");
    let kept: Vec<&str> = text.lines().filter(stated).collect();
    kept.join("\n").replace("degF ± 1 F°", "degF").replace("psi ± 0.5 psi", "psi")
}

fn demo(criterion: &mut Criterion) {
    let (host, document) = FolderHost::open(SHEET, &mut std::io::empty()).unwrap();
    let library = dewline_stdlib::library();
    let settings = Settings::default();
    let job = |text: &str| job::check(&library, &host as &dyn Host, &document.name, text).job.unwrap();
    let (plain, doubtful) = (job(&without_doubt(&document.text)), job(&document.text));
    assert!(plain.run(&library, &host, &settings).outcome.cells.iter().all(|cell| cell.uncertainty.is_none()));
    let mut group = criterion.benchmark_group("demo");
    group.bench_function("run without uncertainty", |bench| bench.iter(|| plain.run(&library, &host, &settings)));
    group.bench_function("run with uncertainty", |bench| bench.iter(|| doubtful.run(&library, &host, &settings)));
    group.finish();
}

/// 40 units on one outdoor unit, each with two sensors of its own.
fn forty_units() -> String {
    let mut sheet = String::from(
        "units IP\ninstrument gauge \"gauge\"\n  accuracy ± 4 psi\n  repeats ± 0.4 psi\n\
         instrument clamp \"clamp\"\n  accuracy ± 1 F°\n  repeats ± 0.2 F°\n\
         reading suction = 130.8 psig by gauge\nreading liquid = 380 psig by gauge\nreading t_liquid = 98 degF by clamp\n\
         table indoor\n  tag | liquid_pipe | gas_pipe | air_in | air_out\n\
         text | degF ± 1 F° | degF ± 1 F° | degF ± 1 F° | degF ± 1 F°\n",
    );
    for unit in 0..40 {
        let shift = f64::from(unit % 7) * 0.4;
        let _ = writeln!(sheet, "\"U-{unit}\" | 44.{} | {:.1} | 75.2 | {:.1}", unit % 10, 52.0 + shift, 56.0 + shift);
    }
    sheet.push_str(
        "superheat = superheat(R-32, suction, gas_pipe)\n  air_drop = air_in - air_out\n\
         require each \"superheat\" superheat within 4 .. 20 F°\nend\n\
         subcooled = subcooling(R-32, liquid, t_liquid)\nmean_superheat = mean(indoor.superheat)\n\
         worst = max(indoor.superheat)\nevenness = spread(indoor.superheat)\n",
    );
    sheet
}

fn trials(criterion: &mut Criterion) {
    let library = dewline_stdlib::library();
    let host = Shelf::default();
    let checked = job::check(&library, &host, "forty.dew", &forty_units());
    let job = checked.job.unwrap();
    let mut run = job.run(&library, &host, &Settings::default());
    assert!(run.outcome.errors.is_empty(), "{:?}", run.outcome.errors);
    const COUNT: usize = 10_000;
    let mut group = criterion.benchmark_group("trials");
    group.sample_size(10).throughput(Throughput::Elements(COUNT as u64));
    for threads in [1, 2] {
        group.bench_function(format!("40 units, 10,000 trials, threads: {threads}"), |bench| {
            bench.iter(|| run.trials(Trials { count: COUNT, seed: 1, threads }, &|_| {}));
        });
    }
    group.finish();
}

criterion_group!(benches, demo, trials);
criterion_main!(benches);
