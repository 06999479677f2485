//! The tree of a sheet as written: nothing resolved, every part with its place.

use crate::moment::Moment;
use crate::source::{FileId, Span};
use crate::units::Unit;

mod expression;

pub use self::expression::*;
pub use crate::units::UnitSystem;

/// A name as written (NFC).
#[derive(Debug, Clone, PartialEq)]
pub struct Name {
    /// The name.
    pub text: String,
    /// Its place.
    pub span: Span,
}

/// A text without fillings: titles, labels, stage names, paths, notes beside a value.
#[derive(Debug, Clone, PartialEq)]
pub struct Words {
    /// The text, doubled quotes undone.
    pub text: String,
    /// Its place, with quotes.
    pub span: Span,
}

/// A whole sheet.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// The source it was read from.
    pub file: FileId,
    /// Statements in order; those inside a stage stand inside it.
    pub statements: Vec<Statement>,
}

/// One statement.
#[derive(Debug, Clone)]
pub struct Statement {
    /// From its first to its last token.
    pub span: Span,
    /// What it says.
    pub kind: StatementKind,
}

/// What a statement says.
#[derive(Debug, Clone)]
pub enum StatementKind {
    /// `sheet "title"`
    Title(Words),
    /// `units IP` or `units SI`
    Units(UnitSystem),
    /// `decide guarded`, `decide guarded 95 %`
    DecideGuarded(Option<f64>),
    /// `site altitude = …`
    SiteAltitude(Given),
    /// `site atmosphere = …`
    SiteAtmosphere(Given),
    /// `use "path" as name`
    Use(Use),
    /// `fill "path" as name each table ( … )`
    Fill(Fill),
    /// `instrument name "description"` with its lines
    Instrument(Instrument),
    /// `input …`
    Input(Given),
    /// `reading …`
    Reading(Given),
    /// `name : kind = expr "note"`
    Cell(Cell),
    /// `define name(…) …`
    Define(Define),
    /// `table …`
    Table(Table),
    /// `require …`, `advise …`
    Check(Check),
    /// `confirm …`
    Confirm(Confirm),
    /// `waive …`
    Waive(Waive),
    /// `stage …`
    Stage(Stage),
    /// `note "text {expr}"`
    Note(TextLiteral),
    /// `chart …`
    Chart(Chart),
    /// What could not be read; its message has been given.
    Unreadable,
}

/// What an annotation after `:` says.
#[derive(Debug, Clone, PartialEq)]
pub struct Annotation {
    /// Its place.
    pub span: Span,
    /// The kind.
    pub kind: AnnotationKind,
}

/// The kinds that can be written after `:` or in a table's unit line.
#[derive(Debug, Clone, PartialEq)]
pub enum AnnotationKind {
    /// A unit: kind and shown unit at once. `: lb oz` gives several, largest first.
    Units(Vec<Unit>),
    /// `number`
    Number,
    /// `text`
    Text,
    /// `flag`
    Flag,
    /// `time`
    Time,
    /// `refrigerant`
    Refrigerant,
    /// `gas`
    Gas,
    /// `one of "a", "b"`
    OneOf(Vec<Words>),
}

/// An input, a reading, or the site: what is given from outside.
#[derive(Debug, Clone)]
pub struct Given {
    /// Its name (for the site: `altitude` or `atmosphere`).
    pub name: Name,
    /// Its kind, if written.
    pub annotation: Option<Annotation>,
    /// Its value; several literals of a reading are repeats. Empty: not given. A lone [`ExprKind::NotTaken`] is `?`.
    pub values: Vec<Expr>,
    /// What stands after it.
    pub tail: Tail,
}

/// What may stand after a value, each at most once.
#[derive(Debug, Clone, Default)]
pub struct Tail {
    /// `± …`
    pub uncertainty: Option<Uncertainty>,
    /// `by instrument`
    pub by: Option<Name>,
    /// `at time`
    pub at: Option<MomentLiteral>,
    /// `within a .. b`
    pub within: Option<(Expr, Expr)>,
    /// `optional`
    pub optional: Option<Span>,
    /// `"note"`
    pub note: Option<Words>,
}

