//! Sessions typed line by line, without a terminal.
#![allow(clippy::unwrap_used)]

mod changing;
mod helping;
mod looking;
mod meanwhile;
mod taking;

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use dewline_lang::host::{Document, Host, HostProblem, RawTable};

use super::{Desk, Reply, Session};
use crate::host::read_table;
use crate::paint::Paint;
use crate::problem::Problem;

type Files = Rc<RefCell<BTreeMap<String, String>>>;

/// Files in a map.
#[derive(Clone, Default)]
struct Map(Files);

impl Host for Map {
    fn sheet(&self, _: &str, path: &str) -> Result<Document, HostProblem> {
        let text = self.0.borrow().get(path).cloned();
        let missing = || HostProblem { message: format!("there is no file \"{path}\""), mend: None };
        Ok(Document { name: path.to_string(), text: text.ok_or_else(missing)? })
    }

    fn table(&self, from: &str, path: &str) -> Result<RawTable, HostProblem> {
        let document = self.sheet(from, path)?;
        read_table(path.to_string(), path, document.text.into_bytes())
    }
}

impl Desk for Map {
    fn open(&self, path: &str) -> Result<(Box<dyn Host>, Document), Problem> {
        Ok((Box::new(self.clone()), self.sheet("", path)?))
    }

    fn around(&self, _: Option<&str>) -> Result<Box<dyn Host>, Problem> {
        Ok(Box::new(self.clone()))
    }

    fn data(&self, path: &str) -> Result<String, Problem> {
        Ok(self.sheet("", path)?.text)
    }

    fn write(&self, path: &str, text: &str) -> Result<(), Problem> {
        self.0.borrow_mut().insert(path.to_string(), text.to_string());
        Ok(())
    }

    fn text(&self, path: &str) -> Option<String> {
        self.0.borrow().get(path).cloned()
    }

    fn list(&self, begun: &str) -> Vec<String> {
        self.0.borrow().keys().filter(|name| name.starts_with(begun)).cloned().collect()
    }
}

/// A session with its files.
struct Typist {
    session: Session,
    files: Files,
}

impl Typist {
    fn new(files: &[(&str, &str)]) -> Typist {
        let map = Map::default();
        for (name, text) in files {
            map.write(name, text).unwrap();
        }
        let files = map.0.clone();
        let session = Session::new(dewline_stdlib::library(), Box::new(map), Paint::new(false)).unwrap();
        Typist { session, files }
    }

    /// What is answered to a line that must be usable.
    fn type_in(&mut self, line: &str) -> String {
        let reply = self.session.answer(line);
        assert!(!reply.refused, "{line}: {}{}", reply.out, reply.said);
        reply.out
    }

    /// What is said of a line that must not be usable.
    fn refused(&mut self, line: &str) -> String {
        let reply = self.session.answer(line);
        assert!(reply.refused, "{line}: {}{}", reply.out, reply.said);
        reply.said
    }

    fn all(&mut self, line: &str) -> Reply {
        self.session.answer(line)
    }

    fn text(&self) -> &str {
        &self.session.work().text
    }

    fn file(&self, name: &str) -> String {
        self.files.borrow().get(name).cloned().unwrap()
    }
}
