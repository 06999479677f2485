//! Everything whose bits must be the same in every build, on any number of threads, on every platform: the corpus and
//! the demo jobs.

use std::path::Path;

use dewline_lang::job::{self, Settings};
use dewline_lang::library::Library;
use dewline_lang::limits::STACK_BYTES;
use dewline_same_bits::{Case, Keeping, Line, digest};

use crate::corpus::collect;

const CLINIC: &str = "../examples/clinic/clinic.dew";
const HARBOUR: &str = "../examples/harbour/harbour.dew";
const RIDGE: &str = "../examples/ridge/ridge-mended.dew";
/// What is set after the valve was mended.
const MENDED: [(&str, &str); 2] = [("indoor", "indoor-mended.csv"), ("outdoor", "outdoor-mended.csv")];

/// All cases with what their hosts give. Names of files are those from the folder of this crate.
pub fn cases(library: &Library) -> Vec<Case> {
    let mut cases = Vec::new();
    for case in collect(Path::new("corpus")) {
        let path = case.path.to_string_lossy().replace('\\', "/");
        let name = path.trim_end_matches(".dew").to_string();
        cases.push(kept(library, name, &path, Some(case.sheet), case.settings));
    }
    let mended = MENDED.map(|(name, value)| (name.to_string(), value.to_string())).to_vec();
    cases.push(kept(library, "demo/clinic".to_string(), CLINIC, None, Vec::new()));
    cases.push(kept(library, "demo/clinic-mended".to_string(), CLINIC, None, mended));
    cases.push(kept(library, "demo/harbour".to_string(), HARBOUR, None, Vec::new()));
    cases.push(kept(library, "demo/ridge".to_string(), RIDGE, None, Vec::new()));
    cases
}

fn kept(library: &Library, name: String, path: &str, text: Option<String>, settings: Vec<(String, String)>) -> Case {
    let (host, document) = dewline::FolderHost::open(path, &mut std::io::empty())
        .unwrap_or_else(|problem| panic!("{path}: {}", problem.message));
    let text = text.unwrap_or(document.text);
    let case = Case { name, sheet: document.name.clone(), text: text.clone(), settings, ..Case::default() };
    let values = case.settings.clone();
    let keeping = Keeping::new(&host, case);
    if let Some(job) = job::check(library, &keeping, &document.name, &text).job {
        job.run(library, &keeping, &Settings::from(values));
    }
    keeping.into_case()
}

/// The digests of all cases, on so many threads, in the order of the cases.
pub fn digests(library: &Library, cases: &[Case], threads: usize) -> Vec<Line> {
    let share = cases.len().div_ceil(threads.max(1)).max(1);
    std::thread::scope(|scope| {
        let workers: Vec<_> = cases
            .chunks(share)
            .map(|some| {
                let work = move || some.iter().map(|case| digest(library, case)).collect::<Vec<_>>();
                let thread = std::thread::Builder::new().stack_size(STACK_BYTES).spawn_scoped(scope, work);
                thread.unwrap_or_else(|error| panic!("no thread: {error}"))
            })
            .collect();
        let done =
            workers.into_iter().flat_map(|worker| worker.join().unwrap_or_else(|_| panic!("a thread fell over")));
        done.collect()
    })
}

/// Digests as a list, one a line.
pub fn list(lines: &[Line]) -> String {
    lines.iter().map(|(name, digest)| format!("{digest}  {name}\n")).collect()
}
