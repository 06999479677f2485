//! What must hold of every outcome.

use dewline_lang::outcome::Outcome;

/// No number in it is NaN or infinite.
pub fn assert_finite(outcome: &Outcome) {
    let is = |what: &str, number: Option<f64>| {
        assert!(number.is_none_or(f64::is_finite), "{what} is {number:?}");
    };
    for cell in &outcome.cells {
        is(&cell.name, cell.si);
        is(&cell.name, cell.shown.as_ref().and_then(|shown| shown.number));
        if let Some(doubt) = &cell.uncertainty {
            [doubt.standard, doubt.expanded, doubt.k].iter().for_each(|number| is(&cell.name, Some(*number)));
            is(&cell.name, doubt.freedom);
        }
        assert!(!(cell.si.is_some() && (cell.pending || cell.broken)), "{} has a value and has none", cell.name);
    }
    for column in outcome.tables.iter().flat_map(|table| &table.columns) {
        let all = column.si.iter().chain(&column.standard).chain(&column.expanded);
        all.for_each(|number| is(&column.name, *number));
    }
    for check in &outcome.checks {
        is(&check.label, check.margin_si);
        is(&check.label, check.uncertainty_si);
        is(&check.label, check.probability);
        if let Some(bounds) = &check.bounds {
            is(&check.label, bounds.low);
            is(&check.label, bounds.high);
        }
        assert!(check.probability.is_none_or(|share| (0.0..=1.0).contains(&share)), "{}", check.label);
    }
}

/// Two outcomes of one sheet are the same, bit for bit.
pub fn assert_same(one: &Outcome, other: &Outcome, what: &str) {
    let json = |outcome: &Outcome| serde_json::to_string(outcome).unwrap_or_else(|error| panic!("no JSON: {error}"));
    assert_eq!(json(one), json(other), "{what}");
}
