//! What every report for people says first: the verdict in a sentence, and checks gathered over their rows.

use std::collections::BTreeMap;

use dewline_lang::outcome::{
    CellOutcome, CheckOutcome, CheckVerdict, JobVerdict, Outcome, Role, Shown, StageOutcome, StageVerdict, TrialCheck,
    TrialValue, TrialsOutcome,
};

use crate::words::{count, list};

/// A check with its rows.
pub(super) struct CheckGroup<'a> {
    pub label: &'a str,
    pub stage: &'a str,
    pub level: &'static str,
    /// The table whose rows are judged, if any.
    pub table: Option<&'a str>,
    /// One entry, or one a row.
    pub entries: Vec<&'a CheckOutcome>,
}

impl CheckGroup<'_> {
    /// How many entries have this verdict.
    pub fn count(&self, verdict: CheckVerdict) -> usize {
        self.entries.iter().filter(|entry| entry.verdict == verdict).count()
    }

    /// The verdict that weighs most.
    pub fn worst(&self) -> CheckVerdict {
        let order = [
            CheckVerdict::Failed,
            CheckVerdict::Broken,
            CheckVerdict::Pending,
            CheckVerdict::Close,
            CheckVerdict::Waived,
            CheckVerdict::Passed,
        ];
        order.into_iter().find(|&verdict| self.count(verdict) > 0).unwrap_or(CheckVerdict::NotAsked)
    }

    /// `12 rows: 10 passed, 1 FAILED, 1 not asked`
    pub fn rows_in_words(&self) -> String {
        let order = [
            CheckVerdict::Passed,
            CheckVerdict::Failed,
            CheckVerdict::Broken,
            CheckVerdict::Close,
            CheckVerdict::Waived,
            CheckVerdict::Pending,
            CheckVerdict::NotAsked,
        ];
        let parts: Vec<String> = order
            .into_iter()
            .filter(|&verdict| self.count(verdict) > 0)
            .map(|verdict| format!("{} {}", self.count(verdict), word_at(self.level, verdict)))
            .collect();
        format!("{}: {}", count(self.entries.len(), "row", "rows"), parts.join(", "))
    }
}

/// Checks in the order of the sheet, rows of one check together.
pub(super) fn groups(checks: &[CheckOutcome]) -> Vec<CheckGroup<'_>> {
    let mut groups: Vec<CheckGroup<'_>> = Vec::new();
    for check in checks {
        let table = check.table.as_deref();
        match groups.last_mut() {
            Some(last)
                if check.row.is_some()
                    && last.table == table
                    && last.label == check.label
                    && last.stage == check.stage
                    && last.entries.last().is_none_or(|entry| entry.row != check.row) =>
            {
                last.entries.push(check);
            }
            _ => groups.push(CheckGroup {
                label: &check.label,
                stage: &check.stage,
                level: check.level,
                table,
                entries: vec![check],
            }),
        }
    }
    groups
}

/// The word for a verdict; what asks for a look is in capitals, so that it is seen without colour.
pub(super) fn check_word(verdict: CheckVerdict) -> &'static str {
    match verdict {
        CheckVerdict::Passed => "passed",
        CheckVerdict::Failed => "FAILED",
        CheckVerdict::Close => "CLOSE",
        CheckVerdict::Waived => "WAIVED",
        CheckVerdict::NotAsked => "not asked",
        CheckVerdict::Pending => "WAITING",
        CheckVerdict::Broken => "BROKEN",
    }
}

/// The same for a check of this level: advice that is not followed is no failure.
pub(super) fn word_at(level: &str, verdict: CheckVerdict) -> &'static str {
    if is_advice(level, verdict) { "ADVICE" } else { check_word(verdict) }
}

/// Whether it is advice that does not hold: worth reading, and nothing that stops a stage.
pub(super) fn is_advice(level: &str, verdict: CheckVerdict) -> bool {
    level == "advise" && verdict == CheckVerdict::Failed
}

/// A check that does not hold, or holds only just, by a reason or not at all to be told.
pub(super) fn asks_for_a_look(verdict: CheckVerdict) -> bool {
    matches!(verdict, CheckVerdict::Failed | CheckVerdict::Close | CheckVerdict::Broken | CheckVerdict::Waived)
}