/// `± …` with its terms.
#[derive(Debug, Clone)]
pub struct Uncertainty {
    /// Its place.
    pub span: Span,
    /// Terms joined by `+`.
    pub terms: Vec<UncertaintyTerm>,
    /// What the half-width is.
    pub style: UncertaintyStyle,
    /// `freedom 18`: degrees of freedom of the standard uncertainty, and their place.
    pub freedom: Option<(f64, Span)>,
}

/// One term of an uncertainty.
#[derive(Debug, Clone)]
pub enum UncertaintyTerm {
    /// An amount: a literal.
    Amount(Expr),
    /// `p % of reading`; the share as a plain number (0.005 for 0.5 %).
    OfReading(f64, Span),
    /// `p % of QUANTITY`.
    Of(f64, Expr),
}

/// How an uncertainty is stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum UncertaintyStyle {
    /// Limits of error: rectangular.
    Limits,
    /// `coverage k`: expanded.
    Coverage(f64),
    /// `standard`
    Standard,
}

/// A date or time as written.
#[derive(Debug, Clone, PartialEq)]
pub struct MomentLiteral {
    /// Its value.
    pub moment: Moment,
    /// Its place.
    pub span: Span,
}

/// `use "path" as name`
#[derive(Debug, Clone)]
pub struct Use {
    /// The path.
    pub path: Words,
    /// The name under which its definitions are known; without one they join the sheet's own.
    pub alias: Option<Name>,
}

/// `fill …`
#[derive(Debug, Clone)]
pub struct Fill {
    /// The form's path.
    pub path: Words,
    /// The name of this filling.
    pub name: Name,
    /// The table whose rows each fill one.
    pub each: Option<Name>,
    /// `input = expr`
    pub bindings: Vec<(Name, Expr)>,
}

/// `instrument …`
#[derive(Debug, Clone)]
pub struct Instrument {
    /// Its name.
    pub name: Name,
    /// What it is.
    pub description: Option<Words>,
    /// Common to all its readings.
    pub accuracy: Option<Uncertainty>,
    /// Each reading's own.
    pub repeats: Option<Uncertainty>,
    /// Serial number.
    pub serial: Option<Words>,
    /// When it was calibrated, and until when that holds.
    pub calibrated: Option<(MomentLiteral, Option<MomentLiteral>)>,
}

/// `name : kind = expr "note"`
#[derive(Debug, Clone)]
pub struct Cell {
    /// Its name.
    pub name: Name,
    /// Its kind, if written.
    pub annotation: Option<Annotation>,
    /// Its formula.
    pub value: Expr,
    /// A note.
    pub note: Option<Words>,
}

/// `define name(parameters) …`
#[derive(Debug, Clone)]
pub struct Define {
    /// Its name.
    pub name: Name,
    /// Its parameters.
    pub parameters: Vec<Parameter>,
    /// The kind of its result, if written.
    pub annotation: Option<Annotation>,
    /// Its formula.
    pub body: DefineBody,
}

/// A parameter of a definition.
#[derive(Debug, Clone)]
pub struct Parameter {
    /// Its name.
    pub name: Name,
    /// Its kind, if written; without one it is settled anew at each call.
    pub annotation: Option<Annotation>,
    /// What it is if not given.
    pub default: Option<Expr>,
}

/// One formula, or a block of cells of which `result` is the value.
#[derive(Debug, Clone)]
pub enum DefineBody {
    /// `= expr`
    Formula(Expr),
    /// Cells up to `end`.
    Block(Vec<Cell>),
}

/// `table …`
#[derive(Debug, Clone)]
pub struct Table {
    /// Its name.
    pub name: Name,
    /// The file its rows come from.
    pub from: Option<Words>,
    /// When it was read.
    pub at: Option<MomentLiteral>,
    /// What its first line says of it.
    pub traits: TableTraits,
    /// Columns with kinds, from its two lines.
    pub columns: Vec<Column>,
    /// Rows written in the sheet.
    pub rows: Vec<Row>,
    /// Column formulas.
    pub formulas: Vec<Cell>,
    /// Checks over rows.
    pub checks: Vec<Check>,
}

