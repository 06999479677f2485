//! Where the properties of refrigerants come from.

use dewline_lang::outcome::Outcome;
use dewline_stdlib::refrigerant::Refrigerant;

/// Each refrigerant that the sheet names, with the publications behind its values.
pub(super) fn of_refrigerants(outcome: &Outcome) -> Vec<(String, String)> {
    let source = |name: &String| {
        let refrigerant = Refrigerant::find(name).ok()?;
        let mut source = refrigerant.source().ok()?.to_string();
        let estimated = refrigerant.estimated_pairs().unwrap_or_default();
        if !estimated.is_empty() {
            let pairs: Vec<String> = estimated.iter().map(|[one, other]| format!("{one} with {other}")).collect();
            source = format!("{source}; estimated, since nothing is published of {}", pairs.join(", "));
        }
        Some((name.clone(), source))
    };
    outcome.refrigerants.iter().filter_map(source).collect()
}
