//! The targets.

use std::cell::OnceCell;
use std::ffi::OsString;
use std::fs;
use std::io::{Cursor, Write};
use std::path::Path;
use std::sync::OnceLock;

use dewline::report::{Beside, Format, Look, Reporter};
use dewline::{Console, FolderHost, Paint};
use dewline_lang::diagnostic::Diagnostic;
use dewline_lang::host::Host;
use dewline_lang::job::{self, Run, Settings};
use dewline_lang::library::Library;
use dewline_lang::source::Sources;
use dewline_lang::syntax;
use tempfile::TempDir;
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

use crate::outcome::{assert_finite, assert_same};
use crate::sheets::sheet;

/// A door.
#[derive(Clone, Copy)]
pub struct Target {
    /// How it is called.
    pub name: &'static str,
    /// Goes in.
    pub enter: fn(&[u8]),
}

/// All doors.
pub const TARGETS: &[Target] = &[
    Target { name: "text", enter: text },
    Target { name: "sheet", enter: written_sheet },
    Target { name: "tables", enter: tables },
    Target { name: "records", enter: records },
    Target { name: "settings", enter: settings },
    Target { name: "lines", enter: lines },
];

/// Any text as a sheet: tokens, parser, formatter, messages, and the run if it can be run.
fn text(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let _ = syntax::words(text);
    let _ = syntax::wants_more(text);
    let host = here();
    run_twice(&host, text, &[]);
}

/// The sheet that the target `sheet` makes of these bytes.
pub fn written(bytes: &[u8]) -> String {
    sheet(library(), bytes)
}

/// A sheet that mostly passes the checker.
fn written_sheet(bytes: &[u8]) {
    let text = written(bytes);
    let host = here();
    let Some(run) = run_twice(&host, &text, &[]) else { return };
    for format in [Format::Text, Format::Markdown, Format::Html, Format::Json, Format::Csv, Format::Xlsx] {
        report(&run, format);
    }
    if run.outcome.cells.len() < 12 {
        let mut run = run;
        run.trials(job::Trials { count: 20, seed: 1, threads: 1 }, &|_| {});
        assert_finite(&run.outcome);
        report(&run, Format::Text);
        report(&run, Format::Html);
    }
}

/// A table from a CSV file or, if the first byte is odd, from a workbook: these bytes, or one whose sheet is made of
/// them.
fn tables(bytes: &[u8]) {
    const SHEET: &str = "table log from \"FILE\"\n  time | pressure | temperature | label | running | gas\n  \
                         min | psig | degC ± 1 C° | text | flag | refrigerant\n  rise = pressure - 14 psig\nend\n\
                         most = max(taken(log.temperature))\n";
    let Some((first, rest)) = bytes.split_first() else { return };
    let workbook = first % 2 == 1;
    let name = if workbook { "data.xlsx" } else { "data.csv" };
    let content = if first % 4 == 1 { workbook_of(rest) } else { rest.to_vec() };
    put(name, &content);
    let host = in_folder();
    if let Ok(table) = host.table("data.dew", name) {
        assert!(!table.headers.is_empty());
    }
    run_twice(&host, &SHEET.replace("FILE", name), &[]);
    call(&["columns", &place(name)], &[]);
}

/// A workbook whose first sheet and shared texts are these bytes, parted by a zero byte.
fn workbook_of(bytes: &[u8]) -> Vec<u8> {
    const TYPES: &str = r#"<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/></Types>"#;
    const ROOT: &str = r#"<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>"#;
    const BOOK: &str = r#"<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Log" sheetId="1" r:id="rId1"/></sheets></workbook>"#;
    const LINKS: &str = r#"<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/></Relationships>"#;
    let (sheet, texts) = match bytes.iter().position(|byte| *byte == 0) {
        Some(at) => (&bytes[..at], &bytes[at + 1..]),
        None => (bytes, &b"<sst><si><t>time</t></si></sst>"[..]),
    };
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
    let parts: [(&str, &[u8]); 6] = [
        ("[Content_Types].xml", TYPES.as_bytes()),
        ("_rels/.rels", ROOT.as_bytes()),
        ("xl/workbook.xml", BOOK.as_bytes()),
        ("xl/_rels/workbook.xml.rels", LINKS.as_bytes()),
        ("xl/worksheets/sheet1.xml", sheet),
        ("xl/sharedStrings.xml", texts),
    ];
    for (name, content) in parts {
        archive.start_file(name, options).unwrap_or_else(|error| panic!("{name}: {error}"));
        archive.write_all(content).unwrap_or_else(|error| panic!("{name}: {error}"));
    }
    archive.finish().unwrap_or_else(|error| panic!("the archive: {error}")).into_inner()
}

/// A record from anywhere, audited.
fn records(bytes: &[u8]) {
    put("record.json", bytes);
    let (code, out) = call(&["audit", &place("record.json")], &[]);
    assert!(code <= 2, "exit code {code}");
    assert!(!out.is_empty(), "an audit says what it found");
}

