//! Random expressions computed by the language and by an evaluator written anew that walks their trees: the same bits,
//! or the same error.

use std::collections::BTreeMap;

use dewline_lang::library::Library;

use crate::oracle::WellKinded;
use crate::sheet::run;

/// Cells of one sheet: so few that never more of them break than a run tells of.
const CELLS: usize = 500;
/// Threads to share them, which do not change what is computed.
const THREADS: usize = 2;

/// How many expressions had a value, and how many an error.
#[derive(Debug, Default, Clone, Copy)]
pub struct Agreed {
    /// The same bits.
    pub values: usize,
    /// The same error.
    pub errors: usize,
}

/// Compares so many expressions; panics at the first that differs.
pub fn compare(count: usize) -> Agreed {
    let share = |seed: usize| std::thread::spawn(move || compare_from(seed as u64, count / THREADS));
    let threads: Vec<_> = (0..THREADS).map(share).collect();
    threads.into_iter().fold(Agreed::default(), |all, thread| match thread.join() {
        Ok(some) => Agreed { values: all.values + some.values, errors: all.errors + some.errors },
        Err(fallen) => std::panic::resume_unwind(fallen),
    })
}

fn compare_from(seed: u64, count: usize) -> Agreed {
    let library = Library::new();
    let mut expressions = WellKinded::new(seed);
    let mut agreed = Agreed::default();
    for _ in 0..count / CELLS {
        let some: Vec<_> = expressions.by_ref().take(CELLS).collect();
        let lines = some.iter().enumerate().map(|(at, (text, _))| format!("c{at} = {text}\n"));
        let outcome = run(&library, &lines.collect::<String>());
        assert_eq!(outcome.cells.len(), CELLS);
        let errors: BTreeMap<&str, &str> =
            outcome.errors.iter().map(|error| (error.cell.as_str(), error.code)).collect();
        for (cell, (text, value)) in outcome.cells.iter().zip(&some) {
            let error = errors.get(cell.name.as_str()).copied();
            match value.from_true_zero().number {
                Ok(number) => {
                    let same = cell.si.is_some_and(|found| found.to_bits() == number.to_bits());
                    assert!(same, "{text}\nis {number:e}, not {:?} or {error:?}", cell.si);
                    agreed.values += 1;
                }
                Err(fault) => {
                    assert_eq!(error, Some(fault.code()), "{text}\nis {fault:?}, not {:?}", cell.si);
                    agreed.errors += 1;
                }
            }
        }
    }
    agreed
}
