//! What is asked: in which unit, within which ends, with which instrument, and where the answer will stand.

use dewline_lang::kinds::Kind;
use dewline_lang::plan::{GivenPlan, SlotPlan, SlotSource, Typing};
use dewline_lang::syntax::tree::{StatementKind, Table};
use dewline_lang::units::{Stance, default_unit};

use super::some;
use crate::session::Session;
use crate::words::plain;

/// One thing to take.
#[derive(Debug, Clone, Default)]
pub struct Ask {
    /// Its full name, as listed among what is to be taken.
    pub name: String,
    /// The stage it stands in.
    pub stage: String,
    /// All about it, in one line.
    pub about: String,
    /// What stands before the answer.
    pub prompt: String,
    /// The unit of a bare number.
    pub unit: Option<String>,
    /// How an answer is read.
    pub sort: Sort,
    /// Where the answer will stand.
    pub target: Target,
}

/// How an answer is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Sort {
    /// A number or a quantity.
    #[default]
    Number,
    /// A text, with or without quotes.
    Text,
    /// `yes` or `no`.
    Flag,
    /// A time, a refrigerant, a gas: as in a sheet.
    Other,
}

/// Where an answer will stand.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Target {
    /// In the line of an input or a reading.
    #[default]
    Given,
    /// In the line of the confirmation of this label.
    Confirm { label: String },
    /// Beside the filled sheet that asks for it.
    FormConfirm { fill: String, label: String },
    /// In a row written in the sheet.
    Row { table: String, row: usize, column: usize },
    /// In a row of a data file.
    File { path: String, table: String, row: usize, column: String, header: Option<String> },
    /// In rows of a table that has none yet.
    Rows { table: String, begun: bool },
    /// In the brackets of a filled sheet.
    Fill { fill: String, input: String },
}

impl Ask {
    /// Its answer will stand in a data file.
    pub fn is_in_file(&self) -> bool {
        matches!(self.target, Target::File { .. })
    }
}

impl Session {
    /// What to ask for a name; an error is the reason why its answer cannot be written here.
    pub(super) fn ask_for(&self, name: &str) -> Result<Ask, String> {
        let job = self.sheet.job.as_ref().ok_or("the sheet has errors")?;
        let plan = job.plan();
        if let Some(slot) = plan.slots.iter().find(|slot| slot.name == name) {
            let SlotSource::Given(given) = &slot.source else {
                return Err("is computed; take what it is computed from".to_string());
            };
            return Ok(self.given(slot, given, name, Target::Given));
        }
        if let Some(confirm) = plan.confirmations.iter().find(|confirm| confirm.label == name) {
            let stage = confirm.stage.and_then(|at| plan.stages.get(at)).map(|stage| stage.name.clone());
            let target = Target::Confirm { label: name.to_string() };
            return Ok(confirmation(name, name, stage.unwrap_or_default(), target));
        }
        if let Some(ask) = self.table_ask(name) {
            return ask;
        }
        if let Some((fill, input)) = name.split_once('.')
            && let Some(filled) = plan.fills.iter().find(|one| one.name == fill)
        {
            if filled.each.is_some() {
                return Err(format!("stands in \"{fill}\", which is filled once a row; add a column to its table"));
            }
            let slot = filled.plan.slots.iter().find(|slot| slot.name == input);
            if let Some(slot) = slot
                && let SlotSource::Given(given) = &slot.source
            {
                let target = Target::Fill { fill: fill.to_string(), input: input.to_string() };
                return Ok(self.given(slot, given, name, target));
            }
            if filled.plan.confirmations.iter().any(|confirm| confirm.label == input) {
                let label = format!("{fill}: {input}");
                let stage = filled.stage.and_then(|at| plan.stages.get(at)).map(|stage| stage.name.clone());
                let written = self
                    .sheet
                    .statements()
                    .any(|one| matches!(&one.kind, StatementKind::Confirm(confirm) if confirm.label.text == label));
                let target = match written {
                    true => Target::Confirm { label: label.clone() },
                    false => Target::FormConfirm { fill: fill.to_string(), label: label.clone() },
                };
                return Ok(confirmation(name, &label, stage.unwrap_or_default(), target));
            }
            return Err(format!("stands in the filled sheet \"{}\"; take it there", plain(&filled.plan.path)));
        }
        let names: Vec<String> = job.open_inputs().into_iter().map(|open| open.name).collect();
        Err(match dewline_lang::suggest::did_you_mean(name, names.iter().map(String::as_str)) {
            Some(near) => format!("nothing of this name is to be taken; did you mean {near}?"),
            None if names.is_empty() => "the sheet has nothing to take".to_string(),
            None => format!("nothing of this name is to be taken; there is {}", some(&names)),
        })
    }

