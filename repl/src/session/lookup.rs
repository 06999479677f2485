//! The plain words: what is looked up, what is opened, saved and taken back.

use dewline_lang::diagnostic::Code;
use dewline_lang::source::Span;
use dewline_lang::suggest::did_you_mean;
use dewline_lang::syntax::tree::{ExprKind, StatementKind};
use dewline_lang::syntax::{FORMS, form, typed_system};
use dewline_lang::units::{self, UnitSystem};

use super::changes;
use super::edit::Edit;
use super::identity::{Identity, find, identity};
use super::sheet::Sheet;
use super::vocabulary::Said;
use super::work::Work;
use super::{Mode, Question, Reply, SAYINGS, Session};
use crate::command::{explain, functions, pt, refrigerants, units as unit_command, why};
use crate::console::Console;
use crate::problem::{Problem, Stop};
use crate::report::parts;
use crate::words::{hang, left, plain, width};

impl Session {
    /// Does what a plain word says.
    pub(super) fn said(&mut self, said: &Said) -> Reply {
        let rest = said.rest.as_str();
        match said.word {
            "help" => told(self.help(rest)),
            "units" => told(if rest.is_empty() { Ok(unit_words()) } else { unit_command::about(rest) }),
            "cells" => Reply::out(self.cells(rest)),
            "why" => self.why(rest),
            "pt" => self.pt(rest),
            "stages" => Reply::out(self.stages()),
            "take" => self.take(rest),
            "report" => self.report(),
            "text" => Reply::out(self.text(rest)),
            "remove" => self.remove(&unquoted(rest)),
            "undo" => self.undo(),
            "open" => self.open(&unquoted(rest)),
            "save" => self.save(&unquoted(rest)),
            _ => self.quit(),
        }
    }

    fn help(&self, name: &str) -> Result<String, Problem> {
        let name = name.trim().trim_matches('"');
        if name.is_empty() {
            return Ok(overview());
        }
        if functions::is_function(&self.library, name.trim_end_matches(['(', ')'])) {
            return functions::told(&self.library, Some(name));
        }
        if let Some(saying) = SAYINGS.iter().find(|saying| saying.word == name && name != "units") {
            let mut out = String::new();
            hang(&mut out, &format!("{} {}  ", saying.word, saying.takes), saying.does);
            return Ok(out);
        }
        if let Some(span) = find(&self.sheet.tree, &self.sheet.work.text, &Identity::Name(name.to_string())) {
            return Ok(self.about_own(name, span));
        }
        if let Some(form) = form(name) {
            return Ok(format!("{form}\n"));
        }
        if let Some(code) = Code::find(name) {
            return Ok(explain::about(code));
        }
        if units::find(name).is_some() {
            return unit_command::about(name);
        }
        if let Ok(refrigerant) = refrigerants::find(name) {
            return refrigerants::in_full(&refrigerant);
        }
        functions::told(&self.library, Some(name)).map_err(|_| {
            let problem = Problem::new(format!("there is nothing called \"{name}\""));
            let known = self.beginnings();
            match did_you_mean(name, known.iter().map(|one| one.shown.trim_end_matches('('))) {
                Some(near) => problem.with_mend(format!("did you mean `help {near}`?")),
                None => problem.with_mend("`help` lists the words; `help pressure` finds functions with that word"),
            }
        })
    }

    fn about_own(&self, name: &str, span: Span) -> String {
        let mut out = format!("{}\n", self.slice(span));
        let cells = self.sheet.outcome().map(|outcome| outcome.cells.as_slice()).unwrap_or_default();
        for cell in cells.iter().filter(|cell| cell.name == name || cell.name.starts_with(&format!("{name}."))) {
            let stage = if cell.stage.is_empty() { String::new() } else { format!("  (stage {})", plain(&cell.stage)) };
            hang(&mut out, &format!("  {} = ", plain(&cell.name)), &format!("{}{stage}", parts::value(cell)));
        }
        out
    }

    fn slice(&self, span: Span) -> &str {
        self.sheet.work.text.get(span.range()).unwrap_or("")
    }

