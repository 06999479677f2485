//! Checks judged: verdict, value, limit and margin, row by row where asked.

use super::block::{Block, Data, Mark};
use super::evaluate::Sight;
use super::fault::Fault;
use super::origins::Origins;
use super::run::Run;
use super::settings::World;
use super::{budget, closeness, rounding, shown, trace};
use crate::diagnostic::running;
use crate::limits;
use crate::outcome::{Bounds, CheckVerdict, Shown};
use crate::plan::{CheckPlan, Comparison, Guard};

/// What a check came to.
#[derive(Debug)]
pub struct CheckRun {
    /// One entry, or one a row.
    pub entries: Vec<Entry>,
}

/// The verdict on one row, or on a check without rows.
#[derive(Debug, Clone)]
pub struct Entry {
    /// Which row.
    pub row: Option<usize>,
    /// Its key.
    pub key: Option<String>,
    /// The verdict.
    pub verdict: CheckVerdict,
    /// What was judged.
    pub value: Option<String>,
    /// The limit.
    pub limit: Option<String>,
    /// The limit in numbers.
    pub bounds: Option<Bounds>,
    /// The margin, as shown and in SI.
    pub margin: Option<(String, f64)>,
    /// Expanded uncertainty of the margin, as shown and in SI.
    pub uncertainty: Option<(String, f64)>,
    /// Of a close one: the probability that the value lies within its limits.
    pub probability: Option<f64>,
    /// A close one does not pass.
    pub guarded: bool,
    /// Why it waits.
    pub reason: Option<String>,
    /// What it waits for.
    pub waiting_for: Vec<String>,
    /// Why it is broken.
    pub fault: Option<Fault>,
}

/// Judges a check.
pub fn judge(run: &Run, check: &CheckPlan, world: &World<'_>) -> CheckRun {
    let Some(table) = check.each else {
        let sight = run.sight(&world.work);
        let condition = sight.eval(&check.condition);
        let numbers = check.comparison.as_ref().map(|comparison| Numbers::of(&sight, comparison));
        let shaky = shaky(check, &sight, 1, world);
        let judged = Judged { condition, asked: None, numbers, shaky };
        return CheckRun { entries: vec![entry(run, check, world, &judged, None)] };
    };
    let values = match run.tables.get(table) {
        Some(values) if !values.pending => values,
        _ => {
            let name =
                run.plan.tables.get(table).map_or_else(String::new, |table| format!("{}{}", run.prefix, table.name));
            return CheckRun { entries: vec![waiting("its table has no rows yet", vec![name])] };
        }
    };
    let rows = values.rows;
    if let Err(fault) = world.hold(rows.saturating_mul(limits::CHECK_VALUES), 0, check.span) {
        let broken = CheckVerdict::Broken;
        let entry = Entry { verdict: broken, reason: None, fault: Some(fault), ..waiting("", Vec::new()) };
        return CheckRun { entries: vec![entry] };
    }
    let condition = run.formula(&check.condition, table, rows, world);
    let asked = check.asked.as_ref().map(|asked| run.formula(asked, table, rows, world));
    let sight = run.sight(&world.work).with(Some((table, 0, rows)), Vec::new());
    let numbers = check.comparison.as_ref().map(|comparison| Numbers::of(&sight, comparison));
    let shaky = shaky(check, &sight, rows, world);
    let judged = Judged { condition, asked, numbers, shaky };
    let mut entries: Vec<Entry> = (0..rows).map(|row| entry(run, check, world, &judged, Some((table, row)))).collect();
    // A table that may be empty and is asks for nothing; one of which no row is meant shows nothing yet.
    if rows > 0 && entries.iter().all(|entry| entry.verdict == CheckVerdict::NotAsked) {
        entries.push(waiting("it asks about none of the rows", Vec::new()));
    }
    CheckRun { entries }
}

/// What a check is judged by, for all rows.
struct Judged {
    condition: Block,
    asked: Option<Block>,
    numbers: Option<Numbers>,
    /// Rows in which a condition that is no single comparison hangs on a close part.
    shaky: Option<Vec<bool>>,
}

fn shaky(check: &CheckPlan, sight: &Sight<'_>, rows: usize, world: &World<'_>) -> Option<Vec<bool>> {
    let origins = world.origins.borrow();
    if check.comparison.is_some() || origins.all().is_empty() {
        return None;
    }
    closeness::shaky(sight, &check.condition, rows, &origins)
}

fn waiting(reason: &str, waiting_for: Vec<String>) -> Entry {
    Entry {
        row: None,
        key: None,
        verdict: CheckVerdict::Pending,
        value: None,
        limit: None,
        bounds: None,
        margin: None,
        uncertainty: None,
        probability: None,
        guarded: false,
        reason: Some(reason.to_string()),
        waiting_for,
        fault: None,
    }
}

