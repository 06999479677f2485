//! What names, fields and rows stand for.

use std::sync::Arc;

use super::Kind;
use super::checker::Checker;
use super::typed::{Scope, Shape, Typed};
use crate::diagnostic::{Diagnostic, names as codes, tables};
use crate::names::{Entry, ItemKind, dotted, is_literal};
use crate::plan::{Look, Op, Typing};
use crate::source::Span;
use crate::suggest::did_you_mean;
use crate::syntax::tree::{Expr, ExprKind, Name};
use crate::units::Meaning;

/// Values that every sheet knows by name.
const CONSTANTS: &[(&str, f64)] = &[("pi", std::f64::consts::PI)];

/// Whether every sheet knows a value of this name.
pub(super) fn is_constant(name: &str) -> bool {
    CONSTANTS.iter().any(|(constant, _)| *constant == name)
}

impl Checker<'_, '_> {
    /// A name by itself.
    pub(super) fn name(&mut self, name: &str, span: Span, scope: &Scope) -> Typed {
        if let Some(local) = scope.locals.iter().rposition(|local| local.name == name) {
            let known = &scope.locals[local];
            return Typed {
                shape: known.shape,
                wish: known.wish.clone(),
                factors: known.factors,
                safety: known.safety,
                local: true,
                ..Typed::new(span, Op::Local(local), known.kind.clone())
            };
        }
        if let Some(table) = scope.table
            && let Some(column) = self.column_named(table, name)
        {
            return if scope.whole_columns {
                self.column(table, column, span)
            } else {
                Typed { shape: Shape::One, local: true, ..self.row_value(table, column, span) }
            };
        }
        if let Some(alias) = &scope.define {
            return self.name_in_define(name, alias.as_deref(), span, scope);
        }
        match self.directory.names.get(name).copied() {
            Some(Entry::Value(item)) => match self.slots.get(&item) {
                Some(&slot) => self.slot(slot, span),
                // Its own error, or the circle it is in, has been reported.
                None => Typed::unknown(span),
            },
            Some(Entry::Table(_) | Entry::UsedTable(_)) => self.no_value(
                span,
                format!("`{name}` is a table, and one value is wanted"),
                format!("name a column of it, such as `{name}.column`, inside `mean(…)`, `max(…)` and their like"),
            ),
            Some(Entry::Fill(_)) => self.no_value(
                span,
                format!("`{name}` is a filled sheet, and one value is wanted"),
                format!("name a value of it: `{name}.cell`"),
            ),
            Some(Entry::Alias(_)) => self.no_value(
                span,
                format!("`{name}` is a used sheet, and one value is wanted"),
                format!("name a table or definition of it: `{name}.…`"),
            ),
            Some(Entry::Instrument(_)) => self.no_value(
                span,
                format!("`{name}` is an instrument, and one value is wanted"),
                format!("a reading names it with `by {name}`"),
            ),
            None => self.constant(name, span).unwrap_or_else(|| self.unknown_name(name, span, scope)),
        }
    }

    /// Whether a name has a meaning here, so that the unknown of a `solve` may not take it.
    pub(super) fn is_taken_name(&self, name: &str, scope: &Scope) -> bool {
        scope.locals.iter().any(|local| local.name == name)
            || scope.table.is_some_and(|table| self.column_named(table, name).is_some())
            || (scope.define.is_none() && self.directory.names.contains_key(name))
    }

    fn constant(&mut self, name: &str, span: Span) -> Option<Typed> {
        if let Some((_, value)) = CONSTANTS.iter().find(|(constant, _)| *constant == name) {
            return Some(Typed::new(span, Op::Number(*value), Kind::Number));
        }
        let gas = self.shared.library.gas(name)?;
        Some(Typed::new(span, Op::Text(Arc::from(gas)), Kind::Gas))
    }

