//! What a change changed: cells, rows of tables, checks, stages and the verdict, old and new.

use std::collections::BTreeMap;

use dewline_lang::outcome::{CellOutcome, Outcome};

use crate::paint::Paint;
use crate::report::parts;
use crate::words::{count, hang, left, list, plain, width};

/// Lines of one sort; the rest is counted.
const LINES: usize = 12;
/// Checks told though only their values are other.
const FEW: usize = 4;
/// Columns of a name beside which the values stand.
const NAME: usize = 34;

/// A value that is not what it was.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Change {
    name: String,
    /// `None`: it was not there.
    old: Option<String>,
    /// `None`: it is gone.
    new: Option<String>,
}

/// Everything that differs, in words; `first` are the names that were typed, told at the top though they may be new.
pub fn told(old: Option<&Outcome>, new: &Outcome, first: &[String], paint: Paint) -> String {
    let mut out = String::new();
    let (mine, others): (Vec<Change>, Vec<Change>) =
        differing(&cells(old), &cells(Some(new))).into_iter().partition(|change| is_of(&change.name, first));
    lines(&mut out, "", &mine, paint);
    for table in new.tables.iter().filter(|table| first.contains(&table.name)) {
        let rows = table.columns.iter().map(|column| column.text.len()).max().unwrap_or(0);
        let rows = if table.pending { "rows to take".to_string() } else { count(rows, "row", "rows") };
        out.push_str(&format!("{}: table, {rows}\n", plain(&table.name)));
    }
    let (mut cells, gone): (Vec<Change>, Vec<Change>) = others.into_iter().partition(|change| change.new.is_some());
    cells.retain(|change| change.old.is_some() || !first.is_empty());
    lines(&mut out, "  ", &cells, paint);
    if !gone.is_empty() {
        let names: Vec<String> = gone.into_iter().map(|change| change.name).collect();
        hang(&mut out, "  gone: ", &list(&names, LINES));
    }
    rows(&mut out, old, new);
    let sorts = [
        ("check", old.map(checks), checks(new)),
        ("confirm", old.map(confirmations), confirmations(new)),
        ("stage", old.map(stages), stages(new)),
        ("job", old.map(job), job(new)),
    ];
    for (sort, before, after) in sorts {
        let (turned, moved): (Vec<Change>, Vec<Change>) =
            differing(&before.unwrap_or_default(), &after).into_iter().partition(Change::turned);
        verdicts(&mut out, sort, &turned);
        if moved.len() <= FEW {
            verdicts(&mut out, sort, &moved);
        } else {
            hang(&mut out, "  ", &format!("{} {sort}s with other values, the verdicts as before", moved.len()));
        }
    }
    out
}

impl Change {
    /// The verdict is another, not only what stands beside it.
    fn turned(&self) -> bool {
        let word = |shown: &Option<String>| shown.as_deref().map(|shown| verdict_word(shown).to_string());
        word(&self.old) != word(&self.new)
    }
}

/// The first of what is shown of a check.
fn verdict_word(shown: &str) -> &str {
    shown.split(", ").next().unwrap_or(shown)
}

/// Names with what is shown of them, in the order of the sheet.
type Listed = Vec<(String, String)>;

fn cells(outcome: Option<&Outcome>) -> Listed {
    outcome
        .map(|outcome| outcome.cells.iter().map(|cell| (cell.name.clone(), value(cell))).collect())
        .unwrap_or_default()
}

/// A value as shown, or the word for why there is none.
pub fn value(cell: &CellOutcome) -> String {
    parts::known(cell).map_or_else(str::to_string, |known| plain(known).into_owned())
}

/// Checks with their verdicts; several of one label are counted through.
fn checks(outcome: &Outcome) -> Listed {
    numbered(outcome.checks.iter().map(|check| {
        let judged = parts::judged(check);
        let gap = if judged.is_empty() { "" } else { ", " };
        (parts::label(check), format!("{}{gap}{judged}", parts::word_of(check)))
    }))
}

fn confirmations(outcome: &Outcome) -> Listed {
    numbered(outcome.confirmations.iter().map(|one| (one.label.clone(), parts::check_word(one.verdict).to_string())))
}

fn stages(outcome: &Outcome) -> Listed {
    outcome.stages.iter().map(|stage| (stage.name.clone(), parts::stage_word(stage).to_string())).collect()
}

fn job(outcome: &Outcome) -> Listed {
    // A sheet that checks nothing has no verdict worth a line.
    if outcome.checks.is_empty() && outcome.confirmations.is_empty() && outcome.errors.is_empty() {
        return Vec::new();
    }
    vec![(String::new(), parts::verdict(outcome).0.to_string())]
}

fn numbered(pairs: impl Iterator<Item = (String, String)>) -> Listed {
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    pairs
        .map(|(name, shown)| {
            let count = seen.entry(name.clone()).or_insert(0);
            *count += 1;
            (if *count > 1 { format!("{name} ({count})") } else { name }, shown)
        })
        .collect()
}

