//! What a job asks: checks, confirmations, waivers.

use super::node::Node;
use super::typing::Typing;
use crate::moment::Moment;
use crate::source::Span;

/// A check.
#[derive(Debug)]
pub struct CheckPlan {
    /// Its label.
    pub label: String,
    /// Its place.
    pub span: Span,
    /// The stage it stands in.
    pub stage: Option<usize>,
    /// `require`, not `advise`.
    pub require: bool,
    /// The table judged row by row.
    pub each: Option<usize>,
    /// What must hold.
    pub condition: Node,
    /// The same as written.
    pub written: String,
    /// Which rows are asked about.
    pub asked: Option<Node>,
    /// What is compared with what, if it is one comparison.
    pub comparison: Option<Comparison>,
    /// It judges the result of a safety function and cannot be waived.
    pub safety: bool,
}

impl CheckPlan {
    /// The word that it begins with.
    pub fn level(&self) -> &'static str {
        if self.require { "require" } else { "advise" }
    }
}

/// A value against limits.
#[derive(Debug)]
pub struct Comparison {
    /// The value as written.
    pub text: String,
    /// The value.
    pub value: Node,
    /// What it is and how it is shown.
    pub typing: Typing,
    /// The least it may be.
    pub low: Option<Node>,
    /// The most it may be.
    pub high: Option<Node>,
    /// How the limit reads, such as `at least`, `at most`, `within`, `equal to`.
    pub words: &'static str,
}

/// A confirmation.
#[derive(Debug)]
pub struct ConfirmPlan {
    /// What is confirmed.
    pub label: String,
    /// Its place.
    pub span: Span,
    /// The stage it stands in.
    pub stage: Option<usize>,
    /// What the sheet itself says.
    pub said: Said,
}

/// The answer to a confirmation of a filled sheet.
#[derive(Debug, Clone)]
pub struct AnswerPlan {
    /// The fillings that lead there, the first of this plan, each next of the one before.
    pub way: Vec<usize>,
    /// The confirmation in the last of them.
    pub confirm: usize,
    /// What is said.
    pub said: Said,
}

impl AnswerPlan {
    /// The same answer as seen from one filling, if it leads there.
    pub fn inside(&self, fill: usize) -> Option<AnswerPlan> {
        let (first, rest) = self.way.split_first()?;
        (*first == fill).then(|| AnswerPlan { way: rest.to_vec(), ..self.clone() })
    }
}

/// What is said to a confirmation.
#[derive(Debug, Clone, Default)]
pub struct Said {
    /// Done or not; nothing is said without it.
    pub answer: Option<bool>,
    /// When, as written.
    pub at_text: Option<String>,
    /// By whom.
    pub by: Option<String>,
}

/// A waiver.
#[derive(Debug)]
pub struct WaivePlan {
    /// The label of the check.
    pub label: String,
    /// Its place.
    pub span: Span,
    /// The stage it stands in.
    pub stage: Option<usize>,
    /// Of a check of each row: which of them.
    pub rows: Option<RowsPlan>,
    /// Why.
    pub reason: String,
    /// By whom.
    pub by: String,
    /// When.
    pub at: Moment,
    /// When, as written.
    pub at_text: String,
}

/// The rows that a waiver is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RowsPlan {
    /// That of a key.
    One(String),
    /// All of them.
    All,
}
