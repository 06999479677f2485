//! The plan of one sheet: its values, tables, checks and stages, and the order of computing.

use std::sync::Arc;

use super::check::{AnswerPlan, CheckPlan, ConfirmPlan, WaivePlan};
use super::node::Node;
use super::typing::{Datum, Typing, Wish};
use crate::kinds::ComparedWord;
use crate::library::Function;
use crate::moment::Moment;
use crate::outcome::{Role, Stated};
use crate::source::Span;
use crate::syntax::tree::{TableTraits, UncertaintyStyle, UnitSystem};

/// What to compute for one sheet. Filled sheets have plans of their own inside.
#[derive(Debug, Default)]
pub struct Plan {
    /// The sheet's title.
    pub title: Option<String>,
    /// The name its text was read under.
    pub path: String,
    /// Default units of shown values.
    pub system: Option<UnitSystem>,
    /// `decide guarded`: how far inside its limit a value must lie.
    pub guarded: Option<Guard>,
    /// The site, used if this sheet is the outermost.
    pub site: SitePlan,
    /// Single values.
    pub slots: Vec<SlotPlan>,
    /// Tables; those of used sheets too.
    pub tables: Vec<TablePlan>,
    /// Filled sheets.
    pub fills: Vec<FillPlan>,
    /// Instruments.
    pub instruments: Vec<InstrumentPlan>,
    /// Definitions, one for each set of argument kinds they are called with.
    pub routines: Vec<Routine>,
    /// Checks.
    pub checks: Vec<CheckPlan>,
    /// Confirmations.
    pub confirmations: Vec<ConfirmPlan>,
    /// Answers to confirmations of filled sheets.
    pub answers: Vec<AnswerPlan>,
    /// Waivers.
    pub waivers: Vec<WaivePlan>,
    /// Stages.
    pub stages: Vec<StagePlan>,
    /// Notes.
    pub notes: Vec<NotePlan>,
    /// Charts.
    pub charts: Vec<ChartPlan>,
    /// The order of computing.
    pub steps: Vec<Step>,
    /// Cautions of the functions used here.
    pub cautions: Vec<&'static str>,
    /// The functions used here, in the order they are met.
    pub functions: Vec<Arc<Function>>,
    /// The refrigerants named here, in the order they are met.
    pub refrigerants: Vec<String>,
    /// Own names that hide names of the library, each with what it is there.
    pub hides: Vec<(&'static str, String)>,
    /// Single values that are added to a gauge pressure.
    pub added_to_gauges: Vec<usize>,
    /// Gauge pressures are converted somewhere.
    pub uses_atmosphere: bool,
    /// Single values and columns of this plan and, once each, of those it fills.
    pub size: usize,
}

/// How far inside its limit a value must lie to pass, where checks are guarded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Guard {
    /// By its expanded uncertainty.
    Expanded,
    /// So far that it lies inside with this probability.
    Probability(f64),
}

/// A stated uncertainty: a half-width of `constant + share·|reading|`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// In SI.
    pub constant: f64,
    /// Of the reading, as counted from the zero of its unit.
    pub share: f64,
    /// What the half-width is.
    pub style: UncertaintyStyle,
    /// Degrees of freedom.
    pub freedom: Option<f64>,
}

/// One thing to compute.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// The given rows of a table.
    Rows(usize),
    /// A single value.
    Slot(usize),
    /// A column formula.
    Column(usize, usize),
    /// A filled sheet.
    Fill(usize),
    /// A check.
    Check(usize),
    /// A confirmation.
    Confirm(usize),
    /// A note.
    Note(usize),
    /// A chart.
    Chart(usize),
}

/// The site as this sheet states it.
#[derive(Debug, Default)]
pub enum SitePlan {
    /// Not at all.
    #[default]
    Unstated,
    /// By the slot of its altitude.
    Altitude(usize),
    /// By the slot of its atmosphere.
    Atmosphere(usize),
}

/// A single value.
#[derive(Debug)]
pub struct SlotPlan {
    /// Its name.
    pub name: String,
    /// The place of its name.
    pub span: Span,
    /// The stage it stands in.
    pub stage: Option<usize>,
    /// Where it comes from.
    pub role: Role,
    /// What it is.
    pub typing: Typing,
    /// How it comes by its value.
    pub source: SlotSource,
    /// What was stated beside it.
    pub stated: Stated,
    /// Its formula as written; empty for what is given.
    pub formula: String,
    /// It comes from a safety function.
    pub safety: bool,
    /// The words with which this sheet compares it, if it is a text given from outside.
    pub compared_with: Vec<ComparedWord>,
}

/// How a slot comes by its value.
#[derive(Debug)]
pub enum SlotSource {
    /// By a formula.
    Formula(Node),
    /// From outside, maybe with a value in the sheet.
    Given(GivenPlan),
}

/// An input or reading.
#[derive(Debug, Default)]
pub struct GivenPlan {
    /// Its values in the sheet; several are repeats, none is open.
    pub values: Vec<Node>,
    /// Its ends; outside them a value is a typing mistake.
    pub within: Option<(Node, Node)>,
    /// Nothing waits for it by itself.
    pub optional: bool,
    /// When it was read.
    pub at: Option<Moment>,
    /// The instrument.
    pub by: Option<usize>,
    /// Its own `± …`.
    pub spread: Option<Spread>,
    /// The words a text may be.
    pub choices: Option<Vec<String>>,
}