/// Where a value comes from, in a word.
pub(super) fn role_word(role: Role) -> &'static str {
    match role {
        Role::Input => "input",
        Role::Reading => "reading",
        Role::Cell => "cell",
    }
}

/// Whether a value is known, in a word.
pub(super) fn state_word(cell: &CellOutcome) -> &'static str {
    match (cell.broken, cell.pending) {
        (true, _) => "broken",
        (false, true) => "pending",
        _ if cell.shown.is_none() => "absent",
        _ => "known",
    }
}

/// The number as printed, so that 210 ft is not 210.00000000000003; its SI value beside it is exact.
pub(super) fn printed_number(shown: &Shown) -> String {
    let printed = shown.text.split(' ').next().unwrap_or("");
    match shown.number {
        Some(_) if printed.parse::<f64>().is_ok() => printed.to_string(),
        other => exact(other),
    }
}

/// The shortest text that reads back to the same bits.
pub(super) fn exact(number: Option<f64>) -> String {
    number.map_or_else(String::new, |number| format!("{number:?}"))
}

/// The word for a stage.
pub(super) fn stage_word(stage: &StageOutcome) -> &'static str {
    match stage.verdict {
        _ if stage.broken => "BROKEN",
        StageVerdict::Passed => "passed",
        StageVerdict::Failed => "FAILED",
        StageVerdict::Waiting => "WAITING",
        StageVerdict::Blocked => "BLOCKED",
        StageVerdict::Empty => "EMPTY",
    }
}

/// The word for the job.
pub(super) fn job_word(verdict: JobVerdict) -> &'static str {
    match verdict {
        JobVerdict::Unusable => "UNUSABLE",
        JobVerdict::Failed => "FAILED",
        JobVerdict::Incomplete => "INCOMPLETE",
        JobVerdict::Computed => "COMPUTED",
        JobVerdict::PassedWithWaivers => "PASSED WITH WAIVERS",
        JobVerdict::Passed => "PASSED",
    }
}

/// May we go on, what failed, what is still to take: in one or two sentences.
pub(super) fn sentence(outcome: &Outcome) -> String {
    let required = || outcome.checks.iter().filter(|check| check.level == "require");
    let having = |verdict| required().filter(|check| check.verdict == verdict).count();
    let judged = required().filter(|check| check.verdict != CheckVerdict::NotAsked).count();
    let refused = outcome.confirmations.iter().filter(|one| one.verdict == CheckVerdict::Failed).count();
    let failed = having(CheckVerdict::Failed);
    let mut parts = Vec::new();
    match outcome.verdict {
        JobVerdict::Unusable => parts.push(format!(
            "{} must be mended before the verdict counts.",
            count(outcome.errors.len(), "error", "errors")
        )),
        JobVerdict::Failed if failed == 0 => {}
        JobVerdict::Failed => {
            parts.push(format!("{failed} of {} {} not hold.", count(judged, "check", "checks"), does(failed)));
        }
        JobVerdict::Incomplete if having(CheckVerdict::Close) > 0 || !outcome.to_take.is_empty() => {
            parts.push("Nothing has failed.".to_string());
        }
        JobVerdict::Incomplete => parts.push("Nothing has failed, but not all of it can be judged yet.".to_string()),
        JobVerdict::PassedWithWaivers => parts.push(format!(
            "All {} hold but {}, accepted with a reason.",
            count(judged, "check", "checks"),
            having(CheckVerdict::Waived)
        )),
        JobVerdict::Computed => {
            parts.push("The sheet asks for no check and no confirmation, so nothing has passed.".to_string());
        }
        JobVerdict::Passed if judged == 0 => parts.push("All is confirmed.".to_string()),
        JobVerdict::Passed if judged == 1 => parts.push("Its one check holds.".to_string()),
        JobVerdict::Passed => parts.push(format!("All {} hold.", count(judged, "check", "checks"))),
    }
    if outcome.verdict != JobVerdict::Failed && failed > 0 {
        parts.push(format!("{failed} of {} {} not hold.", count(judged, "check", "checks"), does(failed)));
    }
    if refused > 0 {
        parts.push(format!("{} answered with no.", count(refused, "confirmation is", "confirmations are")));
    }
    let close = having(CheckVerdict::Close);
    if close > 0 {
        parts.push(format!(
            "{} nearer {} limit than the readings can tell.",
            count(close, "check is", "checks are"),
            if close == 1 { "its" } else { "their" }
        ));
    }
    match outcome.to_take.len() {
        0 => {}
        1 => parts.push("1 thing is still to be taken.".to_string()),
        many => parts.push(format!("{many} things are still to be taken.")),
    }
    parts.join(" ")
}

