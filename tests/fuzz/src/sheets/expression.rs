//! Expressions of a wanted kind.

use dewline_lang::library::Basic;
use dewline_lang::units::Stance;

use super::Author;
use super::kind::{Kind, alike, difference, first, others, point, stance};

/// How deep formulas go.
pub const DEPTH: usize = 4;

const NUMBERS: &[&str] = &[
    "0", "1", "2", "3", "10", "100", "0.5", "1e-9", "1e9", "12.5", "7", "40", "118", "250", "1_280", "3e-300", "2e300",
    "-1", "-40", "1/3", "0.1",
];
const REFRIGERANTS: &[&str] = &["R-32", "R-410A", "R-454B", "R-22", "R-744", "R-290", "R-1234yf", "R-9999"];
const TIMES: &[&str] = &["2026-03-14", "2026-03-14T07:40", "2026-03-14T07:40Z", "2024-02-29T23:59", "0001-01-01"];
const TEXTS: &[&str] =
    &["\"\"", "\"cooling\"", "\"a \"\"b\"\"\"", "\"<b>&\"", "\"=1+1\"", "\"\u{202e}x\"", "\"annealed\""];
const GASES: &[&str] = &["nitrogen", "helium", "air", "oxygen", "carbon_dioxide"];

impl Author<'_> {
    /// A number as typed.
    pub fn number(&mut self) -> String {
        match self.upto(3) {
            0 => self.choose(NUMBERS).to_string(),
            1 => (self.upto(2_000) as f64 / 8.0).to_string(),
            2 => self.upto(400).to_string(),
            _ => {
                let any: f64 = self.bytes.arbitrary().unwrap_or(1.0);
                if any.is_finite() && any != 0.0 { format!("{any:e}") } else { "1".to_string() }
            }
        }
    }

    /// A literal.
    pub fn literal(&mut self, kind: Kind) -> String {
        match kind {
            Basic::Number => self.number(),
            Basic::Unit(unit) => format!("{} {}", self.number(), first(unit)),
            Basic::Text => self.choose(TEXTS).to_string(),
            Basic::OneOf(words) => format!("\"{}\"", self.choose(words)),
            Basic::Flag => self.choose(&["true", "false"]).to_string(),
            Basic::Time => self.choose(TIMES).to_string(),
            Basic::Refrigerant => self.choose(REFRIGERANTS).to_string(),
            Basic::Gas => self.choose(GASES).to_string(),
        }
    }

    /// An expression.
    pub fn expression(&mut self, kind: Kind, depth: usize) -> String {
        if depth == 0 || self.bytes.is_empty() {
            return self.leaf(kind);
        }
        match self.upto(8) {
            0 | 1 => self.leaf(kind),
            2 => {
                let (flag, yes, no) = (self.flag(depth - 1), self.deeper(kind, depth), self.deeper(kind, depth));
                format!("(if {flag} then {yes} else {no})")
            }
            3 => self.call_giving(kind, depth - 1).unwrap_or_else(|| self.leaf(kind)),
            4 => self.fold(kind, depth - 1).unwrap_or_else(|| self.leaf(kind)),
            5 => self.defined(kind, depth - 1).unwrap_or_else(|| self.leaf(kind)),
            6 => self.shown(kind, depth - 1),
            _ => self.arithmetic(kind, depth),
        }
    }

    fn deeper(&mut self, kind: Kind, depth: usize) -> String {
        self.expression(kind, depth - 1)
    }

    fn leaf(&mut self, kind: Kind) -> String {
        let mut names: Vec<String> = Vec::new();
        if let Some(table) = self.row {
            let columns = self.tables[table].columns.iter();
            names.extend(columns.filter(|(_, one)| alike(*one, kind)).map(|(name, _)| name.clone()));
        }
        names.extend(self.values.iter().filter(|(_, one)| alike(*one, kind)).map(|(name, _)| name.clone()));
        if names.is_empty() || self.once_in(3) {
            return self.literal(kind);
        }
        let at = self.upto(names.len() - 1);
        names.swap_remove(at)
    }

    fn arithmetic(&mut self, kind: Kind, depth: usize) -> String {
        match kind {
            Basic::Number => self.pure(depth),
            Basic::Flag => self.flag(depth),
            Basic::Text => format!("\"{{{}}} x\"", self.deeper(Basic::Number, 1)),
            Basic::Time => {
                format!("({} + {})", self.deeper(Basic::Time, depth), self.deeper(Basic::Unit("min"), depth))
            }
            Basic::OneOf(_) | Basic::Refrigerant | Basic::Gas => self.leaf(kind),
            Basic::Unit(_) => self.quantity(kind, depth),
        }
    }

    fn pure(&mut self, depth: usize) -> String {
        let one = self.deeper(Basic::Number, depth);
        let function = self.choose(&["sqrt", "abs", "exp", "ln", "log10", "sin", "cos", "tan", "cbrt", "sign"]);
        match self.upto(6) {
            0 => format!("{function}({one})"),
            1 => format!("({one})^{}", self.choose(&["2", "3", "(-1)", "(1/2)", "0.3", "40"])),
            2 => {
                let unit = self.choose(&["ft", "lb", "min", "F°", "psi", "K", "kW"]);
                let (over, under) = (self.deeper(Basic::Unit(unit), depth), self.deeper(Basic::Unit(unit), depth));
                format!("({over}) / ({under})")
            }
            3 => {
                let (low, high) = (self.number(), self.number());
                format!("solve(x within {low} .. {high} where x * x + {one} == {})", self.number())
            }
            _ => {
                let sign = self.choose(&["+", "-", "*", "/"]);
                format!("({one} {sign} {})", self.deeper(Basic::Number, depth))
            }
        }
    }

    fn quantity(&mut self, kind: Kind, depth: usize) -> String {
        let chosen = self.choose(&["max", "min", "median"]);
        match (stance(kind), self.upto(3)) {
            (_, 0) => format!("{chosen}({}, {})", self.deeper(kind, depth), self.deeper(kind, depth)),
            // A size from zero stands where a point does, but for sums of two.
            (Some(Stance::Point), 1) if depth == 1 => format!("absolute({})", self.deeper(kind, depth)),
            (Some(Stance::Point), _) => match difference(kind) {
                Some(difference) => {
                    let sign = self.choose(&["+", "-"]);
                    format!("({} {sign} {})", self.deeper(kind, depth), self.deeper(difference, depth))
                }
                None => self.leaf(kind),
            },
            (Some(Stance::Difference), 1) => match point(kind) {
                Some(point) => format!("({} - {})", self.deeper(point, depth), self.deeper(point, depth)),
                None => self.leaf(kind),
            },
            (_, 2) => {
                let sign = self.choose(&["*", "/"]);
                format!("({} {sign} {})", self.deeper(kind, depth), self.deeper(Basic::Number, depth))
            }
            _ => {
                let sign = self.choose(&["+", "-"]);
                format!("({} {sign} {})", self.deeper(kind, depth), self.deeper(kind, depth))
            }
        }
    }

    /// A condition.
    pub fn flag(&mut self, depth: usize) -> String {
        let kind = self.choose(&[
            Basic::Number,
            Basic::Unit("degF"),
            Basic::Unit("psi"),
            Basic::Unit("lb"),
            Basic::Unit("K absolute"),
        ]);
        let below = depth.saturating_sub(1);
        match self.upto(5) {
            0 if depth > 0 => format!("({} and {})", self.flag(below), self.flag(below)),
            1 if depth > 0 => format!("not ({} or {})", self.flag(below), self.flag(below)),
            2 => {
                let (value, low, high) = (self.expression(kind, below), self.leaf(kind), self.leaf(kind));
                format!("({value} within {low} .. {high})")
            }
            3 => self.leaf(Basic::Flag),
            _ => {
                let sign = self.choose(&["<", "<=", ">", ">=", "==", "!="]);
                format!("({} {sign} {})", self.expression(kind, below), self.leaf(kind))
            }
        }
    }

    fn fold(&mut self, kind: Kind, depth: usize) -> Option<String> {
        let all = self.tables.iter().enumerate().filter(|(at, _)| self.row != Some(*at));
        let columns: Vec<String> = all
            .flat_map(|(_, table)| {
                let same = table.columns.iter().filter(|(_, one)| alike(*one, kind));
                same.map(move |(column, _)| format!("{}.{column}", table.name))
            })
            .collect();
        if columns.is_empty() {
            return None;
        }
        let at = self.upto(columns.len() - 1);
        let column = &columns[at];
        let fold = match kind {
            Basic::Number | Basic::Unit(_) => self.choose(&["mean", "median", "min", "max", "first", "last", "sum"]),
            Basic::Flag => self.choose(&["any", "all", "first", "last"]),
            _ => self.choose(&["first", "last"]),
        };
        Some(match self.upto(2) {
            0 => format!("{fold}(taken({column}))"),
            1 => format!("{fold}({column} where {})", self.flag(depth.min(1))),
            _ => format!("{fold}({column})"),
        })
    }

    fn defined(&mut self, kind: Kind, depth: usize) -> Option<String> {
        let at = self.definitions.iter().position(|one| alike(one.gives, kind))?;
        let (name, kinds) = (self.definitions[at].name.clone(), self.definitions[at].parameters.clone());
        let given: Vec<String> = kinds.into_iter().map(|one| self.expression(one, depth)).collect();
        Some(format!("{name}({})", given.join(", ")))
    }

    fn shown(&mut self, kind: Kind, depth: usize) -> String {
        let units = others(kind);
        if units.is_empty() {
            return self.leaf(kind);
        }
        let unit = self.choose(&units);
        format!("({} as {unit})", self.expression(kind, depth))
    }
}