fn entry(run: &Run, check: &CheckPlan, world: &World<'_>, judged: &Judged, row: Option<(usize, usize)>) -> Entry {
    let Judged { condition, asked, numbers, shaky } = judged;
    let at = row.map_or(0, |(_, row)| row);
    let mut entry = Entry {
        row: row.map(|(_, row)| row),
        key: row.map(|(table, row)| run.key(table, row)),
        verdict: CheckVerdict::NotAsked,
        value: None,
        limit: None,
        bounds: None,
        margin: None,
        uncertainty: None,
        probability: None,
        guarded: false,
        reason: None,
        waiting_for: Vec::new(),
        fault: None,
    };
    let (block, node) = match asked {
        Some(asked) if asked.flag_at(at) == Some(false) => return entry,
        Some(asked) if asked.flag_at(at).is_none() => (asked, check.asked.as_ref()),
        _ => (condition, Some(&check.condition)),
    };
    entry.verdict = match (block.mark(at), block.flag_at(at)) {
        (Mark::Known, Some(true)) => CheckVerdict::Passed,
        (Mark::Known, _) => CheckVerdict::Failed,
        (Mark::Broken, _) => CheckVerdict::Broken,
        (Mark::Pending, _) => CheckVerdict::Pending,
        (Mark::LeftOut, _) if row.is_some() => CheckVerdict::NotAsked,
        (Mark::LeftOut, _) => CheckVerdict::Broken,
    };
    match entry.verdict {
        CheckVerdict::Broken => {
            let left_out = || {
                let message = "this is asked of a row that was left out, so it asks for nothing";
                let mend = "ask each row, `require each …` in the table, or a value that every row has";
                Fault::new(&running::LEFT_OUT, message, check.span).with_mend(mend)
            };
            let fault = block.states.fault(at).map(|fault| (**fault).clone());
            entry.fault = fault.or_else(|| (block.mark(at) == Mark::LeftOut).then(left_out));
            entry.reason = entry.fault.as_ref().map(|fault| fault.message.clone());
        }
        CheckVerdict::Pending => {
            entry.waiting_for = node.map_or_else(Vec::new, |node| trace::roots(run, node, row, world));
            entry.reason = Some(if entry.waiting_for.is_empty() {
                "nothing is there to judge yet".into()
            } else {
                "something is still to be taken".into()
            });
        }
        _ => {}
    }
    if let (Some(comparison), Some(numbers)) = (&check.comparison, numbers) {
        numbers.tell(run, comparison, at, &mut entry);
    }
    if matches!(entry.verdict, CheckVerdict::Passed | CheckVerdict::Failed) {
        // Checks of safety functions are guarded whether the sheet says so or not.
        let guard = world.guard.or(check.safety.then_some(Guard::Expanded));
        if let (Some(comparison), Some(numbers)) = (&check.comparison, numbers) {
            numbers.weigh(run, comparison, at, &mut entry, guard, &world.origins.borrow());
        } else if entry.verdict == CheckVerdict::Passed && shaky.as_ref().is_some_and(|rows| rows[at]) {
            entry.verdict = CheckVerdict::Close;
            entry.guarded = guard.is_some();
            let what = "a part of it is nearer its limit than its uncertainty";
            entry.reason = Some(if entry.guarded { format!("measure better: {what}") } else { what.to_string() });
        }
    }
    entry
}

/// The sides of a comparison.
struct Numbers {
    value: Block,
    low: Option<Block>,
    high: Option<Block>,
}

impl Numbers {
    fn of(sight: &Sight<'_>, comparison: &Comparison) -> Numbers {
        Numbers {
            value: sight.eval(&comparison.value),
            low: comparison.low.as_ref().map(|low| sight.eval(low)),
            high: comparison.high.as_ref().map(|high| sight.eval(high)),
        }
    }

