//! Checks judged: verdict, value, limit and margin, row by row where asked.

use super::block::{Block, Data, Mark};
use super::evaluate::Sight;
use super::fault::Fault;
use super::run::Run;
use super::settings::World;
use super::{shown, trace};
use crate::kinds::{Kind, algebra};
use crate::outcome::CheckVerdict;
use crate::plan::{CheckPlan, Comparison, Datum, Typing};

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
    /// The margin, as shown and in SI.
    pub margin: Option<(String, f64)>,
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
        return CheckRun { entries: vec![entry(run, check, world, &condition, None, numbers.as_ref(), None)] };
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
    let condition = run.formula(&check.condition, table, rows, world);
    let asked = check.asked.as_ref().map(|asked| run.formula(asked, table, rows, world));
    let numbers = check.comparison.as_ref().map(|comparison| {
        let sight = run.sight(&world.work);
        Numbers::of(&sight.with(Some((table, 0, rows)), Vec::new()), comparison)
    });
    let mut entries: Vec<Entry> = (0..rows)
        .map(|row| entry(run, check, world, &condition, asked.as_ref(), numbers.as_ref(), Some((table, row))))
        .collect();
    if entries.iter().all(|entry| entry.verdict == CheckVerdict::NotAsked) {
        let reason = if rows == 0 { "its table has no rows" } else { "it asks about none of the rows" };
        entries.push(waiting(reason, Vec::new()));
    }
    CheckRun { entries }
}

fn waiting(reason: &str, waiting_for: Vec<String>) -> Entry {
    Entry {
        row: None,
        key: None,
        verdict: CheckVerdict::Pending,
        value: None,
        limit: None,
        margin: None,
        reason: Some(reason.to_string()),
        waiting_for,
        fault: None,
    }
}

fn entry(
    run: &Run,
    check: &CheckPlan,
    world: &World<'_>,
    condition: &Block,
    asked: Option<&Block>,
    numbers: Option<&Numbers>,
    row: Option<(usize, usize)>,
) -> Entry {
    let at = row.map_or(0, |(_, row)| row);
    let mut entry = Entry {
        row: row.map(|(_, row)| row),
        key: row.map(|(table, row)| run.key(table, row)),
        verdict: CheckVerdict::NotAsked,
        value: None,
        limit: None,
        margin: None,
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
        (Mark::LeftOut, _) => CheckVerdict::NotAsked,
    };
    match entry.verdict {
        CheckVerdict::Broken => {
            entry.fault = block.states.fault(at).map(|fault| (**fault).clone());
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
        let show =
            |block: &Block, typing: &Typing| shown::value(block, at, typing, run.system, site).map(|shown| shown.text);
        entry.value = show(&self.value, &comparison.typing).map(|value| match comparison.text.as_str() {
            text if text == value => value,
            text => format!("{text} = {value}"),
        });
        let side = |block: &Option<Block>| block.as_ref().and_then(|block| show(block, &comparison.typing));
        entry.limit = match (side(&self.low), side(&self.high)) {
            (Some(low), Some(high)) if comparison.words == "within" => Some(range(&low, &high)),
            (Some(one), _) | (None, Some(one)) => Some(format!("{} {one}", comparison.words)),
            (None, None) => None,
        };
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
        let kind = algebra::subtract(&comparison.typing.kind, &comparison.typing.kind).unwrap_or(Kind::Number);
        let wish = shown::distance_wish(&comparison.typing, run.system);
        let typing = Typing { kind, datum: Datum::Absolute, wish };
        entry.margin = Some((shown::number(margin, &typing, run.system, site), margin));
    }
}

/// A range as the language writes it: the unit of both ends stands once, `within 5 .. 15 F°`.
fn range(low: &str, high: &str) -> String {
    match (low.split_once(' '), high.split_once(' ')) {
        (Some((number, unit)), Some((_, same))) if unit == same => format!("within {number} .. {high}"),
        _ => format!("within {low} .. {high}"),
    }
}
