//! A run as an outcome: every value, check and stage with how it is shown.

use std::borrow::Cow;

use super::advice;
use super::block::{Block, Data, Mark};
use super::fault::Fault;
use super::origins::{Origins, Uncertain};
use super::run::Run;
use super::settings::World;
use super::stages::{self, stage_name, title_prefix};
use super::told::Told;
use super::waive::{self, Waived};
use super::{outside, rounding, shown};
use crate::diagnostic::running;
use crate::kinds::Kind;
use crate::outcome::{
    CellOutcome, ChartOutcome, CheckOutcome, CheckVerdict, ColumnOutcome, ConfirmOutcome, FunctionOutcome,
    InstrumentOutcome, JobVerdict, NoteOutcome, Outcome, Role, SheetHead, StageOutcome, TableOutcome,
    UncertaintyOutcome,
};
use crate::plan::{ColumnPlan, ColumnSource, SlotSource, TablePlan, Typing, Wish};
use crate::source::Sources;

/// The outcome of the outermost run. The hash of its text is the caller's.
pub fn outcome(run: &Run, world: &World<'_>, sources: &Sources) -> Outcome {
    let waived = waive::waive(run, world);
    let judged = stages::judge(run, world, &waived.verdicts, &[]);
    let mut outcome = Outcome {
        format: "dewline-outcome/1",
        sheet: SheetHead {
            title: run.plan.title.clone().unwrap_or_else(|| run.plan.path.clone()),
            path: run.plan.path.clone(),
            sha256: String::new(),
        },
        verdict: judged.standing.verdict(),
        files: Vec::new(),
        set: Vec::new(),
        otherwise: Vec::new(),
        replaced: Vec::new(),
        assumptions: advice::assumptions(run, world),
        cells: Vec::new(),
        tables: Vec::new(),
        checks: Vec::new(),
        confirmations: Vec::new(),
        stages: judged
            .stages
            .iter()
            .map(|stage| StageOutcome {
                name: stage.name.clone(),
                verdict: stage.verdict,
                waiting_for: stage.waiting_for.clone(),
                blocked_by: stage.blocked_by.clone(),
                broken: stage.standing.broken,
            })
            .collect(),
        to_take: judged.to_take.clone(),
        notes: Vec::new(),
        charts: Vec::new(),
        instruments: Vec::new(),
        advice: Vec::new(),
        cautions: Vec::new(),
        trials: None,
        functions: Vec::new(),
        refrigerants: Vec::new(),
        errors: Vec::new(),
        diagnostics: Vec::new(),
    };
    let origins = world.origins.borrow();
    let mut told = Told::default();
    Reporter { sources, world, waived: &waived, origins: &origins, outcome: &mut outcome, told: &mut told }.run(run);
    outside::tell(run, world, &mut outcome);
    advice::advise(run, &mut outcome);
    for diagnostic in world.diagnostics.borrow().iter() {
        told.add(&mut outcome, sources, diagnostic.clone(), String::new(), None);
    }
    told.finish(&mut outcome);
    if !outcome.errors.is_empty() {
        outcome.verdict = JobVerdict::Unusable;
    }
    outcome
}

struct Reporter<'a> {
    sources: &'a Sources,
    world: &'a World<'a>,
    waived: &'a Waived,
    origins: &'a Origins,
    outcome: &'a mut Outcome,
    told: &'a mut Told,
}

