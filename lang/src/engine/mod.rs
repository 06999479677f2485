//! The engine: runs a plan to an outcome. No kinds, no names, no units but for showing.

mod advice;
mod arithmetic;
mod block;
mod calls;
mod columns;
mod evaluate;
mod fault;
mod folds;
mod given;
mod judge;
mod logic;
mod report;
mod row_calls;
mod rows;
mod run;
mod settings;
mod shown;
mod site;
mod solve;
mod stages;
mod text;
mod trace;
mod waive;
mod why;

pub use report::outcome;
pub use run::{Run, run};
pub use settings::{Open, Settings, World, settable};
pub use site::SEA_LEVEL;
pub use why::{Why, why};