/// Values from outside, `name=value` a line, for a sheet with an input of every sort.
fn settings(bytes: &[u8]) {
    const SHEET: &str = "units IP\ninstrument gauge \"a gauge\"\n  accuracy ± 1 psi\n  repeats ± 0.5 psi\n\
                         input a : psig within 0 .. 700 psig\nreading b : degF by gauge2\ninput c : number\n\
                         input d : text\ninput e : flag optional\ninput f : refrigerant = R-32\ninput g : time\n\
                         input h : one of \"cooling\", \"heating\"\nreading p : psig by gauge\n\
                         table t\n  k | v\n  text | F°\nend\n\
                         instrument gauge2 \"a thermometer\"\n  accuracy ± 1 F°\n\
                         x = a - p\ny = c * 2\nm = mean(taken(t.v))\nconfirm \"done\"\n";
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let values: Vec<(String, String)> = text
        .lines()
        .take(12)
        .filter_map(|line| line.split_once('='))
        .map(|(name, value)| (name.trim().to_string(), value.to_string()))
        .collect();
    let host = in_folder();
    run_twice(&host, SHEET, &values);
}

/// Lines typed into a session. Saving is left out: what a fuzzer makes up must not get onto the disk.
fn lines(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let typed: String =
        text.lines().filter(|line| !line.contains("save")).fold(String::new(), |all, line| all + line + "\n");
    call(&[], typed.as_bytes());
}

/// Checks and runs a sheet, asserts what must hold of every sheet, and gives the run, if it can be run.
fn run_twice(host: &dyn Host, text: &str, values: &[(String, String)]) -> Option<Run> {
    let checked = job::check(library(), host, "fuzz.dew", text);
    assert_placed(&checked.sources, &checked.diagnostics);
    let laid_out = syntax::format(text);
    if let Ok(laid_out) = &laid_out {
        let again = syntax::format(laid_out);
        assert_eq!(again.as_ref().ok(), Some(laid_out), "laying out a second time changes something");
    }
    let settings = || Settings::from(values.to_vec());
    let job = checked.job?;
    let run = job.run(library(), host, &settings());
    assert_placed(&run.sources, &run.diagnostics);
    assert_finite(&run.outcome);
    let again = job.run(library(), host, &settings());
    assert_same(&run.outcome, &again.outcome, "a second run came to something else");
    if let Ok(laid_out) = laid_out {
        let checked = job::check(library(), host, "fuzz.dew", &laid_out);
        let Some(job) = checked.job else { panic!("laid out, the sheet is refused: {:?}", checked.diagnostics) };
        let other = job.run(library(), host, &settings()).outcome;
        assert_eq!(run.outcome.verdict, other.verdict, "laid out, the sheet comes to something else");
        for (one, other) in run.outcome.cells.iter().zip(&other.cells) {
            assert_eq!((&one.name, one.si.map(f64::to_bits)), (&other.name, other.si.map(f64::to_bits)));
        }
    }
    Some(run)
}

/// Every message has a place in a text, at letters' edges, and can be drawn.
fn assert_placed(sources: &Sources, diagnostics: &[Diagnostic]) {
    for label in diagnostics.iter().flat_map(|diagnostic| &diagnostic.labels) {
        let Some(source) = sources.get(label.span.file) else { panic!("a message about no file: {}", label.text) };
        assert!(source.text.get(label.span.range()).is_some(), "no place: {:?} {}", label.span, label.text);
    }
    let _ = dewline::draw(sources, diagnostics, Paint::new(false));
}

fn report(run: &Run, format: Format) {
    let mut out = Vec::new();
    let look = Look { format, quiet: false, paint: Paint::new(false), errors_seen: false, many: false };
    let offers = || run.offers();
    let mut reporter = Reporter::new(&mut out, look);
    let beside = Beside { offers: &offers, digest: None };
    let done = reporter.add("", &run.outcome, &beside).and_then(|()| reporter.finish());
    done.unwrap_or_else(|error| panic!("{format:?}: {error}"));
    assert!(!out.is_empty(), "{format:?} is empty");
}

/// Runs the program inside this process.
fn call(arguments: &[&str], input: &[u8]) -> (u8, Vec<u8>) {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let named = ["dewline"].iter().chain(arguments).map(OsString::from);
    let code = dewline::run(named, &mut Console::inside(input, &mut out, &mut err));
    out.append(&mut err);
    (code, out)
}

fn library() -> &'static Library {
    static LIBRARY: OnceLock<Library> = OnceLock::new();
    LIBRARY.get_or_init(dewline_stdlib::library)
}

thread_local! {
    static FOLDER: OnceCell<TempDir> = const { OnceCell::new() };
}

/// Where a file of this name stands, in a folder of this thread.
fn place(name: &str) -> String {
    let folder = |cell: &OnceCell<TempDir>| {
        let made = || tempfile::tempdir().unwrap_or_else(|error| panic!("no folder: {error}"));
        cell.get_or_init(made).path().join(name).to_string_lossy().into_owned()
    };
    FOLDER.with(folder)
}

fn put(name: &str, bytes: &[u8]) {
    let path = place(name);
    fs::write(Path::new(&path), bytes).unwrap_or_else(|error| panic!("{path}: {error}"));
}

fn in_folder() -> FolderHost {
    let path = place("data.dew");
    FolderHost::around(Some(&path)).unwrap_or_else(|problem| panic!("{}", problem.message))
}

/// A folder without anything in it; only forms of the library can be filled.
fn here() -> FolderHost {
    let path = place("empty/fuzz.dew");
    let folder = Path::new(&path).parent().unwrap_or(Path::new("."));
    fs::create_dir_all(folder).unwrap_or_else(|error| panic!("{path}: {error}"));
    FolderHost::around(Some(&path)).unwrap_or_else(|problem| panic!("{}", problem.message))
}
