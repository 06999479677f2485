//! The names of one sheet: what each stands for, with every statement that computes or judges listed once.

use std::collections::BTreeMap;

use super::files::Files;
use crate::diagnostic::{Diagnostic, names as codes};
use crate::limits;
use crate::outcome::Role;
use crate::plan::Guard;
use crate::source::Span;
use crate::syntax::tree::{
    Cell, Chart, Check, Confirm, Define, Fill, Given, Instrument, Name, Sheet, Stage, Statement, StatementKind, Table,
    TextLiteral, UnitSystem, Waive, Words,
};

/// What a name of a sheet stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Entry {
    /// A single value: an index into [`Directory::items`].
    Value(usize),
    /// A table: an index into [`Directory::items`].
    Table(usize),
    /// A filled sheet: an index into [`Directory::items`].
    Fill(usize),
    /// A table of a used sheet: file and place in [`Directory::used_tables`].
    UsedTable(usize),
    /// The alias of a used sheet: an index into [`Directory::files`].
    Alias(usize),
    /// An instrument: an index into [`Directory::instruments`].
    Instrument(usize),
}

/// A statement that computes or judges something.
#[derive(Debug, Clone, Copy)]
pub struct Item<'a> {
    /// The stage it stands in.
    pub stage: Option<usize>,
    /// Its place.
    pub span: Span,
    /// What it is.
    pub kind: ItemKind<'a>,
}

