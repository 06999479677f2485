//! Saving: the sheet laid out, and the fields filled into its data files.

use dewline_lang::syntax;

use super::meanwhile::adrift_lines;
use super::sheet::Sheet;
use super::work::Work;
use super::{Mode, Question, Reply, Session};
use crate::problem::Problem;

impl Session {
    /// Writes the sheet to a file, by default to its own.
    pub(super) fn save(&mut self, path: &str) -> Reply {
        let path = match (path.is_empty(), &self.path) {
            (false, _) => with_ending(path),
            (true, Some(path)) => path.clone(),
            (true, None) => {
                return Reply::of(&Problem::new("the sheet has no file yet").with_mend("write: save job.dew"));
            }
        };
        if self.sheet.work.text.trim().is_empty() {
            return Reply::of(
                &Problem::new("there is nothing to save yet").with_mend("define something: a = 118 psig"),
            );
        }
        let there = self.desk.text(&path);
        let own = self.path.as_deref() == Some(path.as_str());
        match there {
            Some(text) if !own && text != self.sheet.work.text => {
                self.mode = Mode::Asking(Question::Overwrite(path.clone()));
                Reply::out(format!("There is a file \"{path}\" already. Write over it?\n"))
            }
            Some(text) if own && self.on_file.as_ref() != Some(&text) => {
                self.mode = Mode::Asking(Question::Overwrite(path.clone()));
                Reply::out(format!("\"{path}\" was changed by someone else meanwhile. Write over that?\n"))
            }
            _ => self.save_now(&path),
        }
    }

    pub(super) fn save_now(&mut self, path: &str) -> Reply {
        match self.merged(&self.sheet.work.fields) {
            Ok(merged) if !merged.adrift.is_empty() => {
                self.mode = Mode::Asking(Question::Part(path.to_string()));
                let lines = adrift_lines(&merged.adrift);
                Reply::out(format!(
                    "Data files were changed by someone else meanwhile, and this no longer stands on its row:\n\
                     {lines}Save the rest? This stays in the session, not saved.\n"
                ))
            }
            _ => self.save_what_stands(path),
        }
    }

    /// Saves all but the fields that no longer stand on their rows.
    pub(super) fn save_what_stands(&mut self, path: &str) -> Reply {
        match self.written(path) {
            Ok(said) => Reply::out(said),
            Err(problem) => Reply::of(&problem),
        }
    }

    fn written(&mut self, path: &str) -> Result<String, Problem> {
        // What cannot be read cannot be laid out and is kept as it stands.
        let text = syntax::format(&self.sheet.work.text).unwrap_or_else(|_| self.sheet.work.text.clone());
        let host = self.desk.around(Some(path))?;
        let fields = self.sheet.work.fields.clone();
        let there = Sheet::of(&self.library, &*host, path, Work { text: text.clone(), fields: fields.clone() });
        let trouble = |sheet: &Sheet| sheet.errors() + sheet.outcome().map_or(0, |outcome| outcome.errors.len());
        if trouble(&there) > trouble(&self.sheet) {
            return Err(Problem::new(format!("from \"{path}\" the sheet would not find the files it uses"))
                .with_mend("save it in the folder it was opened from, beside those files"));
        }
        let merged = self.merged(&fields)?;
        for (file, text) in &merged.files {
            self.desk.write(file, text)?;
        }
        self.desk.write(path, &text)?;
        self.saved = Work { text: text.clone(), fields: Vec::new() };
        let left = merged.adrift.into_iter().map(|(field, _)| field).collect();
        self.sheet = Sheet::of(&self.library, &*host, path, Work { text: text.clone(), fields: left });
        self.host = host;
        self.path = Some(path.to_string());
        self.on_file = Some(text);
        let names: Vec<String> = merged.files.iter().map(|(file, _)| format!("\"{file}\"")).collect();
        let also = if names.is_empty() { String::new() } else { format!(" and {}", crate::words::list(&names, 9)) };
        let left = match self.sheet.work.fields.len() {
            0 => String::new(),
            left => format!("{} not saved, to be typed again.\n", crate::words::count(left, "field is", "fields are")),
        };
        Ok(format!("Saved \"{path}\"{also}.\n{left}"))
    }
}

/// A name without an ending is that of a sheet.
fn with_ending(path: &str) -> String {
    let name = path.rsplit(['/', '\\']).next().unwrap_or(path);
    if name.contains('.') { path.to_string() } else { format!("{path}.dew") }
}
