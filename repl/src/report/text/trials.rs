//! What trials say: how often checks hold, and value by value beside what the uncertainties to first order say.

use dewline_lang::outcome::{CheckVerdict, Outcome, TrialValue, TrialsOutcome};

use crate::paint::Paint;
use crate::report::summary;
use crate::words::{PAGE, count, hang, hang_painted, left, plain, right, width};

/// Values told one by one.
const VALUES: usize = 60;
/// Checks likewise.
const CHECKS: usize = 40;
/// Where all of them are.
const ALL: &str = "all of them: --format csv --out FOLDER/";

pub(super) fn trials(out: &mut String, outcome: &Outcome, paint: Paint) {
    let Some(trials) = &outcome.trials else { return };
    out.push_str(&format!("\n{}\n", paint.strong("TRIALS")));
    hang(out, "  ", &summary::trials(trials));
    checks(out, outcome, paint);
    values(out, trials, paint);
}

/// How often checks hold that do not hold always.
fn checks(out: &mut String, outcome: &Outcome, paint: Paint) {
    let chances = summary::chances(outcome);
    if chances.is_empty() {
        return;
    }
    let told = chances.len().min(CHECKS);
    out.push_str("  How often a check holds (in brackets: to first order)\n");
    let holds = chances.iter().map(|chance| width(&chance.holds)).max().unwrap_or(0);
    for chance in &chances[..told] {
        let word = left(summary::word_at(chance.level, chance.verdict), 9);
        let painted = match chance.verdict {
            _ if summary::is_advice(chance.level, chance.verdict) => paint.wait(&word),
            CheckVerdict::Failed | CheckVerdict::Broken => paint.bad(&word),
            CheckVerdict::Close | CheckVerdict::Waived => paint.wait(&word),
            _ => word.clone(),
        };
        let lead = format!("    {}  {painted} ", right(&chance.holds, holds));
        let first = if chance.first.is_empty() { String::new() } else { format!(" ({})", chance.first) };
        let broken = match chance.broken {
            0 => String::new(),
            some => format!(", not judged in {}", count(some, "trial", "trials")),
        };
        let text = format!("{}{first}{broken}", chance.label);
        hang_painted(out, &lead, 4 + holds + 2 + width(&word) + 1, &text);
    }
    if told < chances.len() {
        out.push_str(&format!("    {told} of {}; {ALL}\n", count(chances.len(), "check", "checks")));
    }
}

/// Values; rows of tables that agree are only counted.
fn values(out: &mut String, trials: &TrialsOutcome, paint: Paint) {
    let [mut values, _] = summary::trial_values(trials);
    values.truncate(VALUES);
    if !values.is_empty() {
        out.push_str("  Values\n");
        listed(out, &values, trials.count, paint);
    }
    if values.len() < trials.values.len() {
        let all = count(trials.values.len(), "value", "values");
        out.push_str(&format!("    {} of {all}; {ALL}\n", values.len()));
    }
}

fn listed(out: &mut String, values: &[&TrialValue], trials: usize, paint: Paint) {
    let mut rows = vec![["", "95 % of the trials", "to first order", "", "u"].map(str::to_string)];
    rows.extend(values.iter().map(|value| {
        let [_, doubt, interval] = summary::trial_shown(value, trials);
        let name = plain(&value.name).into_owned();
        [name, interval, value.shown_first.clone(), summary::trial_word(value).to_string(), doubt]
    }));
    let mut columns: Vec<usize> =
        (0..5).map(|column| rows.iter().map(|row| width(&row[column])).max().unwrap_or(0)).collect();
    // Names that leave no room for the numbers have a line of their own.
    let apart = 4 + columns.iter().sum::<usize>() + 2 * 4 > PAGE;
    if apart {
        columns[0] = 0;
    }
    for row in &rows {
        if apart && !row[0].is_empty() {
            hang(out, "    ", &row[0]);
        }
        let fields = row.iter().zip(&columns).enumerate().map(|(at, (field, &columns))| match at {
            0 if apart => String::new(),
            0 => left(field, columns),
            3 if field == "DIFFERS" => paint.wait(field),
            3 => left(field, columns),
            4 => field.clone(),
            _ => right(field, columns),
        });
        out.push_str(format!("    {}", fields.collect::<Vec<_>>().join("  ")).trim_end());
        out.push('\n');
    }
}
