//! A plan: what to compute, in which order, with formulas on bare SI numbers.
//!
//! Kinds are settled, so a plan knows nothing of units but how to show a value. Pressure points are held either
//! absolute or above the site's atmosphere ([`Datum`]), so that what does not need the atmosphere does not wait for it.

mod check;
mod job;
mod limits;
mod node;
mod typing;
mod walk;

pub use check::{AnswerPlan, CheckPlan, Comparison, ConfirmPlan, RowsPlan, Said, WaivePlan};
pub use job::{
    ChartPlan, ColumnPlan, ColumnSource, FillBinding, FillPlan, GivenPlan, Guard, InstrumentPlan, NotePlan, Plan,
    Routine, SitePlan, SlotPlan, SlotSource, Spread, StagePlan, Step, TablePlan, Template, TemplatePart,
};
pub use node::{Call, Fold, FoldKind, Given, Look, Math, Node, Op, Order, Solve};
pub use typing::{Datum, Typing, Wish};
