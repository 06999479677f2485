//! One line: told apart, and what comes of it.

use dewline_lang::diagnostic::{Diagnostic, Severity, names as name_codes};
use dewline_lang::source::{FileId, Sources};
use dewline_lang::suggest::did_you_mean;
use dewline_lang::syntax::tree::ExprKind;
use dewline_lang::syntax::{Class, form, parse, parse_expression, typed_system, wants_more, words};
use dewline_lang::units::UnitSystem;

use super::edit::{Edit, edit};
use super::evaluate::{Around, Evaluated, mentions_last, without_last, written_out};
use super::identity::{Identity, find};
use super::quote::{Quoted, TYPED};
use super::sheet::Sheet;
use super::work::Work;
use super::{Field, Reply, SAYINGS, Session, UNDO, changes, vocabulary};
use crate::draw::draw;
use crate::words::{hang, left, plain, width};

/// How a sheet without a file is called.
pub const UNNAMED: &str = "session";

impl Session {
    /// One line, or several put in at once: definitions that may name one another are taken in together, anything else
    /// one after another.
    pub(super) fn lines(&mut self, typed: &str) -> Reply {
        let pieces = pieces(typed);
        if pieces.len() < 2 || reads_as_statements(typed) {
            return self.line(typed);
        }
        let mut whole = Reply::default();
        for piece in pieces {
            let reply = self.answer(&piece);
            whole.out.push_str(&reply.out);
            whole.said.push_str(&reply.said);
            whole.refused |= reply.refused;
            whole.opened |= reply.opened;
            if reply.leave {
                whole.leave = true;
                break;
            }
        }
        whole
    }

    /// A word, a statement or an expression.
    fn line(&mut self, line: &str) -> Reply {
        let line = line.trim();
        if line.is_empty() || words(line).iter().all(|word| word.class == Class::Comment) {
            return Reply::default();
        }
        // A sheet's own names win, so that a word added later never hides one.
        if let Some(said) = vocabulary::said(line).filter(|said| !(said.rest.is_empty() && self.has_value(line))) {
            return self.said(&said);
        }
        self.system = typed_system(line).or(self.system);
        if let Some(reply) = self.column_line(line) {
            return reply;
        }
        let (expression, diagnostics) = parse_expression(FileId::default(), line);
        match expression {
            Some(expression) if diagnostics.is_empty() => self.expression(line, &expression.kind),
            _ if looks_like_a_statement(line) => self.statement(line),
            _ => self.draw_typed(line, &diagnostics),
        }
    }

    /// Whether the sheet has something of this name.
    fn has_value(&self, name: &str) -> bool {
        find(&self.sheet.tree, &self.sheet.work.text, &Identity::Name(name.to_string())).is_some()
    }

