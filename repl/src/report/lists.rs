//! The lists that csv and workbooks have in common: which columns they have, and what stands in each.

use dewline_lang::outcome::{
    CellOutcome, CheckOutcome, ColumnOutcome, ConfirmOutcome, Outcome, Role, Sort, TableOutcome, TrialCheck, TrialValue,
};

use super::summary::{printed_number, role_word, state_word, trial_shown, trial_word};

/// A field of a list.
pub(super) enum Datum {
    /// A text; an empty one is a blank field.
    Text(String),
    /// A number as printed.
    Printed(String),
    /// A number with every bit.
    Exact(Option<f64>),
}

impl Datum {
    fn text(text: &str) -> Datum {
        Datum::Text(text.to_string())
    }

    fn maybe(text: &Option<String>) -> Datum {
        Datum::Text(text.clone().unwrap_or_default())
    }

    fn count(number: usize) -> Datum {
        Datum::Printed(number.to_string())
    }
}

/// Columns of the list of single values. `plus_minus` is what was stated, `U` what was carried to the value.
pub(super) const VALUES: [&str; 18] = [
    "stage",
    "name",
    "role",
    "state",
    "value",
    "unit",
    "U",
    "U_unit",
    "shown",
    "plus_minus",
    "by",
    "at",
    "note",
    "formula",
    "set_from",
    "si",
    "U_si",
    "ucum",
];

/// One value.
pub(super) fn value(cell: &CellOutcome) -> [Datum; VALUES.len()] {
    let shown = cell.shown.as_ref();
    // Zero is no uncertainty.
    let doubt = cell.uncertainty.as_ref().filter(|one| one.expanded > 0.0);
    [
        Datum::text(&cell.stage),
        Datum::text(&cell.name),
        Datum::text(role_word(cell.role)),
        Datum::text(state_word(cell)),
        match shown {
            Some(shown) if shown.number.is_some() => Datum::Printed(printed_number(shown)),
            other => Datum::text(other.map_or("", |shown| &shown.text)),
        },
        Datum::text(shown.map_or("", |shown| &shown.unit)),
        doubt.map_or(Datum::text(""), |one| Datum::Printed(printed_number(&one.shown))),
        Datum::text(doubt.map_or("", |one| &one.shown.unit)),
        Datum::text(shown.map_or("", |shown| &shown.text)),
        Datum::maybe(&cell.stated.uncertainty),
        Datum::maybe(&cell.stated.by),
        Datum::maybe(&cell.stated.at),
        Datum::maybe(&cell.stated.note),
        Datum::text(&cell.formula),
        Datum::maybe(&cell.set),
        Datum::Exact(cell.si),
        Datum::Exact(doubt.map(|one| one.expanded)),
        Datum::text(&cell.ucum),
    ]
}

/// Columns of the list of what came from outside.
pub(super) const OUTSIDE: [&str; 6] = ["what", "name", "value", "from", "instead_of", "limit"];

/// What was set, given otherwise, put in the place of the library's, and read.
pub(super) fn outside(outcome: &Outcome) -> Vec<[Datum; OUTSIDE.len()]> {
    let limit = |limit: bool| Datum::text(if limit { "limit" } else { "" });
    let set = outcome.set.iter().map(|one| {
        let [name, value, from] = [&one.name, &one.value, &one.from].map(|text| Datum::text(text));
        [Datum::text("set"), name, value, from, Datum::maybe(&one.sheet), limit(one.limit)]
    });
    let otherwise = outcome.otherwise.iter().map(|one| {
        let [name, value, from, default] =
            [&one.name, &one.value, &one.form, &one.default].map(|text| Datum::text(text));
        [Datum::text("otherwise than the form"), name, value, from, default, limit(one.limit)]
    });
    let replaced = outcome.replaced.iter().map(|one| {
        let what = format!("in the place of the library's {}", one.what);
        [
            Datum::Text(what),
            Datum::text(&one.name),
            Datum::text(""),
            Datum::text(&one.by),
            Datum::text(""),
            limit(false),
        ]
    });
    let files = outcome.files.iter().map(|one| {
        let digest = Datum::text(&one.sha256);
        [Datum::text("file read"), Datum::text(&one.name), digest, Datum::text(""), Datum::text(""), limit(false)]
    });
    set.chain(otherwise).chain(replaced).chain(files).collect()
}

/// Columns of the list of checks and confirmations.
pub(super) const CHECKS: [&str; 20] = [
    "stage",
    "check",
    "level",
    "table",
    "row",
    "verdict",
    "value",
    "limit",
    "at_least",
    "at_most",
    "unit",
    "margin",
    "U",
    "probability",
    "reason",
    "condition",
    "by",
    "at",
    "margin_si",
    "U_si",
];

/// One check, or one row of one.
pub(super) fn check(check: &CheckOutcome) -> [Datum; CHECKS.len()] {
    let bounds = check.bounds.as_ref();
    [
        Datum::text(&check.stage),
        Datum::text(&check.label),
        Datum::text(check.level),
        Datum::maybe(&check.table),
        Datum::maybe(&check.row),
        Datum::text(check.verdict.words()),
        Datum::maybe(&check.value),
        Datum::maybe(&check.limit),
        Datum::Exact(bounds.and_then(|bounds| bounds.low)),
        Datum::Exact(bounds.and_then(|bounds| bounds.high)),
        Datum::text(bounds.map_or("", |bounds| &bounds.unit)),
        Datum::maybe(&check.margin),
        Datum::maybe(&check.uncertainty),
        Datum::Exact(check.probability),
        Datum::maybe(&check.reason),
        Datum::text(&check.condition),
        Datum::text(""),
        Datum::text(""),
        Datum::Exact(check.margin_si),
        Datum::Exact(check.uncertainty_si),
    ]
}