    /// Values by stage; with a word only those that have it in their name.
    fn cells(&self, word: &str) -> String {
        let Some(outcome) = self.sheet.outcome() else {
            return "The sheet has errors; it has no values.\n".to_string();
        };
        let wanted: Vec<_> = outcome.cells.iter().filter(|cell| cell.name.contains(word)).collect();
        let tables: Vec<_> = outcome.tables.iter().filter(|table| table.name.contains(word)).collect();
        if wanted.is_empty() && tables.is_empty() {
            return if word.is_empty() { "No cells yet.\n".to_string() } else { format!("No cell with \"{word}\".\n") };
        }
        let mut out = String::new();
        let columns = wanted.iter().map(|cell| width(&cell.name)).max().unwrap_or(0).min(34);
        let mut stage = "";
        for cell in wanted {
            if cell.stage != stage {
                stage = &cell.stage;
                out.push_str(&format!("{}\n", self.paint.strong(&plain(stage))));
            }
            hang(&mut out, &format!("  {}  ", left(&plain(&cell.name), columns)), &parts::value(cell));
        }
        for table in tables {
            let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
            let rows =
                if table.pending { "rows to take".to_string() } else { crate::words::count(rows, "row", "rows") };
            hang(&mut out, &format!("  {}  ", left(&plain(&table.name), columns)), &format!("table, {rows}"));
        }
        out
    }

    /// What a bare name shows that is no single value: a table, a column, a filled sheet, an instrument.
    pub(super) fn whole(&self, line: &str, kind: &ExprKind) -> Option<String> {
        let outcome = self.sheet.outcome()?;
        let table = |name: &str| outcome.tables.iter().find(|table| table.name == name);
        match kind {
            ExprKind::Name(name) => {
                if let Some(table) = table(name) {
                    return Some(parts::table(outcome, table, self.paint));
                }
                let statement = self.sheet.statements().find(|one| {
                    identity(&one.kind, line) == Some(Identity::Name(name.clone()))
                        && matches!(one.kind, StatementKind::Fill(_) | StatementKind::Instrument(_))
                })?;
                Some(match statement.kind {
                    StatementKind::Fill(_) => self.cells(&format!("{name}.")),
                    _ => format!("{}\n", self.slice(statement.span)),
                })
            }
            ExprKind::Field(base, column) => {
                let ExprKind::Name(name) = &base.kind else { return None };
                let table = table(name)?;
                let mut shown = table.clone();
                let key = table.columns.first().map(|column| column.name.clone());
                let field = format!("{}.", column.text);
                shown.columns.retain(|one| {
                    one.name == column.text || one.name.starts_with(&field) || Some(&one.name) == key.as_ref()
                });
                let found = shown.columns.iter().any(|one| one.name == column.text || one.name.starts_with(&field));
                found.then(|| parts::table(outcome, &shown, self.paint))
            }
            _ => None,
        }
    }

    fn why(&self, name: &str) -> Reply {
        if name.is_empty() {
            return Reply::of(&Problem::new("why of what?").with_mend("name a cell: why over"));
        }
        let Some(run) = &self.sheet.run else {
            return Reply::refused("The sheet has errors; nothing was computed.\n");
        };
        match run.why(name) {
            Ok(found) => Reply::out(why::tree(&found)),
            Err(error) => Reply::refused(self.drawn(&run.sources, &[error])),
        }
    }

    fn pt(&self, rest: &str) -> Reply {
        let mut parts = rest.split_whitespace();
        let Some(refrigerant) = parts.next() else {
            return Reply::of(&Problem::new("of which refrigerant?").with_mend("write: pt R-410A"));
        };
        let mut numbers = Vec::new();
        for part in parts.filter(|part| !matches!(*part, "to" | ".." | "from")) {
            match part.parse::<i32>() {
                Ok(number) => numbers.push(number),
                Err(_) => {
                    let problem = Problem::new(format!("\"{part}\" is not a whole number of degrees"));
                    return Reply::of(&problem.with_mend("write: pt R-410A 20 60"));
                }
            }
        }
        let site = self.sheet.statements().find_map(|one| match &one.kind {
            StatementKind::SiteAltitude(given) | StatementKind::SiteAtmosphere(given) => given.values.first(),
            _ => None,
        });
        let arguments = pt::Arguments {
            refrigerant: refrigerant.to_string(),
            site: site.map(|value| self.slice(value.span).to_string()),
            ip: self.units() == UnitSystem::Ip,
            from: numbers.first().copied(),
            to: numbers.get(1).copied(),
            step: None,
        };
        let (mut out, mut said) = (Vec::new(), Vec::new());
        let done = pt::pt(&arguments, &mut Console::inside(&[], &mut out, &mut said));
        let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        match done {
            Ok(code) => Reply { out: text(&out), said: text(&said), refused: code == 2, ..Reply::default() },
            Err(Stop::Problem(problem)) => Reply::of(&problem),
            Err(Stop::OutputClosed) => Reply::default(),
        }
    }

