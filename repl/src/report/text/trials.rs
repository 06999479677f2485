//! What trials say, value by value, beside what the uncertainties to first order say.

use dewline_lang::outcome::Outcome;

use crate::paint::Paint;
use crate::report::summary;
use crate::words::{hang, left, plain, right, width};

/// Values told one by one.
const VALUES: usize = 60;

pub(super) fn trials(out: &mut String, outcome: &Outcome, paint: Paint) {
    let Some(trials) = &outcome.trials else { return };
    out.push_str(&format!("\n{}\n", paint.strong("TRIALS")));
    hang(out, "  ", &summary::trials(trials));
    if trials.values.is_empty() {
        return;
    }
    // What disagrees is told first: the rest may be cut.
    let mut values: Vec<_> = trials.values.iter().collect();
    values.sort_by_key(|value| (value.agrees, value.wider));
    let told = values.len().min(VALUES);
    let mut rows = vec![["", "mean", "u", "95 % of the trials", "to first order", ""].map(str::to_string)];
    rows.extend(values[..told].iter().map(|value| {
        let verdict = summary::trial_word(value).to_string();
        [
            plain(&value.name).into_owned(),
            value.shown_mean.clone(),
            value.shown_standard.clone(),
            value.shown_interval.clone(),
            value.shown_first.clone(),
            verdict,
        ]
    }));
    let columns: Vec<usize> =
        (0..6).map(|column| rows.iter().map(|row| width(&row[column])).max().unwrap_or(0)).collect();
    for row in &rows {
        let fields = row.iter().zip(&columns).enumerate().map(|(at, (field, &columns))| match at {
            0 => left(field, columns),
            5 if field == "DIFFERS" => paint.wait(field),
            5 => field.clone(),
            _ => right(field, columns),
        });
        out.push_str(format!("    {}", fields.collect::<Vec<_>>().join("  ")).trim_end());
        out.push('\n');
    }
    if told < values.len() {
        out.push_str(&format!("    {told} of {} values; all of them: --format json\n", values.len()));
    }
}