/// One confirmation, in the list of checks.
pub(super) fn confirmation(one: &ConfirmOutcome) -> [Datum; CHECKS.len()] {
    let mut fields: [Datum; CHECKS.len()] = std::array::from_fn(|_| Datum::text(""));
    let known = [
        ("stage", Datum::text(&one.stage)),
        ("check", Datum::text(&one.label)),
        ("level", Datum::text("confirm")),
        ("verdict", Datum::text(one.verdict.words())),
        ("by", Datum::maybe(&one.by)),
        ("at", Datum::maybe(&one.at)),
    ];
    for (head, field) in known {
        if let Some(at) = CHECKS.iter().position(|known| *known == head) {
            fields[at] = field;
        }
    }
    fields
}

/// Columns of the list of values by trials.
pub(super) const TRIAL_VALUES: [&str; 16] = [
    "name",
    "mean",
    "u",
    "interval",
    "first_order",
    "agrees",
    "broken",
    "mean_si",
    "u_si",
    "low_si",
    "high_si",
    "estimate_si",
    "first_u_si",
    "first_low_si",
    "first_high_si",
    "tolerance_si",
];

/// What so many trials say of one value.
pub(super) fn trial_value(value: &TrialValue, trials: usize) -> [Datum; TRIAL_VALUES.len()] {
    let word = trial_word(value);
    let by_trials = |number: f64| Datum::Exact((value.broken < trials).then_some(number));
    let [mean, doubt, interval] = trial_shown(value, trials);
    let [low, high] = value.symmetric;
    let [first_low, first_high] = value.first;
    [
        Datum::text(&value.name),
        Datum::Printed(mean),
        Datum::Text(doubt),
        Datum::Text(interval),
        Datum::text(&value.shown_first),
        Datum::text(if word.is_empty() { "yes" } else { word }),
        Datum::count(value.broken),
        by_trials(value.mean),
        by_trials(value.standard),
        by_trials(low),
        by_trials(high),
        Datum::Exact(Some(value.estimate)),
        Datum::Exact(Some(value.first_standard)),
        Datum::Exact(Some(first_low)),
        Datum::Exact(Some(first_high)),
        Datum::Exact(Some(value.tolerance)),
    ]
}

/// Columns of the list of checks by trials.
pub(super) const TRIAL_CHECKS: [&str; 11] =
    ["stage", "check", "level", "table", "row", "verdict", "share", "passed", "failed", "not_asked", "broken"];

/// How often one check holds.
pub(super) fn trial_check(check: &TrialCheck) -> [Datum; TRIAL_CHECKS.len()] {
    [
        Datum::text(&check.stage),
        Datum::text(&check.label),
        Datum::text(check.level),
        Datum::maybe(&check.table),
        Datum::maybe(&check.row),
        Datum::text(check.verdict.words()),
        Datum::Exact(Some(check.share)),
        Datum::count(check.passed),
        Datum::count(check.failed),
        Datum::count(check.not_asked),
        Datum::count(check.broken),
    ]
}

/// A column of a table as it is listed.
pub(super) struct Listed<'a> {
    /// Its name and unit: `superheat [F°]`, `U(superheat) [F°]`.
    pub head: String,
    column: &'a ColumnOutcome,
    /// It holds the expanded uncertainties of the column before it.
    expanded: bool,
}

/// The columns of a table, each that is in doubt with its expanded uncertainty beside it. Units stand in `[…]` of the head,
/// so that a sheet can read the list again.
pub(super) fn columns(table: &TableOutcome) -> Vec<Listed<'_>> {
    let with_unit = |name: String, unit: &str| if unit.is_empty() { name } else { format!("{name} [{unit}]") };
    let mut listed = Vec::new();
    for column in &table.columns {
        listed.push(Listed { head: with_unit(column.name.clone(), &column.unit), column, expanded: false });
        if column.expanded_text.iter().any(|text| !text.is_empty()) {
            let head = with_unit(format!("U({})", column.name), &column.expanded_unit);
            listed.push(Listed { head, column, expanded: true });
        }
    }
    listed
}

impl Listed<'_> {
    /// What stands in one row; blank where nothing is known, as in a file that is read.
    pub fn field(&self, row: usize) -> Datum {
        let column = self.column;
        let printed = if self.expanded { &column.expanded_text } else { &column.text };
        let text = printed.get(row).map_or("", String::as_str);
        let words = matches!(column.kind, Sort::Text | Sort::Flag | Sort::Time | Sort::Refrigerant | Sort::Gas);
        if words && !self.expanded { Datum::text(text) } else { Datum::Printed(text.to_string()) }
    }

    /// The word for why a value is not there, for one who looks at the list.
    pub fn missing(&self, row: usize) -> &'static str {
        match self.column.text.get(row) {
            _ if self.expanded => "",
            Some(text) if !text.is_empty() => "",
            _ if self.column.broken.contains(&row) => "broken",
            _ if self.column.role == Role::Cell => "",
            _ => "?",
        }
    }
}
