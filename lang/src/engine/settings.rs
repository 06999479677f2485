//! Values set from outside, and what else all sheets of a run share.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use super::block::{Block, Data};
use super::doubt::Doubt;
use super::fault::Fault;
use super::origins::Origins;
use crate::diagnostic::{Diagnostic, running, settings as codes};
use crate::host::Host;
use crate::library::Library;
use crate::limits;
use crate::outcome::FileOutcome;
use crate::plan::{AnswerPlan, FillBinding, Guard, Plan, SlotSource};
use crate::source::{FileId, Sources, Span};
use crate::suggest::did_you_mean;

/// Values set from outside.
#[derive(Debug, Clone, Default)]
pub struct Settings {
    /// In the order given; no two of one name.
    pub values: Vec<Setting>,
}

/// One value set from outside.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Setting {
    /// The full name of what is set.
    pub name: String,
    /// Its text, as typed.
    pub text: String,
    /// From where it was set, in words: the command line, or a row of which file.
    pub from: String,
}

impl From<Vec<(String, String)>> for Settings {
    fn from(values: Vec<(String, String)>) -> Settings {
        let setting = |(name, text)| Setting { name, text, from: "the command line".to_string() };
        Settings { values: values.into_iter().map(setting).collect() }
    }
}

/// What all sheets of a run share.
pub struct World<'a> {
    /// Files.
    pub host: &'a dyn Host,
    /// Functions, to check what is set from outside.
    pub library: &'a Library,
    /// Work done so far.
    pub work: Cell<u64>,
    /// Messages so far: unreadable files, unusable settings.
    pub diagnostics: RefCell<Vec<Diagnostic>>,
    /// Causes of doubt met so far.
    pub origins: RefCell<Origins>,
    /// Contributions to doubt kept so far.
    pub kept: Cell<usize>,
    /// Values held so far.
    held: Cell<usize>,
    /// Bytes of texts held so far.
    text_bytes: Cell<usize>,
    /// How checks are guarded: as the outermost sheet says.
    pub guard: Option<Guard>,
    /// What is set, each with the source it is shown under, in the order given.
    settings: Vec<(Setting, FileId)>,
    /// Where each stands among them.
    by_name: BTreeMap<String, usize>,
    /// Names of what met an input, with what the sheet has in its place.
    used: RefCell<BTreeMap<String, Option<String>>>,
    /// Data files that were read, by the full name of their table.
    files: RefCell<BTreeMap<String, FileOutcome>>,
}