    /// What stands round an expression now.
    pub(super) fn around(&self) -> Around<'_> {
        Around {
            library: &self.library,
            host: &*self.host,
            sheet: &self.sheet,
            last: self.last.as_deref(),
            system: self.system,
        }
    }

    fn expression(&mut self, line: &str, kind: &ExprKind) -> Reply {
        if let Some(shown) = self.whole(line, kind) {
            return Reply::out(shown);
        }
        let mut evaluated = self.around().evaluate(line);
        if evaluated.parts.is_empty() {
            self.mind_words(line, &mut evaluated.diagnostics);
            return Reply::refused(self.drawn(&evaluated.sources, &evaluated.diagnostics));
        }
        // What the answer was made of may hold the answer before it.
        let typed = self.last.as_deref().map_or(line.to_string(), |last| without_last(line, last));
        if let Some(last) = written_out(&evaluated.parts, &typed) {
            self.last = Some(last);
        }
        let mut reply = Reply::out(self.shown(&evaluated));
        if self.sheet.errors() > 0 {
            reply.said.push_str("The sheet has errors; this was computed without it.\n");
        }
        reply.said.push_str(&self.remarks(&evaluated.assumptions, &evaluated.cautions));
        reply
    }

    fn shown(&self, evaluated: &Evaluated) -> String {
        let columns = evaluated.parts.iter().map(|part| width(&part.field)).max().unwrap_or(0);
        let mut out = String::new();
        for part in &evaluated.parts {
            let lead = if part.field.is_empty() { String::new() } else { format!("{}  ", left(&part.field, columns)) };
            let value = match &part.cell.shown {
                Some(shown) => self.paint.strong(&plain(&shown.text)),
                None if part.cell.pending => self.paint.wait("not known yet"),
                None => "(absent)".to_string(),
            };
            let doubt = part.cell.uncertainty.as_ref().filter(|one| one.expanded > 0.0);
            let doubt = doubt.map_or_else(String::new, |one| format!("  (± {})", plain(&one.shown.text)));
            out.push_str(&format!("{lead}{value}{doubt}\n"));
        }
        if !evaluated.waits_for.is_empty() {
            hang(&mut out, "  waits for ", &crate::words::list(&evaluated.waits_for, 6));
        }
        out
    }

    /// Assumptions and cautions, each once a session.
    fn remarks(&mut self, assumptions: &[String], cautions: &[String]) -> String {
        let mut out = String::new();
        for (word, texts) in [("Assumed: ", assumptions), ("Caution: ", cautions)] {
            for text in texts {
                if self.told.insert(text.clone()) {
                    hang(&mut out, word, text);
                }
            }
        }
        out
    }

    /// A word that is mistyped is no unknown name alone.
    fn mind_words(&self, line: &str, diagnostics: &mut [Diagnostic]) {
        let first = line.split(char::is_whitespace).next().unwrap_or("");
        let Some(near) = did_you_mean(first, SAYINGS.iter().map(|saying| saying.word)) else { return };
        for one in diagnostics.iter_mut().filter(|one| one.code.id == name_codes::UNKNOWN_NAME.id) {
            if one.mend.is_none() && one.span().start == 0 {
                one.mend = Some(format!("did you mean the word `{near}`? `help` lists them"));
            }
        }
    }

    pub(super) fn draw_typed(&self, line: &str, diagnostics: &[Diagnostic]) -> Reply {
        let mut diagnostics = diagnostics.to_vec();
        self.mind_words(line, &mut diagnostics);
        let mut sources = Sources::default();
        sources.add(TYPED, line);
        Reply::refused(self.drawn(&sources, &diagnostics))
    }

    fn statement(&mut self, line: &str) -> Reply {
        let own = self.has_value("last");
        let typed = match &self.last {
            Some(last) if !own && mentions_last(line) => without_last(line, last),
            _ => line.to_string(),
        };
        match edit(&self.sheet.work.text, &typed) {
            Ok(edit) => self.take_in(edit, &typed),
            Err(diagnostics) => self.draw_typed(&typed, &diagnostics),
        }
    }

    /// Makes a changed text the sheet, unless the change is a mistake; then nothing is changed.
    pub(super) fn take_in(&mut self, edit: Edit, typed: &str) -> Reply {
        let fields = self.sheet.work.fields.clone();
        self.take_in_with(edit, fields, typed)
    }

    /// The same with these fields of data files.
    pub(super) fn take_in_with(&mut self, mut edit: Edit, fields: Vec<Field>, typed: &str) -> Reply {
        let mut words_of_ours = String::new();
        if self.path.is_none()
            && self.sheet.work.text.trim().is_empty()
            && self.system == Some(UnitSystem::Ip)
            && !edit.touched.contains(&Identity::Units)
        {
            // A sheet begun with US units goes on in them, and says so itself.
            edit.replace(0..0, "units IP\n", 0..0, 0);
            edit.quotes.pop();
            words_of_ours = "units IP (since US units were typed)\n".to_string();
        }
        let work = Work { text: edit.text, fields };
        let next = Sheet::of(&self.library, &*self.host, &self.sheet.name, work);
        let quoted = Quoted { typed, quotes: &edit.quotes };
        if let Some(said) = self.mistakes(&next, &quoted) {
            return Reply::refused(said);
        }
        let mut reply = Reply::out(words_of_ours);
        let names: Vec<String> = edit.touched.iter().filter_map(name_of).collect();
        if let Some(outcome) = next.outcome() {
            reply.out.push_str(&changes::told(self.sheet.outcome(), outcome, &names, self.paint));
            let (assumptions, cautions) = (outcome.assumptions.clone(), outcome.cautions.clone());
            reply.said.push_str(&self.new_advice(&next));
            reply.said.push_str(&self.remarks(&assumptions, &cautions));
        }
        if reply.out.is_empty() {
            reply.out.push_str(if self.sheet.work == next.work { "as before\n" } else { "taken in\n" });
        }
        reply.said.push_str(&self.new_trouble(&next, &quoted));
        if next.seen.adrift != self.sheet.seen.adrift {
            reply.said.push_str(&super::meanwhile::adrift_lines(&next.seen.adrift));
        }
        self.step_to(next);
        reply
    }

    /// Why a change is refused: an error in what was typed, or one that it makes elsewhere in a sheet that had none.
    fn mistakes(&self, next: &Sheet, quoted: &Quoted<'_>) -> Option<String> {
        let errors = || next.diagnostics.iter().filter(|one| one.severity == Severity::Error);
        let running = next.run_diagnostics().iter();
        let mine: Vec<Diagnostic> = errors().chain(running).filter(|one| quoted.blames(one)).cloned().collect();
        let elsewhere = next.errors() > self.sheet.errors();
        let shown = match (mine.is_empty(), elsewhere) {
            (true, false) => return None,
            (true, true) => errors().cloned().collect(),
            (false, _) => mine,
        };
        let (sources, diagnostics) = quoted.moved(&next.sources, &shown);
        let mut said = self.drawn(&sources, &diagnostics);
        said.push_str("Nothing was changed.\n");
        Some(said)
    }

    /// Errors that a change made elsewhere while running.
    fn new_trouble(&self, next: &Sheet, quoted: &Quoted<'_>) -> String {
        let old = self.sheet.run_diagnostics();
        let is_new = |one: &&Diagnostic| {
            one.severity == Severity::Error
                && !old.iter().any(|old| old.code.id == one.code.id && old.message == one.message)
        };
        let new: Vec<Diagnostic> = next.run_diagnostics().iter().filter(is_new).take(5).cloned().collect();
        let mut said = String::new();
        if !new.is_empty() {
            let (sources, diagnostics) = quoted.moved(&next.sources, &new);
            said.push_str(&self.drawn(&sources, &diagnostics));
        }
        if next.errors() > 0 {
            said.push_str(&format!(
                "{} left; until they are mended nothing is computed.\n",
                crate::words::count(next.errors(), "error", "errors")
            ));
        }
        said
    }

    fn new_advice(&self, next: &Sheet) -> String {
        let old = self.sheet.outcome().map(|outcome| outcome.advice.as_slice()).unwrap_or_default();
        let mut out = String::new();
        for text in next.outcome().iter().flat_map(|outcome| &outcome.advice).filter(|text| !old.contains(text)) {
            hang(&mut out, "Advice: ", text);
        }
        out
    }

    /// Makes this the sheet; the one before can be had back.
    pub(super) fn step_to(&mut self, next: Sheet) {
        if next.work != self.sheet.work {
            if self.past.len() == UNDO {
                self.past.remove(0);
            }
            self.past.push(self.sheet.work.clone());
        }
        self.sheet = next;
    }

    /// Checks and runs another state of the work and makes it the sheet.
    pub(super) fn become_work(&mut self, work: Work) {
        let next = Sheet::of(&self.library, &*self.host, &self.sheet.name, work);
        self.step_to(next);
    }

    /// Messages as drawn; more about them is asked for in the session's own words.
    pub(super) fn drawn(&self, sources: &Sources, diagnostics: &[Diagnostic]) -> String {
        draw(sources, diagnostics, self.paint).replace("dewline explain", "help")
    }

    /// The messages about the sheet as it stands.
    pub(super) fn sheet_messages(&self) -> String {
        let sheet = &self.sheet;
        let all: Vec<Diagnostic> = sheet.diagnostics.iter().chain(sheet.run_diagnostics()).cloned().collect();
        let mut said = if all.is_empty() { String::new() } else { self.drawn(&sheet.sources, &all) };
        if sheet.errors() > 0 {
            said.push_str("Until these are mended nothing of the sheet is computed.\n");
        }
        said
    }
}