impl Reporter<'_> {
    fn run(&mut self, run: &Run) {
        let plan = &run.plan;
        for instrument in &plan.instruments {
            let shown = |moment: &crate::moment::Moment| moment.to_string();
            let outcome = InstrumentOutcome {
                name: instrument.name.clone(),
                description: instrument.description.clone(),
                accuracy: instrument.accuracy.clone(),
                repeats: instrument.repeats.clone(),
                serial: instrument.serial.clone(),
                calibrated: instrument.calibrated.as_ref().map(|(on, _)| shown(on)),
                due: instrument.calibrated.as_ref().and_then(|(_, due)| due.as_ref()).map(shown),
            };
            if !self.outcome.instruments.iter().any(|known| known.name == outcome.name) {
                self.outcome.instruments.push(outcome);
            }
        }
        for (at, (slot, block)) in plan.slots.iter().zip(&run.slots).enumerate() {
            let typing = as_wished(&slot.typing, run.wishes.slots.get(&at));
            self.cell(run, at, &typing, block);
        }
        for (at, table) in plan.tables.iter().enumerate().filter(|(_, table)| !table.used) {
            let Some(values) = run.tables.get(at) else { continue };
            if table.traits.optional && values.pending && !self.is_asked(run, table, None) {
                continue;
            }
            let mut columns = Vec::new();
            for (index, (column, block)) in table.columns.iter().zip(&values.columns).enumerate() {
                let typing = as_wished(&column.typing, run.wishes.columns.get(&(at, index)));
                let empty = (0..values.rows).all(|row| block.mark(row) == Mark::Pending);
                if !(column.optional && empty) || self.is_asked(run, table, Some(column)) {
                    self.column(run, at, (column, &typing), block, &mut columns);
                }
            }
            let name = format!("{}{}", run.prefix, table.name);
            let from = self.world.file_of(&name);
            if let Some(file) = from.as_ref().filter(|file| !self.outcome.files.contains(file)) {
                self.outcome.files.push(file.clone());
            }
            self.outcome.tables.push(TableOutcome {
                name,
                stage: stage_name(run, table.stage),
                from,
                at: table.at_text.clone(),
                pending: values.pending,
                counted_once: run.counted_once.get(&at).cloned().unwrap_or_default(),
                columns,
            });
        }
        self.checks(run);
        for (confirm, said) in plan.confirmations.iter().zip(&run.answers) {
            self.outcome.confirmations.push(ConfirmOutcome {
                label: format!("{}{}", title_prefix(run), confirm.label),
                stage: stage_name(run, confirm.stage),
                verdict: match said.answer {
                    Some(true) => CheckVerdict::Passed,
                    Some(false) => CheckVerdict::Failed,
                    None => CheckVerdict::Pending,
                },
                at: said.at_text.clone(),
                by: said.by.clone(),
            });
        }
        for (note, block) in plan.notes.iter().zip(&run.notes) {
            self.fault("a note", None, block, 0);
            let text = block.text_at(0).map(|text| text.to_string());
            self.outcome.notes.push(NoteOutcome { stage: stage_name(run, note.stage), text });
        }
        for (chart, blocks) in plan.charts.iter().zip(&run.charts) {
            let columns = chart.columns.iter().zip(blocks).map(|((name, _, typing), block)| {
                column_outcome(run, self.origins, name.clone(), typing, Role::Cell, block)
            });
            self.outcome.charts.push(ChartOutcome {
                title: chart.title.clone(),
                stage: stage_name(run, chart.stage),
                style: chart.style,
                table: plan
                    .tables
                    .get(chart.table)
                    .map_or_else(String::new, |table| format!("{}{}", run.prefix, table.name)),
                columns: columns.collect(),
            });
        }
        for caution in &plan.cautions {
            if !self.outcome.cautions.iter().any(|known| known == caution) {
                self.outcome.cautions.push((*caution).to_string());
            }
        }
        for function in &plan.functions {
            if !self.outcome.functions.iter().any(|known| known.name == function.name) {
                self.outcome.functions.push(FunctionOutcome {
                    name: function.name.to_string(),
                    gives: function.gives.to_string(),
                    equation: function.equation.to_string(),
                    source: function.source.to_string(),
                    validity: function.validity.to_string(),
                });
            }
        }
        for refrigerant in &plan.refrigerants {
            if !self.outcome.refrigerants.contains(refrigerant) {
                self.outcome.refrigerants.push(refrigerant.clone());
            }
        }
        run.children().for_each(|child| self.run(child));
    }

    /// Whether an optional table, or a cell of an optional column, is to be taken after all.
    fn is_asked(&self, run: &Run, table: &TablePlan, column: Option<&ColumnPlan>) -> bool {
        let name = format!("{}{}", run.prefix, table.name);
        let of_column = column.map(|column| (format!("{name}[\""), format!("\"].{}", column.name)));
        self.outcome.to_take.iter().any(|one| match &of_column {
            Some((begins, ends)) => one.starts_with(begins) && one.ends_with(ends),
            None => *one == name,
        })
    }

    fn cell(&mut self, run: &Run, slot: usize, typing: &Typing, block: &Block) {
        let name = format!("{}{}", run.prefix, run.plan.slots[slot].name);
        self.fault(&name, None, block, 0);
        if let Kind::Record(record) = &typing.kind {
            for (at, field) in record.fields.iter().enumerate() {
                let typing = Typing { wish: field.wish.clone(), ..Typing::of(field.kind.clone()) };
                let block = block.field(at);
                let mut cell = cell_outcome(run, self.origins, format!("{name}.{}", field.name), slot, &typing, &block);
                cell.broken &= !is_absent(&block, 0);
                self.outcome.cells.push(cell);
            }
            return;
        }
        let cell = cell_outcome(run, self.origins, name, slot, typing, block);
        self.outcome.cells.push(cell);
    }

    fn column(
        &mut self,
        run: &Run,
        table: usize,
        (column, typing): (&ColumnPlan, &Typing),
        block: &Block,
        columns: &mut Vec<ColumnOutcome>,
    ) {
        let role = match column.source {
            ColumnSource::Rows { measured: true } => Role::Reading,
            ColumnSource::Rows { measured: false } => Role::Input,
            ColumnSource::Formula(_) => Role::Cell,
        };
        let mut push = |name: String, typing: &Typing, block: &Block| {
            let mut outcome = column_outcome(run, self.origins, name, typing, role, block);
            outcome.uncertainty = column.uncertainty.clone();
            outcome.by = column.by.and_then(|by| run.plan.instruments.get(by)).map(|by| by.name.clone());
            outcome.formula = column.formula.clone();
            columns.push(outcome);
        };
        match &typing.kind {
            Kind::Record(record) => {
                for (at, field) in record.fields.iter().enumerate() {
                    let typing = Typing { wish: field.wish.clone(), ..Typing::of(field.kind.clone()) };
                    let block = block.field(at);
                    // A part that no row has, such as the subcooling of coils that evaporate, tells nothing.
                    if block.is_empty() || !(0..block.len()).all(|row| is_absent(&block, row)) {
                        push(format!("{}.{}", column.name, field.name), &typing, &block);
                    }
                }
            }
            _ => push(column.name.clone(), typing, block),
        }
        let table_name = run.plan.tables.get(table).map_or("", |table| table.name.as_str());
        let name = format!("{}{table_name}.{}", run.prefix, column.name);
        for row in 0..block.len() {
            if block.mark(row) == Mark::Broken {
                self.fault(&name, Some(run.key(table, row)), block, row);
            }
        }
    }

    fn checks(&mut self, run: &Run) {
        for (at, (check, judged)) in run.plan.checks.iter().zip(&run.checks).enumerate() {
            let label = format!("{}{}", title_prefix(run), check.label);
            let verdicts = self.waived.verdicts.get(&run.prefix).and_then(|checks| checks.get(at));
            for (row, entry) in judged.entries.iter().enumerate() {
                let verdict = verdicts.and_then(|rows| rows.get(row)).copied().unwrap_or(entry.verdict);
                let reason = match self.waived.reasons.get(&(run.prefix.clone(), at, row)) {
                    Some(reason) => Some(reason.clone()),
                    None => entry.reason.clone(),
                };
                if let Some(fault) = &entry.fault {
                    self.error(fault, format!("check \"{label}\""), entry.key.clone());
                }
                self.outcome.checks.push(CheckOutcome {
                    label: label.clone(),
                    stage: stage_name(run, check.stage),
                    level: check.level(),
                    condition: check.written.clone(),
                    table: check
                        .each
                        .and_then(|table| run.plan.tables.get(table))
                        .map(|table| format!("{}{}", run.prefix, table.name)),
                    row: entry.key.clone(),
                    verdict,
                    value: entry.value.clone(),
                    limit: entry.limit.clone(),
                    bounds: entry.bounds.clone(),
                    margin: entry.margin.as_ref().map(|(text, _)| text.clone()),
                    margin_si: entry.margin.as_ref().map(|(_, si)| *si),
                    uncertainty: entry.uncertainty.as_ref().map(|(text, _)| text.clone()),
                    uncertainty_si: entry.uncertainty.as_ref().map(|(_, si)| *si),
                    probability: entry.probability,
                    guarded: entry.guarded,
                    reason,
                    waiting_for: entry.waiting_for.clone(),
                });
            }
        }
    }

    fn fault(&mut self, name: &str, row: Option<String>, block: &Block, at: usize) {
        if let Some(fault) = block.states.fault(at) {
            self.error(&fault.clone(), name.to_string(), row);
        }
    }

    fn error(&mut self, fault: &Fault, cell: String, row: Option<String>) {
        if self.told.is_new(fault, &cell, row.as_deref()) {
            self.told.add(self.outcome, self.sources, fault.diagnostic(), cell, row);
        }
    }
}

