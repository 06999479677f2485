//! One formula evaluated: for one value, or for a portion of a table's rows at once.

use std::cell::Cell;
use std::sync::Arc;

use super::arithmetic::{self, divide, math, pairwise, power, power_of};
use super::block::{Block, Data, Mark};
use super::fault::Fault;
use super::site::SEA_LEVEL;
use super::{calls, columns, folds, logic, solve, text};
use crate::diagnostic::running as codes;
use crate::limits;
use crate::plan::{Datum, Node, Op, Plan};
use crate::source::Span;
use crate::units::UnitSystem;

/// What a formula can see: the values of its plan, the rows at hand, local values.
pub struct Sight<'a> {
    /// The plan whose formula it is.
    pub plan: &'a Plan,
    /// Its single values computed so far.
    pub slots: &'a [Block],
    /// Its tables computed so far.
    pub tables: &'a [TableValues],
    /// Values of its filled sheets: by filling, then by slot.
    pub fills: &'a [Vec<Block>],
    /// Default units of the outermost sheet.
    pub system: Option<UnitSystem>,
    /// The site's atmosphere; empty while pending.
    pub atmosphere: &'a Block,
    /// Work done so far in this run.
    pub work: &'a Cell<u64>,
    /// The rows at hand: table, first row, how many.
    pub window: Option<(usize, usize, usize)>,
    /// Parameters, cells of a definition, unknowns.
    pub locals: Vec<Local>,
}

/// A local value.
#[derive(Debug, Clone)]
pub struct Local {
    /// Its value.
    pub block: Block,
    /// It is a whole column, not a value a row at hand.
    pub column: bool,
}

/// The values of a table.
#[derive(Debug, Clone, Default)]
pub struct TableValues {
    /// How many rows; nothing is known of them while the table is pending.
    pub rows: usize,
    /// It has no rows yet.
    pub pending: bool,
    /// Columns in the order of the plan, those computed so far.
    pub columns: Vec<Block>,
}

