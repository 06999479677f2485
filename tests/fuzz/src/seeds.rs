//! What to begin with: what the tests and examples have.

use std::fs;
use std::path::Path;

/// Seeds of a target, from the folder of this crate.
pub fn seeds(target: &str) -> Vec<Vec<u8>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    // What once fell must never fall again.
    gather(&root.join("found").join(target), "", &mut found);
    match target {
        "text" => {
            gather(&root.join("../corpus"), "dew", &mut found);
            gather(&root.join("../../stdlib/forms"), "dew", &mut found);
        }
        "tables" => {
            let (mut texts, mut books) = (Vec::new(), Vec::new());
            gather(&root.join("../corpus"), "csv", &mut texts);
            gather(&root.join("../filled"), "csv", &mut texts);
            gather(&root.join("../corpus"), "xlsx", &mut books);
            found.extend(texts.into_iter().map(|bytes| [&[0], bytes.as_slice()].concat()));
            found.extend(books.into_iter().map(|bytes| [&[3], bytes.as_slice()].concat()));
            found.push([&[1], SHEET.as_bytes()].concat());
        }
        "settings" => found.extend(SETTINGS.iter().map(|text| text.as_bytes().to_vec())),
        "lines" => {
            gather(&root.join("../corpus/words"), "dew", &mut found);
            gather(&root.join("../corpus/define"), "dew", &mut found);
            found.extend(LINES.iter().map(|text| text.as_bytes().to_vec()));
        }
        "records" => gather(&root.join("records"), "json", &mut found),
        // Its bytes are choices, not texts.
        _ => found.extend((0..32_u8).map(|first| (0..=255).map(|at: u8| at.wrapping_mul(first * 2 + 1)).collect())),
    }
    found
}

const SHEET: &str = "<worksheet><sheetData><row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"B1\" t=\"inlineStr\"><is><t>\
                     pressure [psig]</t></is></c><c r=\"C1\" t=\"str\"><v>temperature</v></c></row><row r=\"2\"><c r=\"A2\">\
                     <v>1.5</v></c><c r=\"B2\"><f>1+1</f><v>2</v></c><c r=\"C2\" t=\"e\"><v>#N/A</v></c></row></sheetData>\
                     </worksheet>\0<sst><si><t>time</t></si></sst>";
const SETTINGS: &[&str] = &[
    "a=550 psig ± 1 psi\nb=52.3, 52.5 degF\nc=1/3\nd=\"some text\"\ne=true\nf=R-454B\ng=2026-03-14T07:40\nh=cooling\n",
    "a=300 kPag\nb=?\np=118 psig by gauge at 2026-03-14\nt=data.csv\nc=1e400\n",
    "a=12 lb\nb=5 F\nq=1\nsite altitude=4000 ft\ndone=yes\nt=../x.csv\n",
];
const LINES: &[&str] = &[
    "superheat(R-410A, 118 psig, 55 degF)\nlast as C°\nwhy last\nhelp superheat\n",
    "reading p : psig\np = 120 psig\nq = p - 100 psig\ntake\n118 psig\n?\nundo\ncells\nstages\nunits\n",
    "table t\n  k | v\n  text | F°\n  \"a\" | 5\nend\nm = mean(t.v)\npt R-32\nopen x.dew\nquit\n",
    "confirm \"x\"\ntake\nyes\nstage \"A\"\n x = 1\nend\nwhy x\nundo\nundo\n",
];

/// The files in a folder and below whose names end so.
fn gather(folder: &Path, ending: &str, found: &mut Vec<Vec<u8>>) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    let mut paths: Vec<_> = entries.flatten().map(|entry| entry.path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            gather(&path, ending, found);
        } else if ending.is_empty() || path.extension().is_some_and(|one| one == ending) {
            found.extend(fs::read(&path).ok());
        }
    }
}
