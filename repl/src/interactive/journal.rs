//! Work not saved, written down change by change, so that a crash or a lost terminal takes nothing with it.
//!
//! A journal is a file of lines of JSON: first the sheet and its text as saved last, then one line a change. Each is on the
//! disk before the next prompt. A living session holds a lock on its own; one without a lock is left from a session that
//! did not end well.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use super::state::private;
use crate::problem::{Problem, said};
use crate::session::{Field, Session, Work};

const ENDING: &str = "journal";

/// Keeps the journal of one session.
#[derive(Default)]
pub struct Keeper {
    folder: Option<PathBuf>,
    open: Option<Journal>,
    /// That nothing can be written down has been told.
    told: bool,
}

struct Journal {
    file: File,
    path: PathBuf,
    /// As it was saved last when this was begun.
    saved: Work,
    /// As written down so far.
    work: Work,
    /// The folder of the sheet, which is no part of the names of its files here: the next start may be in another.
    folder: String,
}

impl Keeper {
    /// Keeps journals in a folder; without one nothing is kept.
    pub fn new(folder: Option<PathBuf>) -> Keeper {
        Keeper { folder, ..Keeper::default() }
    }

    /// Writes down what has changed; clears away what has been saved. A problem is told once.
    pub fn follow(&mut self, session: &Session) -> Option<Problem> {
        if !session.is_unsaved() {
            self.clear();
            return None;
        }
        let done = self.write_down(session);
        match done {
            Err(error) if !self.told => {
                self.told = true;
                let message = format!("what is not saved cannot be written down: {}", said(&error));
                Some(Problem::new(message).with_mend("save often: a crash would lose it"))
            }
            _ => None,
        }
    }

    /// Throws the journal away.
    pub fn clear(&mut self) {
        if let Some(journal) = self.open.take() {
            let _ = fs::remove_file(&journal.path);
        }
    }

    fn write_down(&mut self, session: &Session) -> io::Result<()> {
        let Some(folder) = &self.folder else { return Err(io::Error::other("there is no folder for it")) };
        // What was saved but for a part is begun anew; the old one goes when the new one holds all.
        let old = self.open.take_if(|journal| journal.saved != *session.saved());
        let journal = match &mut self.open {
            Some(journal) => journal,
            None => self.open.insert(Journal::begin(folder, session)?),
        };
        journal.follow(session.work())?;
        if let Some(old) = old {
            fs::remove_file(&old.path)?;
        }
        Ok(())
    }
}

impl Journal {
    fn begin(folder: &Path, session: &Session) -> io::Result<Journal> {
        let mut number = 1;
        let (file, path) = loop {
            let path = folder.join(format!("work-{number}.{ENDING}"));
            match private().write(true).create_new(true).open(&path) {
                Ok(file) => break (file, path),
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists && number < 10_000 => number += 1,
                Err(error) => return Err(error),
            }
        };
        // Without locks (some network folders have none) another session may offer this one's work; it is then only told
        // twice.
        let _ = file.try_lock();
        let saved = session.saved().clone();
        let folder = folder_of(session.path()).to_string();
        let mut journal = Journal { file, path, work: saved.clone(), saved, folder };
        let sheet = session.path().map(absolute);
        journal.line(&json!({"sheet": sheet, "text": session.saved().text}))?;
        Ok(journal)
    }

    fn follow(&mut self, work: &Work) -> io::Result<()> {
        if *work == self.work {
            return Ok(());
        }
        let (at, cut, put) = difference(&self.work.text, &work.text);
        let bare = |file: &str| file.strip_prefix(&self.folder).unwrap_or(file).to_string();
        let fields: Vec<Value> = work.clone().with_files(bare).fields.iter().map(Field::to_json).collect();
        self.line(&json!({"at": at, "cut": cut, "put": put, "fields": fields}))?;
        self.work = work.clone();
        Ok(())
    }

    fn line(&mut self, value: &Value) -> io::Result<()> {
        self.file.write_all(format!("{value}\n").as_bytes())?;
        self.file.sync_data()
    }
}

/// Work that a session left behind.
pub struct Lost {
    /// The sheet, by its whole path.
    pub sheet: Option<String>,
    /// Its text as it was saved last.
    pub saved: String,
    /// What was worked on.
    pub work: Work,
    path: PathBuf,
    /// Held, so that no other session offers it too.
    _file: File,
}

impl Lost {
    /// Throws it away.
    pub fn forget(self) {
        let _ = fs::remove_file(&self.path);
    }
}

/// All work left behind.
pub fn lost(folder: &Path) -> Vec<Lost> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == ENDING));
    paths.sort();
    paths.into_iter().filter_map(|path| read(&path)).collect()
}

