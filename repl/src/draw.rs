//! Messages of the language as a terminal shows them: the lines they are about, marked, and the mend.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;

use ariadne::{Cache, Color, Config, Label, Report, ReportKind, Source};
use dewline_lang::diagnostic::{Diagnostic, Severity};
use dewline_lang::source::{FileId, Sources, Span};

use crate::paint::Paint;
use crate::words::{PAGE, count, plain, steers, wrap};

/// Bytes of a line up to which it is shown whole.
const LINE_BYTES: usize = 400;
/// Columns of a mend, which stands beside the margin of the lines.
const MEND: usize = 66;
/// Bytes shown on each side of a place in a longer line.
const AROUND_BYTES: usize = 60;

/// All messages, and how many there are.
pub fn draw(sources: &Sources, diagnostics: &[Diagnostic], paint: Paint) -> String {
    let mut out = Vec::new();
    let mut pages = Pages { sources, ready: BTreeMap::new() };
    for diagnostic in diagnostics {
        let placed = diagnostic.labels.iter().any(|label| sources.get(label.span.file).is_some());
        let drawn = placed && draw_at_places(&mut out, &mut pages, diagnostic, paint).is_ok();
        if !drawn {
            out.extend_from_slice(without_place(diagnostic).as_bytes());
        }
    }
    let mut text = String::from_utf8_lossy(&out).into_owned();
    text.push_str(&summary(diagnostics));
    text
}

/// `3 errors; more about each with: dewline explain D0101`
fn summary(diagnostics: &[Diagnostic]) -> String {
    let errors = diagnostics.iter().filter(|one| one.severity == Severity::Error).count();
    let advice = diagnostics.len() - errors;
    let Some(first) = diagnostics.first() else { return String::new() };
    let counted = match (errors, advice) {
        (errors, 0) => count(errors, "error", "errors"),
        (0, advice) => count(advice, "piece of advice", "pieces of advice"),
        _ => format!("{} and some advice", count(errors, "error", "errors")),
    };
    format!("{counted}. More about it: dewline explain {}\n", first.code.id)
}

fn heading(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "Error",
        Severity::Advice => "Advice",
    }
}

fn without_place(diagnostic: &Diagnostic) -> String {
    let Diagnostic { code, severity, message, mend, .. } = diagnostic;
    let mut text = format!("[{}] {}: {}\n", code.id, heading(*severity), plain(message));
    if let Some(mend) = mend {
        text.push_str(&format!("  Help: {}\n", plain(mend)));
    }
    text
}

fn draw_at_places(
    out: &mut Vec<u8>,
    pages: &mut Pages<'_>,
    diagnostic: &Diagnostic,
    paint: Paint,
) -> std::io::Result<()> {
    // Only the library's own kinds go without colour when asked to.
    let (report_kind, color) = match diagnostic.severity {
        Severity::Error => (ReportKind::Error, Color::Red),
        Severity::Advice => (ReportKind::Advice, Color::Yellow),
    };
    let config = Config::new().with_color(paint.is_on());
    let place = pages.place(diagnostic.span());
    let mut report = Report::build(report_kind, place)
        .with_config(config)
        .with_code(diagnostic.code.id)
        .with_message(wrapped_message(diagnostic));
    for (index, label) in diagnostic.labels.iter().enumerate() {
        let color = if index == 0 { color } else { Color::Blue };
        let mut drawn = Label::new(pages.place(label.span)).with_color(color);
        // The message stands just above; a place without words of its own is still to be marked.
        let words = if label.text.is_empty() && index == 0 { "here" } else { label.text.as_str() };
        if !words.is_empty() {
            drawn = drawn.with_message(plain(words));
        }
        report.add_label(drawn);
    }
    if let Some(mend) = &diagnostic.mend {
        report.set_help(mend.lines().flat_map(|line| wrap(&plain(line), MEND)).collect::<Vec<_>>().join("\n"));
    }
    report.finish().write(pages, out)
}

/// The message broken to the page. Before its first line stand the code and the weight.
fn wrapped_message(diagnostic: &Diagnostic) -> String {
    let lead = format!("[{}] {}: ", diagnostic.code.id, heading(diagnostic.severity));
    let lines = wrap(&format!("{lead}{}", plain(&diagnostic.message)), PAGE);
    lines.join("\n").strip_prefix(&lead).map_or_else(|| plain(&diagnostic.message).into_owned(), str::to_string)
}

/// Which text a place is in: a source, or an excerpt of one whose line is too long to be shown.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
struct PageId {
    file: FileId,
    /// First byte of the excerpt; `None`: the whole source.
    from: Option<usize>,
    name: String,
}

impl fmt::Display for PageId {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.name)
    }
}

/// Sources made fit for drawing, each once.
struct Pages<'a> {
    sources: &'a Sources,
    ready: BTreeMap<PageId, Source<String>>,
}

