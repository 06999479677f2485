//! The interactive session without its terminal: a state, a line in, an answer out.
//!
//! ```text
//! line ─► a plain word, a statement or an expression ─► the sheet edited, checked, run ─► what changed, in words
//! ```

mod changes;
mod column;
mod desk;
mod edit;
mod evaluate;
mod field;
mod given;
mod help;
mod identity;
mod lines;
mod lookup;
mod meanwhile;
mod quote;
mod save;
mod sheet;
mod take;
mod vocabulary;
mod work;

#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use dewline_lang::host::Host;
use dewline_lang::library::Library;
use dewline_lang::outcome::JobVerdict;
use dewline_lang::syntax::wants_more;
use dewline_lang::units::UnitSystem;

use self::sheet::Sheet;
use self::take::Taking;
use crate::paint::Paint;
use crate::problem::Problem;
use crate::words::{count, plain};

pub use desk::Desk;
pub use field::Field;
pub use help::coloured;
use vocabulary::SAYINGS;
pub use work::Work;

/// Lines of a text that another does not have, marked with `-` and `+`; of many the first. How far words stand apart is no
/// difference.
pub fn different_lines(old: &str, new: &str) -> String {
    const MOST: usize = 12;
    let words = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(" ");
    let only = |lines: &str, others: &str, mark: &str| -> Vec<String> {
        let others: BTreeSet<String> = others.lines().map(words).collect();
        let mine = lines.lines().filter(|line| !line.trim().is_empty() && !others.contains(&words(line)));
        mine.map(|line| format!("  {mark} {}\n", plain(line.trim()))).collect()
    };
    let mut all = only(old, new, "-");
    all.extend(only(new, old, "+"));
    let more = all.len().saturating_sub(MOST);
    all.truncate(MOST);
    if more > 0 {
        all.push(format!("  and {}\n", count(more, "more line", "more lines")));
    }
    all.concat()
}

/// Changes that can be taken back.
const UNDO: usize = 200;

/// A sheet being worked on, line by line.
pub struct Session {
    library: Library,
    desk: Box<dyn Desk>,
    host: Box<dyn Host>,
    paint: Paint,
    sheet: Sheet,
    /// Where it is saved; not yet anywhere.
    path: Option<String>,
    /// As it was opened or saved last.
    saved: Work,
    /// The text of its file as last read or written, to notice when someone else writes it.
    on_file: Option<String>,
    past: Vec<Work>,
    /// What `last` stands for.
    last: Option<String>,
    /// The unit system of what was typed last.
    system: Option<UnitSystem>,
    /// Cautions and assumptions told already.
    told: BTreeSet<String>,
    mode: Mode,
}

/// What the next line is taken for.
enum Mode {
    /// A word, a statement or an expression.
    Lines,
    /// The answer to what is to be taken.
    Taking(Box<Taking>),
    /// Yes or no.
    Asking(Question),
}

/// What a yes or no is about.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Question {
    /// Work is not saved, and the session is to end.
    Leave,
    /// Work is not saved, and another sheet is to be opened.
    Open(String),
    /// There is a file of this name already, or it was written by someone else meanwhile.
    Overwrite(String),
    /// Fields that were typed no longer stand on their rows, and the rest is to be saved without them.
    Part(String),
}

/// What comes of a line.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub struct Reply {
    /// Answers.
    pub out: String,
    /// Messages.
    pub said: String,
    /// The line could not be used.
    pub refused: bool,
    /// Another sheet was opened.
    pub opened: bool,
    /// The session is over.
    pub leave: bool,
}

impl Reply {
    fn out(text: impl Into<String>) -> Reply {
        Reply { out: text.into(), ..Reply::default() }
    }

    fn refused(said: impl Into<String>) -> Reply {
        Reply { said: said.into(), refused: true, ..Reply::default() }
    }

    fn of(problem: &Problem) -> Reply {
        Reply::refused(problem.text())
    }
}

impl Session {
    /// Begins without a sheet.
    pub fn new(library: Library, desk: Box<dyn Desk>, paint: Paint) -> Result<Session, Problem> {
        let host = desk.around(None)?;
        let sheet = Sheet::of(&library, &*host, lines::UNNAMED, Work::default());
        Ok(Session {
            library,
            desk,
            host,
            paint,
            sheet,
            path: None,
            saved: Work::default(),
            on_file: None,
            past: Vec::new(),
            last: None,
            system: None,
            told: BTreeSet::new(),
            mode: Mode::Lines,
        })
    }

    /// Takes a line, or several that belong together.
    pub fn answer(&mut self, line: &str) -> Reply {
        match std::mem::replace(&mut self.mode, Mode::Lines) {
            Mode::Lines => self.lines(line),
            Mode::Taking(taking) => self.taken(*taking, line),
            Mode::Asking(question) => self.decided(question, line),
        }
    }

    /// Whether what was typed so far waits for more lines.
    pub fn wants_more(&self, typed: &str) -> bool {
        matches!(self.mode, Mode::Lines) && vocabulary::said(typed).is_none() && wants_more(typed)
    }

    /// What stands before the next line.
    pub fn prompt(&self) -> String {
        match &self.mode {
            Mode::Lines => "> ".to_string(),
            Mode::Taking(taking) => taking.prompt(),
            Mode::Asking(_) => "yes or no? ".to_string(),
        }
    }

    /// The line was abandoned: a question is no longer asked.
    pub fn interrupt(&mut self) -> Reply {
        match std::mem::replace(&mut self.mode, Mode::Lines) {
            Mode::Lines => Reply::default(),
            Mode::Taking(taking) => self.end_taking(&taking, true),
            Mode::Asking(_) => Reply::out("Nothing done.\n"),
        }
    }

    /// There are no more lines. While work is not saved that is asked about first.
    pub fn end(&mut self) -> Reply {
        match std::mem::replace(&mut self.mode, Mode::Lines) {
            Mode::Taking(taking) => self.end_taking(&taking, true),
            Mode::Asking(Question::Leave) => Reply { leave: true, ..Reply::default() },
            _ => self.quit(),
        }
    }

    /// What could be lost.
    pub fn work(&self) -> &Work {
        &self.sheet.work
    }

    /// As it was opened or saved last.
    pub fn saved(&self) -> &Work {
        &self.saved
    }

    /// Where the sheet is saved.
    pub fn path(&self) -> Option<&str> {
        self.path.as_deref()
    }

    /// Nothing is being asked.
    pub fn is_at_rest(&self) -> bool {
        matches!(self.mode, Mode::Lines)
    }

    /// A question of yes or no is open.
    pub fn is_asking(&self) -> bool {
        matches!(self.mode, Mode::Asking(_))
    }

    /// Opens the sheet that a session begins with.
    pub fn open_first(&mut self, path: &str) -> Result<Reply, Problem> {
        self.load(path)
    }

    /// Whether leaving would lose something.
    pub fn is_unsaved(&self) -> bool {
        self.sheet.work != self.saved
    }

    /// Goes on with work that was not saved.
    pub fn restore(&mut self, work: Work) -> Reply {
        self.become_work(work);
        let errors = self.sheet_messages();
        Reply { out: "Restored. It is not saved yet.\n".to_string(), said: errors, ..Reply::default() }
    }

    /// The exit code that the sheet as it stands deserves; without checks it is 0.
    pub fn exit_code(&self) -> u8 {
        match self.sheet.outcome() {
            Some(outcome) if self.sheet.name != lines::UNNAMED => outcome.verdict.exit_code(),
            Some(_) => 0,
            None => JobVerdict::Unusable.exit_code(),
        }
    }
}