impl<'a> Sight<'a> {
    /// The same sight on other rows and with other local values.
    pub fn with(&self, window: Option<(usize, usize, usize)>, locals: Vec<Local>) -> Sight<'a> {
        Sight { window, locals, ..*self }
    }

    /// The site's atmosphere in pascal; that at sea level while it is not known.
    pub fn site(&self) -> f64 {
        self.atmosphere.number_at(0).unwrap_or(SEA_LEVEL)
    }

    /// How many rows are at hand; 1 outside a table.
    pub fn length(&self) -> usize {
        self.window.map_or(1, |(_, _, length)| length)
    }

    /// The value of a formula.
    pub fn eval(&self, node: &Node) -> Block {
        let span = node.span;
        match &node.op {
            Op::Number(number) => Block::number(*number),
            Op::Text(text) => Block::text(text.clone()),
            Op::Flag(flag) => Block::flags(vec![*flag]),
            Op::Moment(moment) => Block::moment(*moment),
            Op::NotTaken => Block::pending(1),
            Op::Slot(slot) => self.slots.get(*slot).cloned().unwrap_or_else(|| Block::pending(1)),
            Op::Row(column) => self.row(*column),
            Op::Column { table, column } => self.column(*table, *column),
            Op::Local(local) => self.locals.get(*local).map_or_else(|| Block::pending(1), |local| local.block.clone()),
            Op::Filled { fill, slot } => {
                self.fills.get(*fill).and_then(|values| values.get(*slot)).cloned().unwrap_or_else(|| Block::pending(1))
            }
            Op::Field(record, at) => self.eval(record).field(*at),
            Op::Look(look) => columns::look(self, look, span),

            Op::ToAbsolute(inner) => {
                let value = self.eval(inner);
                let value =
                    pairwise(value, self.atmosphere.clone(), span, |gauge, site| gauge + site, |_, _| (1.0, 1.0));
                above_zero(value, span)
            }
            Op::ToGauge(inner) => {
                pairwise(self.eval(inner), self.atmosphere.clone(), span, |x, site| x - site, |_, _| (1.0, -1.0))
            }
            Op::AboveZero(inner) => above_zero(self.eval(inner), span),

            Op::Add(a, b) => self.pair(a, b, span, |x, y| x + y, |_, _| (1.0, 1.0)),
            Op::Subtract(a, b) => self.pair(a, b, span, |x, y| x - y, |_, _| (1.0, -1.0)),
            Op::Multiply(a, b) => self.pair(a, b, span, |x, y| x * y, |x, y| (y, x)),
            Op::Divide(a, b) => {
                let (a, b) = (self.eval(a), self.eval(b));
                self.spend(a.len().max(b.len()));
                divide(a, b, span)
            }
            Op::Negate(a) => arithmetic::each(self.eval(a), span, |x| -x, |_| -1.0),
            Op::Power(a, numerator, denominator) => power(self.eval(a), *numerator, *denominator, span),
            Op::PowerOf(a, b) => power_of(self.eval(a), self.eval(b), span),
            Op::Math(which, parts) => {
                let parts: Vec<Block> = parts.iter().map(|part| self.eval(part)).collect();
                self.spend(parts.iter().map(Block::len).max().unwrap_or(1));
                math(*which, parts, span)
            }

            Op::Shift(time, duration) => columns::shift(&self.eval(time), &self.eval(duration), span),
            Op::Between(later, earlier) => columns::between(&self.eval(later), &self.eval(earlier), span),

            Op::Compare(order, a, b) => {
                let (a, b) = (self.eval(a), self.eval(b));
                self.spend(a.len().max(b.len()));
                logic::compare(*order, &a, &b)
            }
            Op::SameText(a, b) => logic::same_text(&self.eval(a), &self.eval(b)),
            Op::SameFlag(a, b) => logic::same_flag(&self.eval(a), &self.eval(b)),
            Op::CompareTimes(order, a, b) => logic::compare_times(*order, &self.eval(a), &self.eval(b), span),
            Op::Within(value, low, high) => logic::within(&self.eval(value), &self.eval(low), &self.eval(high), span),
            Op::Near(value, tolerance, of) => {
                logic::near(&self.eval(value), &self.eval(tolerance), &self.eval(of), span)
            }
            Op::Not(a) => logic::not(self.eval(a)),
            Op::And(a, b) => self.decide(a, b, false),
            Op::Or(a, b) => self.decide(a, b, true),
            Op::If(condition, yes, no) => self.choose(condition, yes, no),

            Op::Call(call) => calls::call(self, call, span),
            Op::Routine(routine, arguments) => self.routine(*routine, arguments),
            Op::Fold(fold) => folds::fold(self, fold, span),
            Op::FoldValues(kind, values) => {
                let values: Vec<Block> = values.iter().map(|value| self.eval(value)).collect();
                folds::fold_values(*kind, &values, span)
            }
            Op::ThisRow(inner) => match self.window {
                Some((table, start, length)) => {
                    let rows = self.tables.get(table).map_or(0, |table| table.rows);
                    self.with(None, self.locals.clone()).eval(inner).spread(rows).slice(start, length)
                }
                None => self.eval(inner),
            },
            Op::Taken(inner) => columns::taken(self.eval(inner)),
            Op::Elapsed(inner) => columns::elapsed(&self.eval(inner), span),
            Op::Previous(inner) => columns::previous(self.eval(inner)),
            Op::Slope(table, across, up) => columns::slope(self, *table, across, up, span),
            Op::Interpolate(value, table, across, up) => columns::interpolate(self, value, *table, across, up, span),
            Op::Solve(solve) => self.row_by_row(|row| solve::solve(row, solve, span)),
            Op::Filling(template) => self.row_by_row(|row| text::fill(row, template, span)),
        }
    }

    /// A whole column.
    pub fn column(&self, table: usize, column: usize) -> Block {
        match self.tables.get(table) {
            Some(values) if !values.pending => {
                values.columns.get(column).cloned().unwrap_or_else(|| Block::pending(values.rows))
            }
            _ => Block::pending(0),
        }
    }

    /// The value of each row at hand on its own.
    pub fn row_by_row(&self, one: impl Fn(&Sight<'a>) -> Block) -> Block {
        let length = self.length();
        if length == 1
            && self.window.is_none()
            && self.locals.iter().all(|local| local.column || local.block.len() == 1)
        {
            return one(self);
        }
        let length = self
            .locals
            .iter()
            .filter(|local| !local.column)
            .map(|local| local.block.len())
            .fold(length, |most, length| if most == 1 { length } else { most });
        let rows = (0..length).map(|at| one(&self.at_row(at))).collect();
        Block::gather(rows)
    }

    /// The sight on one of the rows at hand.
    pub fn at_row(&self, at: usize) -> Sight<'a> {
        let window = self.window.map(
            |(table, start, length)| {
                if length == 1 { (table, start, 1) } else { (table, start + at, 1) }
            },
        );
        let locals = self
            .locals
            .iter()
            .map(|local| if local.column { local.clone() } else { Local { block: local.block.row(at), column: false } })
            .collect();
        self.with(window, locals)
    }

    /// Counts work; past the limit everything is broken.
    pub fn spend(&self, operations: usize) {
        let operations = operations.saturating_add(limits::STEP_WORK) as u64;
        self.work.set(self.work.get().saturating_add(operations));
    }

    /// Whether the run has used up its work.
    pub fn is_spent(&self) -> bool {
        self.work.get() > limits::WORK
    }

    fn row(&self, column: usize) -> Block {
        let Some((table, start, length)) = self.window else { return Block::pending(1) };
        match self.tables.get(table).and_then(|table| table.columns.get(column)) {
            Some(block) => {
                let whole = self.tables.get(table).is_some_and(|values| values.rows == length);
                if whole { block.clone().spread(length) } else { block.slice(start, length) }
            }
            None => Block::pending(length),
        }
    }

    fn pair(
        &self,
        a: &Node,
        b: &Node,
        span: Span,
        op: impl Fn(f64, f64) -> f64,
        slopes: impl Fn(f64, f64) -> (f64, f64),
    ) -> Block {
        // Columns whose rows are all known are read where they lie; copying them would cost more than the operation.
        let result = match (self.in_place(a), self.in_place(b)) {
            (Some(x), Some(y)) if x.len() == y.len() => arithmetic::of_slices(x, y, span, op),
            (Some(x), _) => {
                let turned = |y, x| {
                    let (by_x, by_y) = slopes(x, y);
                    (by_y, by_x)
                };
                arithmetic::with_slice(self.eval(b), x, span, |y, x| op(x, y), turned)
            }
            (None, Some(y)) => arithmetic::with_slice(self.eval(a), y, span, op, slopes),
            (None, None) => pairwise(self.eval(a), self.eval(b), span, op, slopes),
        };
        self.spend(result.len());
        if self.is_spent() { spent(span) } else { result }
    }

    /// The numbers of this formula, if it is a column of the rows at hand of which all are known and exact.
    fn in_place(&self, node: &Node) -> Option<&'a [f64]> {
        let Op::Row(column) = node.op else { return None };
        let (table, start, length) = self.window?;
        let block = self.tables.get(table)?.columns.get(column)?;
        match &block.data {
            Data::Numbers(values) if block.states.is_exact() => values.get(start..start + length),
            _ => None,
        }
    }

    /// `and`, `or`: the right side is worked out only if some row needs it.
    fn decide(&self, a: &Node, b: &Node, decisive: bool) -> Block {
        let left = self.eval(a);
        let needed = (0..left.len()).any(|at| left.flag_at(at) != Some(decisive) && left.mark(at) != Mark::Broken);
        if !needed {
            return left;
        }
        logic::combine(&left, &self.eval(b), decisive)
    }

    /// `if`: only the branches that some row needs are worked out.
    fn choose(&self, condition: &Node, yes: &Node, no: &Node) -> Block {
        let condition = self.eval(condition);
        let some = |wanted| (0..condition.len()).any(|at| condition.flag_at(at) == Some(wanted));
        match (some(true), some(false)) {
            (false, false) => Block { data: Data::Nothing(condition.len()), states: condition.states },
            (true, false) if condition.states.all_known() => self.eval(yes),
            (false, true) if condition.states.all_known() => self.eval(no),
            (any_yes, any_no) => {
                let length = condition.len();
                let branch = |needed: bool, node: &Node| {
                    if needed { self.eval(node).spread(length) } else { Block::pending(length) }
                };
                logic::choose(&condition, branch(any_yes, yes), branch(any_no, no))
            }
        }
    }

    fn routine(&self, routine: usize, arguments: &[Node]) -> Block {
        let Some(routine) = self.plan.routines.get(routine) else { return Block::pending(1) };
        self.spend(1);
        if self.is_spent() {
            return spent(routine.result.span);
        }
        let mut locals: Vec<Local> = arguments
            .iter()
            .zip(&routine.single)
            .map(|(argument, single)| Local { block: self.eval(argument), column: !single && self.is_column(argument) })
            .collect();
        for (at, default) in &routine.defaults {
            let block = self.with(self.window, locals.clone()).eval(default);
            if let Some(local) = locals.get_mut(*at) {
                *local = Local { block, column: false };
            }
        }
        let mut inside = self.with(self.window, locals);
        for cell in &routine.cells {
            let block = inside.eval(cell);
            let column = inside.is_column(cell);
            inside.locals.push(Local { block, column });
        }
        inside.eval(&routine.result)
    }

    /// Whether a formula gives a whole column where it stands, not a value for each row at hand.
    fn is_column(&self, node: &Node) -> bool {
        match &node.op {
            Op::Column { .. } | Op::Taken(_) | Op::Elapsed(_) | Op::Previous(_) => true,
            Op::Local(local) => self.locals.get(*local).is_some_and(|local| local.column),
            Op::Filled { fill, .. } => self.plan.fills.get(*fill).is_some_and(|fill| fill.each.is_some()),
            Op::Fold(_) | Op::Slope(..) | Op::ThisRow(_) => false,
            Op::Look(look) => self.is_column(&look.key),
            Op::Interpolate(value, ..) => self.is_column(value),
            Op::Call(call) if call.gives_column => true,
            _ => {
                let mut any = false;
                node.parts(&mut |part| any |= self.is_column(part));
                any
            }
        }
    }
}