/// What the first line of a table says of its rows.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct TableTraits {
    /// `optional`: it may stay away where nothing needs it.
    pub optional: bool,
    /// `may be empty`: that it has no rows is an answer.
    pub may_be_empty: bool,
    /// `keys repeat`: several rows may have one key, and none is looked up by it.
    pub keys_repeat: bool,
}

/// A given column.
#[derive(Debug, Clone)]
pub struct Column {
    /// Its name.
    pub name: Name,
    /// The header in the file, if another: `pressure = "CH 1 [micron]"`.
    pub header: Option<Words>,
    /// Its kind; `None` if the unit line is short here (its message has been given).
    pub annotation: Option<Annotation>,
    /// `± u`: the column is measured.
    pub uncertainty: Option<Uncertainty>,
    /// `by instrument`: the column is measured.
    pub by: Option<Name>,
    /// `optional`: what fills the table may be without it.
    pub optional: bool,
}

/// A row of literals; [`ExprKind::NotTaken`] is `?`. Always as many as there are columns (else its message has been given and the row is left out).
#[derive(Debug, Clone)]
pub struct Row {
    /// Its place.
    pub span: Span,
    /// Its values. A bare number in a column with a unit takes the column's unit.
    pub values: Vec<Expr>,
}

/// `require …`, `advise …`
#[derive(Debug, Clone)]
pub struct Check {
    /// Its place.
    pub span: Span,
    /// `require` fails the job, `advise` only advises.
    pub level: Level,
    /// `each`: judged row by row.
    pub each: bool,
    /// Its label; without one the condition's own text serves.
    pub label: Option<Words>,
    /// What must hold.
    pub condition: Expr,
    /// Which rows are asked about.
    pub asked: Option<Expr>,
}

/// The weight of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Level {
    /// Fails the job.
    Require,
    /// Only advises.
    Advise,
}

/// `confirm …`
#[derive(Debug, Clone)]
pub struct Confirm {
    /// What is confirmed.
    pub label: Words,
    /// `yes` or `no`; nothing: pending.
    pub answer: Option<bool>,
    /// When.
    pub at: Option<MomentLiteral>,
    /// By whom.
    pub by: Option<Words>,
}

/// `waive …`
#[derive(Debug, Clone)]
pub struct Waive {
    /// The label of the check.
    pub label: Words,
    /// Of a check of each row: which of them.
    pub rows: Option<WaivedRows>,
    /// Why.
    pub reason: Words,
    /// By whom.
    pub by: Words,
    /// When.
    pub at: MomentLiteral,
}

/// The rows that a waiver is for.
#[derive(Debug, Clone, PartialEq)]
pub enum WaivedRows {
    /// `for "key"`
    One(Words),
    /// `for all rows`
    All,
}

/// `stage …`
#[derive(Debug, Clone)]
pub struct Stage {
    /// Its name.
    pub name: Words,
    /// Stages that must have passed: a stage by its title, or a filled sheet by its name.
    pub after: Vec<After>,
    /// What is in it; stages do not stand inside stages.
    pub statements: Vec<Statement>,
}

/// What a stage comes after.
#[derive(Debug, Clone)]
pub enum After {
    /// `after "title"`
    Stage(Words),
    /// `after name`: all of a filled sheet.
    Fill(Name),
}

/// `chart …`
#[derive(Debug, Clone)]
pub struct Chart {
    /// `line` or `bars`.
    pub style: ChartStyle,
    /// Its title.
    pub title: Words,
    /// Columns: across, then up.
    pub columns: Vec<Expr>,
}

/// How a chart is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChartStyle {
    /// A line through the points.
    Line,
    /// A bar a row.
    Bars,
}
