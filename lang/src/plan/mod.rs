//! A plan: what to compute, in which order, with formulas on bare SI numbers.
//!
//! Kinds are settled, so a plan knows nothing of units but how to show a value. Pressure points are held either
//! absolute or above the site's atmosphere ([`Datum`]), so that what does not need the atmosphere does not wait for it.

mod job;
mod node;
mod walk;

pub use job::{
    AnswerPlan, ChartPlan, CheckPlan, ColumnPlan, ColumnSource, Comparison, ConfirmPlan, Datum, FillBinding, FillPlan,
    GivenPlan, Guard, InstrumentPlan, NotePlan, Plan, Routine, Said, SitePlan, SlotPlan, SlotSource, Spread, StagePlan,
    Step, TablePlan, Template, TemplatePart, Typing, WaivePlan, Wish,
};
pub use node::{Call, Fold, FoldKind, Given, Look, Math, Node, Op, Order, Solve};
