//! Compiled formulas: what an expression does, kinds settled and names resolved.

use std::sync::Arc;

use super::job::Template;
use crate::library::Function;
use crate::moment::Moment;
use crate::source::Span;

/// An operation with the place it was written at.
#[derive(Debug, Clone)]
pub struct Node {
    /// Where a failure of it is shown.
    pub span: Span,
    /// What it does.
    pub op: Op,
}

/// What a node does. Every numeric value is SI; pressure points are absolute unless said otherwise.
#[derive(Debug, Clone)]
pub enum Op {
    /// A number.
    Number(f64),
    /// A text, a refrigerant or a gas.
    Text(Arc<str>),
    /// True or false.
    Flag(bool),
    /// A date or time.
    Moment(Moment),
    /// `?`, and what follows from an error in a filled sheet: never known.
    NotTaken,

    /// The value of a slot of this plan.
    Slot(usize),
    /// This row's value in a column of the table whose formula this is.
    Row(usize),
    /// A whole column.
    Column {
        /// The table.
        table: usize,
        /// The column in it.
        column: usize,
    },
    /// A parameter, a cell of a definition, or the unknown of a `solve`.
    Local(usize),
    /// A value of a filled sheet; a column if it is filled for each row.
    Filled {
        /// The filling.
        fill: usize,
        /// The slot in its plan.
        slot: usize,
    },
    /// A field of a record.
    Field(Box<Node>, usize),
    /// One row of a column, by key.
    Look(Box<Look>),

    /// From above the atmosphere to absolute.
    ToAbsolute(Box<Node>),
    /// From absolute to above the atmosphere.
    ToGauge(Box<Node>),
    /// An error unless above zero: the named thing cannot be at or below absolute zero.
    AboveZero(Box<Node>),

    /// `a + b`
    Add(Box<Node>, Box<Node>),
    /// `a - b`
    Subtract(Box<Node>, Box<Node>),
    /// `a * b`
    Multiply(Box<Node>, Box<Node>),
    /// `a / b`
    Divide(Box<Node>, Box<Node>),
    /// `-a`
    Negate(Box<Node>),
    /// `a ^ (numerator/denominator)`: the exponent is written, so that roots of negative numbers are known by it.
    Power(Box<Node>, i32, i32),
    /// `a ^ b` of plain numbers.
    PowerOf(Box<Node>, Box<Node>),
    /// A general function, value by value.
    Math(Math, Vec<Node>),

    /// A time moved by a duration (seconds).
    Shift(Box<Node>, Box<Node>),
    /// Seconds between two times.
    Between(Box<Node>, Box<Node>),

    /// Numbers compared, within 1e-9 of the larger.
    Compare(Order, Box<Node>, Box<Node>),
    /// Texts, refrigerants or gases compared.
    SameText(Box<Node>, Box<Node>),
    /// Flags compared.
    SameFlag(Box<Node>, Box<Node>),
    /// Times compared.
    CompareTimes(Order, Box<Node>, Box<Node>),
    /// `low <= a <= high`; ends the wrong way round are an error.
    Within(Box<Node>, Box<Node>, Box<Node>),
    /// `|a - b| <= tolerance`; a negative tolerance is an error.
    Near(Box<Node>, Box<Node>, Box<Node>),
    /// `not a`
    Not(Box<Node>),
    /// `a and b`
    And(Box<Node>, Box<Node>),
    /// `a or b`
    Or(Box<Node>, Box<Node>),
    /// `if a then b else c`
    If(Box<Node>, Box<Node>, Box<Node>),

    /// A function of the library.
    Call(Box<Call>),
    /// A definition.
    Routine(usize, Vec<Node>),
    /// One value from a column.
    Fold(Box<Fold>),
    /// One value from several.
    FoldValues(FoldKind, Vec<Node>),
    /// This row of a column that was worked out as a whole.
    ThisRow(Box<Node>),
    /// Rows that are not taken are left out.
    Taken(Box<Node>),
    /// Seconds since the first row, of a column of times.
    Elapsed(Box<Node>),
    /// The row before, of a column; the first row has none.
    Previous(Box<Node>),
    /// Least-squares slope of the second column over the first, of a table's rows.
    Slope(usize, Box<Node>, Box<Node>),
    /// Linear interpolation: value, table, column across, column up.
    Interpolate(Box<Node>, usize, Box<Node>, Box<Node>),
    /// The root of a difference.
    Solve(Box<Solve>),
    /// A text with fillings.
    Filling(Box<Template>),
}

/// A comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    /// `==`
    Equal,
    /// `!=`
    NotEqual,
    /// `<`
    Less,
    /// `<=`
    AtMost,
    /// `>`
    More,
    /// `>=`
    AtLeast,
}

/// A general function, value by value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Math {
    Abs,
    Sign,
    Sqrt,
    Cbrt,
    Exp,
    Ln,
    Log10,
    Sin,
    Cos,
    Tan,
    Round,
    RoundUp,
    RoundDown,
}

/// A call of a library function.
#[derive(Debug, Clone)]
pub struct Call {
    /// The declaration.
    pub function: Arc<Function>,
    /// One a parameter.
    pub arguments: Vec<Given>,
    /// Of a parameter that takes one of several kinds: which.
    pub chosen: Vec<u8>,
    /// Stated ranges in SI, by parameter.
    pub ranges: Vec<Option<(f64, f64)>>,
    /// The table that column arguments come from.
    pub table: Option<usize>,
    /// The result is a column of that table.
    pub gives_column: bool,
}

/// What stands for one parameter of a call.
#[derive(Debug, Clone)]
pub enum Given {
    /// Nothing.
    Absent,
    /// A value.
    Value(Node),
    /// The site's atmosphere.
    Atmosphere,
    /// Two ends.
    Range(Node, Node),
    /// A column.
    Column(Node),
}

/// A fold of a column to one value.
#[derive(Debug, Clone)]
pub struct Fold {
    /// Which.
    pub kind: FoldKind,
    /// Over which table's rows.
    pub table: usize,
    /// What is folded, row by row; `count` of a table folds its rows.
    pub over: Node,
    /// Weights of a weighted mean.
    pub weight: Option<Node>,
    /// Which rows.
    pub filter: Option<Node>,
    /// It uses values of the row or definition around it, and must be done anew for each.
    pub correlated: bool,
    /// What is folded are numbers (not flags or texts).
    pub numeric: bool,
}

/// The folds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum FoldKind {
    Sum,
    Mean,
    Median,
    Min,
    Max,
    Spread,
    Count,
    First,
    Last,
    All,
    Any,
    WeightedMean,
}

/// One row of a column by the table's key.
#[derive(Debug, Clone)]
pub struct Look {
    /// The table.
    pub table: usize,
    /// The key's value.
    pub key: Node,
    /// The column's values.
    pub column: Node,
}

/// `solve`
#[derive(Debug, Clone)]
pub struct Solve {
    /// One end.
    pub from: Node,
    /// The other end.
    pub to: Node,
    /// Left side less right side, with the unknown as a local.
    pub difference: Node,
    /// Which local.
    pub local: usize,
    /// How the unknown and the difference are shown in messages.
    pub unknown: super::typing::Typing,
    /// How the difference is shown in messages.
    pub residual: super::typing::Typing,
}