impl<'a> World<'a> {
    /// Makes settings known; each becomes a source, so that messages can point into it.
    pub fn new(library: &'a Library, host: &'a dyn Host, settings: &Settings, sources: &mut Sources) -> World<'a> {
        let mut known: Vec<(Setting, FileId)> = Vec::new();
        let mut by_name: BTreeMap<String, usize> = BTreeMap::new();
        let mut diagnostics = Vec::new();
        for setting in &settings.values {
            let file = sources.add(format!("--set {}", setting.name), setting.text.as_str());
            let place = |file, setting: &Setting| Span::new(file, 0, setting.text.len());
            match by_name.get(&setting.name).and_then(|at| known.get(*at)) {
                None => {
                    by_name.insert(setting.name.clone(), known.len());
                    known.push((setting.clone(), file));
                }
                Some((first, first_file)) => diagnostics.push(
                    Diagnostic::error(
                        &codes::SET_TWICE,
                        format!("`{}` is set twice, and only one of the two can hold", setting.name),
                        place(file, setting),
                        format!("from {}", setting.from),
                    )
                    .with_label(place(*first_file, first), format!("first from {}", first.from))
                    .with_mend("leave one of them away"),
                ),
            }
        }
        World {
            host,
            library,
            work: Cell::new(0),
            diagnostics: RefCell::new(diagnostics),
            origins: RefCell::new(Origins::default()),
            kept: Cell::new(0),
            held: Cell::new(0),
            text_bytes: Cell::new(0),
            guard: None,
            settings: known,
            by_name,
            used: RefCell::new(BTreeMap::new()),
            files: RefCell::new(BTreeMap::new()),
        }
    }

    /// The same with checks guarded so.
    pub fn guarded(self, guard: Option<Guard>) -> World<'a> {
        World { guard, ..self }
    }

    /// A value to be kept; past the limit of what a run holds it is broken.
    pub fn keep(&self, block: Block, span: Span) -> Block {
        match self.hold(block.values(), block.text_bytes(), span) {
            Ok(()) => self.keep_doubt(block),
            Err(fault) => Block::broken(fault).spread(block.len()),
        }
    }

    /// Counts what is held.
    pub fn hold(&self, values: usize, text_bytes: usize, span: Span) -> Result<(), Fault> {
        self.held.set(self.held.get().saturating_add(values));
        self.text_bytes.set(self.text_bytes.get().saturating_add(text_bytes));
        let message = if self.held.get() > limits::VALUES {
            format!("this run holds more than {} values", limits::VALUES)
        } else if self.text_bytes.get() > limits::TEXTS_BYTES {
            format!("the texts of this run come to more than {} MiB", limits::TEXTS_BYTES / 1024 / 1024)
        } else {
            return Ok(());
        };
        Err(Fault::new(&running::TOO_MUCH_HELD, message, span))
    }

    /// A value whose doubt is to be kept; past the limit that is given up, and it is said.
    pub fn keep_doubt(&self, mut block: Block) -> Block {
        if let Data::Record(fields) = &mut block.data {
            for field in fields.iter_mut() {
                let one = std::mem::replace(field, Block::pending(0));
                *field = self.keep_doubt(one);
            }
        }
        let Some(doubt) = block.states.doubt() else { return block };
        let kept = self.kept.get().saturating_add(doubt.parts());
        if kept > limits::DOUBT {
            let lost = Doubt::lost(doubt.len());
            block.states = block.states.with_doubt(Some(Box::new(lost)));
        } else {
            self.kept.set(kept);
        }
        block
    }

    /// The text set for a name, with the source it is shown under. `instead` tells what the sheet has in its place.
    pub fn setting(&self, name: &str, instead: impl FnOnce() -> Option<String>) -> Option<(&str, FileId)> {
        let (setting, file) = self.settings.get(*self.by_name.get(name)?)?;
        let mut used = self.used.borrow_mut();
        // The site is asked for before all else, and once more in its turn.
        if !used.contains_key(name) {
            used.insert(name.to_string(), instead());
        }
        Some((&setting.text, *file))
    }

    /// What was set and met an input, in the order given, with what the sheet has in its place.
    pub fn set_values(&self) -> Vec<(Setting, Option<String>)> {
        let used = self.used.borrow();
        let found = self.settings.iter().map(|(setting, _)| setting);
        found.filter_map(|setting| Some((setting.clone(), used.get(&setting.name)?.clone()))).collect()
    }

    /// Remembers the file that a table was read from.
    pub fn has_read(&self, table: String, file: FileOutcome) {
        self.files.borrow_mut().insert(table, file);
    }

    /// The file that a table was read from.
    pub fn file_of(&self, table: &str) -> Option<FileOutcome> {
        self.files.borrow().get(table).cloned()
    }

    /// The path set for a table, with its place.
    pub fn table_setting(&self, name: &str, instead: impl FnOnce() -> Option<String>) -> Option<(String, Span)> {
        let (text, file) = self.setting(name, instead)?;
        Some((text.trim().trim_matches('"').to_string(), Span::new(file, 0, text.len())))
    }

    /// The answer set for a confirmation.
    pub fn answer(&self, name: &str, said: Option<bool>) -> Option<bool> {
        let instead = || said.map(|yes| if yes { "yes" } else { "no" }.to_string());
        let (text, file) = self.setting(name, instead)?;
        match text.trim() {
            "yes" => Some(true),
            "no" => Some(false),
            _ => {
                self.report(
                    Diagnostic::error(
                        &codes::BAD_SETTING,
                        "a confirmation is `yes` or `no`",
                        Span::new(file, 0, text.len()),
                        "",
                    )
                    .with_mend("write `yes` or `no`"),
                );
                None
            }
        }
    }

    /// Adds a message.
    pub fn report(&self, diagnostic: Diagnostic) {
        self.diagnostics.borrow_mut().push(diagnostic);
    }

    /// Reports settings that met no input.
    pub fn report_unused(&self, plan: &Plan) {
        let used = self.used.borrow();
        for (Setting { name, text, .. }, file) in &self.settings {
            if used.contains_key(name) {
                continue;
            }
            let span = Span::new(*file, 0, text.len());
            let is_cell =
                plan.slots.iter().any(|slot| slot.name == *name && matches!(slot.source, SlotSource::Formula(_)));
            if is_cell {
                self.report(
                    Diagnostic::error(&codes::SET_A_CELL, format!("`{name}` is computed and cannot be set"), span, "")
                        .with_mend("set one of the inputs or readings it is computed from"),
                );
                continue;
            }
            let names: Vec<String> = settable(plan).into_iter().map(|one| one.name).collect();
            let mut diagnostic =
                Diagnostic::error(&codes::UNKNOWN_SETTING, format!("the sheet has no input `{name}`"), span, "");
            diagnostic.mend = Some(match did_you_mean(name, names.iter().map(String::as_str)) {
                Some(near) => format!("did you mean `{near}`?"),
                None if names.is_empty() => "the sheet has nothing that can be set".into(),
                None => format!("it has {}", names.iter().take(12).cloned().collect::<Vec<_>>().join(", ")),
            });
            self.report(diagnostic);
        }
    }
}