fn dimension_text(kind: &Kind) -> String {
    kind.quantity().map_or_else(String::new, |quantity| quantity.dimension.text())
}

fn ucum_of(typing: &Typing, run: &Run) -> String {
    let wish = shown::wish(typing, run.system);
    match (&typing.kind, wish.units.as_slice()) {
        (Kind::Number, []) => "1".into(),
        (_, [unit]) => unit.ucum.clone(),
        (_, [.., last]) => last.ucum.clone(),
        _ => String::new(),
    }
}

fn cell_outcome(run: &Run, origins: &Origins, name: String, at: usize, typing: &Typing, block: &Block) -> CellOutcome {
    let slot = &run.plan.slots[at];
    let site = run.atmosphere.number_at(0);
    CellOutcome {
        name,
        stage: stage_name(run, slot.stage),
        role: slot.role,
        kind: typing.kind.sort(),
        dimension: dimension_text(&typing.kind),
        si: shown::si(block, 0, typing.datum, site),
        shown: shown::value(block, 0, typing, run.system, site),
        ucum: ucum_of(typing, run),
        uncertainty: uncertainty(run, origins, typing, block),
        pending: block.mark(0) == Mark::Pending,
        optional: matches!(&slot.source, SlotSource::Given(given) if given.optional),
        broken: block.mark(0) == Mark::Broken,
        stated: run.stated.get(&at).unwrap_or(&slot.stated).clone(),
        formula: run.written(at).to_string(),
        set: None,
    }
}

