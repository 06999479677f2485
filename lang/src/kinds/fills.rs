//! Filled sheets: their inputs bound to values and tables of this one.

use std::sync::Arc;

use super::checker::Checker;
use super::typed::Scope;
use super::words::compared_column;
use crate::diagnostic::{Diagnostic, kinds as codes, names as name_codes};
use crate::names::dotted;
use crate::plan::{AnswerPlan, Datum, FillBinding, FillPlan, Op, Plan, Said, SlotSource, Step, Typing, Wish};
use crate::source::Span;
use crate::suggest::did_you_mean;
use crate::syntax::tree::{Expr, ExprKind, Fill, Name};

impl Checker<'_, '_> {
    pub(super) fn fill(&mut self, item: usize, fill: &Fill, stage: Option<usize>) {
        // A path that could not be read, or closes a circle, has been reported.
        let Some(&file) = self.shared.files.list[self.directory.file].links.get(&fill.path.text) else { return };
        let plan = self.shared.sheet(file);
        let each = match &fill.each {
            None => None,
            Some(name) => match self.table_named(&name.text, name.span, &Scope::default()) {
                Some(table) => Some(table),
                None => {
                    self.report(Diagnostic::error(
                        &name_codes::UNKNOWN_NAME,
                        format!("there is no table `{}` to fill from", name.text),
                        name.span,
                        "",
                    ));
                    return;
                }
            },
        };
        let mut bindings = Vec::new();
        let mut seen: Vec<&str> = Vec::new();
        for (name, value) in &fill.bindings {
            if seen.contains(&name.text.as_str()) {
                let message = format!("`{}` is filled twice", name.text);
                self.report(Diagnostic::error(&name_codes::GIVEN_TWICE, message, name.span, "again here"));
                continue;
            }
            seen.push(&name.text);
            let scope = Scope { table: each, ..Scope::default() };
            if let Some(binding) = self.binding(&plan, name, value, &scope) {
                bindings.push(binding);
            }
        }
        self.plan.fills.push(FillPlan {
            name: fill.name.text.clone(),
            span: fill.name.span,
            stage,
            plan,
            bindings,
            each,
        });
        let index = self.plan.fills.len() - 1;
        self.fills.insert(item, index);
        self.plan.steps.push(Step::Fill(index));
    }

    /// An answer to a confirmation of a filled sheet, which may itself be filled in one: `riser.inner: soap`.
    pub(super) fn answer(&mut self, fillings: &str, label: &str, span: Span, said: Said) {
        let mut way = Vec::new();
        let mut plan: Option<Arc<Plan>> = None;
        for name in fillings.split('.') {
            let fills = &plan.as_deref().unwrap_or(&self.plan).fills;
            let Some(at) = fills.iter().position(|fill| fill.name == name) else {
                // A filling that is not in the plan has an error of its own, or is not there at all.
                if plan.is_some() {
                    self.no_confirmation(fillings, label, fills.iter().map(|fill| fill.name.clone()).collect(), span);
                }
                return;
            };
            way.push(at);
            plan = Some(fills[at].plan.clone());
        }
        let Some(plan) = plan else { return };
        match plan.confirmations.iter().position(|confirm| confirm.label == label) {
            Some(confirm) if said.answer.is_some() => self.plan.answers.push(AnswerPlan { way, confirm, said }),
            Some(_) => {}
            None => {
                let labels = plan.confirmations.iter().map(|confirm| confirm.label.clone()).collect();
                self.no_confirmation(fillings, label, labels, span);
            }
        }
    }

    fn no_confirmation(&mut self, fillings: &str, label: &str, known: Vec<String>, span: Span) {
        let mend = match did_you_mean(label, known.iter().map(String::as_str)) {
            Some(near) => format!("did you mean \"{fillings}: {near}\"?"),
            None if known.is_empty() => "it asks for none".to_string(),
            None => format!("it has {}", known.iter().map(|one| format!("\"{one}\"")).collect::<Vec<_>>().join(", ")),
        };
        let message = format!("the filled sheet `{fillings}` asks for no confirmation \"{label}\"");
        self.report(Diagnostic::error(&name_codes::UNKNOWN_BINDING, message, span, "").with_mend(mend));
    }

