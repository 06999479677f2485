//! The sheets of a job: the outermost one and all that it uses and fills, each read once.

use std::collections::BTreeMap;

use crate::diagnostic::{Diagnostic, names as codes};
use crate::host::Host;
use crate::limits;
use crate::source::{FileId, Sources, Span};
use crate::syntax;
use crate::syntax::tree::{Sheet, Statement, StatementKind, Words};

/// One sheet as read.
#[derive(Debug)]
pub struct File {
    /// The name it was read under.
    pub name: String,
    /// Its tree.
    pub tree: Sheet,
    /// Where each path written in it leads: an index into [`Files::list`]. A path that could not be read is missing.
    pub links: BTreeMap<String, usize>,
}

/// All sheets of a job; the outermost is the first.
#[derive(Debug, Default)]
pub struct Files {
    /// In order of reading.
    pub list: Vec<File>,
}

/// Reads a sheet and, through the host, all it uses and fills. Circles and too deep filling are reported and cut.
pub fn read_files(
    host: &dyn Host,
    sources: &mut Sources,
    name: &str,
    text: &str,
    diagnostics: &mut Vec<Diagnostic>,
) -> Files {
    let mut files = Files::default();
    let mut known = BTreeMap::new();
    add(&mut files, &mut known, sources, name, text, diagnostics);
    // Files grows while it is walked: each sheet's paths are followed once.
    let mut next = 0;
    while next < files.list.len() {
        for path in paths(&files.list[next].tree.statements) {
            match host.sheet(&files.list[next].name, &path.text) {
                Ok(document) => {
                    let target = match known.get(&document.name) {
                        Some(&index) => index,
                        None => add(&mut files, &mut known, sources, &document.name, &document.text, diagnostics),
                    };
                    files.list[next].links.insert(path.text.clone(), target);
                }
                Err(problem) => {
                    let mut message =
                        Diagnostic::error(&codes::UNREADABLE_SHEET, problem.message, path.span, "named here");
                    message.mend = problem.mend;
                    diagnostics.push(message);
                }
            }
        }
        next += 1;
    }
    cut_circles(&mut files, diagnostics);
    files
}

fn add(
    files: &mut Files,
    known: &mut BTreeMap<String, usize>,
    sources: &mut Sources,
    name: &str,
    text: &str,
    diagnostics: &mut Vec<Diagnostic>,
) -> usize {
    let id: FileId = sources.add(name, text);
    let mut parsed = syntax::parse(id, text);
    diagnostics.append(&mut parsed.diagnostics);
    let index = files.list.len();
    files.list.push(File { name: name.to_string(), tree: parsed.sheet, links: BTreeMap::new() });
    known.insert(name.to_string(), index);
    index
}

/// Paths of sheets named by `use` and `fill`, in stages too.
fn paths(statements: &[Statement]) -> Vec<Words> {
    let mut found = Vec::new();
    for statement in statements {
        match &statement.kind {
            StatementKind::Use(link) => found.push(link.path.clone()),
            StatementKind::Fill(fill) => found.push(fill.path.clone()),
            StatementKind::Stage(stage) => found.extend(paths(&stage.statements)),
            _ => {}
        }
    }
    found
}

/// Walks all links from the outermost sheet; a link back into the way taken, or beyond the depth allowed, is removed.
fn cut_circles(files: &mut Files, diagnostics: &mut Vec<Diagnostic>) {
    #[derive(Clone, Copy, PartialEq)]
    enum Mark {
        New,
        Open,
        Done,
    }
    let mut marks = vec![Mark::New; files.list.len()];
    let mut way: Vec<(usize, Vec<Words>)> = vec![(0, paths(&files.list[0].tree.statements))];
    marks[0] = Mark::Open;
    let mut depth_below = vec![0_usize; files.list.len()];
    while let Some((at, rest)) = way.last_mut() {
        let at = *at;
        let Some(path) = rest.pop() else {
            marks[at] = Mark::Done;
            way.pop();
            if let Some((above, _)) = way.last() {
                depth_below[*above] = depth_below[*above].max(depth_below[at] + 1);
            }
            continue;
        };
        let Some(&target) = files.list[at].links.get(&path.text) else { continue };
        let too_deep = match marks[target] {
            Mark::Open => {
                let start = way.iter().position(|(index, _)| *index == target).unwrap_or(0);
                let mut names: Vec<String> =
                    way[start..].iter().map(|(index, _)| format!("\"{}\"", files.list[*index].name)).collect();
                names.push(format!("\"{}\"", files.list[target].name));
                diagnostics.push(
                    Diagnostic::error(
                        &codes::SHEET_CIRCLE,
                        format!("these sheets name each other in a circle: {}", names.join(" → ")),
                        path.span,
                        "this closes the circle",
                    )
                    .with_mend("move what both need into a third sheet and `use` it from both"),
                );
                files.list[at].links.remove(&path.text);
                false
            }
            Mark::Done => way.len() + depth_below[target] >= limits::FILL_DEPTH,
            Mark::New => {
                let deep = way.len() >= limits::FILL_DEPTH;
                if !deep {
                    marks[target] = Mark::Open;
                    let paths = paths(&files.list[target].tree.statements);
                    way.push((target, paths));
                }
                deep
            }
        };
        if too_deep {
            report_depth(path.span, diagnostics);
            files.list[at].links.remove(&path.text);
        }
    }
}

fn report_depth(span: Span, diagnostics: &mut Vec<Diagnostic>) {
    diagnostics.push(Diagnostic::error(
        &codes::TOO_DEEP,
        format!("sheets are filled inside one another more than {} deep", limits::FILL_DEPTH),
        span,
        "this one goes too deep",
    ));
}