    /// Puts value, limit and margin into an entry, as far as they are known.
    fn tell(&self, run: &Run, comparison: &Comparison, at: usize, entry: &mut Entry) {
        let site = run.atmosphere.number_at(0);
        let show = |block: &Block| shown::value(block, at, &comparison.typing, run.system, site);
        entry.value = show(&self.value).map(|value| value.text).map(|value| match comparison.text.as_str() {
            text if text == value => value,
            text => format!("{text} = {value}"),
        });
        let side = |block: &Option<Block>| block.as_ref().and_then(show);
        let (low, high) = (side(&self.low), side(&self.high));
        entry.limit = match (&low, &high) {
            (Some(low), Some(high)) if comparison.words == "within" => Some(range(&low.text, &high.text)),
            (Some(one), _) | (None, Some(one)) => Some(format!("{} {}", comparison.words, one.text)),
            (None, None) => None,
        };
        let number = |side: &Option<Shown>| side.as_ref().and_then(|shown| shown.number);
        if let (Some(of), false) = (low.as_ref().or(high.as_ref()), comparison.words.ends_with("equal to")) {
            entry.bounds = (of.number.is_some()).then(|| Bounds {
                of: comparison.text.clone(),
                unit: of.unit.clone(),
                low: number(&low),
                high: number(&high),
            });
        }
        let Some(value) = self.value.number_at(at) else { return };
        if !matches!(self.value.data, Data::Numbers(_)) || comparison.words.ends_with("equal to") {
            return;
        }
        let below = self.low.as_ref().and_then(|low| low.number_at(at)).map(|low| value - low);
        let above = self.high.as_ref().and_then(|high| high.number_at(at)).map(|high| high - value);
        let margin = match (below, above) {
            (Some(a), Some(b)) => a.min(b),
            (Some(one), None) | (None, Some(one)) => one,
            (None, None) => return,
        };
        // The same tolerance as in the verdict: what counts as equal has no margin.
        let margin = if margin.abs() <= super::arithmetic::EQUAL * value.abs() { 0.0 } else { margin };
        let typing = shown::distance(&comparison.typing, run.system);
        entry.margin = Some((shown::number(margin, &typing, run.system, site), margin));
    }
}

impl Numbers {
    /// Weighs the margin against its uncertainty: close if a limit lies within it.
    fn weigh(
        &self,
        run: &Run,
        comparison: &Comparison,
        at: usize,
        entry: &mut Entry,
        guard: Option<Guard>,
        origins: &Origins,
    ) {
        if !matches!(self.value.data, Data::Numbers(_)) || comparison.words.ends_with("equal to") {
            return;
        }
        let below = self.low.as_ref().and_then(|low| closeness::side(&self.value, low, at));
        let above = self.high.as_ref().and_then(|high| closeness::side(high, &self.value, at));
        let sides: Vec<_> = below.into_iter().chain(above).collect();
        let Some(closeness) = closeness::of(origins, &sides, guard) else { return };
        let typing = shown::distance(&comparison.typing, run.system);
        let expanded = closeness.uncertainty.expanded;
        let shown = rounding::distance(expanded, &typing, run.system);
        entry.uncertainty = Some((format!("± {shown}"), expanded));
        entry.guarded = guard.is_some();
        let passed = entry.verdict == CheckVerdict::Passed;
        let close = match guard {
            Some(_) if passed => !closeness.safe,
            _ => closeness.close,
        };
        if !close {
            return;
        }
        entry.probability = Some(closeness.probability);
        let largest = budget::largest(origins, &closeness.parts).map(|name| format!("; most of it comes from {name}"));
        let told = format!(
            "its limit is nearer than its uncertainty of ± {shown}, within it with a probability of {}{}",
            per_cent(closeness.probability),
            largest.unwrap_or_default()
        );
        entry.reason = Some(match (passed, entry.guarded) {
            (true, true) => format!("measure better: {told}"),
            _ => told,
        });
        if passed {
            entry.verdict = CheckVerdict::Close;
        }
    }
}

/// `71 %`, never so near one end that it looks like certainty.
fn per_cent(probability: f64) -> String {
    match probability * 100.0 {
        few if few < 1.0 => "less than 1 %".to_string(),
        many if many > 99.0 => "more than 99 %".to_string(),
        some => format!("{some:.0} %"),
    }
}

/// A range as the language writes it: the unit of both ends stands once, `within 5 .. 15 F°`.
fn range(low: &str, high: &str) -> String {
    match (low.split_once(' '), high.split_once(' ')) {
        // Amounts in pieces, `1 lb 8 oz`, are written out.
        (Some((number, unit)), Some((_, same))) if unit == same && !unit.contains(' ') => {
            format!("within {number} .. {high}")
        }
        _ => format!("within {low} .. {high}"),
    }
}

#[cfg(test)]
mod tests {
    use super::range;

    #[test]
    fn the_unit_of_both_ends_stands_once() {
        assert_eq!(range("5 F°", "15 F°"), "within 5 .. 15 F°");
        assert_eq!(range("16 lb 8.1 oz", "17 lb 8.1 oz"), "within 16 lb 8.1 oz .. 17 lb 8.1 oz");
        assert_eq!(range("0.3", "0.5"), "within 0.3 .. 0.5");
    }
}
