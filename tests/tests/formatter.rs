//! Laying a sheet out changes how it looks and nothing else.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;

use dewline_lang::source::FileId;
use dewline_lang::syntax::{format, parse};
use dewline_tests::corpus::collect;
use dewline_tests::oracle::expressions;
use proptest::prelude::*;

/// Sheets of the corpus that can be read, and the demo.
fn readable() -> Vec<String> {
    let mut sheets: Vec<String> = collect(Path::new("corpus")).into_iter().map(|case| case.sheet).collect();
    sheets.push(std::fs::read_to_string("../examples/clinic/clinic.dew").unwrap());
    sheets.retain(|sheet| parse(FileId(0), sheet).diagnostics.is_empty());
    sheets
}

/// The tree without its places.
fn tree(sheet: &str) -> String {
    let parsed = parse(FileId(0), sheet);
    assert!(parsed.diagnostics.is_empty(), "{:#?}\n{sheet}", parsed.diagnostics);
    let shown = format!("{:?}", parsed.sheet);
    let mut bare = String::new();
    let mut rest = shown.as_str();
    while let Some(at) = rest.find("Span {") {
        bare.push_str(&rest[..at]);
        rest = rest[at..].split_once('}').map_or("", |(_, after)| after);
    }
    bare + rest
}

fn comments(sheet: &str) -> Vec<String> {
    // A `#` in a text is no comment; these sheets have none but where a quote follows.
    let after = |line: &str| line.rsplit_once('#').map(|(_, comment)| comment.trim().to_string());
    sheet.lines().filter_map(after).filter(|comment| !comment.contains('"')).collect()
}

fn laid_out(sheet: &str) -> String {
    format(sheet).unwrap_or_else(|told| panic!("{told:#?}\n{sheet}"))
}

#[test]
fn layout_keeps_tree_and_comments_and_is_settled_at_once() {
    let sheets = readable();
    assert!(sheets.len() >= 150, "only {} sheets can be read", sheets.len());
    for sheet in sheets {
        let once = laid_out(&sheet);
        assert_eq!(laid_out(&once), once, "laid out twice\n{sheet}");
        assert_eq!(tree(&once), tree(&sheet), "another tree\n{sheet}\n{once}");
        assert_eq!(comments(&once), comments(&sheet), "comments\n{sheet}\n{once}");
    }
}

#[test]
fn a_sheet_that_cannot_be_read_is_left_alone() {
    let told = format("a = 5 F\nb = max(1\n").unwrap_err();
    assert_eq!(told.len(), 2, "{told:#?}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, ..ProptestConfig::default() })]

    #[test]
    fn any_formula_with_any_blanks_is_settled_at_once(
        formulas in proptest::collection::vec(expressions(), 1..6), blanks in 0usize..4, indent in 0usize..9
    ) {
        let mut sheet = String::new();
        for (at, formula) in formulas.iter().enumerate() {
            let text = formula.text().replace('(', &format!("({}", " ".repeat(blanks)));
            sheet.push_str(&format!("{}c{at}{}={}{text}  # of row {at}\n\n\n", " ".repeat(indent), " ".repeat(blanks), " ".repeat(blanks)));
        }
        let once = laid_out(&sheet);
        prop_assert_eq!(laid_out(&once), once.clone(), "{}", sheet);
        prop_assert_eq!(tree(&once), tree(&sheet), "{}\n{}", sheet, once);
        prop_assert_eq!(comments(&once), comments(&sheet), "{}\n{}", sheet, once);
    }
}