fn does(number: usize) -> &'static str {
    if number == 1 { "does" } else { "do" }
}

/// Why a stage has not passed, in words; empty if it has.
pub(super) fn stage_reason(outcome: &Outcome, stage: &StageOutcome) -> String {
    let checks = || outcome.checks.iter().filter(|check| check.stage == stage.name && check.level == "require");
    let having = |verdict| checks().filter(|check| check.verdict == verdict).count();
    let refused = outcome
        .confirmations
        .iter()
        .filter(|one| one.stage == stage.name && one.verdict == CheckVerdict::Failed)
        .count();
    let mut parts = Vec::new();
    let mut say = |number: usize, one: &str, many: &str| {
        if number > 0 {
            parts.push(count(number, one, many));
        }
    };
    say(having(CheckVerdict::Failed), "check failed", "checks failed");
    say(having(CheckVerdict::Broken), "check cannot be computed", "checks cannot be computed");
    say(refused, "answered with no", "answered with no");
    say(having(CheckVerdict::Close), "check is close to its limit", "checks are close to their limits");
    say(having(CheckVerdict::Waived), "check waived", "checks waived");
    if stage.broken && having(CheckVerdict::Broken) == 0 {
        parts.push("some of it cannot be computed".to_string());
    }
    if stage.verdict == StageVerdict::Empty {
        parts.push("no check and no confirmation stands in it".to_string());
    }
    if !stage.waiting_for.is_empty() {
        parts.push(format!("to take: {}", list(&stage.waiting_for, 3)));
    }
    if !stage.blocked_by.is_empty() {
        parts.push(format!("waits for {}", list(&stage.blocked_by, 4)));
    }
    parts.join("; ")
}

/// `superheat = 3.8 F°, must be within 5 F° .. 15 F°, outside by 1.2 F°`
pub(super) fn judged(check: &CheckOutcome) -> String {
    let mut parts = Vec::new();
    if let Some(value) = &check.value {
        parts.push(value.clone());
    }
    if let Some(limit) = &check.limit {
        parts.push(format!("must be {limit}"));
    }
    if let Some(margin) = &check.margin {
        let told = match margin.strip_prefix(['-', '−']) {
            Some(outside) => format!("outside by {}", three_figures(outside.trim_start())),
            None => format!("margin {}", three_figures(margin)),
        };
        // A close one tells its uncertainty with its reason.
        parts.push(match &check.uncertainty {
            Some(uncertainty) if check.probability.is_none() => format!("{told} ({uncertainty})"),
            _ => told,
        });
    }
    let told_nothing = parts.is_empty() && check.label != check.condition;
    if let Some(reason) = &check.reason {
        parts.push(reason.clone());
    } else if check.verdict == CheckVerdict::Failed && told_nothing {
        parts.push(format!("this does not hold: {}", check.condition));
    } else if check.verdict == CheckVerdict::Pending && !check.waiting_for.is_empty() {
        parts.push(format!("waits for {}", list(&check.waiting_for, 6)));
    }
    parts.join(", ")
}

/// A value with its ±, as stated if it is stated, otherwise as carried to it; or the word for why there is none.
pub(super) fn value(cell: &CellOutcome) -> String {
    let known = match known(cell) {
        Ok(known) => known,
        Err(word) => return word.to_string(),
    };
    match (&cell.stated.uncertainty, &cell.uncertainty) {
        (Some(stated), _) => format!("{known} ± {}", stated.trim_start_matches(['±', '+', '/', '-', ' '])),
        (None, Some(carried)) if !carried.text.is_empty() => carried.text.clone(),
        _ => known.to_string(),
    }
}

