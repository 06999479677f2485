//! What a function offers to draw of one of its calls: the points and what they are, without a word of how they look.

/// A chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Its title.
    pub title: String,
    /// What it shows, in a sentence or two, for those who cannot see it.
    pub says: String,
    /// Across.
    pub across: Axis,
    /// Up.
    pub up: Axis,
    /// What is drawn, the first lowest.
    pub series: Vec<Series>,
    /// Limits of what goes up.
    pub limits: Vec<Limit>,
}

/// An axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// What is counted along it.
    pub name: String,
    /// Its unit; of a declaration `kPa or psi`, for SI and for inch–pound. Empty for numbers.
    pub unit: String,
    /// Its scale is logarithmic.
    pub logarithmic: bool,
}

/// Points that belong together.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// What they are.
    pub name: String,
    /// How they are marked.
    pub mark: Mark,
    /// Across and up; SI with points absolute where a function gives them.
    pub points: Vec<(f64, f64)>,
}

/// How points are marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// Each by itself: what was read.
    Points,
    /// By a line: what was computed.
    Line,
    /// By a dashed line: what would be expected.
    Dashed,
    /// By a line with a mark at each point.
    LineAndPoints,
}

/// A limit, drawn across the whole chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Its words.
    pub name: String,
    /// Where it stands.
    pub at: f64,
}

impl Axis {
    /// An axis of even steps.
    pub fn of(name: &str, unit: &str) -> Axis {
        Axis { name: name.to_string(), unit: unit.to_string(), logarithmic: false }
    }

    /// The same with a logarithmic scale.
    pub fn logarithmic(self) -> Axis {
        Axis { logarithmic: true, ..self }
    }
}

impl Series {
    /// Points of one kind.
    pub fn of(name: &str, mark: Mark, points: Vec<(f64, f64)>) -> Series {
        Series { name: name.to_string(), mark, points }
    }
}