/// An input, reading, open table or confirmation that can be set from outside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Open {
    /// Its full name.
    pub name: String,
    /// Neither the sheet nor what fills it gives it a value, and it may not stay away.
    pub is_open: bool,
}

/// Everything that can be set, that of filled sheets too.
pub fn settable(plan: &Plan) -> Vec<Open> {
    let mut all = Vec::new();
    add_settable(plan, "", &[], &[], &mut all);
    all
}

/// Fillings are bounded in depth.
fn add_settable(plan: &Plan, prefix: &str, bindings: &[FillBinding], handed: &[AnswerPlan], all: &mut Vec<Open>) {
    let mut add = |name: &str, is_open: bool| all.push(Open { name: format!("{prefix}{name}"), is_open });
    for (at, slot) in plan.slots.iter().enumerate() {
        if let SlotSource::Given(given) = &slot.source {
            let filled =
                bindings.iter().any(|binding| matches!(binding, FillBinding::Value { slot, .. } if *slot == at));
            add(&slot.name, given.values.is_empty() && !filled && !given.optional);
        }
    }
    for (at, table) in plan.tables.iter().enumerate().filter(|(_, table)| table.open && !table.used) {
        let filled = bindings.iter().any(|binding| matches!(binding, FillBinding::Table { table, .. } if *table == at));
        add(&table.name, !(filled || table.traits.optional || table.traits.may_be_empty && prefix.is_empty()));
    }
    for (at, confirm) in plan.confirmations.iter().enumerate() {
        let said = handed.iter().find(|one| one.way.is_empty() && one.confirm == at);
        let answered = confirm.said.answer.is_some() || said.is_some_and(|one| one.said.answer.is_some());
        add(&confirm.label, !answered);
    }
    for (at, fill) in plan.fills.iter().enumerate().filter(|(_, fill)| fill.each.is_none()) {
        let inner: Vec<AnswerPlan> = handed.iter().chain(&plan.answers).filter_map(|one| one.inside(at)).collect();
        add_settable(&fill.plan, &format!("{prefix}{}.", fill.name), &fill.bindings, &inner, all);
    }
}