    fn binding(&mut self, plan: &crate::plan::Plan, name: &Name, value: &Expr, scope: &Scope) -> Option<FillBinding> {
        if let Some(table) = plan.tables.iter().position(|table| table.name == name.text && !table.used) {
            return self.table_binding(plan, table, name, value);
        }
        let slot =
            plan.slots.iter().position(|slot| slot.name == name.text && matches!(slot.source, SlotSource::Given(_)));
        let Some(slot) = slot else {
            let open = plan.slots.iter().filter(|slot| matches!(slot.source, SlotSource::Given(_)));
            let names = open.map(|slot| slot.name.as_str()).chain(plan.tables.iter().map(|table| table.name.as_str()));
            let is_cell = plan.slots.iter().any(|slot| slot.name == name.text);
            let mend = match did_you_mean(&name.text, names) {
                _ if is_cell => Some("it is computed there and cannot be filled".to_string()),
                Some(near) => Some(format!("did you mean `{near}`?")),
                None => None,
            };
            let message = format!("the filled sheet has no input `{}`", name.text);
            let mut diagnostic = Diagnostic::error(&name_codes::UNKNOWN_BINDING, message, name.span, "");
            diagnostic.mend = mend;
            self.report(diagnostic);
            return None;
        };
        if matches!(value.kind, ExprKind::NotTaken) {
            return None;
        }
        let typed = self.factor(value, scope);
        let typed = self.one(typed);
        let typing = &plan.slots[slot].typing;
        let wish = shown_as_here(&typed.wish, typing);
        let typed = self.chosen(typed, &typing.kind);
        self.fill_words(&name.text, &typed.kind, &plan.slots[slot].compared_with, name.span);
        self.hand_on_compared(&typed.node.op, &plan.slots[slot].compared_with);
        let typed = self.settled(typed, typing, name.span)?.held(typing.datum);
        let same_as = match typed.node.op {
            Op::Slot(own) => Some(own),
            _ => None,
        };
        let is_formula = dotted(value).is_none() && !value.kind.is_literal();
        let formula = if is_formula { self.written(value.span) } else { String::new() };
        Some(FillBinding::Value { slot, node: typed.node, same_as, wish, formula })
    }

    fn table_binding(
        &mut self,
        plan: &crate::plan::Plan,
        table: usize,
        name: &Name,
        value: &Expr,
    ) -> Option<FillBinding> {
        let written = dotted(value);
        let with = written.as_ref().and_then(|written| self.table_named(written, value.span, &Scope::default()));
        let Some(with) = with else {
            if let Some(written) = written.filter(|written| !self.is_taken_name(written, &Scope::default())) {
                self.unknown_name(&written, value.span, &Scope::default());
                return None;
            }
            let message = format!("`{}` is a table, and this is none", name.text);
            self.report(
                Diagnostic::error(&codes::WRONG_KIND, message, value.span, "")
                    .with_mend("write the name of a table of this sheet"),
            );
            return None;
        };
        let mut columns = Vec::new();
        let mut data: Vec<(Datum, Datum)> = Vec::new();
        let mut wishes = Vec::new();
        for wanted in &plan.tables[table].columns[..plan.tables[table].given] {
            let Some(at) = self.column_named(with, &wanted.name) else {
                if wanted.optional {
                    columns.push(None);
                    data.push((wanted.typing.datum, wanted.typing.datum));
                    wishes.push(None);
                    continue;
                }
                let message = format!("`{}` has no column `{}`", self.plan.tables[with].name, wanted.name);
                self.report(
                    Diagnostic::error(&name_codes::UNKNOWN_FIELD, message, value.span, "")
                        .with_mend(format!("the filled sheet's table `{}` needs it", name.text)),
                );
                return None;
            };
            let typing = self.plan.tables[with].columns[at].typing.clone();
            if let Err(refusal) = super::algebra::fits(&typing.kind, &wanted.typing.kind) {
                let message = format!("column `{}`: {}", wanted.name, refusal.message);
                let column = self.plan.tables[with].columns[at].span;
                let mut diagnostic = Diagnostic::error(&codes::WRONG_KIND, message, value.span, "filled here")
                    .with_label(column, format!("this is {}", typing.kind.words()));
                diagnostic.mend = refusal.mend;
                self.report(diagnostic);
                return None;
            }
            let compared = compared_column(plan, table, &wanted.name);
            self.fill_words(&wanted.name, &typing.kind, &compared, value.span);
            for word in compared {
                self.remember_for_column(with, at, word);
            }
            columns.push(Some(at));
            data.push((typing.datum, wanted.typing.datum));
            wishes.push(shown_as_here(&typing.wish, &wanted.typing));
        }
        Some(FillBinding::Table { table, with, columns, data, wishes })
    }
}

/// What fills an input is shown in the form as it is shown here, where that is a way to show it.
fn shown_as_here(here: &Option<Wish>, there: &Typing) -> Option<Wish> {
    here.clone().filter(|wish| there.wish.as_ref().is_some_and(|own| wish.stands_for(own)))
}
