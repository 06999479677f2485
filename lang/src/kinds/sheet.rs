//! A sheet as a whole: every task in its order becomes a part of the plan.

use std::sync::Arc;

use super::Kind;
use super::checker::{Checker, Compiler};
use super::general::is_general;
use super::lookup::is_constant;
use super::typed::Scope;
use crate::diagnostic::{Diagnostic, kinds as codes, names as name_codes};
use crate::limits;
use crate::names::{Directory, ItemKind, Part, Task, answered, order};
use crate::outcome::{Role, Stated};
use crate::plan::{
    ChartPlan, ConfirmPlan, GivenPlan, InstrumentPlan, NotePlan, Plan, RowsPlan, Said, SitePlan, SlotPlan, SlotSource,
    StagePlan, Step, Typing, WaivePlan,
};
use crate::source::Span;
use crate::suggest::did_you_mean;
use crate::syntax::tree::{After, Cell, Chart, ChartStyle, Expr, Name, WaivedRows};

impl<'a> Compiler<'a> {
    /// The plan of a file, made once.
    pub fn sheet(&mut self, file: usize) -> Arc<Plan> {
        if let Some(plan) = &self.plans[file] {
            return plan.clone();
        }
        let mut diagnostics = Vec::new();
        let directory = Directory::of(self.files, file, &mut diagnostics);
        let tasks = order(&directory, &mut diagnostics);
        self.diagnostics.append(&mut diagnostics);
        if file == 0 {
            self.job_units = directory.system;
        }
        let mut checker = Checker::new(self, directory);
        checker.prepare();
        for task in tasks {
            checker.task(task);
        }
        checker.finish();
        let plan = Arc::new(std::mem::take(&mut checker.plan));
        self.plans[file] = Some(plan.clone());
        plan
    }
}

impl<'a, 'c> Checker<'a, 'c> {
    fn new(shared: &'c mut Compiler<'a>, directory: Directory<'a>) -> Checker<'a, 'c> {
        let plan = Plan {
            title: directory.title.map(|title| title.text.clone()),
            path: shared.files.list[directory.file].name.clone(),
            system: directory.system,
            guarded: directory.guarded,
            ..Plan::default()
        };
        Checker::bare(shared, directory, plan)
    }

    /// A checker of a sheet with this directory.
    pub(super) fn bare(shared: &'c mut Compiler<'a>, directory: Directory<'a>, plan: Plan) -> Checker<'a, 'c> {
        Checker {
            shared,
            directory,
            plan,
            slots: Default::default(),
            tables: Default::default(),
            used_tables: Vec::new(),
            fills: Default::default(),
            routines: Vec::new(),
            open_defines: Vec::new(),
            calls: 0,
            in_check: false,
        }
    }

    /// Gives every value and table its place, in the order of the sheet, before any has a kind.
    fn prepare(&mut self) {
        for at in 0..self.directory.instruments.len() {
            self.instrument(at);
        }
        for at in 0..self.directory.used_tables.len() {
            let (_, table) = self.directory.used_tables[at];
            let name = self
                .directory
                .names
                .iter()
                .find(|(_, entry)| **entry == crate::names::Entry::UsedTable(at))
                .map_or_else(|| table.name.text.clone(), |(name, _)| name.clone());
            let index = self.new_table(table, name, None, true);
            self.used_tables.push(Some(index));
            self.plan.steps.push(Step::Rows(index));
            self.table_rows(table, index);
        }
        for item in 0..self.directory.items.len() {
            let entry = self.directory.items[item];
            let (name, role) = match entry.kind {
                ItemKind::Given(given, role) => (&given.name, role),
                ItemKind::Cell(cell) => (&cell.name, Role::Cell),
                ItemKind::Table(table) => {
                    let index = self.new_table(table, table.name.text.clone(), entry.stage, false);
                    self.tables.insert(item, index);
                    continue;
                }
                _ => continue,
            };
            let shown = if self.directory.site.is(item) { format!("site {}", name.text) } else { name.text.clone() };
            self.plan.slots.push(SlotPlan {
                name: shown,
                span: name.span,
                stage: entry.stage,
                role,
                typing: Typing::of(Kind::Unknown),
                source: SlotSource::Given(GivenPlan::default()),
                stated: Stated::default(),
                formula: String::new(),
                safety: false,
                compared_with: Vec::new(),
            });
            let slot = self.plan.slots.len() - 1;
            self.slots.insert(item, slot);
        }
        let slot_of = |item: Option<usize>| item.and_then(|item| self.slots.get(&item)).copied();
        // A barometer at the site knows better than the height what the air weighs.
        self.plan.site = match (slot_of(self.directory.site.atmosphere), slot_of(self.directory.site.altitude)) {
            (Some(slot), _) => SitePlan::Atmosphere(slot),
            (None, Some(slot)) => SitePlan::Altitude(slot),
            (None, None) => SitePlan::Unstated,
        };
        self.stages();
    }

