//! The demo job, step by step: reading, checking, running.
#![allow(missing_docs, clippy::unwrap_used)]

use criterion::{Criterion, criterion_group, criterion_main};
use dewline::FolderHost;
use dewline_lang::job::{self, Settings};
use dewline_lang::source::FileId;
use dewline_lang::syntax;

/// Benches run in the folder of their crate.
const SHEET: &str = "../examples/clinic/clinic.dew";

fn demo(criterion: &mut Criterion) {
    let (host, document) = FolderHost::open(SHEET, &mut std::io::empty()).unwrap();
    let library = dewline_stdlib::library();
    let settings = Settings { values: Vec::new() };
    let job = job::check(&library, &host, &document.name, &document.text).job.unwrap();

    let mut group = criterion.benchmark_group("demo");
    group.bench_function("parse", |bench| bench.iter(|| syntax::parse(FileId(0), &document.text)));
    group.bench_function("library", |bench| bench.iter(dewline_stdlib::library));
    group.bench_function("parse, check and plan", |bench| {
        bench.iter(|| job::check(&library, &host, &document.name, &document.text));
    });
    group.bench_function("run", |bench| bench.iter(|| job.run(&library, &host, &settings)));
    group.finish();
}

criterion_group!(benches, demo);
criterion_main!(benches);
