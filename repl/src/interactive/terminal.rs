//! A session at a terminal: line editor, lines kept between starts, work kept through a crash.

use std::cell::{Cell, RefCell};
use std::collections::BTreeSet;
use std::path::PathBuf;
use std::rc::Rc;

use rustyline::error::ReadlineError;
use rustyline::history::FileHistory;
use rustyline::{ColorMode, CompletionType, Config, Editor};

use super::helper::Helper;
use super::journal::{Keeper, absolute, folder_of, lost};
use super::state;
use crate::console::Console;
use crate::problem::{Problem, Stop};
use crate::session::{Reply, Session};
use crate::words::{plain, width};

/// Lines kept.
const LINES: usize = 2_000;
/// Columns of a terminal that does not say how many it has.
const COLUMNS: usize = 80;

type Lines = Editor<Helper, FileHistory>;

/// Asks, answers and asks again until there is an end.
pub fn run(session: Session, console: &mut Console<'_>) -> Result<u8, Stop> {
    let folder = state::folder();
    let session = Rc::new(RefCell::new(session));
    let mut lines = editor(&session, console)?;
    let history = folder.as_ref().map(|folder| folder.join("lines"));
    if let Some(history) = &history {
        // A first start has none yet.
        let _ = lines.load_history(history);
    }
    let keeper = Keeper::new(folder.clone());
    let mut terminal = Terminal { session, lines, history, folder, keeper, console };
    if terminal.session.borrow().path().is_none() {
        terminal.out(concat!(
            "dewline ",
            env!("CARGO_PKG_VERSION"),
            ": type an expression or a definition; `help` tells more.\n"
        ))?;
    }
    terminal.offer_lost(true)?;
    terminal.talk()?;
    Ok(0)
}

fn editor(session: &Rc<RefCell<Session>>, console: &Console<'_>) -> Result<Lines, Problem> {
    let paint = console.out_paint;
    let config = Config::builder()
        .max_history_size(LINES)
        .and_then(|builder| builder.history_ignore_dups(true))
        .map_err(unusable)?
        .history_ignore_space(true)
        .completion_type(CompletionType::List)
        .auto_add_history(false)
        .color_mode(if paint.is_on() { ColorMode::Enabled } else { ColorMode::Disabled })
        .build();
    let mut lines = Lines::with_config(config).map_err(unusable)?;
    lines.set_helper(Some(Helper { session: Rc::clone(session), columns: Cell::new(COLUMNS), paint }));
    Ok(lines)
}

fn unusable(error: ReadlineError) -> Problem {
    Problem::new(format!("this terminal cannot be used: {error}"))
}

struct Terminal<'a, 'c> {
    session: Rc<RefCell<Session>>,
    lines: Lines,
    history: Option<PathBuf>,
    /// What is kept between starts.
    folder: Option<PathBuf>,
    keeper: Keeper,
    console: &'a mut Console<'c>,
}

impl Terminal<'_, '_> {
    fn talk(&mut self) -> Result<(), Stop> {
        let mut interrupts = 0;
        loop {
            let prompt = self.session.borrow().prompt();
            let at_rest = self.session.borrow().is_at_rest();
            let reply = match self.read(&prompt) {
                Ok(line) => {
                    interrupts = 0;
                    if at_rest {
                        self.remember(&line);
                    }
                    self.session.borrow_mut().answer(&line)
                }
                Err(ReadlineError::Interrupted) => {
                    interrupts += 1;
                    let mut reply = self.session.borrow_mut().interrupt();
                    if interrupts == 2 && at_rest {
                        reply.said.push_str("`quit` or Ctrl-D leaves.\n");
                    }
                    reply
                }
                Err(ReadlineError::Eof) => self.session.borrow_mut().end(),
                // The window has another size; the same is asked again.
                Err(ReadlineError::Signal(_)) => continue,
                // The terminal is gone; what is not saved stays written down.
                Err(_) => return Ok(()),
            };
            // First on the disk, then on the screen.
            let problem = self.keeper.follow(&self.session.borrow());
            self.tell(&reply)?;
            if let Some(problem) = problem {
                self.console.say(&problem.text());
            }
            if reply.opened {
                self.offer_lost(false)?;
            }
            if reply.leave {
                if self.session.borrow().is_unsaved() {
                    self.out("What is not saved is kept and offered at the next start.\n")?;
                }
                return Ok(());
            }
        }
    }

    fn read(&mut self, prompt: &str) -> Result<String, ReadlineError> {
        let columns = self.lines.dimensions().map_or(COLUMNS, |(columns, _)| usize::from(columns));
        if let Some(helper) = self.lines.helper() {
            helper.columns.set(columns.saturating_sub(width(prompt) + 1));
        }
        self.lines.readline(prompt)
    }

    fn remember(&mut self, line: &str) {
        if line.trim().is_empty() {
            return;
        }
        let _ = self.lines.add_history_entry(line.trim_end());
        if let Some(history) = &self.history {
            let _ = self.lines.append_history(history);
        }
    }

    /// Offers what a session that did not end well left behind of this sheet; at the start it tells of others too.
    fn offer_lost(&mut self, start: bool) -> Result<(), Stop> {
        let Some(folder) = &self.folder else { return Ok(()) };
        let all = lost(folder);
        let sheet = self.session.borrow().path().map(absolute);
        let now = self.session.borrow().saved().text.clone();
        let mut told = BTreeSet::new();
        for one in all {
            if one.sheet != sheet {
                if let Some(other) = one.sheet.as_ref().filter(|other| start && told.insert((*other).clone())) {
                    let other = plain(other).into_owned();
                    self.out(&format!("Unsaved work on \"{other}\" is kept; `open` that sheet to go on.\n"))?;
                }
                continue;
            }
            let what = one
                .sheet
                .as_deref()
                .map_or("a sheet without a file".to_string(), |sheet| format!("\"{}\"", plain(sheet)));
            self.out(&format!("Work on {what} was not saved when dewline ended last:\n"))?;
            let folder = folder_of(self.session.borrow().path()).to_string();
            let work = one.work.clone().with_files(|file| format!("{folder}{file}"));
            let mut lines = crate::session::different_lines(&one.saved, &work.text);
            lines.push_str(&self.session.borrow().field_lines(&work.fields));
            if lines.contains("\n  ! ") || lines.starts_with("  ! ") {
                lines.push_str("Data files were changed since: what is marked ! no longer stands on its row. It would stay in the\n");
                lines.push_str("session and out of its file, until it is typed again.\n");
            }
            self.out(&lines)?;
            if one.saved != now {
                self.out("The file itself was changed since; restoring brings back the older text with this work.\n")?;
            }
            match self.read("restore? yes, no (throws it away) or later: ").unwrap_or_default().trim() {
                "yes" | "y" => {
                    let reply = self.session.borrow_mut().restore(work);
                    // Written down anew before the old is thrown away.
                    let problem = self.keeper.follow(&self.session.borrow());
                    self.tell(&reply)?;
                    match problem {
                        None => one.forget(),
                        Some(problem) => self.console.say(&problem.text()),
                    }
                    return Ok(());
                }
                "no" | "n" => one.forget(),
                _ => self.out("Kept for later.\n")?,
            }
        }
        Ok(())
    }

    fn tell(&mut self, reply: &Reply) -> Result<(), Stop> {
        self.out(&reply.out)?;
        self.console.say(&reply.said);
        Ok(())
    }

    fn out(&mut self, text: &str) -> Result<(), Stop> {
        self.console.out.write_all(text.as_bytes())?;
        self.console.out.flush()?;
        Ok(())
    }
}