    fn task(&mut self, task: Task) {
        self.calls = 0;
        let item = self.directory.items[task.item];
        match (item.kind, task.part) {
            (ItemKind::Given(given, role), _) => {
                let Some(&slot) = self.slots.get(&task.item) else { return };
                self.given(given, role, task.item, slot);
                self.plan.steps.push(Step::Slot(slot));
            }
            (ItemKind::Cell(cell), _) => {
                let Some(&slot) = self.slots.get(&task.item) else { return };
                self.cell(cell, slot);
                self.plan.steps.push(Step::Slot(slot));
            }
            (ItemKind::Table(table), part) => {
                let Some(&index) = self.tables.get(&task.item) else { return };
                match part {
                    Part::Whole => {
                        self.table_rows(table, index);
                        self.plan.steps.push(Step::Rows(index));
                    }
                    Part::Column(at) => {
                        let column = self.table_formula(table, at, index);
                        self.plan.steps.push(Step::Column(index, column));
                    }
                    Part::Check(at) => self.check(&table.checks[at], item.stage, Some(index)),
                }
            }
            (ItemKind::Fill(fill), _) => self.fill(task.item, fill, item.stage),
            (ItemKind::Check(check), _) => self.check(check, item.stage, None),
            (ItemKind::Confirm(confirm), _) => {
                let said = Said {
                    answer: confirm.answer,
                    at_text: confirm.at.as_ref().map(|at| self.written(at.span)),
                    by: confirm.by.as_ref().map(|by| by.text.clone()),
                };
                if let Some((fillings, label)) = answered(&self.directory, confirm) {
                    return self.answer(fillings, label, confirm.label.span, said);
                }
                let (label, span) = (confirm.label.text.clone(), confirm.label.span);
                self.plan.confirmations.push(ConfirmPlan { label, span, stage: item.stage, said });
                self.plan.steps.push(Step::Confirm(self.plan.confirmations.len() - 1));
            }
            (ItemKind::Waive(waive), _) => self.plan.waivers.push(WaivePlan {
                label: waive.label.text.clone(),
                span: item.span,
                stage: item.stage,
                rows: waive.rows.as_ref().map(|rows| match rows {
                    WaivedRows::One(key) => RowsPlan::One(key.text.clone()),
                    WaivedRows::All => RowsPlan::All,
                }),
                reason: waive.reason.text.clone(),
                by: waive.by.text.clone(),
                at: waive.at.moment,
                at_text: self.written(waive.at.span),
            }),
            (ItemKind::Note(text), _) => {
                let (template, _) = self.template(text, &Scope::default());
                self.plan.notes.push(NotePlan { stage: item.stage, template });
                self.plan.steps.push(Step::Note(self.plan.notes.len() - 1));
            }
            (ItemKind::Chart(chart), _) => self.chart(chart, item.stage),
        }
    }

    fn finish(&mut self) {
        for (stage, plan) in self.directory.stages.iter().zip(&mut self.plan.stages) {
            for after in &stage.after {
                if let After::Fill(name) = after {
                    plan.after_fills.extend(self.plan.fills.iter().position(|fill| fill.name == name.text));
                }
            }
        }
        self.show_in_units_of_job();
        self.check_uncalled_definitions();
        self.names_of_the_library();
        self.plan.uses_atmosphere |= self.plan.needs_atmosphere();
        let own = self.plan.slots.len() + self.plan.tables.iter().map(|table| table.columns.len()).sum::<usize>();
        let filled = self.plan.fills.iter().map(|fill| fill.plan.size).fold(0_usize, usize::saturating_add);
        self.plan.size = own.saturating_add(filled);
        if self.plan.size > limits::FILLED_CELLS {
            let span = self.plan.fills.first().map_or_else(Span::default, |fill| fill.span);
            self.report(Diagnostic::error(
                &name_codes::TOO_MANY_CELLS,
                format!("with all that is filled the job has more than {} values", limits::FILLED_CELLS),
                span,
                "",
            ));
            self.plan.size = 0;
        }
    }

