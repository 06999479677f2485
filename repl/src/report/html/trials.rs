//! What trials say: how often checks hold, and value by value beside the uncertainties to first order.

use dewline_lang::outcome::{Outcome, TrialValue};
use maud::{Markup, html};

use super::word;
use crate::report::summary::{self, Chance};
use crate::words::{count, kept};

/// The section on trials; nothing if there were none.
pub(super) fn trials(outcome: &Outcome) -> Markup {
    let chances = summary::chances(outcome);
    html! {
        @if let Some(trials) = &outcome.trials {
            section {
                h2 { "Trials" }
                p { (summary::trials(trials)) }
                @if !chances.is_empty() {
                    h3 { "How often a check holds" }
                    (checks(&chances))
                }
                @let [told, rest] = summary::trial_values(trials);
                @if !told.is_empty() {
                    h3 { "Values" }
                    (values(&told, trials.count))
                }
                @if !rest.is_empty() {
                    details {
                        summary { (count(rest.len(), "further value of rows", "further values of rows")) }
                        (values(&rest, trials.count))
                    }
                }
            }
        }
    }
}

fn checks(chances: &[Chance]) -> Markup {
    let broken = chances.iter().any(|chance| chance.broken > 0);
    html! {
        table {
            caption class="unseen" { "Checks that do not hold in every trial" }
            thead {
                tr {
                    th scope="col" { "Check" } th scope="col" { "Verdict" } th scope="col" { "Holds in" }
                    th scope="col" { "To first order" }
                    @if broken { th scope="col" { "Not judged in" } }
                }
            }
            tbody {
                @for chance in chances {
                    tr class=[word::tone_at(chance.level, chance.verdict).row()] {
                        th scope="row" { (chance.label) }
                        td data-label="verdict" { (word::of_check(chance.level, chance.verdict)) }
                        td data-label="holds in" { (kept(&chance.holds)) }
                        td data-label="to first order" { (kept(&chance.first)) }
                        @if broken {
                            td data-label="not judged in" { @if chance.broken > 0 { (chance.broken) } }
                        }
                    }
                }
            }
        }
    }
}

fn values(values: &[&TrialValue], trials: usize) -> Markup {
    html! {
        table {
            caption class="unseen" { "Values by trials, and to first order" }
            thead {
                tr {
                    th scope="col" { "Value" } th scope="col" { "Mean" } th scope="col" { "u" }
                    th scope="col" { "95 % of the trials" } th scope="col" { "To first order" }
                    th scope="col" { "Agrees" }
                }
            }
            tbody {
                @for value in values {
                    @let word = summary::trial_word(value);
                    @let [mean, doubt, interval] = summary::trial_shown(value, trials);
                    tr class=[(word == "DIFFERS").then_some("look-wait")] {
                        th scope="row" class="name" { (value.name) }
                        td data-label="mean" { (kept(&mean)) }
                        td data-label="u" { (kept(&doubt)) }
                        td data-label="95 % of the trials" { (kept(&interval)) }
                        td data-label="to first order" { (kept(&value.shown_first)) }
                        td data-label="agrees" { @if word.is_empty() { "yes" } @else { (word) } }
                    }
                }
            }
        }
    }
}
