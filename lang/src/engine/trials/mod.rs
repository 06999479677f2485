//! Propagation of distributions by trials (JCGM 101): the job is run again and again with readings drawn from what is
//! stated of them; what comes of its values is set against the first-order uncertainties, and how often its checks hold
//! is counted.

mod again;
mod checks;
mod draws;
mod summary;

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use self::again::{Again, Place, Watched};
use self::checks::{Tally, WatchedChecks};
use self::draws::Draws;
use super::block::Block;
use super::origins::Origins;
use super::run::Run;
use crate::kinds::{Kind, RecordField};
use crate::limits;
use crate::outcome::TrialsOutcome;
use crate::plan::{Datum, Typing};

/// Trials of one chunk: drawn from one stream, worked out by one thread.
const CHUNK: usize = 250;
/// Numbers kept in all, so that memory stays within bounds: trials times values.
const KEPT: usize = 32_000_000;

/// What trials are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Trials {
    /// How many.
    pub count: usize,
    /// What the draws begin with.
    pub seed: u64,
    /// Threads to work with; results do not depend on it.
    pub threads: usize,
}

/// Runs the trials; `progress` is told how many more are done.
pub fn trials(run: &Run, origins: &Origins, asked: Trials, progress: &(dyn Fn(usize) + Sync)) -> TrialsOutcome {
    let base = Again::of(run);
    let mut watched = base.watched(run, false);
    let cells = base.watched(run, true);
    let room = (KEPT / asked.count.max(1)).max(1);
    let left_out = (watched.len() + cells.len()).saturating_sub(room);
    watched.extend(cells);
    watched.truncate(room);
    let places: Vec<&Watched> = watched.iter().map(|(watched, _)| watched).collect();
    let gauge: Vec<bool> = watched.iter().map(|(one, run)| typing_of(run, one).datum == Datum::Gauge).collect();
    let checks = WatchedChecks::of(&base, run);
    let chunks = asked.count.div_ceil(CHUNK);
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<Chunk>> = Mutex::new(Vec::with_capacity(chunks));
    let work = || {
        let mut again = base.clone();
        let mut drawn = Vec::with_capacity(origins.count());
        loop {
            let chunk = next.fetch_add(1, Ordering::Relaxed);
            if chunk >= chunks {
                return;
            }
            let count = CHUNK.min(asked.count - chunk * CHUNK);
            let mut draws = Draws::of_chunk(asked.seed, chunk as u64);
            let mut values = vec![0.0; count * places.len()];
            let mut tally = checks.tally();
            for trial in 0..count {
                draws.trial(origins, &mut drawn);
                again.run(&drawn);
                for (at, (place, gauge)) in places.iter().zip(&gauge).enumerate() {
                    let site = if *gauge { again.atmosphere() } else { 0.0 };
                    values[at * count + trial] = again.value(place) + site;
                }
                checks.count(&again, &mut tally);
            }
            if let Ok(mut done) = done.lock() {
                done.push(Chunk { number: chunk, values, tally });
            }
            progress(count);
        }
    };
    std::thread::scope(|scope| {
        for _ in 1..asked.threads.max(1) {
            // Where there is no further thread, the ones there are do the work.
            let _ = std::thread::Builder::new().stack_size(limits::STACK_BYTES).spawn_scoped(scope, work);
        }
        work();
    });
    let mut done = done.into_inner().unwrap_or_default();
    // Whatever thread came first, the order is that of the trials.
    done.sort_by_key(|chunk| chunk.number);
    let mut tally = checks.tally();
    done.iter().for_each(|chunk| tally.add(&chunk.tally));
    let values = watched
        .iter()
        .enumerate()
        .map(|(at, (watched, run))| {
            let of_chunk = |chunk: &'_ Chunk| {
                let count = chunk.values.len() / places.len().max(1);
                chunk.values[at * count..(at + 1) * count].to_vec()
            };
            let all: Vec<f64> = done.iter().flat_map(of_chunk).collect();
            let (name, block, row, typing) = told(run, watched);
            summary::of(run, origins, name, (&block, row), &typing, all)
        })
        .collect();
    TrialsOutcome { count: asked.count, seed: asked.seed, values, checks: checks.told(&tally), left_out }
}

/// What came of the trials of one chunk.
struct Chunk {
    number: usize,
    values: Vec<f64>,
    tally: Tally,
}

fn typing_of(run: &Run, watched: &Watched) -> Typing {
    let typing = match watched.place {
        Place::Slot(slot) => &run.plan.slots[slot].typing,
        Place::Cell { table, column, .. } => &run.plan.tables[table].columns[column].typing,
    };
    match (watched.field, &typing.kind) {
        (Some(at), Kind::Record(record)) if at < record.fields.len() => {
            let RecordField { kind, wish, .. } = &record.fields[at];
            Typing { wish: wish.clone(), ..Typing::of(kind.clone()) }
        }
        _ => typing.clone(),
    }
}

/// A watched value of the run itself: its name, its block and row, and how it is shown.
fn told(run: &Run, watched: &Watched) -> (String, Block, usize, Typing) {
    let typing = typing_of(run, watched);
    let field_name = |typing: &Typing| match (watched.field, &typing.kind) {
        (Some(at), Kind::Record(record)) => {
            record.fields.get(at).map_or_else(String::new, |one| format!(".{}", one.name))
        }
        _ => String::new(),
    };
    let part = |block: &Block| watched.field.map_or_else(|| block.clone(), |field| block.field(field));
    match watched.place {
        Place::Slot(slot) => {
            let plan = &run.plan.slots[slot];
            let name = format!("{}{}{}", run.prefix, plan.name, field_name(&plan.typing));
            (name, part(&run.slots[slot]), 0, typing)
        }
        Place::Cell { table, column, row } => {
            let plan = &run.plan.tables[table];
            let column_plan = &plan.columns[column];
            let name = format!(
                "{}{}[\"{}\"].{}{}",
                run.prefix,
                plan.name,
                run.key(table, row),
                column_plan.name,
                field_name(&column_plan.typing)
            );
            (name, part(&run.tables[table].columns[column]), row, typing)
        }
    }
}
