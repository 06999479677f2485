//! The top of the report: the verdict in words, and every stage at a glance.

use dewline_lang::outcome::{JobVerdict, Outcome, StageVerdict};

use super::summary::{job_word, sentence, stage_reason, stage_word};
use crate::paint::Paint;
use crate::words::{PAGE, hang, hang_painted, left, plain, width, wrap};

/// Columns of a stage's name; a longer one has a line of its own.
const NAME: usize = 30;

/// Title, sheet, verdict.
pub(super) fn head(out: &mut String, outcome: &Outcome, run: &str, paint: Paint) {
    let title = plain(&outcome.sheet.title);
    for line in wrap(&title, PAGE) {
        out.push_str(&paint.strong(&line));
        out.push('\n');
    }
    if outcome.sheet.path != outcome.sheet.title {
        hang(out, "", &outcome.sheet.path);
    }
    if !run.is_empty() {
        hang(out, "with ", run);
    }
    out.push('\n');
    let word = job_word(outcome.verdict);
    let painted = match outcome.verdict {
        JobVerdict::Unusable | JobVerdict::Failed => paint.bad(word),
        JobVerdict::Incomplete => paint.wait(word),
        JobVerdict::Computed => paint.strong(word),
        JobVerdict::PassedWithWaivers | JobVerdict::Passed => paint.good(word),
    };
    hang_painted(out, &format!("{painted}  "), width(word) + 2, &sentence(outcome));
}

/// One line a stage: its verdict, its name, and why it has not passed.
pub(super) fn stages(out: &mut String, outcome: &Outcome, paint: Paint) {
    if outcome.stages.is_empty() {
        return;
    }
    out.push('\n');
    let names = outcome.stages.iter().map(|stage| width(&plain(&stage.name)));
    let name_columns = names.filter(|&columns| columns <= NAME).max().unwrap_or(0);
    for (index, stage) in outcome.stages.iter().enumerate() {
        let word = stage_word(stage);
        let painted = match stage.verdict {
            _ if stage.broken => paint.bad(&left(word, 7)),
            StageVerdict::Failed => paint.bad(&left(word, 7)),
            StageVerdict::Waiting | StageVerdict::Blocked | StageVerdict::Empty => paint.wait(&left(word, 7)),
            StageVerdict::Passed => paint.good(&left(word, 7)),
        };
        let name = plain(&stage.name);
        let lead = format!("{:>3}. {painted}  {}  ", index + 1, left(&name, name_columns));
        let indent = 5 + 7 + 2 + name_columns + 2;
        let reason = stage_reason(outcome, stage);
        if width(&name) <= name_columns {
            hang_painted(out, &lead, indent, &reason);
        } else {
            out.push_str(lead.trim_end());
            out.push('\n');
            if !reason.is_empty() {
                hang(out, &" ".repeat(14), &reason);
            }
        }
    }
}