/// The uncertainty of a single value.
fn uncertainty(run: &Run, origins: &Origins, typing: &Typing, block: &Block) -> Option<UncertaintyOutcome> {
    block.number_at(0)?;
    let one = origins.uncertainty(block.states.doubt_at(0))?;
    let text = rounding::together(block, 0, typing, run.system, run.atmosphere.number_at(0), &one);
    let Uncertain { standard, expanded, k, freedom } = one;
    let shown = rounding::distance_shown(expanded, &shown::distance(typing, run.system), run.system);
    Some(UncertaintyOutcome { standard, expanded, k, freedom, shown, text: text.unwrap_or_default() })
}

/// Uncertainties of a column, row by row, and their range as printed.
fn uncertainties(
    run: &Run,
    origins: &Origins,
    typing: &Typing,
    block: &Block,
) -> (Vec<Option<Uncertain>>, Option<String>) {
    if block.states.doubt().is_none() || !matches!(block.data, Data::Numbers(_)) {
        return (Vec::new(), None);
    }
    let one = |row| block.number_at(row).and_then(|_| origins.uncertainty(block.states.doubt_at(row)));
    let all: Vec<Option<Uncertain>> = (0..block.len()).map(one).collect();
    let sizes = || all.iter().flatten().map(|one| one.expanded);
    let (least, greatest) = (sizes().fold(f64::INFINITY, f64::min), sizes().fold(0.0, f64::max));
    let typing = shown::distance(typing, run.system);
    let shown = |si| rounding::distance(si, &typing, run.system);
    let range = match (shown(least.min(greatest)), shown(greatest)) {
        _ if greatest == 0.0 => None,
        (low, high) if low == high => Some(format!("± {high}")),
        (low, high) => {
            let number = low.split(' ').next().unwrap_or_default();
            Some(format!("± {number} .. {high}"))
        }
    };
    (all, range)
}