/// A value as shown, or the word for why there is none.
pub(super) fn known(cell: &CellOutcome) -> Result<&str, &'static str> {
    match &cell.shown {
        _ if cell.broken => Err("BROKEN"),
        Some(shown) => Ok(&shown.text),
        None if cell.pending && cell.optional => Err("not given"),
        None if cell.pending && cell.role != Role::Cell => Err("? TO TAKE"),
        None if cell.pending => Err("waits"),
        None => Err("-"),
    }
}

/// A value is asked for: it is pending, and may not stay away.
pub(super) fn is_wanted(cell: &CellOutcome) -> bool {
    cell.pending && !cell.optional
}

/// The word for how a value's uncertainty to first order stands to the trials; none if they agree.
pub(super) fn trial_word(value: &TrialValue) -> &'static str {
    match (value.agrees, value.wider) {
        (true, _) => "",
        (_, true) => "wider",
        _ => "DIFFERS",
    }
}

/// Values by trials that a reader looks for, and the rest: what disagrees and single values are looked for, rows of tables
/// that agree are not.
pub(super) fn trial_values(trials: &TrialsOutcome) -> [Vec<&TrialValue>; 2] {
    let (mut told, others): (Vec<_>, Vec<_>) = trials.values.iter().partition(|value| trial_word(value) == "DIFFERS");
    let (rows, single): (Vec<_>, Vec<_>) = others.into_iter().partition(|value| value.name.contains("]."));
    told.extend(single);
    [told, rows]
}

/// Mean, standard uncertainty and interval of a value by trials as shown, with how many trials came to one if not all.
pub(super) fn trial_shown(value: &TrialValue, trials: usize) -> [String; 3] {
    let known = trials.saturating_sub(value.broken);
    if known == 0 {
        return ["-", "-", "in no trial"].map(str::to_string);
    }
    let [mean, doubt, interval] = [&value.shown_mean, &value.shown_standard, &value.shown_interval].map(String::clone);
    let doubt = if value.broken == 0 { doubt } else { format!("{doubt}, in {}", count(known, "trial", "trials")) };
    [mean, doubt, interval]
}

/// What trials came to, in words.
pub(super) fn trials(trials: &TrialsOutcome) -> String {
    let words = |wanted: &str| trials.values.iter().filter(|value| trial_word(value) == wanted).count();
    let (differing, wider) = (words("DIFFERS"), words("wider"));
    let broken = trials.values.iter().map(|value| value.broken).max().unwrap_or(0);
    let mut text = format!("{} trials from seed {} (JCGM 101). ", trials.count, trials.seed);
    let all = count(trials.values.len(), "value", "values");
    text.push_str(&match (trials.values.len(), differing, wider) {
        (0, ..) => "Nothing in this job is in doubt.".to_string(),
        (_, 0, 0) => format!("The uncertainties to first order agree with them for all of {all}."),
        (_, 0, wider) => format!(
            "The uncertainties to first order hold for all of {all}; for {wider} the interval is wider than need be."
        ),
        (_, some, _) => format!(
            "For {some} of {all} the interval to first order is off by more than half a unit in the second figure of \
             its standard uncertainty: trust the trials there."
        ),
    });
    if broken > 0 {
        text.push_str(&format!(" A value could not be computed in up to {broken} trials; these are left out."));
    }
    if !trials.checks.is_empty() {
        let always = trials.checks.iter().filter(|check| check.failed == 0 && check.broken == 0).count();
        let judged = count(trials.checks.len(), "check that hangs", "checks that hang");
        text.push_str(&format!(" Of {judged} on readings, rows counted, {always} hold in every trial."));
    }
    if trials.left_out > 0 {
        text.push_str(&format!(" {} further values were not watched: fewer trials watch more.", trials.left_out));
    }
    text
}

