//! Column formulas over a million rows: what one cell costs.
#![allow(missing_docs, clippy::unwrap_used)]

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use dewline_lang::engine::{self, World};
use dewline_lang::host::{Document, Host, HostProblem, RawRow, RawTable};
use dewline_lang::job::{self, Settings};
use dewline_lang::plan::ColumnSource;

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
    Log(RawTable { name: "log.csv".to_string(), headers, header_line: 1, rows, ..RawTable::default() })
}

/// One column formula over the log, without reading the file or writing the outcome down.
fn columns(criterion: &mut Criterion) {
    let library = dewline_stdlib::library();
    let host = log();
    let formulas = [
        ("three operations", "(gas - liquid) * 2 + 1 F°"),
        ("five operations", "(gas - liquid) * 2 + (air - gas) / 4"),
        ("a choice", "if gas > liquid then gas - liquid else air - liquid"),
        ("dew temperature", "dew_temperature(R-32, 118 psig + (gas - liquid) * (1 psi / (1 F°)))"),
    ];
    let mut group = criterion.benchmark_group("column of a million rows");
    group.sample_size(10).throughput(Throughput::Elements(ROWS as u64));
    for (name, formula) in formulas {
        let sheet =
            format!("table log from \"log.csv\"\n liquid | gas | air\n degF | degF | degF\n f = {formula}\nend\n");
        let checked = job::check(&library, &host, "bench.dew", &sheet);
        let job = checked.job.unwrap();
        let mut sources = checked.sources;
        let world = World::new(&library, &host, &Settings::default(), &mut sources);
        let run = engine::run(job.plan(), &world);
        let ColumnSource::Formula(node) = &job.plan().tables[0].columns[3].source else { continue };
        group.bench_function(name, |bench| {
            bench.iter(|| {
                world.work.set(0);
                run.formula(node, 0, ROWS, &world)
            })
        });
    }
    group.finish();
}

criterion_group!(benches, columns);
criterion_main!(benches);