    fn name_in_define(&mut self, name: &str, alias: Option<&str>, span: Span, scope: &Scope) -> Typed {
        if let Some(constant) = self.constant(name, span) {
            return constant;
        }
        let qualified = alias.map_or_else(|| name.to_string(), |alias| format!("{alias}.{name}"));
        if self.directory.names.contains_key(&qualified) {
            self.report(
                Diagnostic::error(
                    &codes::HIDDEN_BY_DEFINITION,
                    format!("a definition cannot see `{name}`"),
                    span,
                    "it belongs to the sheet",
                )
                .with_mend(format!("give the definition a parameter and hand it `{name}` at the call")),
            );
            return Typed::unknown(span);
        }
        self.unknown_name(name, span, scope)
    }

    pub(super) fn unknown_name(&mut self, name: &str, span: Span, scope: &Scope) -> Typed {
        let mut candidates: Vec<&str> = scope.locals.iter().map(|local| local.name.as_str()).collect();
        if let Some(table) = scope.table {
            candidates.extend(self.plan.tables[table].columns.iter().map(|column| column.name.as_str()));
        }
        if scope.define.is_none() {
            candidates.extend(self.directory.candidates());
        }
        candidates.extend(CONSTANTS.iter().map(|(name, _)| *name));
        candidates.extend(self.shared.library.gases());
        let near = did_you_mean(name, candidates).map(str::to_string);
        let mut diagnostic =
            Diagnostic::error(&codes::UNKNOWN_NAME, format!("nothing here is called `{name}`"), span, "");
        diagnostic.mend = match near {
            Some(near) => Some(format!("did you mean `{near}`?")),
            None if self.is_function(name) => Some(format!("`{name}` is a function: write `{name}(…)`")),
            None => None,
        };
        self.report(diagnostic);
        Typed::unknown(span)
    }

    pub(super) fn no_table(&mut self, name: &str, span: Span) -> Typed {
        self.no_value(span, format!("`{name}` is no table"), "`[…]` picks a row of a table".into())
    }

    fn no_value(&mut self, span: Span, message: String, mend: String) -> Typed {
        self.report(Diagnostic::error(&codes::NOT_A_VALUE, message, span, "").with_mend(mend));
        Typed::unknown(span)
    }

    fn slot(&self, slot: usize, span: Span) -> Typed {
        let plan = &self.plan.slots[slot];
        let typed = known(span, Op::Slot(slot), &plan.typing);
        Typed { safety: plan.safety, ..typed }
    }

    pub(super) fn column_named(&self, table: usize, name: &str) -> Option<usize> {
        self.plan.tables[table].columns.iter().position(|column| column.name == name)
    }

    fn row_value(&self, table: usize, column: usize, span: Span) -> Typed {
        let plan = &self.plan.tables[table].columns[column];
        Typed { safety: plan.safety, ..known(span, Op::Row(column), &plan.typing) }
    }

    /// A whole column.
    pub(super) fn column(&self, table: usize, column: usize, span: Span) -> Typed {
        let plan = &self.plan.tables[table].columns[column];
        let typed = known(span, Op::Column { table, column }, &plan.typing);
        Typed { shape: Shape::Column(table), safety: plan.safety, ..typed }
    }

    /// The table of this name, qualified by an alias or not, as seen from here.
    pub(super) fn table_named(&mut self, name: &str, span: Span, scope: &Scope) -> Option<usize> {
        if scope.locals.iter().any(|local| local.name == name) {
            return None;
        }
        let qualified = match &scope.define {
            Some(Some(alias)) => format!("{alias}.{name}"),
            _ => name.to_string(),
        };
        match self.directory.names.get(&qualified).copied()? {
            Entry::Table(item) => {
                if scope.define.is_some()
                    && let ItemKind::Table(table) = self.directory.items[item].kind
                    && !is_literal(table)
                {
                    self.report(
                        Diagnostic::error(
                            &codes::HIDDEN_BY_DEFINITION,
                            format!("a definition sees tables of literals only, and `{name}` is more"),
                            span,
                            "",
                        )
                        .with_mend("hand the column to the definition as an argument"),
                    );
                    return None;
                }
                self.tables.get(&item).copied()
            }
            Entry::UsedTable(at) => self.used_tables.get(at).copied().flatten(),
            _ => None,
        }
    }

