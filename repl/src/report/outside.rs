//! What came from outside, in lines that all reports for people share: values set, inputs of forms given otherwise than by
//! default, what stands in the place of the library's, and the files that were read.

use dewline_lang::outcome::{FileOutcome, Outcome};

/// Digits of a digest that stand beside a name; the list of files has all of them.
const SHORT: usize = 12;

/// Headings with their lines, none of them empty.
pub(super) fn lists(outcome: &Outcome) -> Vec<(&'static str, Vec<String>)> {
    let lists = [
        ("Set from outside", set(outcome)),
        ("Given otherwise than by the form's default", otherwise(outcome)),
        ("In the place of the library's", replaced(outcome)),
    ];
    lists.into_iter().filter(|(_, lines)| !lines.is_empty()).collect()
}

/// The heading of the list of files.
pub(super) const FILES: &str = "Files read";

/// Every file with its digest.
pub(super) fn files(outcome: &Outcome) -> Vec<String> {
    outcome.files.iter().map(|file| format!("{}: {}", file.name, digest(file))).collect()
}

/// A table's file by its true name, with the beginning of its digest.
pub(super) fn from(file: &FileOutcome) -> String {
    match file.sha256.get(..SHORT) {
        Some(digits) => format!("from {}, SHA-256 {digits}…", file.name),
        None => format!("from {}", file.name),
    }
}

fn digest(file: &FileOutcome) -> String {
    if file.sha256.is_empty() { "no digest".to_string() } else { format!("SHA-256 {}", file.sha256) }
}

fn set(outcome: &Outcome) -> Vec<String> {
    let lines = outcome.set.iter().map(|one| {
        let sheet =
            one.sheet.as_ref().map_or("left open in the sheet".to_string(), |sheet| format!("the sheet has {sheet}"));
        let limit = if one.limit { "LIMIT CHANGED: " } else { "" };
        // What the sheet leaves open changes no limit of it.
        let limit = if one.sheet.is_some() { limit } else { "" };
        format!("{limit}{} = {}, from {}; {sheet}", one.name, one.value, one.from)
    });
    lines.collect()
}

fn otherwise(outcome: &Outcome) -> Vec<String> {
    let lines = outcome.otherwise.iter().map(|one| {
        let limit = if one.limit { "LIMIT: " } else { "" };
        format!("{limit}{} = {}; {} has {}", one.name, one.value, one.form, one.default)
    });
    lines.collect()
}

fn replaced(outcome: &Outcome) -> Vec<String> {
    outcome.replaced.iter().map(|one| format!("{} {}: that of {}", one.what, one.name, one.by)).collect()
}
