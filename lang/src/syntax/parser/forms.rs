//! What each statement looks like, for messages.

/// Every statement by its first word, with its form.
pub const FORMS: &[(&str, &str)] = &[
    ("sheet", "sheet \"title\""),
    ("units", "units IP"),
    ("decide", "decide guarded"),
    ("site", "site altitude = 1280 ft"),
    ("use", "use \"path.dew\" as name"),
    ("fill", "fill \"path.dew\" as name (input = value, …)"),
    ("instrument", "instrument name \"description\""),
    ("accuracy", "accuracy ± 0.5 % of 800 psi"),
    ("repeats", "repeats ± 0.4 psi"),
    ("serial", "serial \"…\""),
    ("calibrated", "calibrated 2026-01-12 due 2027-01-12"),
    ("input", "input name : unit = value ± … \"note\""),
    ("reading", "reading name : unit = value ± … by instrument at time"),
    ("define", "define name(parameter, …) = formula"),
    ("table", "table name from \"file.csv\" at time optional"),
    ("require", "require \"label\" condition"),
    ("advise", "advise \"label\" condition"),
    ("confirm", "confirm \"label\" yes at time by \"name\""),
    ("waive", "waive \"label\" for \"row\" reason \"…\" by \"name\" at time"),
    ("stage", "stage \"name\" after \"name\""),
    ("end", "end"),
    ("note", "note \"text {value as unit}\""),
    ("chart", "chart line \"title\" x, y"),
];

/// The form of the statement that begins with a word.
pub fn form(word: &str) -> Option<&'static str> {
    FORMS.iter().find(|(first, _)| *first == word).map(|(_, form)| *form)
}