    /// A whole table without rows, or a field of one.
    fn table_ask(&self, name: &str) -> Option<Result<Ask, String>> {
        let outcome = self.sheet.outcome()?;
        let (table, rest) = match name.find('[') {
            Some(at) => name.split_at(at),
            None => (name, ""),
        };
        let shown = outcome.tables.iter().find(|one| one.name == table)?;
        let written = self.table(table)?;
        if rest.is_empty() {
            let heads: Vec<String> = shown
                .columns
                .iter()
                .take(written.columns.len())
                .map(|column| head(&column.name, &column.unit))
                .collect();
            return Some(Ok(Ask {
                name: name.to_string(),
                stage: shown.stage.clone(),
                about: format!(
                    "rows of {table}: {}  (a line a row; an empty line ends; or \"file.csv\")",
                    heads.join(" | ")
                ),
                prompt: format!("{table}: "),
                unit: None,
                sort: Sort::Other,
                target: Target::Rows { table: table.to_string(), begun: false },
            }));
        }
        let (key, column) = rest.strip_prefix('[')?.split_once("].")?;
        let at = written.columns.iter().position(|one| one.name.text == column)?;
        self.field_ask(table, self.row_of_key(table, key.trim_matches('"'))?, at).map(Ok)
    }

    /// One field of a table of this sheet.
    pub(in crate::session) fn field_ask(&self, table: &str, row: usize, at: usize) -> Option<Ask> {
        let shown = self.sheet.outcome()?.tables.iter().find(|one| one.name == table)?;
        let column = self.table(table)?.columns.get(at)?;
        let unit = shown.columns.get(at).map(|column| column.unit.clone()).unwrap_or_default();
        let target = match &self.table(table)?.from {
            Some(path) => Target::File {
                path: path.text.clone(),
                table: table.to_string(),
                row,
                column: column.name.text.clone(),
                header: column.header.as_ref().map(|header| header.text.clone()),
            },
            None => Target::Row { table: table.to_string(), row, column: at },
        };
        let column = column.name.text.as_str();
        let first = shown.columns.first();
        let key = first.and_then(|first| first.text.get(row)).map_or_else(String::new, |key| format!(" {key}"));
        let by = shown.columns.get(at).and_then(|column| column.by.clone());
        let by = by.map_or(String::new(), |by| format!(", by {by}"));
        let sort = match shown.columns.get(at).map(|column| column.kind) {
            Some(dewline_lang::outcome::Sort::Text) => Sort::Text,
            Some(dewline_lang::outcome::Sort::Flag) => Sort::Flag,
            Some(
                dewline_lang::outcome::Sort::Time
                | dewline_lang::outcome::Sort::Refrigerant
                | dewline_lang::outcome::Sort::Gas,
            ) => Sort::Other,
            _ => Sort::Number,
        };
        Some(Ask {
            name: format!("{table}[\"{}\"].{column}", key.trim_start()),
            stage: shown.stage.clone(),
            about: format!("{table}{key}: {column}{by}"),
            prompt: format!("{}: ", head(column, &unit)),
            unit: (!unit.is_empty()).then_some(unit),
            sort,
            target,
        })
    }

    /// How many rows a table has, once it has any.
    pub(in crate::session) fn rows_of(&self, table: &str) -> Option<usize> {
        let shown = self.sheet.outcome()?.tables.iter().find(|one| one.name == table)?;
        shown.columns.first().map(|first| first.text.len()).filter(|&rows| rows > 0 && !shown.pending)
    }