/// A check that does not hold in every trial, in the words of a report.
pub(super) struct Chance {
    /// Its label, with its row.
    pub label: String,
    /// `require` or `advise`.
    pub level: &'static str,
    /// The verdict with the readings as they are.
    pub verdict: CheckVerdict,
    /// How often it holds: `72.3 %`.
    pub holds: String,
    /// The same by the uncertainty to first order, where that was worked out.
    pub first: String,
    /// Trials in which it cannot be judged, if there are any.
    pub broken: usize,
}

/// The checks that do not hold in every trial, those that do least often first.
pub(super) fn chances(outcome: &Outcome) -> Vec<Chance> {
    let Some(trials) = &outcome.trials else { return Vec::new() };
    let mut some: Vec<&TrialCheck> = trials.checks.iter().filter(|check| check.failed + check.broken > 0).collect();
    some.sort_by(|one, other| one.share.total_cmp(&other.share));
    let mut to_first_order = BTreeMap::new();
    for check in &outcome.checks {
        to_first_order.entry((&check.label, &check.stage, &check.table, &check.row)).or_insert(check.probability);
    }
    let chance = |check: &&TrialCheck| {
        let first = to_first_order.get(&(&check.label, &check.stage, &check.table, &check.row)).copied().flatten();
        Chance {
            label: label_with_row(&check.label, check.table.as_deref(), check.row.as_deref()),
            level: check.level,
            verdict: check.verdict,
            holds: per_cent(check.share),
            first: first.map_or_else(String::new, per_cent),
            broken: check.broken,
        }
    };
    some.iter().map(chance).collect()
}

/// `72.3 %`; what is not quite all or nothing never looks like it.
fn per_cent(share: f64) -> String {
    match share * 100.0 {
        0.0 => "never".to_string(),
        100.0 => "always".to_string(),
        few if few < 0.1 => "< 0.1 %".to_string(),
        many if many > 99.9 => "> 99.9 %".to_string(),
        some => format!("{some:.1} %"),
    }
}

/// A margin with its number rounded to three figures: more says nothing about how near the limit is.
fn three_figures(margin: &str) -> String {
    let (number, unit) = margin.split_once(' ').unwrap_or((margin, ""));
    let figures = number.bytes().filter(u8::is_ascii_digit).count();
    let Ok(value) = number.parse::<f64>() else { return margin.to_string() };
    // The exponent after rounding says how many decimals three figures are.
    let rounded = format!("{value:.2e}");
    let exponent: Option<i32> = rounded.split_once('e').and_then(|(_, exponent)| exponent.parse().ok());
    match exponent {
        Some(exponent) if number.contains('.') && figures > 3 && (-4..9).contains(&exponent) => {
            let decimals = usize::try_from(2 - exponent).unwrap_or(0);
            format!("{value:.decimals$} {unit}").trim_end().to_string()
        }
        _ => margin.to_string(),
    }
}

/// `superheat in range, indoor "Exam 2"`
pub(super) fn label_of(check: &CheckOutcome) -> String {
    label_with_row(&check.label, check.table.as_deref(), check.row.as_deref())
}

fn label_with_row(label: &str, table: Option<&str>, row: Option<&str>) -> String {
    match (table, row) {
        (Some(table), Some(row)) => format!("{label}: {table} {row}"),
        (None, Some(row)) => format!("{label}: {row}"),
        _ => label.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::{CheckVerdict, three_figures, word_at};

    #[test]
    fn advice_has_a_word_of_its_own() {
        assert_eq!(word_at("advise", CheckVerdict::Failed), "ADVICE");
        assert_eq!(word_at("advise", CheckVerdict::Passed), "passed");
        assert_eq!(word_at("require", CheckVerdict::Failed), "FAILED");
        assert_eq!(word_at("advise", CheckVerdict::Broken), "BROKEN");
    }

    #[test]
    fn margins_have_three_figures() {
        let pairs = [
            ("12.2253 F°", "12.2 F°"),
            ("0.380752 lb", "0.381 lb"),
            ("1234.56 ft", "1235 ft"),
            ("329 ft", "329 ft"),
            ("1 lb 3.2 oz", "1 lb 3.2 oz"),
            ("0.72", "0.72"),
            ("0.0123456", "0.0123"),
        ];
        for (margin, short) in pairs {
            assert_eq!(three_figures(margin), short);
        }
    }
}
