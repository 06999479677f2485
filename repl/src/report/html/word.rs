//! Verdicts as a word with a shape of its own.

use dewline_lang::outcome::{CheckVerdict, JobVerdict, StageOutcome, StageVerdict};
use maud::{Markup, html};

use crate::report::summary::{check_word, is_advice, job_word, stage_word, word_at};

/// How a word looks: its shape, and the class of its colour.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Tone {
    /// A full disc.
    Good,
    /// A square with a cross.
    Bad,
    /// An empty ring.
    Wait,
    /// Two bars.
    Held,
    /// A triangle.
    Close,
    /// A diamond.
    Advice,
    /// Nothing.
    Quiet,
}

impl Tone {
    fn class(self) -> &'static str {
        match self {
            Tone::Good => "good",
            Tone::Bad => "bad",
            Tone::Wait | Tone::Close => "wait",
            Tone::Held | Tone::Advice => "held",
            Tone::Quiet => "quiet",
        }
    }

    fn shape(self) -> &'static str {
        match self {
            Tone::Good => "shape-disc",
            Tone::Bad => "shape-cross",
            Tone::Wait => "shape-ring",
            Tone::Held => "shape-bars",
            Tone::Close => "shape-triangle",
            Tone::Advice => "shape-diamond",
            Tone::Quiet => "shape-dash",
        }
    }

    /// The class of a row that asks for a look; none for the others.
    pub fn row(self) -> Option<&'static str> {
        match self {
            Tone::Bad => Some("look-bad"),
            Tone::Wait | Tone::Close => Some("look-wait"),
            _ => None,
        }
    }
}

/// The shapes, once a page.
pub(super) fn shapes() -> Markup {
    let shape = |id: &str, path: &str, fill: bool| {
        html! {
            symbol id=(id) viewBox="0 0 12 12" {
                path d=(path) fill=(if fill { "currentColor" } else { "none" })
                    fill-rule="evenodd" stroke="currentColor" stroke-width=(if fill { "0" } else { "2" }) {}
            }
        }
    };
    html! {
        svg class="unseen" width="0" height="0" aria-hidden="true" focusable="false" {
            (shape("shape-disc", "M6 0.5a5.5 5.5 0 1 1 0 11a5.5 5.5 0 1 1 0-11z", true))
            (shape("shape-cross", "M1 1h10v10h-10zM3.5 3.5l5 5M8.5 3.5l-5 5", false))
            (shape("shape-ring", "M6 1.5a4.5 4.5 0 1 1 0 9a4.5 4.5 0 1 1 0-9z", false))
            (shape("shape-bars", "M2 1h3v10h-3zM7 1h3v10h-3z", true))
            (shape("shape-triangle", "M6 1.5L11 10.5H1z", false))
            (shape("shape-diamond", "M6 1.5L10.5 6L6 10.5L1.5 6z", false))
            (shape("shape-dash", "M2 6h8", false))
        }
    }
}

/// A word with its shape.
pub(super) fn word(text: &str, tone: Tone) -> Markup {
    html! {
        span class={ "word " (tone.class()) } {
            svg class="mark" aria-hidden="true" focusable="false" { use href={ "#" (tone.shape()) } {} }
            (text)
        }
    }
}

/// The verdict on the job, on a plate with the sentence beside it.
pub(super) fn plate(verdict: JobVerdict, sentence: &str) -> Markup {
    let tone = match verdict {
        JobVerdict::Unusable | JobVerdict::Failed => Tone::Bad,
        JobVerdict::Incomplete => Tone::Wait,
        JobVerdict::PassedWithWaivers => Tone::Close,
        JobVerdict::Computed => Tone::Quiet,
        JobVerdict::Passed => Tone::Good,
    };
    html! {
        p class={ "plate " (tone.class()) } {
            (word(job_word(verdict), tone))
            span class="why" { (sentence) }
        }
    }
}

/// The verdict on a stage.
pub(super) fn of_stage(stage: &StageOutcome) -> Markup {
    let tone = match stage.verdict {
        _ if stage.broken => Tone::Bad,
        StageVerdict::Passed => Tone::Good,
        StageVerdict::Failed => Tone::Bad,
        StageVerdict::Waiting => Tone::Wait,
        StageVerdict::Blocked | StageVerdict::Empty => Tone::Held,
    };
    word(stage_word(stage), tone)
}

/// The verdict on a check of this level.
pub(super) fn of_check(level: &str, verdict: CheckVerdict) -> Markup {
    word(word_at(level, verdict), tone_at(level, verdict))
}

/// The tone of a check of this level.
pub(super) fn tone_at(level: &str, verdict: CheckVerdict) -> Tone {
    if is_advice(level, verdict) { Tone::Advice } else { tone_of(verdict) }
}

fn tone_of(verdict: CheckVerdict) -> Tone {
    match verdict {
        CheckVerdict::Passed => Tone::Good,
        CheckVerdict::Failed | CheckVerdict::Broken => Tone::Bad,
        CheckVerdict::Pending => Tone::Wait,
        CheckVerdict::Close | CheckVerdict::Waived => Tone::Close,
        CheckVerdict::NotAsked => Tone::Quiet,
    }
}

/// The tone of a row by the word of its checks.
pub(super) fn tone_of_word(text: &str) -> Tone {
    let all =
        [CheckVerdict::Failed, CheckVerdict::Broken, CheckVerdict::Pending, CheckVerdict::Close, CheckVerdict::Waived];
    all.into_iter().find(|verdict| check_word(*verdict) == text).map_or(Tone::Good, tone_of)
}
