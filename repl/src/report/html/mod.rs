//! The report as one page of HTML that needs nothing else: to read on a screen, on a telephone and on paper.
//!
//! It states one scheme, light, since it is made to be printed and handed over. Verdicts are told by a word and a shape;
//! colour only repeats them.

mod basis;
mod chart;
mod head;
mod stage;
mod table;
mod trials;
mod word;

#[cfg(test)]
mod tests;

use dewline_lang::outcome::{Offers, Outcome};
use maud::{DOCTYPE, PreEscaped, html};

use super::{Beside, outside, stages_in_order};
use crate::words::visible;

/// Letters of the title in a browser's tab.
const TITLE: usize = 70;

/// What stands before the first report.
pub(super) fn begin(title: &str) -> String {
    let head = html! {
        (DOCTYPE)
        (PreEscaped("<html lang=\"en\">"))
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="only light";
            title { (title.chars().take(TITLE).collect::<String>()) }
            style { (PreEscaped(include_str!("style.css"))) }
        }
        (PreEscaped("<body>"))
        (word::shapes())
        (PreEscaped("<main>"))
    };
    shown(head.into_string())
}

/// What all runs came to.
pub(super) fn total(title: &str, lines: &[String]) -> String {
    shown(html! { article { hr; (basis::items(title, lines)) } }.into_string())
}

/// What stands after the last.
pub(super) fn end() -> &'static str {
    "</main></body></html>\n"
}

/// One report; `number` tells it from others of the same page.
pub(super) fn report(outcome: &Outcome, run: &str, number: usize, quiet: bool, beside: &Beside<'_>) -> String {
    let offers = if quiet { Offers::default() } else { (beside.offers)() };
    let stages = stages_in_order(outcome);
    let place = |stage: usize| format!("r{number}-s{stage}");
    let page = html! {
        article {
            @if number > 1 { hr; }
            (head::head(outcome, run))
            @if !quiet { (head::stages(outcome, &stages, &place)) }
            (head::attention(outcome))
            @if !quiet { (head::to_take(outcome)) }
            (head::errors(outcome))
            @if !quiet {
                (basis::items("Advice", &outcome.advice))
                @for (title, lines) in outside::lists(outcome) { (basis::items(title, &lines)) }
                @for (at, stage) in stages.iter().enumerate() {
                    (stage::section(outcome, &offers, stage, &place(at)))
                }
                (trials::trials(outcome))
                (basis::instruments(outcome))
                (basis::items("Assumptions", &outcome.assumptions))
                (basis::items("Cautions", &outcome.cautions))
                (basis::sources(outcome))
                (basis::items(outside::FILES, &outside::files(outcome)))
            }
            (basis::record(outcome, beside.digest))
        }
    };
    shown(page.into_string())
}

/// Nothing in the page steers whoever reads it: signs that turn the reading direction are written out.
fn shown(page: String) -> String {
    visible(&page)
}
