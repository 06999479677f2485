//! Tables: columns and their kinds, rows of literals, column formulas.

use super::Kind;
use super::checker::Checker;
use super::literal::{number_in, unholdable};
use super::typed::{Scope, Shape, Typed};
use crate::diagnostic::{Diagnostic, kinds as codes, names as name_codes, tables as table_codes};
use crate::limits;
use crate::plan::{ColumnPlan, ColumnSource, Node, Op, TablePlan, Typing};
use crate::syntax::tree::{Column, Expr, ExprKind, Table};

impl Checker<'_, '_> {
    /// A table with its columns; formulas have no kinds yet.
    pub(super) fn new_table(&mut self, table: &Table, name: String, stage: Option<usize>, used: bool) -> usize {
        let mut columns: Vec<ColumnPlan> = Vec::new();
        for column in &table.columns {
            let column = self.new_column(column);
            self.add_column(&mut columns, column);
        }
        let given = columns.len();
        for formula in &table.formulas {
            let column = ColumnPlan {
                name: formula.name.text.clone(),
                span: formula.name.span,
                header: None,
                typing: Typing::of(Kind::Unknown),
                source: ColumnSource::Formula(Node { span: formula.name.span, op: Op::NotTaken }),
                uncertainty: None,
                spread: None,
                by: None,
                formula: self.written(formula.value.span),
                safety: false,
                optional: false,
                compared_with: Vec::new(),
            };
            self.add_column(&mut columns, column);
        }
        if columns.len() > limits::COLUMNS {
            self.report(Diagnostic::error(
                &table_codes::TOO_MANY_COLUMNS,
                format!("a table may have {} columns; `{name}` has more", limits::COLUMNS),
                table.name.span,
                "",
            ));
        }
        if let (Some(from), Some(row)) = (&table.from, table.rows.first()) {
            let message = format!("the rows of `{}` come from a file, and more stand here", table.name.text);
            self.report(
                Diagnostic::error(&table_codes::ROWS_TWICE, message, row.span, "")
                    .with_label(from.span, "its rows come from here")
                    .with_mend("put these rows into the file, or take out `from`"),
            );
        }
        let by_time = columns.first().is_some_and(|first| first.typing.kind.is_time_axis());
        if table.traits.keys_repeat && by_time {
            let message = "a table by time runs forward, so its keys cannot repeat";
            self.report(
                Diagnostic::error(&table_codes::NO_KEY, message, table.name.span, "")
                    .with_mend("take out `keys repeat`; or put another column first if the rows are no log"),
            );
        }
        let path = self.plan.path.clone();
        self.plan.tables.push(TablePlan {
            name,
            span: table.name.span,
            stage,
            from: table.from.as_ref().map(|from| (from.text.clone(), from.span, path)),
            at: table.at.as_ref().map(|at| at.moment),
            at_text: table.at.as_ref().map(|at| self.written(at.span)),
            columns,
            given,
            rows: Vec::new(),
            open: table.from.is_none() && table.rows.is_empty(),
            traits: table.traits,
            used,
        });
        self.plan.tables.len() - 1
    }

    fn add_column(&mut self, columns: &mut Vec<ColumnPlan>, column: ColumnPlan) {
        if let Some(first) = columns.iter().find(|other| other.name == column.name) {
            self.report(
                Diagnostic::error(
                    &name_codes::GIVEN_TWICE,
                    format!("the table has two columns `{}`", column.name),
                    column.span,
                    "again here",
                )
                .with_label(first.span, "first here")
                .with_mend("give one of them another name"),
            );
        }
        columns.push(column);
    }