    /// The row of a key, as names show it.
    pub(in crate::session) fn row_of_key(&self, table: &str, key: &str) -> Option<usize> {
        let shown = self.sheet.outcome()?.tables.iter().find(|one| one.name == table)?;
        let first = shown.columns.first()?;
        let with_unit = |text: &String| format!("{text} {}", first.unit).trim_end().to_string();
        first.text.iter().position(|text| text == key || with_unit(text) == key)
    }

    /// A table as written.
    pub(in crate::session) fn table(&self, name: &str) -> Option<&Table> {
        self.sheet.statements().find_map(|one| match &one.kind {
            StatementKind::Table(table) if table.name.text == name => Some(table),
            _ => None,
        })
    }

    fn given(&self, slot: &SlotPlan, given: &GivenPlan, name: &str, target: Target) -> Ask {
        let plan = self.sheet.job.as_ref().map(|job| job.plan());
        let stage = slot.stage.and_then(|at| plan.and_then(|plan| plan.stages.get(at)));
        let stage = match &target {
            Target::Fill { fill, .. } => fill.clone(),
            _ => stage.map(|stage| stage.name.clone()).unwrap_or_default(),
        };
        let unit = self.unit_of(&slot.typing);
        let mut about = Vec::new();
        match (&unit, &slot.typing.kind) {
            (Some(unit), _) => about.push(format!("in {unit}")),
            (None, Kind::Text(_)) if given.choices.is_some() => {}
            (None, kind) => about.push(kind_words(kind).to_string()),
        }
        if let Some(choices) = &given.choices {
            about.push(format!("one of {}", choices.join(", ")));
        }
        if let Some((low, high)) = &given.within {
            about.push(format!("within {}", self.sheet.sources.slice(low.span.to(high.span))));
        }
        let stated = &slot.stated;
        about.extend(stated.by.as_ref().map(|by| format!("by {by}")));
        about.extend(stated.uncertainty.as_ref().map(|text| format!("± {}", text.trim_start_matches(['±', ' ']))));
        about.extend(stated.note.clone());
        let sort = match &slot.typing.kind {
            Kind::Text(_) => Sort::Text,
            Kind::Flag => Sort::Flag,
            Kind::Number | Kind::Quantity(_) => Sort::Number,
            _ => Sort::Other,
        };
        Ask {
            name: name.to_string(),
            stage,
            about: format!("{name}: {}", about.join(", ")),
            prompt: format!("{}: ", head(name, unit.as_deref().unwrap_or(""))),
            unit,
            sort,
            target,
        }
    }

    /// The unit that a value of this sort is asked in.
    fn unit_of(&self, typing: &Typing) -> Option<String> {
        if let Some(wish) = &typing.wish
            && let Some(unit) = wish.units.first().filter(|_| !wish.weak)
        {
            return Some(unit.text.clone());
        }
        let Kind::Quantity(quantity) = &typing.kind else { return None };
        use dewline_lang::kinds::Stance as Kinds;
        let stance = match quantity.stance {
            Kinds::Plain => Stance::Plain,
            Kinds::Point => Stance::Point,
            Kinds::Difference | Kinds::Unsaid => Stance::Difference,
            Kinds::FromZero => Stance::FromZero,
        };
        Some(default_unit(quantity.dimension, stance, self.units()).text)
    }
}

/// A thing to be said with yes or no.
fn confirmation(name: &str, label: &str, stage: String, target: Target) -> Ask {
    Ask {
        name: name.to_string(),
        stage,
        about: format!("confirm: {label}"),
        prompt: "yes or no: ".to_string(),
        unit: None,
        sort: Sort::Flag,
        target,
    }
}

fn head(name: &str, unit: &str) -> String {
    if unit.is_empty() { name.to_string() } else { format!("{name} [{unit}]") }
}

fn kind_words(kind: &Kind) -> &'static str {
    match kind {
        Kind::Number => "a number",
        Kind::Text(_) => "a text",
        Kind::Flag => "yes or no",
        Kind::Time => "a date or time, such as 2026-03-14T07:40",
        Kind::Refrigerant => "a refrigerant, such as R-32",
        Kind::Gas => "a gas, such as nitrogen",
        Kind::Quantity(_) | Kind::Record(_) | Kind::Unknown => "a value",
    }
}