/// Lines that belong together.
fn pieces(typed: &str) -> Vec<String> {
    let mut pieces = Vec::new();
    let mut piece = String::new();
    for line in typed.lines() {
        if !piece.is_empty() {
            piece.push('\n');
        }
        piece.push_str(line);
        if !wants_more(&piece) {
            pieces.push(std::mem::take(&mut piece));
        }
    }
    if !piece.is_empty() {
        pieces.push(piece);
    }
    pieces.retain(|piece| !piece.trim().is_empty());
    pieces
}

fn reads_as_statements(typed: &str) -> bool {
    parse(FileId::default(), typed).diagnostics.is_empty()
}

/// The name under which what was typed is told.
fn name_of(identity: &Identity) -> Option<String> {
    match identity {
        Identity::Name(name) => Some(name.clone()),
        Identity::Site => Some("site".to_string()),
        _ => None,
    }
}

/// Whether a line that is no expression was meant as a statement.
fn looks_like_a_statement(line: &str) -> bool {
    let list = words(line);
    let text = |at: usize| list.get(at).and_then(|word| line.get(word.range.clone())).unwrap_or("");
    let keyword = list.first().is_some_and(|word| word.class == Class::Keyword);
    keyword && form(text(0)).is_some() || matches!(text(1), "=" | ":") || reads_as_statements(line)
}