/// A table.
#[derive(Debug)]
pub struct TablePlan {
    /// Its name; with the alias of a used sheet before it.
    pub name: String,
    /// The place of its name.
    pub span: Span,
    /// The stage it stands in.
    pub stage: Option<usize>,
    /// The file its rows come from, with the place of its path and the sheet that names it.
    pub from: Option<(String, Span, String)>,
    /// When it was read.
    pub at: Option<Moment>,
    /// When it was read, as written.
    pub at_text: Option<String>,
    /// Columns, given ones first.
    pub columns: Vec<ColumnPlan>,
    /// How many of them are given.
    pub given: usize,
    /// Rows in the sheet, a node a given column.
    pub rows: Vec<(Span, Vec<Node>)>,
    /// Neither rows nor a file: given from outside.
    pub open: bool,
    /// What its first line says of it.
    pub traits: TableTraits,
    /// It belongs to a used sheet and is not printed.
    pub used: bool,
}

/// A column.
#[derive(Debug)]
pub struct ColumnPlan {
    /// Its name.
    pub name: String,
    /// The place of its name.
    pub span: Span,
    /// The header in a file, if another.
    pub header: Option<String>,
    /// What its values are.
    pub typing: Typing,
    /// Where they come from.
    pub source: ColumnSource,
    /// `± …` as written.
    pub uncertainty: Option<String>,
    /// Each row's own `± …`.
    pub spread: Option<Spread>,
    /// The instrument.
    pub by: Option<usize>,
    /// The formula as written; empty for a given column.
    pub formula: String,
    /// It comes from a safety function.
    pub safety: bool,
    /// What fills the table may be without it.
    pub optional: bool,
    /// The words with which this sheet compares its texts, if it is given from outside.
    pub compared_with: Vec<ComparedWord>,
}

/// Where the values of a column come from.
#[derive(Debug)]
pub enum ColumnSource {
    /// From rows; `measured` if it has an uncertainty or an instrument.
    Rows {
        /// Measured.
        measured: bool,
    },
    /// From a formula, row by row.
    Formula(Node),
}

/// A filled sheet.
#[derive(Debug)]
pub struct FillPlan {
    /// The name of this filling.
    pub name: String,
    /// The place of its name.
    pub span: Span,
    /// The stage it stands in.
    pub stage: Option<usize>,
    /// What is filled.
    pub plan: Arc<Plan>,
    /// With what.
    pub bindings: Vec<FillBinding>,
    /// The table whose rows each fill one.
    pub each: Option<usize>,
}

/// What one input of a filled sheet is filled with.
#[derive(Debug)]
pub enum FillBinding {
    /// A value; evaluated row by row if filled for each row.
    Value {
        /// The slot in the filled plan.
        slot: usize,
        /// Its value here, in the datum of that slot.
        node: Node,
        /// The slot here that it is, if it is just that: a reading keeps what was stated with it.
        same_as: Option<usize>,
        /// How it is shown there: as here.
        wish: Option<Wish>,
        /// The formula as written here; empty for a bare name or a literal.
        formula: String,
    },
    /// A table.
    Table {
        /// The table in the filled plan.
        table: usize,
        /// The table here.
        with: usize,
        /// For each given column there: the column here, unless an optional one is not there.
        columns: Vec<Option<usize>>,
        /// For each given column there: conversion of the datum, from and to.
        data: Vec<(Datum, Datum)>,
        /// For each given column there: how it is shown, as here.
        wishes: Vec<Option<Wish>>,
    },
}

/// An instrument.
#[derive(Debug)]
pub struct InstrumentPlan {
    /// Its name.
    pub name: String,
    /// What it is.
    pub description: String,
    /// As written.
    pub accuracy: Option<String>,
    /// As written.
    pub repeats: Option<String>,
    /// Its accuracy, common to all its readings.
    pub common: Option<Spread>,
    /// How well each of its readings repeats.
    pub own: Option<Spread>,
    /// Serial number.
    pub serial: Option<String>,
    /// Calibrated on.
    pub calibrated: Option<(Moment, Option<Moment>)>,
}

/// A definition, for one set of argument kinds.
#[derive(Debug)]
pub struct Routine {
    /// Its name.
    pub name: String,
    /// Its parameters, the first locals: whether each takes one value, so that a column is taken value by value.
    pub single: Vec<bool>,
    /// Parameters not given in this call, with what they are then.
    pub defaults: Vec<(usize, Node)>,
    /// Its cells in order; each becomes the next local.
    pub cells: Vec<Node>,
    /// Its result.
    pub result: Node,
}

/// A stage.
#[derive(Debug)]
pub struct StagePlan {
    /// Its title.
    pub name: String,
    /// Stages of this sheet that come before.
    pub after: Vec<usize>,
    /// Filled sheets that come before.
    pub after_fills: Vec<usize>,
}

/// A note.
#[derive(Debug)]
pub struct NotePlan {
    /// The stage it stands in.
    pub stage: Option<usize>,
    /// What it says.
    pub template: Template,
}

/// A text with fillings.
#[derive(Debug, Clone)]
pub struct Template {
    /// Its parts.
    pub parts: Vec<TemplatePart>,
}

/// A part of a text.
#[derive(Debug, Clone)]
pub enum TemplatePart {
    /// Plain words.
    Plain(String),
    /// A value with how it is shown.
    Filled(Node, Typing),
}

/// A chart.
#[derive(Debug)]
pub struct ChartPlan {
    /// Its title.
    pub title: String,
    /// The stage it stands in.
    pub stage: Option<usize>,
    /// `line` or `bars`.
    pub style: &'static str,
    /// The table its columns come from.
    pub table: usize,
    /// Across, then up: name, values, how they are shown.
    pub columns: Vec<(String, Node, Typing)>,
}