/// A typing with another way to show it.
fn as_wished<'a>(typing: &'a Typing, wish: Option<&Wish>) -> Cow<'a, Typing> {
    match wish {
        Some(wish) => Cow::Owned(Typing { wish: Some(wish.clone()), ..typing.clone() }),
        None => Cow::Borrowed(typing),
    }
}

/// Whether a value is a part of a result that is not there. It is neither broken nor waited for: it only breaks what uses it.
fn is_absent(block: &Block, row: usize) -> bool {
    block.mark(row) == Mark::Broken
        && block.states.fault(row).is_some_and(|fault| std::ptr::eq(fault.code, &running::ABSENT_FIELD))
}

/// A value as printed without its unit.
fn without(shown: &str, unit: &str) -> String {
    let number = shown.strip_suffix(unit).filter(|_| !unit.is_empty());
    number.unwrap_or(shown).trim_end().to_string()
}

fn column_outcome(
    run: &Run,
    origins: &Origins,
    name: String,
    typing: &Typing,
    role: Role,
    block: &Block,
) -> ColumnOutcome {
    let site = run.atmosphere.number_at(0);
    let (uncertainties, spread) = uncertainties(run, origins, typing, block);
    let wish = shown::wish(typing, run.system);
    let unit = match wish.units.as_slice() {
        [unit] if unit.text != "1" => unit.text.clone(),
        _ => String::new(),
    };
    let text = (0..block.len())
        .map(|row| {
            if is_absent(block, row) {
                return "-".to_string();
            }
            let shown = shown::value(block, row, typing, run.system, site);
            shown.map_or_else(String::new, |shown| without(&shown.text, &unit))
        })
        .collect();
    let distance = shown::distance(typing, run.system);
    // An uncertainty of zero is none.
    let doubtful = || uncertainties.iter().map(|one| one.filter(|one| one.expanded > 0.0));
    let shown = |one: Uncertain| rounding::distance_shown(one.expanded, &distance, run.system);
    let expanded_unit = doubtful().flatten().next().map_or_else(String::new, |one| shown(one).unit);
    let expanded_text =
        doubtful().map(|one| one.map_or_else(String::new, |one| without(&shown(one).text, &expanded_unit))).collect();
    let together = doubtful()
        .enumerate()
        .map(|(row, one)| {
            let text = one.and_then(|one| rounding::together(block, row, typing, run.system, site, &one));
            text.map_or_else(String::new, |text| without(&text, &unit))
        })
        .collect();
    ColumnOutcome {
        name,
        kind: typing.kind.sort(),
        dimension: dimension_text(&typing.kind),
        unit,
        ucum: ucum_of(typing, run),
        role,
        si: (0..block.len()).map(|row| shown::si(block, row, typing.datum, site)).collect(),
        text,
        broken: (0..block.len()).filter(|&row| block.mark(row) == Mark::Broken && !is_absent(block, row)).collect(),
        standard: uncertainties.iter().map(|one| one.map(|one| one.standard)).collect(),
        expanded: uncertainties.iter().map(|one| one.map(|one| one.expanded)).collect(),
        expanded_text,
        together,
        expanded_unit,
        spread,
        uncertainty: None,
        by: None,
        formula: String::new(),
    }
}