impl Pages<'_> {
    /// The place as the drawing library takes it: inside its text, counted in letters, without a line end at its end.
    fn place(&mut self, span: Span) -> (PageId, Range<usize>) {
        let (name, text) = match self.sources.get(span.file) {
            Some(source) => (plain(&source.name).into_owned(), &*source.text),
            None => ("?".to_string(), ""),
        };
        let start = floor(text, span.start as usize);
        let end = floor(text, span.end as usize).max(start);
        let end = start + text[start..end].trim_end().len();
        let line_start = text[..start].rfind('\n').map_or(0, |at| at + 1);
        let line_end = text[start..].find('\n').map_or(text.len(), |at| start + at);
        if line_end - line_start <= LINE_BYTES {
            let id = PageId { file: span.file, from: None, name };
            self.ready.entry(id.clone()).or_insert_with(|| Source::from(harmless(text).into_owned()));
            let first = letters(&text[..start]);
            return (id, first..first + letters(&text[start..end]));
        }
        // Line numbers stay right, since the lines above are kept as empty ones.
        let from = floor(text, start.saturating_sub(AROUND_BYTES)).max(line_start);
        // Where it ends hangs on where it begins alone: two places of one line may share an excerpt.
        let to = floor(text, (from + 2 * AROUND_BYTES).min(line_end));
        let id = PageId { file: span.file, from: Some(from), name };
        let above = text[..from].matches('\n').count();
        self.ready.entry(id.clone()).or_insert_with(|| {
            let lead = if from > line_start { "…" } else { "" };
            Source::from(format!("{}{lead}{}…", "\n".repeat(above), harmless(&text[from..to])))
        });
        let first = above + usize::from(from > line_start) + letters(&text[from..start]);
        (id, first..first + letters(&text[start..end.min(to).max(start)]))
    }
}

impl Cache<PageId> for &mut Pages<'_> {
    type Storage = String;

    fn fetch(&mut self, id: &PageId) -> Result<&Source<String>, impl fmt::Debug> {
        self.ready.get(id).ok_or("no such text")
    }

    fn display<'a>(&self, id: &'a PageId) -> Option<impl fmt::Display + 'a> {
        Some(id)
    }
}

fn letters(text: &str) -> usize {
    text.chars().count()
}

/// The last letter boundary at or before a byte.
fn floor(text: &str, byte: usize) -> usize {
    let mut at = byte.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// The text without what steers a terminal, letter by letter, so that places stay right.
fn harmless(text: &str) -> Cow<'_, str> {
    let bad = |letter: char| steers(letter) && letter != '\n' && letter != '\t';
    if !text.chars().any(bad) {
        return Cow::Borrowed(text);
    }
    let replaced = text.chars().map(|letter| match letter {
        '\r' => ' ',
        letter if bad(letter) => '\u{fffd}',
        letter => letter,
    });
    Cow::Owned(replaced.collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use dewline_lang::diagnostic::words::STRANGE_CHARACTER;

    fn drawn(text: &str, start: usize, end: usize) -> String {
        let mut sources = Sources::default();
        let file = sources.add("job.dew", text);
        let error = Diagnostic::error(&STRANGE_CHARACTER, "a stray mark", Span::new(file, start, end), "this")
            .with_mend("take it out");
        draw(&sources, &[error], Paint::new(false))
    }

    /// Found by fuzzing: the second place lay behind the end of the first one's excerpt.
    #[test]
    fn two_places_at_the_beginning_of_a_long_line() {
        let mut sources = Sources::default();
        let file = sources.add("job.dew", "x".repeat(500));
        for second in 1..130 {
            let place = |at: usize| Span::new(file, at, at + 20);
            let error = Diagnostic::error(&STRANGE_CHARACTER, "a stray mark", place(0), "this")
                .with_label(place(second), "and that");
            let text = draw(&sources, &[error], Paint::new(false));
            assert!(text.contains("this") && text.contains("and that"), "{text}");
        }
    }

    /// Found by fuzzing: the drawing library takes letters for bytes where the second place is in another text.
    #[test]
    fn a_second_place_in_another_text_behind_long_letters() {
        let mut sources = Sources::default();
        let sheet = sources.add("job.dew", "x = 1\n");
        for lead in 0..40 {
            let used = sources.add("used.dew", format!("{}{} mean", "°".repeat(lead), "é"));
            let at = 2 * lead + 3;
            let error = Diagnostic::error(&STRANGE_CHARACTER, "a stray mark", Span::new(sheet, 0, 1), "this")
                .with_label(Span::new(used, at, at + 4), "and that");
            let text = draw(&sources, &[error], Paint::new(false));
            assert!(text.contains(&format!("used.dew:1:{}", lead + 3)), "{text}");
        }
    }

    #[test]
    fn the_line_the_place_and_the_mend_are_shown() {
        let text = drawn("a = 1\nb = 61 °F § 2\n", 17, 19);
        assert!(text.contains("[D0101] Error: a stray mark"), "{text}");
        assert!(text.contains("job.dew:2:11"), "{text}");
        assert!(text.contains("b = 61 °F § 2") && text.contains("Help: take it out"), "{text}");
        assert!(text.contains("1 error."), "{text}");
    }

    #[test]
    fn places_at_the_end_outside_and_inside_letters_are_drawn() {
        for (start, end) in [(0, 0), (5, 5), (4, 900), (900, 901), (3, 4), (0, 6)] {
            assert!(drawn("a °\nb\n", start, end).contains("job.dew:"), "{start}..{end}");
        }
        assert!(drawn("", 0, 0).contains("a stray mark"));
    }

    #[test]
    fn a_long_line_is_shown_in_part_with_its_own_number() {
        let text = drawn(&format!("a\n{} § {}", "x".repeat(5_000), "y".repeat(5_000)), 5_003, 5_005);
        assert!(text.contains("job.dew:2:") && text.contains('§') && text.len() < 2_000, "{text}");
    }

    #[test]
    fn what_steers_a_terminal_is_not_drawn() {
        let text = drawn("a\u{1b}[31m § \u{202e}\r\n", 7, 9);
        assert!(!text.contains('\u{1b}') && !text.contains('\u{202e}') && text.contains('§'), "{text}");
    }
}
