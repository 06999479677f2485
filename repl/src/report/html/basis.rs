//! What a report rests on: instruments, assumptions, cautions, sources, and the record it belongs to.

use dewline_lang::outcome::{InstrumentOutcome, Outcome};
use maud::{Markup, html};

use crate::report::sources;
use crate::words::{kept, width};

/// A list under a heading; nothing if it is empty.
pub(super) fn items(title: &str, items: &[String]) -> Markup {
    html! {
        @if !items.is_empty() {
            section {
                h2 { (title) }
                ul { @for item in items { li { (item) } } }
            }
        }
    }
}

/// The instruments in a table.
pub(super) fn instruments(outcome: &Outcome) -> Markup {
    type Part = fn(&InstrumentOutcome) -> Option<&String>;
    let parts: [(&str, Part); 5] = [
        ("Accuracy", |one| one.accuracy.as_ref()),
        ("Repeats", |one| one.repeats.as_ref()),
        ("Serial", |one| one.serial.as_ref()),
        ("Calibrated", |one| one.calibrated.as_ref()),
        ("Due", |one| one.due.as_ref()),
    ];
    // A column that nothing stands in only takes room.
    let stated = || parts.iter().filter(|(_, part)| outcome.instruments.iter().any(|one| part(one).is_some()));
    html! {
        @if !outcome.instruments.is_empty() {
            section {
                h2 { "Instruments" }
                table {
                    caption class="unseen" { "Instruments with accuracy and calibration" }
                    thead {
                        tr {
                            th scope="col" { "Name" } th scope="col" { "What it is" }
                            @for (title, _) in stated() { th scope="col" { (title) } }
                        }
                    }
                    tbody {
                        @for one in &outcome.instruments {
                            tr {
                                th scope="row" class={ "name " (short(Some(&one.name)).unwrap_or_default()) } { (one.name) }
                                td { (one.description) }
                                @for (title, part) in stated() {
                                    td data-label=(title) class=[short(part(one))] {
                                        (kept(part(one).map_or("-", String::as_str)))
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// A short text stays on one line.
fn short(text: Option<&String>) -> Option<&'static str> {
    text.filter(|text| width(text) <= 24).map(|_| "short")
}

/// Where the equations and the properties come from.
pub(super) fn sources(outcome: &Outcome) -> Markup {
    let refrigerants = sources::of_refrigerants(outcome);
    html! {
        @if !outcome.functions.is_empty() || !refrigerants.is_empty() {
            section {
                h2 { "Sources" }
                dl {
                    @for one in &outcome.functions {
                        dt { span class="name" { (one.name) } ", " (one.gives) }
                        dd { (one.source) }
                        dd class="quiet" { (one.equation) @if !one.validity.is_empty() { ". Holds: " (one.validity) } }
                    }
                    @for (name, source) in &refrigerants {
                        dt { (name) ", properties" }
                        dd { (source) }
                    }
                }
            }
        }
    }
}

/// What ties the page to the sheet and to its record.
pub(super) fn record(outcome: &Outcome, digest: Option<&str>) -> Markup {
    html! {
        @if digest.is_some() || !outcome.sheet.sha256.is_empty() {
            section {
                h2 { "Record" }
                dl {
                    @if let Some(digest) = digest { dt { "Digest of the record" } dd { code { (digest) } } }
                    @if !outcome.sheet.sha256.is_empty() {
                        dt { "SHA-256 of the sheet's text" }
                        dd { code { (outcome.sheet.sha256) } }
                    }
                }
            }
        }
    }
}