fn read(path: &Path) -> Option<Lost> {
    let file = File::open(path).ok()?;
    file.try_lock().ok()?;
    let text = fs::read_to_string(path).ok()?;
    let mut lines = text.lines().map_while(|line| serde_json::from_str::<Value>(line).ok());
    let head = lines.next()?;
    let saved = head.get("text")?.as_str()?.to_string();
    let mut work = Work { text: saved.clone(), fields: Vec::new() };
    // A line cut short by the crash, and anything behind it, is let go.
    for line in lines {
        match changed(&work, &line) {
            Some(next) => work = next,
            None => break,
        }
    }
    let sheet = head.get("sheet").and_then(Value::as_str).map(str::to_string);
    Some(Lost { sheet, saved, work, path: path.to_path_buf(), _file: file })
}

fn changed(work: &Work, line: &Value) -> Option<Work> {
    let number = |name: &str| usize::try_from(line.get(name)?.as_u64()?).ok();
    let (at, cut) = (number("at")?, number("cut")?);
    let mut text = work.text.clone();
    text.get(at..at.checked_add(cut)?)?;
    text.replace_range(at..at + cut, line.get("put")?.as_str()?);
    let fields = line.get("fields")?.as_array()?.iter().map(Field::of_json).collect::<Option<Vec<Field>>>()?;
    Some(Work { text, fields })
}

/// Where two texts differ: the first byte, how many are cut there, and what is put in their place.
fn difference<'n>(old: &str, new: &'n str) -> (usize, usize, &'n str) {
    let mut at = old.bytes().zip(new.bytes()).take_while(|(one, other)| one == other).count();
    while !old.is_char_boundary(at) || !new.is_char_boundary(at) {
        at -= 1;
    }
    let ends = old[at..].bytes().rev().zip(new[at..].bytes().rev());
    let mut same = ends.take_while(|(one, other)| one == other).count();
    while !old.is_char_boundary(old.len() - same) || !new.is_char_boundary(new.len() - same) {
        same -= 1;
    }
    (at, old.len() - same - at, &new[at..new.len() - same])
}

/// The folder that a sheet stands in, as written, with `/` at its end.
pub fn folder_of(path: Option<&str>) -> &str {
    path.and_then(|path| path.get(..=path.rfind('/')?)).unwrap_or("")
}

/// The whole path of a sheet.
pub fn absolute(path: &str) -> String {
    let whole = fs::canonicalize(path).or_else(|_| std::path::absolute(path));
    whole.map_or_else(|_| path.to_string(), |whole| whole.to_string_lossy().into_owned())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::interactive::folder::Folder;
    use crate::paint::Paint;

    #[test]
    fn a_difference_put_in_gives_the_new_text() {
        for (old, new) in
            [("", "a"), ("abc", "abc"), ("a°b", "aµb"), ("aaa", "aa"), ("x\ny\n", "x\nz\ny\n"), ("ab", "")]
        {
            let (at, cut, put) = difference(old, new);
            let mut text = old.to_string();
            text.replace_range(at..at + cut, put);
            assert_eq!(text, new);
        }
    }

    #[test]
    fn what_is_not_saved_is_found_again_once_its_session_is_gone() {
        let folder = tempfile::tempdir().unwrap();
        let mut session = Session::new(dewline_stdlib::library(), Box::new(Folder), Paint::new(false)).unwrap();
        let mut keeper = Keeper::new(Some(folder.path().to_path_buf()));
        for line in ["a = 118 psig", "b = 2 * 3", "a = 120 psig"] {
            session.answer(line);
            assert!(keeper.follow(&session).is_none());
        }
        assert!(lost(folder.path()).is_empty(), "a living session holds its own");
        let expected = session.work().clone();
        drop(keeper);
        let found = lost(folder.path());
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].work.clone(), found[0].sheet.clone()), (expected.clone(), None));
        let path = found[0].path.clone();
        drop(found);
        // A line cut short by the crash costs that line alone.
        let text = fs::read_to_string(&path).unwrap();
        fs::write(&path, &text[..text.len() - 10]).unwrap();
        assert_eq!(lost(folder.path())[0].work.text, expected.text.replace("120", "118"));
        lost(folder.path()).remove(0).forget();
        assert!(lost(folder.path()).is_empty());
    }

    #[cfg(unix)]
    #[test]
    fn nobody_else_may_read_it() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let mut session = Session::new(dewline_stdlib::library(), Box::new(Folder), Paint::new(false)).unwrap();
        let mut keeper = Keeper::new(Some(folder.path().to_path_buf()));
        session.answer("a = 1");
        keeper.follow(&session);
        let entry = fs::read_dir(folder.path()).unwrap().next().unwrap().unwrap();
        assert_eq!(entry.metadata().unwrap().permissions().mode() & 0o777, 0o600);
        keeper.clear();
        assert!(fs::read_dir(folder.path()).unwrap().next().is_none());
    }
}