    /// The unit system answers are in.
    pub(super) fn units(&self) -> UnitSystem {
        self.units_while("").unwrap_or(UnitSystem::Si)
    }

    /// The unit system while a line is typed, if anything says one: the sheet, the line, the lines before.
    pub(super) fn units_while(&self, typed: &str) -> Option<UnitSystem> {
        let stated = self.sheet.statements().find_map(|one| match one.kind {
            StatementKind::Units(system) => Some(system),
            _ => None,
        });
        stated.or_else(|| typed_system(typed)).or(self.system)
    }

    pub(super) fn stages(&self) -> String {
        let Some(outcome) = self.sheet.outcome() else {
            return "The sheet has errors; it has no stages.\n".to_string();
        };
        let (word, sentence) = parts::verdict(outcome);
        let mut out = String::new();
        if outcome.checks.is_empty() && outcome.confirmations.is_empty() && outcome.stages.is_empty() {
            return "Nothing is checked yet, and there is no stage.\n".to_string();
        }
        hang(&mut out, &format!("{word}  "), &sentence);
        out.push_str(&parts::stages(outcome, self.paint));
        out
    }

    fn report(&self) -> Reply {
        let Some(outcome) = self.sheet.outcome() else {
            return Reply::refused("The sheet has errors; nothing was computed.\n");
        };
        let look = crate::report::Look {
            format: crate::report::Format::Text,
            quiet: false,
            paint: self.paint,
            many: false,
            errors_seen: false,
        };
        let mut out = Vec::new();
        match crate::report::Reporter::new(&mut out, look).add("", outcome, &crate::report::Beside::NOTHING) {
            Ok(()) => Reply::out(String::from_utf8_lossy(&out)),
            Err(_) => Reply::default(),
        }
    }

    /// The sheet as written, or what is written of one name.
    fn text(&self, name: &str) -> String {
        let text = &self.sheet.work.text;
        if name.is_empty() {
            return if text.is_empty() { "Nothing is written yet.\n".to_string() } else { as_lines(text) };
        }
        let name = unquoted(name);
        match self.written_of(&name) {
            Some(span) => as_lines(self.slice(span)),
            None => format!("The sheet has nothing called \"{}\".\n", plain(&name)),
        }
    }

    /// The place of a definition, a stage, a check or a confirmation.
    fn written_of(&self, name: &str) -> Option<Span> {
        let owned = || name.to_string();
        let identities = [
            Identity::Name(owned()),
            Identity::Name(format!("{name}()")),
            Identity::Stage(owned()),
            Identity::Check(owned()),
            Identity::Confirm(owned()),
            Identity::Chart(owned()),
        ];
        identities.iter().find_map(|identity| find(&self.sheet.tree, &self.sheet.work.text, identity))
    }

    fn remove(&mut self, name: &str) -> Reply {
        match self.written_of(name) {
            Some(span) => {
                let edit = Edit::without(&self.sheet.work.text, span.range());
                self.take_in(edit, "")
            }
            None => Reply::of(&Problem::new(format!("the sheet has nothing called \"{name}\""))),
        }
    }

    fn undo(&mut self) -> Reply {
        let before = self.sheet.outcome().cloned();
        if !self.go_back() {
            return Reply::out("There is nothing to take back.\n");
        }
        let mut reply = Reply::out("Taken back.\n");
        if let Some(outcome) = self.sheet.outcome() {
            reply.out.push_str(&changes::told(before.as_ref(), outcome, &[], self.paint));
        }
        reply
    }

    /// Makes the state before the last change the sheet again, if there was one.
    pub(super) fn go_back(&mut self) -> bool {
        let Some(work) = self.past.pop() else { return false };
        self.sheet = Sheet::of(&self.library, &*self.host, &self.sheet.name, work);
        true
    }

    pub(super) fn open(&mut self, path: &str) -> Reply {
        if path.is_empty() {
            return Reply::of(&Problem::new("open which sheet?").with_mend("write: open job.dew"));
        }
        if self.is_unsaved() {
            self.mode = Mode::Asking(Question::Open(path.to_string()));
            return Reply::out("Work is not saved. Open the other sheet and lose it?\n");
        }
        self.open_now(path)
    }

    pub(super) fn open_now(&mut self, path: &str) -> Reply {
        self.load(path).unwrap_or_else(|problem| Reply::of(&problem))
    }

