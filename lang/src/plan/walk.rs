//! Walks over formulas: what they need, and whether they go row by row.

use super::job::{ColumnSource, Plan, SlotSource, TemplatePart};
use super::node::{Given, Node, Op};

impl Given {
    /// Calls a function for each formula that stands for the parameter.
    pub fn parts(&self, visit: &mut dyn FnMut(&Node)) {
        match self {
            Given::Absent | Given::Atmosphere => {}
            Given::Value(node) | Given::Column(node) => visit(node),
            Given::Range(low, high) => {
                visit(low);
                visit(high);
            }
        }
    }
}

impl Node {
    /// Calls a function for this node and each below it.
    pub fn walk(&self, visit: &mut dyn FnMut(&Node)) {
        visit(self);
        self.parts(&mut |part| part.walk(visit));
    }

    /// Calls a function for each node directly below this one.
    pub fn parts(&self, visit: &mut dyn FnMut(&Node)) {
        match &self.op {
            Op::Number(_)
            | Op::Text(_)
            | Op::Flag(_)
            | Op::Moment(_)
            | Op::NotTaken
            | Op::Slot(_)
            | Op::Row(_)
            | Op::Column { .. }
            | Op::Local(_)
            | Op::Filled { .. } => {}
            Op::Field(one, _)
            | Op::ToAbsolute(one)
            | Op::ToGauge(one)
            | Op::AboveZero(one)
            | Op::Negate(one)
            | Op::Power(one, ..)
            | Op::Not(one)
            | Op::ThisRow(one)
            | Op::Taken(one)
            | Op::Elapsed(one)
            | Op::Previous(one) => visit(one),
            Op::Add(a, b)
            | Op::Subtract(a, b)
            | Op::Multiply(a, b)
            | Op::Divide(a, b)
            | Op::PowerOf(a, b)
            | Op::Shift(a, b)
            | Op::Between(a, b)
            | Op::Compare(_, a, b)
            | Op::SameText(a, b)
            | Op::SameFlag(a, b)
            | Op::CompareTimes(_, a, b)
            | Op::And(a, b)
            | Op::Or(a, b)
            | Op::Slope(_, a, b) => {
                visit(a);
                visit(b);
            }
            Op::Within(a, b, c) | Op::Near(a, b, c) | Op::If(a, b, c) | Op::Interpolate(a, _, b, c) => {
                visit(a);
                visit(b);
                visit(c);
            }
            Op::Math(_, parts) | Op::FoldValues(_, parts) | Op::Routine(_, parts) => parts.iter().for_each(visit),
            Op::Look(look) => {
                visit(&look.key);
                visit(&look.column);
            }
            Op::Call(call) => {
                for given in &call.arguments {
                    given.parts(visit);
                }
            }
            Op::Fold(fold) => {
                visit(&fold.over);
                fold.weight.iter().for_each(&mut *visit);
                fold.filter.iter().for_each(visit);
            }
            Op::Solve(solve) => {
                visit(&solve.from);
                visit(&solve.to);
                visit(&solve.difference);
            }
            Op::Filling(template) => {
                for part in &template.parts {
                    if let TemplatePart::Filled(node, _) = part {
                        visit(node);
                    }
                }
            }
        }
    }

    /// Whether a row's value needs nothing but that row, so that rows can be worked out in any portions.
    pub fn is_row_by_row(&self) -> bool {
        let mut rows = true;
        self.walk(&mut |node| {
            rows &= !matches!(
                node.op,
                Op::Call(ref call) if call.table.is_some()
            ) && !matches!(
                node.op,
                Op::Fold(_) | Op::ThisRow(_) | Op::Slope(..) | Op::Interpolate(..) | Op::Look(_) | Op::Routine(..)
            );
        });
        rows
    }
}

impl Plan {
    /// Every formula of this plan.
    pub fn formulas(&self) -> impl Iterator<Item = &Node> {
        let slots = self.slots.iter().flat_map(|slot| match &slot.source {
            SlotSource::Formula(node) => vec![node],
            SlotSource::Given(given) => {
                let ends = given.within.iter().flat_map(|(low, high)| [low, high]);
                given.values.iter().chain(ends).collect()
            }
        });
        let columns = self.tables.iter().flat_map(|table| &table.columns).filter_map(|column| match &column.source {
            ColumnSource::Formula(node) => Some(node),
            ColumnSource::Rows { .. } => None,
        });
        let checks = self.checks.iter().flat_map(|check| std::iter::once(&check.condition).chain(&check.asked));
        let routines = self.routines.iter().flat_map(|routine| routine.cells.iter().chain([&routine.result]));
        slots.chain(columns).chain(checks).chain(routines)
    }

    /// Whether a value changes between gauge and absolute anywhere, when computed or when shown.
    pub fn needs_atmosphere(&self) -> bool {
        let mut needs = false;
        for formula in self.formulas() {
            formula.walk(&mut |node| needs |= matches!(node.op, Op::ToAbsolute(_) | Op::ToGauge(_)));
        }
        needs
    }
}
