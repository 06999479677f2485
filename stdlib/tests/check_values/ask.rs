//! Asks the library as a sheet asks, and holds what comes out.

use dewline_lang::host::NoFiles;
use dewline_lang::job::{Settings, calculate, check};

/// Holds expressions to numbers: what comes out, and how far it may be off.
#[track_caller]
pub fn held(rows: &[(&str, f64, f64)]) {
    let wrong: Vec<String> = rows
        .iter()
        .filter_map(|(expression, expected, allowed)| match number(expression) {
            Ok(found) if (found - expected).abs() <= *allowed => None,
            Ok(found) => Some(format!("{expression}: {found}, not {expected} ± {allowed}")),
            Err(problem) => Some(format!("{expression}: {problem}")),
        })
        .collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), rows.len(), wrong.join("\n"));
}

/// Holds expressions to words: what each is shown as.
#[track_caller]
pub fn said(rows: &[(&str, &str)]) {
    let library = dewline_stdlib::library();
    let wrong: Vec<String> = rows
        .iter()
        .filter_map(|(expression, expected)| {
            let calculated = calculate(&library, expression, None);
            let shown = calculated.answers.first().map(|(_, shown)| shown.clone());
            let found = shown.unwrap_or_else(|| {
                calculated.diagnostics.iter().map(|one| one.message.as_str()).collect::<Vec<_>>().join("; ")
            });
            (found != *expected).then(|| format!("{expression}: {found}, not {expected}"))
        })
        .collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), rows.len(), wrong.join("\n"));
}

/// The number that an expression is shown as.
fn number(expression: &str) -> Result<f64, String> {
    let library = dewline_stdlib::library();
    let calculated = calculate(&library, expression, None);
    let problems: Vec<String> = calculated.diagnostics.iter().map(|one| one.message.clone()).collect();
    let shown = calculated.answers.first().map(|(_, shown)| shown.clone()).ok_or_else(|| problems.join("; "))?;
    shown.split(' ').next().and_then(|first| first.parse().ok()).ok_or(shown)
}

/// What the cell `answer` of a sheet is shown as, or what is wrong with the sheet.
pub fn answer(sheet: &str) -> String {
    let library = dewline_stdlib::library();
    let checked = check(&library, &NoFiles, "sheet", sheet);
    let problems: Vec<String> = checked.diagnostics.iter().map(|one| one.message.clone()).collect();
    let Some(job) = checked.job else { return problems.join("; ") };
    let run = job.run(&library, &NoFiles, &Settings::default());
    let problems: Vec<String> = run.diagnostics.iter().map(|one| one.message.clone()).collect();
    let shown = run.outcome.cells.iter().find(|cell| cell.name == "answer").and_then(|cell| cell.shown.as_ref());
    shown.map_or_else(|| problems.join("; "), |shown| shown.text.clone())
}