    /// `base.field`
    pub(super) fn field(&mut self, base: &Expr, field: &Name, span: Span, scope: &Scope) -> Typed {
        if let ExprKind::Index(table, key) = &base.kind {
            return self.look(table, key, field, span, scope);
        }
        if let Some(name) = dotted(base) {
            if let Some(table) = self.table_named(&name, base.span, scope) {
                return self.column_of(table, field, span, scope);
            }
            let is_local = scope.locals.iter().any(|local| local.name == name);
            let is_row = scope.table.is_some_and(|table| self.column_named(table, &name).is_some());
            if !is_local && !is_row && scope.define.is_none() {
                match self.directory.names.get(&name).copied() {
                    Some(Entry::Fill(item)) => return self.filled(item, field, span),
                    Some(Entry::Table(_)) => return Typed::unknown(span),
                    Some(Entry::Alias(_)) => {
                        let message = format!("the used sheet `{name}` has no table `{}`", field.text);
                        self.report(Diagnostic::error(&codes::UNKNOWN_FIELD, message, field.span, ""));
                        return Typed::unknown(span);
                    }
                    _ => {}
                }
            }
        }
        let base = self.expr(base, scope);
        self.part(base, field, span)
    }

    /// A field of a record.
    fn part(&mut self, base: Typed, field: &Name, span: Span) -> Typed {
        let Kind::Record(record) = base.kind.clone() else {
            if base.kind != Kind::Unknown {
                self.report(Diagnostic::error(
                    &codes::UNKNOWN_FIELD,
                    format!("this is {}; it has no parts", base.kind.words()),
                    field.span,
                    "",
                ));
            }
            return Typed::unknown(span);
        };
        let Some(at) = record.fields.iter().position(|one| one.name == field.text) else {
            let names: Vec<&str> = record.fields.iter().map(|one| one.name).collect();
            let near = did_you_mean(&field.text, names.iter().copied());
            let mend = match near {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("it has {}", names.join(", ")),
            };
            self.report(
                Diagnostic::error(
                    &codes::UNKNOWN_FIELD,
                    format!("the result of `{}` has no part `{}`", record.of, field.text),
                    field.span,
                    "",
                )
                .with_mend(mend),
            );
            return Typed::unknown(span);
        };
        let one = &record.fields[at];
        let wish = one.wish.clone();
        Typed {
            shape: base.shape,
            wish,
            ..Typed::new(span, Op::Field(Box::new(base.node.clone()), at), one.kind.clone())
        }
        .marked_by(&[&base])
    }

    fn column_of(&mut self, table: usize, field: &Name, span: Span, scope: &Scope) -> Typed {
        let Some(column) = self.column_named(table, &field.text) else {
            return self.unknown_column(table, field, span);
        };
        let typed = self.column(table, column, span);
        if !scope.columns {
            return self.one(typed);
        }
        typed
    }

    fn unknown_column(&mut self, table: usize, field: &Name, span: Span) -> Typed {
        let plan = &self.plan.tables[table];
        let names: Vec<&str> = plan.columns.iter().map(|column| column.name.as_str()).collect();
        let mend = match did_you_mean(&field.text, names.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("it has {}", names.join(", ")),
        };
        let message = format!("the table `{}` has no column `{}`", plan.name, field.text);
        self.report(Diagnostic::error(&codes::UNKNOWN_FIELD, message, field.span, "").with_mend(mend));
        Typed::unknown(span)
    }