    fn new_column(&mut self, column: &Column) -> ColumnPlan {
        let typing = match &column.annotation {
            Some(annotation) => self.annotated(annotation),
            None => Typing::of(Kind::Unknown),
        };
        let spread = column.uncertainty.as_ref().and_then(|one| self.uncertainty(one, &typing.kind));
        let by = column.by.as_ref().and_then(|name| {
            let at = self.instrument_named(name)?;
            self.instrument_fits(at, name.span, &typing.kind);
            Some(at)
        });
        ColumnPlan {
            name: column.name.text.clone(),
            span: column.name.span,
            header: column.header.as_ref().map(|header| header.text.clone()),
            typing,
            source: ColumnSource::Rows { measured: column.uncertainty.is_some() || column.by.is_some() },
            uncertainty: column.uncertainty.as_ref().map(|one| self.written(one.span)),
            spread,
            by,
            formula: String::new(),
            safety: false,
            optional: column.optional,
            compared_with: Vec::new(),
        }
    }

    /// The rows written in the sheet.
    pub(super) fn table_rows(&mut self, table: &Table, index: usize) {
        let mut rows = Vec::new();
        for row in &table.rows {
            let mut nodes = Vec::new();
            for (at, expr) in row.values.iter().enumerate() {
                let Some(column) = self.plan.tables[index].columns.get(at) else { break };
                let typing = column.typing.clone();
                nodes.push(self.row_value_of(expr, &typing).unwrap_or(Node { span: expr.span, op: Op::NotTaken }));
            }
            if nodes.len() == self.plan.tables[index].given {
                rows.push((row.span, nodes));
            }
        }
        self.plan.tables[index].rows = rows;
    }

    /// A literal in a column; a bare number takes the column's unit.
    fn row_value_of(&mut self, expr: &Expr, typing: &Typing) -> Option<Node> {
        if matches!(expr.kind, ExprKind::NotTaken | ExprKind::Unreadable) || typing.kind == Kind::Unknown {
            return None;
        }
        if !self.insist_literal(expr, "a table's cell") {
            return None;
        }
        let bare = match &expr.kind {
            ExprKind::Number(number) => Some(*number),
            ExprKind::Negate(inner) => match inner.kind {
                ExprKind::Number(number) => Some(-number),
                _ => None,
            },
            _ => None,
        };
        if let (Some(number), Some(unit)) = (bare, typing.wish.as_ref().and_then(|wish| wish.units.first())) {
            let (si, _) = number_in(unit, number);
            if let Some((code, why)) = unholdable(unit, si) {
                let message = format!("{} {} {why}", crate::units::show::number(number), unit.text);
                let diagnostic = Diagnostic::error(code, message, expr.span, "");
                self.report(diagnostic.with_mend("mend the number; a value not taken yet is `?`"));
                return None;
            }
            return Some(Node { span: expr.span, op: Op::Number(si) });
        }
        let value = self.value(expr, &Scope::default());
        if value.kind == Kind::Unknown {
            return None;
        }
        let value = self.chosen(value, &typing.kind);
        if value.kind == Kind::Unknown {
            return None;
        }
        if let Err(mut refusal) = super::algebra::fits(&value.kind, &typing.kind) {
            refusal.mend = self.words_for(&value, &typing.kind).or(refusal.mend);
            let mut diagnostic = Diagnostic::error(&codes::BAD_ROW_VALUE, refusal.message, expr.span, "");
            diagnostic.mend = refusal.mend;
            self.report(diagnostic);
            return None;
        }
        Some(value.held(typing.datum).node)
    }

    /// A column formula; gives its place in the table.
    pub(super) fn table_formula(&mut self, table: &Table, at: usize, index: usize) -> usize {
        let formula = &table.formulas[at];
        let column = self.plan.tables[index].given + at;
        let scope = Scope { table: Some(index), ..Scope::default() };
        let mut typed = self.expr(&formula.value, &scope);
        if let Shape::Column(_) = typed.shape {
            typed = self.one(typed);
        }
        typed = match &formula.annotation {
            Some(annotation) => {
                let typed = self.single(typed);
                self.annotate(typed, annotation)
            }
            None => self.said(typed),
        };
        self.keep_column(index, column, typed);
        column
    }

    fn keep_column(&mut self, table: usize, column: usize, typed: Typed) {
        if let Some(plan) = self.plan.tables[table].columns.get_mut(column) {
            plan.typing = typed.typing();
            plan.safety = typed.safety;
            plan.source = ColumnSource::Formula(typed.node);
        }
    }
}
