//! Finds the cases of the corpus.

use std::path::{Path, PathBuf};

use super::{Expectations, split};

/// One sheet of the corpus.
#[derive(Debug)]
pub struct Case {
    /// Where it is.
    pub path: PathBuf,
    /// Its topic: the name of the folder it is in.
    pub topic: String,
    /// Its text without expectations.
    pub sheet: String,
    /// What is set from outside, from its `#: set` lines.
    pub settings: Vec<(String, String)>,
    /// What it expects.
    pub expected: Expectations,
}

/// All cases under a folder, in the order of their paths. Each topic is a folder; sheets in folders below a topic
/// (`parts`) are used by cases and are no cases themselves.
pub fn collect(root: &Path) -> Vec<Case> {
    let mut cases = Vec::new();
    for topic in entries(root).into_iter().filter(|path| path.is_dir()) {
        for path in entries(&topic).into_iter().filter(|path| path.extension().is_some_and(|ending| ending == "dew")) {
            cases.push(read(path));
        }
    }
    cases
}

fn entries(folder: &Path) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap_or_else(|problem| panic!("{}: {problem}", folder.display()))
        .filter_map(|entry| entry.ok().map(|entry| entry.path()))
        .collect();
    paths.sort();
    paths
}

fn read(path: PathBuf) -> Case {
    let text = std::fs::read_to_string(&path).unwrap_or_else(|problem| panic!("{}: {problem}", path.display()));
    let (sheet, expected) = split(&text);
    let settings = sheet
        .lines()
        .filter_map(|line| line.trim().strip_prefix("#: set "))
        .filter_map(|setting| setting.split_once('='))
        .map(|(name, value)| (name.trim().to_string(), value.trim().to_string()))
        .collect();
    let folder = path.parent().and_then(Path::file_name);
    let topic = folder.map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    Case { topic, path, sheet, settings, expected }
}
