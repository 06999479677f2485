//! Charts of a report: those that the sheet asks for, and those that its data allow.

mod bars;
mod lines;
mod rows;
mod scale;
mod svg;

use dewline_lang::library::{Axis, Drawing, Mark, Series};
use dewline_lang::moment::Moment;
use dewline_lang::outcome::{ChartOutcome, ColumnOutcome, Offers, Outcome, Sort};

use bars::Bars;

/// Bars of one chart; more would be no chart.
const BARS: usize = 60;

/// A chart ready for the page.
pub(super) struct Chart {
    /// Its title.
    pub title: String,
    /// What it shows, for those who cannot see it.
    pub says: String,
    /// What is drawn, without the `svg` element around it.
    pub inside: String,
    /// How wide and high the drawing is.
    pub size: (u32, u32),
}

/// The charts of one stage: the sheet's own first.
pub(super) fn of_stage(outcome: &Outcome, offers: &Offers, stage: &str) -> Vec<Chart> {
    let own = outcome.charts.iter().filter(|chart| chart.stage == stage).filter_map(|chart| asked(outcome, chart));
    let columns = offers.columns.iter().filter_map(|(table, column)| offered(outcome, stage, table, column));
    let drawings = offers.drawings.iter().filter(|one| one.stage == stage);
    own.chain(columns).chain(drawings.filter_map(|one| lines::chart(&one.drawing))).collect()
}

/// A chart that the sheet asks for.
fn asked(outcome: &Outcome, chart: &ChartOutcome) -> Option<Chart> {
    let (across, up) = chart.columns.split_first()?;
    if let ("bars", [up]) = (chart.style, up) {
        let judged = rows::judged(outcome, &chart.table, &up.name);
        return bars::chart(&bars_of(&chart.title, across, up, judged));
    }
    let mark = if chart.style == "bars" { Mark::Points } else { Mark::LineAndPoints };
    let along = numbers(across);
    let series = up.iter().map(|column| {
        let points = along.iter().zip(numbers(column)).filter_map(|(x, y)| Some(((*x)?, y?))).collect();
        Series::of(&column.name, mark, points)
    });
    let first = up.first()?;
    let unit = if across.kind == Sort::Time { "h" } else { across.unit.as_str() };
    let up_name = if up.len() == 1 { first.name.as_str() } else { "" };
    let names: Vec<&str> = up.iter().map(|column| column.name.as_str()).collect();
    lines::chart(&Drawing {
        title: chart.title.clone(),
        says: format!("{} over {}.", names.join(", "), across.name),
        across: Axis::of(&across.name, unit),
        up: Axis::of(up_name, &first.unit),
        series: series.collect(),
        limits: Vec::new(),
    })
}

/// A chart of the rows of a column that is judged by its rows, unless the sheet draws that column itself.
fn offered(outcome: &Outcome, stage: &str, table: &str, column: &str) -> Option<Chart> {
    let draws_it = |chart: &ChartOutcome| chart.table == table && chart.columns.iter().any(|one| one.name == column);
    if outcome.charts.iter().any(draws_it) {
        return None;
    }
    let of = outcome.tables.iter().find(|one| one.name == table && one.stage == stage)?;
    let judged = rows::judged(outcome, table, column);
    if judged.limits.is_empty() {
        return None;
    }
    let up = of.columns.iter().find(|one| one.name == column)?;
    bars::chart(&bars_of(&format!("{column} of {table}, by row"), of.columns.first()?, up, judged))
}

fn bars_of(title: &str, across: &ColumnOutcome, up: &ColumnOutcome, judged: rows::Judged) -> Bars {
    let name = |row: usize| across.text.get(row).filter(|text| !text.is_empty()).cloned();
    let all = up.text.len();
    Bars {
        title: title.to_string(),
        unit: up.unit.clone(),
        bars: (0..all.min(BARS))
            .map(|row| bars::Bar {
                name: name(row).unwrap_or_else(|| (row + 1).to_string()),
                value: number(up, row),
                shown: up.text.get(row).cloned().unwrap_or_default(),
                word: judged.words.get(row).copied().unwrap_or_default(),
            })
            .collect(),
        left_out: all.saturating_sub(BARS),
        limits: judged.limits,
    }
}

/// The numbers of a column as shown; of times, hours since the first.
fn numbers(column: &ColumnOutcome) -> Vec<Option<f64>> {
    if column.kind != Sort::Time {
        return (0..column.text.len()).map(|row| number(column, row)).collect();
    }
    let moments: Vec<Option<Moment>> = column.text.iter().map(|text| Moment::parse(text).ok()).collect();
    let first = moments.iter().flatten().next().copied();
    moments.into_iter().map(|moment| Some(moment?.since(first?).ok()? / 3600.0)).collect()
}

fn number(column: &ColumnOutcome, row: usize) -> Option<f64> {
    column.text.get(row)?.parse().ok().filter(|number: &f64| number.is_finite())
}
