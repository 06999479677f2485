//! Digests of outcomes, to hold one build and one platform against another. It needs no files: a case carries what its
//! host would give, so that the same code runs where there is no system at all.

mod case;
#[cfg(target_arch = "wasm32")]
mod exports;

pub use case::{Answer, Case, Keeping, Rows};

use dewline_lang::diagnostic::Diagnostic;
use dewline_lang::job::{self, Settings};
use dewline_lang::library::Library;
use sha2::{Digest, Sha256};

/// A name and the digest of what came of it.
pub type Line = (String, String);

/// The digest of one case: of its whole outcome, every bit and every word, or of the messages if it cannot be run.
/// Cautions are left out, being words of the trade and no result.
pub fn digest(library: &Library, case: &Case) -> Line {
    let checked = job::check(library, case, &case.sheet, &case.text);
    let settings = Settings::from(case.settings.clone());
    let mut digest = Sha256::new();
    messages(&mut digest, &checked.diagnostics);
    if let Some(job) = checked.job {
        let run = job.run(library, case, &settings);
        messages(&mut digest, &run.diagnostics);
        let mut outcome = run.outcome;
        outcome.cautions.clear();
        // The shortest text that reads back to a number is the same wherever its bits are.
        digest.update(serde_json::to_vec(&outcome).unwrap_or_default());
    }
    (case.name.clone(), hexadecimal(digest))
}

/// The digests of all worked examples of the library's functions.
pub fn examples(library: &Library) -> Vec<Line> {
    let mut lines = Vec::new();
    for function in library.functions() {
        for (index, example) in function.examples.iter().enumerate() {
            let name = format!("example/{}/{}", function.name, index + 1);
            let whole = example.expression.contains('\n');
            let text =
                if whole { example.expression.to_string() } else { format!("answer = {}\n", example.expression) };
            lines.push(digest(library, &Case { name, sheet: "example".to_string(), text, ..Case::default() }));
        }
    }
    lines
}

fn messages(digest: &mut Sha256, diagnostics: &[Diagnostic]) {
    for one in diagnostics {
        let span = one.span();
        digest.update(format!("{} {}-{} {}\n", one.code.id, span.start, span.end, one.message));
    }
}

fn hexadecimal(digest: Sha256) -> String {
    digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}
