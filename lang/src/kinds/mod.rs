//! Kinds settle before any number is: from a tree and its names to typed formulas, and so to the plan.

pub mod algebra;
mod factors;
mod kind;

mod calls;
mod checker;
mod checks;
mod columns;
mod comparisons;
mod declared;
mod defines;
mod expression;
mod fills;
mod folds;
mod general;
mod given;
mod job_units;
mod literal;
mod lookup;
mod meant;
mod operators;
mod setting;
mod sheet;
mod site;
mod solve;
mod tables;
mod typed;
mod uncertainty;
mod words;

pub use calls::signature;
pub use factors::Factors;
pub use general::{GENERAL, General};
pub use kind::{Kind, Quantity, RecordField, RecordKind, Stance};
pub use setting::{ReadSetting, read_setting};
pub use words::{ComparedWord, folded, mend_of_word};

use std::sync::Arc;

use crate::diagnostic::Diagnostic;
use crate::library::Library;
use crate::names::Files;
use crate::plan::Plan;
use crate::source::Sources;

/// Checks all sheets of a job and makes the plan of the outermost.
pub fn compile(files: &Files, sources: &Sources, library: &Library) -> (Arc<Plan>, Vec<Diagnostic>) {
    let mut compiler = checker::Compiler::new(files, sources, library);
    let plan = compiler.sheet(0);
    (plan, compiler.diagnostics)
}