/// What an item is.
#[derive(Debug, Clone, Copy)]
pub enum ItemKind<'a> {
    /// An input or reading.
    Given(&'a Given, Role),
    /// A cell.
    Cell(&'a Cell),
    /// A table.
    Table(&'a Table),
    /// A filled sheet.
    Fill(&'a Fill),
    /// A check outside a table.
    Check(&'a Check),
    /// A confirmation.
    Confirm(&'a Confirm),
    /// A waiver.
    Waive(&'a Waive),
    /// A note.
    Note(&'a TextLiteral),
    /// A chart.
    Chart(&'a Chart),
}

/// Where a sheet states its site: indices into its items.
#[derive(Debug, Clone, Copy, Default)]
pub struct Site {
    /// The height above the sea.
    pub altitude: Option<usize>,
    /// The pressure of the air.
    pub atmosphere: Option<usize>,
}

impl Site {
    /// Whether an item states it.
    pub fn is(self, item: usize) -> bool {
        [self.altitude, self.atmosphere].contains(&Some(item))
    }
}

/// The names of one sheet and of the sheets it uses.
#[derive(Debug, Default)]
pub struct Directory<'a> {
    /// The file it is made of.
    pub file: usize,
    /// Its title.
    pub title: Option<&'a Words>,
    /// Default units.
    pub system: Option<UnitSystem>,
    /// `decide guarded`
    pub guarded: Option<Guard>,
    /// The site.
    pub site: Site,
    /// Everything computed or judged, in order.
    pub items: Vec<Item<'a>>,
    /// Values, tables, fillings, instruments and aliases by name; `alias.name` for tables of a used sheet with alias.
    pub names: BTreeMap<String, Entry>,
    /// Definitions by name, `alias.name` for those of a used sheet with alias; with the file whose names they see.
    pub defines: BTreeMap<String, (usize, &'a Define)>,
    /// Instruments, those of used sheets too.
    pub instruments: Vec<&'a Instrument>,
    /// Tables of used sheets.
    pub used_tables: Vec<(usize, &'a Table)>,
    /// Files of used sheets, by alias entries.
    pub files: Vec<usize>,
    /// Stages in order.
    pub stages: Vec<&'a Stage>,
    /// Where each name was given.
    places: BTreeMap<String, Span>,
}

impl<'a> Directory<'a> {
    /// Gathers the names of a sheet and of those it uses.
    pub fn of(files: &'a Files, file: usize, diagnostics: &mut Vec<Diagnostic>) -> Directory<'a> {
        let mut directory = Directory { file, ..Directory::default() };
        let sheet: &'a Sheet = &files.list[file].tree;
        directory.gather(files, &sheet.statements, None, diagnostics);
        if directory.items.len().max(directory.names.len()) > limits::CELLS {
            diagnostics.push(Diagnostic::error(
                &codes::TOO_MANY_CELLS,
                format!("a sheet may have {} named values and checks; this one has more", limits::CELLS),
                sheet.statements.last().map_or_else(Span::default, |last| last.span),
                "",
            ));
            directory.items.truncate(0);
            directory.names.clear();
        }
        directory
    }

    /// Names near a misspelt one.
    pub fn candidates(&self) -> impl Iterator<Item = &str> {
        self.names.keys().map(String::as_str)
    }

    fn gather(
        &mut self,
        files: &'a Files,
        statements: &'a [Statement],
        stage: Option<usize>,
        diagnostics: &mut Vec<Diagnostic>,
    ) {
        for statement in statements {
            self.statement(files, statement, stage, diagnostics);
        }
    }

    fn statement(
        &mut self,
        files: &'a Files,
        statement: &'a Statement,
        stage: Option<usize>,
        diagnostics: &mut Vec<Diagnostic>,
    ) {
        let span = statement.span;
        let item = |directory: &mut Self, kind| {
            directory.items.push(Item { stage, span, kind });
            directory.items.len() - 1
        };
        match &statement.kind {
            StatementKind::Title(words) => self.once(self.title.is_some(), "sheet", span, diagnostics, |this| {
                this.title = Some(words);
            }),
            StatementKind::Units(system) => self.once(self.system.is_some(), "units", span, diagnostics, |this| {
                this.system = Some(*system);
            }),
            StatementKind::DecideGuarded(probability) => {
                self.guarded = Some(probability.map_or(Guard::Expanded, Guard::Probability));
            }
            StatementKind::SiteAltitude(given) | StatementKind::SiteAtmosphere(given) => {
                let altitude = matches!(statement.kind, StatementKind::SiteAltitude(_));
                let at = item(self, ItemKind::Given(given, Role::Input));
                let (before, what) = match altitude {
                    true => (self.site.altitude, "site altitude"),
                    false => (self.site.atmosphere, "site atmosphere"),
                };
                self.once(before.is_some(), what, span, diagnostics, |this| match altitude {
                    true => this.site.altitude = Some(at),
                    false => this.site.atmosphere = Some(at),
                });
            }
            StatementKind::Use(link) => {
                let Some(&target) = files.list[self.file].links.get(&link.path.text) else { return };
                let alias = link.alias.as_ref().map(|alias| alias.text.clone());
                if let Some(alias) = &link.alias {
                    self.files.push(target);
                    let entry = Entry::Alias(self.files.len() - 1);
                    self.name(alias, entry, diagnostics);
                }
                self.take_used(files, target, alias.as_deref(), link.path.span, diagnostics);
            }
            StatementKind::Fill(fill) => {
                let at = item(self, ItemKind::Fill(fill));
                self.name(&fill.name, Entry::Fill(at), diagnostics);
            }
            StatementKind::Instrument(instrument) => {
                self.instruments.push(instrument);
                self.name(&instrument.name, Entry::Instrument(self.instruments.len() - 1), diagnostics);
            }
            StatementKind::Input(given) => {
                let at = item(self, ItemKind::Given(given, Role::Input));
                self.name(&given.name, Entry::Value(at), diagnostics);
            }
            StatementKind::Reading(given) => {
                let at = item(self, ItemKind::Given(given, Role::Reading));
                self.name(&given.name, Entry::Value(at), diagnostics);
            }
            StatementKind::Cell(cell) => {
                let at = item(self, ItemKind::Cell(cell));
                self.name(&cell.name, Entry::Value(at), diagnostics);
            }
            StatementKind::Define(define) => self.define(define, None, self.file, diagnostics),
            StatementKind::Table(table) => {
                let at = item(self, ItemKind::Table(table));
                self.name(&table.name, Entry::Table(at), diagnostics);
            }
            StatementKind::Check(check) => drop(item(self, ItemKind::Check(check))),
            StatementKind::Confirm(confirm) => drop(item(self, ItemKind::Confirm(confirm))),
            StatementKind::Waive(waive) => drop(item(self, ItemKind::Waive(waive))),
            StatementKind::Note(text) => drop(item(self, ItemKind::Note(text))),
            StatementKind::Chart(chart) => drop(item(self, ItemKind::Chart(chart))),
            StatementKind::Stage(inner) => {
                if let Some(first) = self.stages.iter().find(|other| other.name.text == inner.name.text) {
                    diagnostics.push(
                        Diagnostic::error(
                            &codes::DOUBLE_STAGE,
                            format!("there are two stages \"{}\"", inner.name.text),
                            inner.name.span,
                            "again here",
                        )
                        .with_label(first.name.span, "first here")
                        .with_mend("give one of them another name"),
                    );
                }
                self.stages.push(inner);
                let index = self.stages.len() - 1;
                self.gather(files, &inner.statements, Some(index), diagnostics);
            }
            StatementKind::Unreadable => {}
        }
    }

    /// Definitions, instruments and tables of literals of a used sheet; anything else in it is an error there.
    fn take_used(
        &mut self,
        files: &'a Files,
        target: usize,
        alias: Option<&str>,
        at: Span,
        diagnostics: &mut Vec<Diagnostic>,
    ) {
        for statement in &files.list[target].tree.statements {
            match &statement.kind {
                StatementKind::Define(define) => self.define(define, alias, target, diagnostics),
                StatementKind::Instrument(instrument) => {
                    self.instruments.push(instrument);
                    let entry = Entry::Instrument(self.instruments.len() - 1);
                    self.name_as(qualified(alias, &instrument.name.text), instrument.name.span, entry, diagnostics);
                }
                StatementKind::Table(table) if is_literal(table) => {
                    self.used_tables.push((target, table));
                    let entry = Entry::UsedTable(self.used_tables.len() - 1);
                    self.name_as(qualified(alias, &table.name.text), table.name.span, entry, diagnostics);
                }
                StatementKind::Title(_) | StatementKind::Unreadable | StatementKind::Note(_) => {}
                StatementKind::Use(link) => {
                    if let Some(&further) = files.list[target].links.get(&link.path.text) {
                        let inner = link.alias.as_ref().map(|name| name.text.as_str());
                        let alias = match (alias, inner) {
                            (Some(outer), Some(inner)) => Some(format!("{outer}.{inner}")),
                            (one, other) => one.or(other).map(str::to_string),
                        };
                        self.take_used(files, further, alias.as_deref(), at, diagnostics);
                    }
                }
                _ => diagnostics.push(
                    Diagnostic::error(
                        &codes::NOT_USABLE,
                        "a sheet that is used may hold definitions, instruments and tables of literals only",
                        statement.span,
                        "this is something else",
                    )
                    .with_label(at, "used here")
                    .with_mend("fill the sheet instead of using it, or move its definitions to a sheet of their own"),
                ),
            }
        }
    }

    fn define(&mut self, define: &'a Define, alias: Option<&str>, home: usize, diagnostics: &mut Vec<Diagnostic>) {
        let name = qualified(alias, &define.name.text);
        if let Some((_, first)) = self.defines.get(&name) {
            // The same sheet reached on two ways is no clash.
            if first.name.span != define.name.span {
                diagnostics.push(twice(&name, define.name.span, first.name.span));
            }
            return;
        }
        self.defines.insert(name, (home, define));
    }

    fn name(&mut self, name: &Name, entry: Entry, diagnostics: &mut Vec<Diagnostic>) {
        self.name_as(name.text.clone(), name.span, entry, diagnostics);
    }

    fn name_as(&mut self, name: String, span: Span, entry: Entry, diagnostics: &mut Vec<Diagnostic>) {
        if let Some(&first) = self.places.get(&name) {
            if first != span {
                diagnostics.push(twice(&name, span, first));
            }
            return;
        }
        self.places.insert(name.clone(), span);
        self.names.insert(name, entry);
    }

    fn once(
        &mut self,
        already: bool,
        word: &str,
        span: Span,
        diagnostics: &mut Vec<Diagnostic>,
        set: impl FnOnce(&mut Self),
    ) {
        if already {
            diagnostics.push(Diagnostic::error(
                &codes::SAID_TWICE,
                format!("`{word}` is said twice in this sheet"),
                span,
                "again here",
            ));
        } else {
            set(self);
        }
    }
}

/// A table that is whole without any formula, file or value from outside.
pub fn is_literal(table: &Table) -> bool {
    table.from.is_none() && table.formulas.is_empty() && table.checks.is_empty() && !table.rows.is_empty()
}

fn qualified(alias: Option<&str>, name: &str) -> String {
    alias.map_or_else(|| name.to_string(), |alias| format!("{alias}.{name}"))
}

fn twice(name: &str, again: Span, first: Span) -> Diagnostic {
    Diagnostic::error(&codes::GIVEN_TWICE, format!("the name `{name}` is given twice"), again, "again here")
        .with_label(first, "first here")
        .with_mend("give one of them another name")
}
