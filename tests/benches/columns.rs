//! Column formulas over a million rows: what one cell costs.
#![allow(missing_docs, clippy::unwrap_used)]

use std::fmt::Write;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use dewline_lang::host::{Document, Host, HostProblem, RawRow, RawTable};
use dewline_lang::job::{self, Settings};

const ROWS: usize = 1_000_000;

/// A log of a million rows that is read from memory.
struct Log(RawTable);

impl Host for Log {
    fn sheet(&self, _from: &str, _path: &str) -> Result<Document, HostProblem> {
        Err(HostProblem { message: "there are no sheets here".to_string(), mend: None })
    }

    fn table(&self, _from: &str, _path: &str) -> Result<RawTable, HostProblem> {
        Ok(self.0.clone())
    }
}

fn log() -> Log {
    let rows = (0..ROWS)
        .map(|row| {
            let fields = vec![format!("{}", 40 + row % 17), format!("{}", 50 + row % 23), format!("{}", 70 + row % 11)];
            RawRow { line: row as u64 + 2, fields }
        })
        .collect();
    let headers = ["liquid", "gas", "air"].map(str::to_string).to_vec();
    Log(RawTable { name: "log.csv".to_string(), headers, header_line: 1, rows })
}

/// The log with this many copies of a formula. The cost of one cell is the slope of time over copies, so that reading
/// the file does not count.
fn sheet(formula: &str, copies: usize) -> String {
    let mut text = "table log from \"log.csv\"\n liquid | gas | air\n degF | degF | degF\n".to_string();
    for copy in 0..copies {
        writeln!(text, " f{copy} = {formula}").unwrap();
    }
    text.push_str("end\n");
    text
}

fn columns(criterion: &mut Criterion) {
    let library = dewline_stdlib::library();
    let host = log();
    let settings = Settings { values: Vec::new() };
    let formulas = [
        ("five operations", "(gas - liquid) * 2 + (air - gas) / 4 - 1 F°"),
        ("superheat", "superheat(R-32, 118 psig, gas)"),
    ];
    let mut group = criterion.benchmark_group("columns");
    group.sample_size(10).throughput(Throughput::Elements(ROWS as u64));
    for (name, formula) in formulas {
        for copies in [0, 8] {
            let job = job::check(&library, &host, "bench.dew", &sheet(formula, copies)).job.unwrap();
            group.bench_function(format!("{name}, {copies} times"), |bench| {
                bench.iter(|| job.run(&library, &host, &settings));
            });
        }
    }
    group.finish();
}

criterion_group!(benches, columns);
criterion_main!(benches);