/// What is new or other, in the new order, then what is gone.
fn differing(old: &Listed, new: &Listed) -> Vec<Change> {
    let before: BTreeMap<&str, &str> = old.iter().map(|(name, shown)| (name.as_str(), shown.as_str())).collect();
    let after: BTreeMap<&str, &str> = new.iter().map(|(name, shown)| (name.as_str(), shown.as_str())).collect();
    let other = new.iter().filter(|(name, shown)| before.get(name.as_str()) != Some(&shown.as_str()));
    let changed = other.map(|(name, shown)| Change {
        name: name.clone(),
        old: before.get(name.as_str()).map(|old| (*old).to_string()),
        new: Some(shown.clone()),
    });
    let gone = old.iter().filter(|(name, _)| !after.contains_key(name.as_str()));
    let gone = gone.map(|(name, shown)| Change { name: name.clone(), old: Some(shown.clone()), new: None });
    changed.chain(gone).collect()
}

fn is_of(name: &str, first: &[String]) -> bool {
    first.iter().any(|one| name == one || name.strip_prefix(one.as_str()).is_some_and(|rest| rest.starts_with('.')))
}

/// `name = new  (was old)`
fn lines(out: &mut String, indent: &str, changes: &[Change], paint: Paint) {
    let columns = changes.iter().take(LINES).map(|change| width(&change.name)).max().unwrap_or(0).min(NAME);
    for change in changes.iter().take(LINES) {
        let Some(new) = &change.new else { continue };
        let was = change.old.as_ref().map_or(String::new(), |old| format!("  (was {old})"));
        let name = left(&plain(&change.name), columns);
        let lead = format!("{indent}{name} = ");
        if was.is_empty() && width(&lead) + width(new) <= crate::words::PAGE {
            out.push_str(&format!("{lead}{}\n", paint.strong(new)));
        } else {
            hang(out, &lead, &format!("{new}{was}"));
        }
    }
    if changes.len() > LINES {
        out.push_str(&format!("{indent}and {} more\n", changes.len() - LINES));
    }
}

/// A line a column of a table in which rows are other than they were.
fn rows(out: &mut String, old: Option<&Outcome>, new: &Outcome) {
    for table in &new.tables {
        let before = old.and_then(|old| old.tables.iter().find(|one| one.name == table.name));
        let Some(before) = before else { continue };
        let keys = table.columns.first().map(|column| column.text.as_slice()).unwrap_or_default();
        let mut told = Vec::new();
        for column in &table.columns {
            let Some(was) = before.columns.iter().find(|one| one.name == column.name) else {
                told.push(format!("{} is new", column.name));
                continue;
            };
            let shown = |column: &dewline_lang::outcome::ColumnOutcome, row: usize| match column.text.get(row) {
                _ if column.broken.contains(&row) => "BROKEN".to_string(),
                Some(text) if text.is_empty() => "?".to_string(),
                Some(text) => text.clone(),
                None => "no row".to_string(),
            };
            let length = column.text.len().max(was.text.len());
            let other: Vec<usize> = (0..length).filter(|&row| shown(was, row) != shown(column, row)).collect();
            let Some(&row) = other.first() else { continue };
            let key = keys.get(row).map_or_else(|| format!("row {}", row + 1), Clone::clone);
            let more = if other.len() > 1 {
                format!(" and {}", count(other.len() - 1, "more row", "more rows"))
            } else {
                String::new()
            };
            let unit = if column.unit.is_empty() { String::new() } else { format!(" {}", column.unit) };
            told.push(format!(
                "{} of {key} = {}{unit} (was {}){more}",
                column.name,
                shown(column, row),
                shown(was, row)
            ));
        }
        let lead = format!("  {}: ", table.name);
        for one in told.iter().take(LINES) {
            hang(out, &lead, one);
        }
        if told.len() > LINES {
            let more = count(told.len() - LINES, "more column", "more columns");
            out.push_str(&format!("  {}: and {more}\n", table.name));
        }
    }
}

/// `check superheat, F-10: FAILED, 3.8 F° … (was passed)`
fn verdicts(out: &mut String, sort: &str, changes: &[Change]) {
    for change in changes.iter().take(LINES) {
        let name = if change.name.is_empty() { String::new() } else { format!(" {}", change.name) };
        let new = change.new.as_deref().unwrap_or("gone");
        let was = change.old.as_deref().map(verdict_word).filter(|_| change.turned());
        let was = was.map_or(String::new(), |old| format!(" (was {old})"));
        hang(out, &format!("  {sort}{name}: "), &format!("{new}{was}"));
    }
    if changes.len() > LINES {
        out.push_str(&format!("  and {} more of {sort}s\n", changes.len() - LINES));
    }
}