    /// Notes which names of this sheet take the place of the library's.
    fn names_of_the_library(&mut self) {
        let library = self.shared.library;
        for name in self.directory.names.keys() {
            if library.gas(name).is_some() {
                self.plan.hides.push(("gas", name.clone()));
            } else if is_constant(name) {
                self.plan.hides.push(("constant", name.clone()));
            }
        }
        for name in self.directory.defines.keys() {
            if library.function(name).is_some() || is_general(name) {
                self.plan.hides.push(("function", name.clone()));
            }
        }
    }

    /// A text of the source with its white space folded.
    pub(super) fn written(&self, span: Span) -> String {
        let text = self.shared.sources.slice(span);
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    fn cell(&mut self, cell: &Cell, slot: usize) {
        let mut typed = self.expr(&cell.value, &Scope::default());
        typed = self.one(typed);
        typed = match &cell.annotation {
            Some(annotation) => {
                let typed = self.single(typed);
                self.annotate(typed, annotation)
            }
            None => self.said(typed),
        };
        let formula = self.written(cell.value.span);
        let plan = &mut self.plan.slots[slot];
        plan.typing = typed.typing();
        plan.safety = typed.safety;
        plan.source = SlotSource::Formula(typed.node);
        plan.formula = formula;
        plan.stated.note = cell.note.as_ref().map(|note| note.text.clone());
    }

    fn chart(&mut self, chart: &Chart, stage: Option<usize>) {
        let scope = Scope::default().with_columns();
        let mut columns = Vec::new();
        let mut typed_columns = Vec::new();
        for expr in &chart.columns {
            let typed = self.value(expr, &scope);
            if typed.kind == Kind::Unknown {
                return;
            }
            if typed.shape == super::typed::Shape::One {
                self.not_a_column("chart", &typed, &scope);
                return;
            }
            columns.push((self.chart_name(expr), typed.node.clone(), typed.typing()));
            typed_columns.push(typed);
        }
        let parts: Vec<_> = typed_columns.iter().collect();
        let super::typed::Shape::Column(table) = self.join(chart.title.span, &parts) else { return };
        let style = if chart.style == ChartStyle::Line { "line" } else { "bars" };
        self.plan.charts.push(ChartPlan { title: chart.title.text.clone(), stage, style, table, columns });
        self.plan.steps.push(Step::Chart(self.plan.charts.len() - 1));
    }

    fn chart_name(&self, expr: &Expr) -> String {
        let written = self.written(expr.span);
        written.rsplit_once('.').map_or(written.clone(), |(_, column)| column.to_string())
    }

    fn instrument(&mut self, at: usize) {
        let instrument = self.directory.instruments[at];
        let written = |checker: &Self, span: Option<Span>| span.map(|span| checker.written(span));
        let plan = InstrumentPlan {
            name: instrument.name.text.clone(),
            description: instrument.description.as_ref().map_or_else(String::new, |words| words.text.clone()),
            accuracy: written(self, instrument.accuracy.as_ref().map(|one| one.span)),
            repeats: written(self, instrument.repeats.as_ref().map(|one| one.span)),
            common: instrument.accuracy.as_ref().and_then(|one| self.spread(one)),
            own: instrument.repeats.as_ref().and_then(|one| self.spread(one)),
            serial: instrument.serial.as_ref().map(|words| words.text.clone()),
            calibrated: instrument.calibrated.as_ref().map(|(on, due)| (on.moment, due.as_ref().map(|due| due.moment))),
        };
        self.plan.instruments.push(plan);
    }

    /// The place of an instrument that is named.
    pub(super) fn instrument_named(&mut self, name: &Name) -> Option<usize> {
        match self.directory.names.get(&name.text) {
            Some(crate::names::Entry::Instrument(at)) => Some(*at),
            _ => {
                let near = did_you_mean(
                    &name.text,
                    self.directory.instruments.iter().map(|instrument| instrument.name.text.as_str()),
                );
                let mend = match near {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("declare it: `instrument {} \"what it is\"`", name.text),
                };
                self.report(
                    Diagnostic::error(
                        &name_codes::UNKNOWN_INSTRUMENT,
                        format!("there is no instrument `{}`", name.text),
                        name.span,
                        "",
                    )
                    .with_mend(mend),
                );
                None
            }
        }
    }

    fn stages(&mut self) {
        for at in 0..self.directory.stages.len() {
            let stage = self.directory.stages[at];
            let mut plan = StagePlan { name: stage.name.text.clone(), after: Vec::new(), after_fills: Vec::new() };
            for after in &stage.after {
                match after {
                    After::Stage(words) => {
                        match self.directory.stages.iter().position(|other| other.name.text == words.text) {
                            Some(before) => plan.after.push(before),
                            None => self.unknown_stage(&words.text, words.span),
                        }
                    }
                    After::Fill(name) => {
                        // Fillings have their numbers once all are compiled.
                        let known = self.directory.names.get(&name.text);
                        if !matches!(known, Some(crate::names::Entry::Fill(_))) {
                            self.unknown_stage(&name.text, name.span);
                        }
                    }
                }
            }
            self.plan.stages.push(plan);
        }
        self.report_stage_circle();
    }

    fn unknown_stage(&mut self, name: &str, span: Span) {
        let stages = self.directory.stages.iter().map(|stage| stage.name.text.as_str());
        let mend = match did_you_mean(name, stages) {
            Some(near) => Some(format!("did you mean \"{near}\"?")),
            None => Some("name a stage of this sheet by its title, or a filled sheet by its name".to_string()),
        };
        let mut diagnostic =
            Diagnostic::error(&name_codes::UNKNOWN_STAGE, format!("there is no stage \"{name}\""), span, "");
        diagnostic.mend = mend;
        self.report(diagnostic);
    }

    fn report_stage_circle(&mut self) {
        // A stage is settled once all before it are; what never settles is in a circle or behind one.
        let mut settled = vec![false; self.plan.stages.len()];
        loop {
            let before = settled.iter().filter(|one| **one).count();
            for at in 0..settled.len() {
                settled[at] = settled[at] || self.plan.stages[at].after.iter().all(|&before| settled[before]);
            }
            if settled.iter().filter(|one| **one).count() == before {
                break;
            }
        }
        let names: Vec<String> = (0..settled.len())
            .filter(|&at| !settled[at])
            .map(|at| format!("\"{}\"", self.plan.stages[at].name))
            .collect();
        if let Some(first) = settled.iter().position(|one| !one) {
            let span = self.directory.stages[first].name.span;
            self.report(
                Diagnostic::error(
                    &name_codes::STAGE_CIRCLE,
                    format!("no stage can come first among {}", names.join(", ")),
                    span,
                    "each comes after another",
                )
                .with_mend("take one `after` away"),
            );
            for stage in &mut self.plan.stages {
                stage.after.clear();
            }
        }
    }

    /// The label of a check without one: its condition as written.
    pub(super) fn label_of(&self, label: Option<&crate::syntax::tree::Words>, condition: &Expr) -> String {
        label.map_or_else(|| self.written(condition.span), |label| label.text.clone())
    }

    /// A literal is wanted: what an instrument showed, or what a table's row holds.
    pub(super) fn insist_literal(&mut self, expr: &Expr, what: &str) -> bool {
        use crate::syntax::tree::ExprKind;
        let literal = match &expr.kind {
            ExprKind::Unreadable => true,
            ExprKind::Negate(inner) => matches!(inner.kind, ExprKind::Number(_) | ExprKind::Quantity(_)),
            ExprKind::Name(name) => self.shared.library.gas(name).is_some(),
            kind => kind.is_literal(),
        };
        if !literal {
            self.report(
                Diagnostic::error(&codes::NOT_LITERAL, format!("{what} is a literal, not a formula"), expr.span, "")
                    .with_mend(
                        "write what was read, or `?` if it is not taken yet; what is worked out from it is a cell",
                    ),
            );
        }
        literal
    }
}