    /// `table["key"].column` or `filling["key"].cell`
    fn look(&mut self, base: &Expr, key: &Expr, field: &Name, span: Span, scope: &Scope) -> Typed {
        let Some(name) = dotted(base) else {
            self.expr(base, scope);
            return Typed::unknown(span);
        };
        let (table, column) = if let Some(table) = self.table_named(&name, base.span, scope) {
            (table, self.column_of(table, field, span, &scope.with_columns()))
        } else if let (Some(Entry::Fill(item)), None) = (self.directory.names.get(&name).copied(), &scope.define) {
            let column = self.filled(item, field, span);
            let Shape::Column(table) = column.shape else {
                if column.kind != Kind::Unknown {
                    self.no_value(
                        base.span,
                        format!("`{name}` is filled once, not for each row of a table"),
                        format!("write `{name}.{}`", field.text),
                    );
                }
                return Typed::unknown(span);
            };
            (table, column)
        } else {
            if !matches!(self.directory.names.get(&name), Some(Entry::Table(_) | Entry::UsedTable(_))) {
                self.no_table(&name, base.span);
            }
            return Typed::unknown(span);
        };
        let key = self.value(key, scope);
        if column.kind == Kind::Unknown {
            return Typed::unknown(span);
        }
        let Some(first) = self.plan.tables[table].columns.first() else { return Typed::unknown(span) };
        let wanted = first.typing.clone();
        if self.plan.tables[table].traits.keys_repeat {
            let message = format!("the keys of `{name}` repeat, so no row of it can be looked up");
            self.report(
                Diagnostic::error(&tables::NO_KEY, message, span, "")
                    .with_mend("fold the rows that are meant: `sum(… where …)`, `first(… where …)`"),
            );
            return Typed::unknown(span);
        }
        let key = self.chosen(key, &wanted.kind);
        let Some(key) = self.settled(key, &wanted, base.span) else { return Typed::unknown(span) };
        let datum = self.plan.tables[table].columns[0].typing.datum;
        let key = key.held(datum);
        let shape = key.shape;
        let look = Look { table, key: key.node.clone(), column: column.node.clone() };
        Typed {
            shape,
            datum: column.datum,
            wish: column.wish.clone(),
            vacuum: column.vacuum,
            ..Typed::new(span, Op::Look(Box::new(look)), column.kind.clone())
        }
        .marked_by(&[&key, &column])
    }

    /// `filling.cell`
    fn filled(&mut self, item: usize, field: &Name, span: Span) -> Typed {
        let Some(&fill) = self.fills.get(&item) else { return Typed::unknown(span) };
        let plan = self.plan.fills[fill].plan.clone();
        let Some(slot) = plan.slots.iter().position(|slot| slot.name == field.text) else {
            let names = plan.slots.iter().map(|slot| slot.name.as_str());
            let mend = did_you_mean(&field.text, names).map(|near| format!("did you mean `{near}`?"));
            let message = format!("the filled sheet `{}` has no value `{}`", self.plan.fills[fill].name, field.text);
            let mut diagnostic = Diagnostic::error(&codes::UNKNOWN_FIELD, message, field.span, "");
            diagnostic.mend = mend;
            self.report(diagnostic);
            return Typed::unknown(span);
        };
        let known = known(span, Op::Filled { fill, slot }, &plan.slots[slot].typing);
        let shape = self.plan.fills[fill].each.map_or(Shape::One, Shape::Column);
        Typed { shape, safety: plan.slots[slot].safety, ..known }
    }
}

fn known(span: Span, op: Op, typing: &Typing) -> Typed {
    let unit = typing.wish.as_ref().and_then(|wish| wish.units.first());
    Typed {
        datum: typing.datum,
        wish: typing.wish.clone(),
        factors: typing.factors,
        vacuum: unit.is_some_and(|unit| matches!(unit.meaning, Meaning::Vacuum { .. })),
        ..Typed::new(span, op, typing.kind.clone())
    }
}
