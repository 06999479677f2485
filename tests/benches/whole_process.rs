//! The program as people start it: build it first with `cargo build --release`.
#![allow(missing_docs, clippy::unwrap_used, clippy::panic)]

use std::path::Path;
use std::process::{Command, Stdio};

use criterion::{Criterion, criterion_group, criterion_main};

const PROGRAM: &str = "../target/release/dewline";

fn run(arguments: &[&str], code: i32) {
    let status = Command::new(PROGRAM).args(arguments).stdout(Stdio::null()).stderr(Stdio::null()).status();
    assert_eq!(status.unwrap().code(), Some(code), "{arguments:?}");
}

fn whole_process(criterion: &mut Criterion) {
    assert!(Path::new(PROGRAM).exists(), "{PROGRAM} is not built: cargo build --release");
    let mut group = criterion.benchmark_group("whole process");
    group.bench_function("start and one sum", |bench| bench.iter(|| run(&["calc", "1 + 1"], 0)));
    group.bench_function("demo", |bench| bench.iter(|| run(&["run", "../examples/clinic/clinic.dew"], 1)));
    group.finish();
}

criterion_group!(benches, whole_process);
criterion_main!(benches);