    /// Makes another sheet the one worked on.
    pub(super) fn load(&mut self, path: &str) -> Result<Reply, Problem> {
        let (host, document) = self.desk.open(path)?;
        let work = Work { text: document.text, fields: Vec::new() };
        self.host = host;
        self.sheet = Sheet::of(&self.library, &*self.host, &document.name, work.clone());
        self.on_file = self.desk.text(path);
        // A form of the library has no file: it is saved under a name of its own.
        self.path = self.on_file.is_some().then(|| path.to_string());
        self.saved = work;
        self.past.clear();
        let mut reply = Reply { said: self.sheet_messages(), opened: true, ..Reply::default() };
        if let Some(outcome) = self.sheet.outcome() {
            reply.out.push_str(&format!("{}\n", self.paint.strong(&plain(&outcome.sheet.title))));
            if outcome.checks.is_empty() && outcome.confirmations.is_empty() && outcome.stages.is_empty() {
                reply.out.push_str(&format!("{}\n", crate::words::count(outcome.cells.len(), "cell", "cells")));
            } else {
                reply.out.push_str(&self.stages());
            }
            // They are told with the report; here only those that a change brings.
            self.told.extend(outcome.assumptions.iter().chain(&outcome.cautions).cloned());
            if !outcome.cautions.is_empty() {
                let count = crate::words::count(outcome.cautions.len(), "caution belongs", "cautions belong");
                reply.out.push_str(&format!("{count} to it; `report` tells them.\n"));
            }
            if !outcome.to_take.is_empty() {
                reply.out.push_str("`take` asks for what is still to be taken.\n");
            }
        }
        Ok(reply)
    }

    pub(super) fn quit(&mut self) -> Reply {
        if self.is_unsaved() {
            self.mode = Mode::Asking(Question::Leave);
            let how = if self.path.is_some() { "`save` keeps it." } else { "`save job.dew` keeps it." };
            return Reply::out(format!("Work is not saved; {how} Leave and lose it?\n"));
        }
        Reply { leave: true, ..Reply::default() }
    }

    /// The answer to a question of yes or no.
    pub(super) fn decided(&mut self, question: Question, line: &str) -> Reply {
        let yes = match line.trim().to_lowercase().as_str() {
            "y" | "yes" => true,
            "n" | "no" | "" => false,
            _ => {
                self.mode = Mode::Asking(question);
                return Reply::refused("Answer with yes or no.\n");
            }
        };
        match question {
            _ if !yes => Reply::out("Nothing done.\n"),
            Question::Leave => {
                // What is let go on purpose is not offered again.
                self.saved = self.sheet.work.clone();
                Reply { leave: true, ..Reply::default() }
            }
            Question::Open(path) => self.open_now(&path),
            Question::Overwrite(path) => self.save_now(&path),
            Question::Part(path) => self.save_what_stands(&path),
        }
    }
}

fn told(text: Result<String, Problem>) -> Reply {
    match text {
        Ok(text) => Reply::out(text),
        Err(problem) => Reply::of(&problem),
    }
}

/// A text made fit for a terminal, line by line.
fn as_lines(text: &str) -> String {
    text.lines().map(|line| format!("{}\n", plain(&line.replace('\t', "    ")))).collect()
}

fn unquoted(text: &str) -> String {
    text.trim().trim_matches('"').to_string()
}

/// Unit words by what they measure.
fn unit_words() -> String {
    let mut out = String::new();
    let columns = units::all().iter().map(|group| width(group.name)).max().unwrap_or(0);
    for group in units::all() {
        let words: Vec<&str> = group.units.iter().map(|entry| entry.text).collect();
        hang(&mut out, &format!("{}  ", left(group.name, columns)), &words.join(" "));
    }
    out
}

fn overview() -> String {
    let mut out = String::from(
        "Type an expression to compute it: superheat(R-410A, 118 psig, 55 degF)\n\
         Type a definition to keep it:     suction = 118 psig\n\
         Type it again to change it; what depends on it is computed anew. A column or a\n\
         field of a table too:             rise.pressure = 312, 341, 352\n\
         \x20                                 indoor[\"F-02\"].pipe = 58.5\n\
         `last` is the last answer. Tab completes. Ctrl-C abandons a line, Ctrl-D leaves.\n\n",
    );
    for saying in SAYINGS {
        hang(&mut out, &format!("  {}", left(&format!("{} {}", saying.word, saying.takes), 27)), saying.does);
    }
    let words: Vec<&str> = FORMS.iter().map(|(word, _)| *word).filter(|word| *word != "end").collect();
    out.push('\n');
    hang(&mut out, "  statements  ", &format!("{}. `help reading` shows how one is written.", words.join(" ")));
    out
}