/// Breaks what lies at or below absolute zero.
pub fn above_zero(value: Block, span: Span) -> Block {
    arithmetic::break_where(
        value,
        |x| x <= 0.0,
        |_| {
            Fault::new(&codes::BELOW_ZERO, "this comes out at or below absolute zero", span)
                .with_mend("see whether a unit, a sign or the site's atmosphere has slipped")
        },
    )
}

/// What a run that has used up its work gives.
pub fn spent(span: Span) -> Block {
    Block::broken(
        Fault::new(&codes::TOO_MUCH_WORK, "this run takes more steps than a run may", span)
            .with_mend("fewer rows, fewer calls of definitions, or a narrower `solve`"),
    )
}

/// A value held as wanted, from another datum.
pub fn held(value: Block, from: Datum, to: Datum, atmosphere: &Block, span: Span) -> Block {
    match (from, to) {
        (Datum::Absolute, Datum::Gauge) => {
            pairwise(value, atmosphere.clone(), span, |x, site| x - site, |_, _| (1.0, -1.0))
        }
        (Datum::Gauge, Datum::Absolute) => {
            above_zero(pairwise(value, atmosphere.clone(), span, |x, site| x + site, |_, _| (1.0, 1.0)), span)
        }
        _ => value,
    }
}

/// A text block.
pub fn text_block(text: String) -> Block {
    Block::text(Arc::from(text))
}
