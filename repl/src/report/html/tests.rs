//! The page against a real HTML parser.
#![allow(clippy::unwrap_used)]

use html5ever::parse_document;
use html5ever::tendril::TendrilSink;
use markup5ever_rcdom::{Handle, NodeData, RcDom};

use crate::paint::Paint;
use crate::report::sample;
use crate::report::{Beside, Format, Look, Reporter};
use dewline_lang::outcome::Outcome;

fn page(outcomes: &[Outcome]) -> String {
    let mut out = Vec::new();
    let many = outcomes.len() > 1;
    let look = Look { format: Format::Html, quiet: false, paint: Paint::new(false), errors_seen: false, many };
    let mut reporter = Reporter::new(&mut out, look);
    for outcome in outcomes {
        reporter.add("", outcome, &Beside::NOTHING).unwrap();
    }
    reporter.finish().unwrap();
    String::from_utf8(out).unwrap()
}

/// Every element with its attributes, in the order of the page, and the texts.
fn walk(node: &Handle, seen: &mut Vec<(String, Vec<(String, String)>)>, text: &mut String) {
    match &node.data {
        NodeData::Element { name, attrs, .. } => {
            let attributes =
                attrs.borrow().iter().map(|one| (one.name.local.to_string(), one.value.to_string())).collect();
            seen.push((name.local.to_string(), attributes));
        }
        NodeData::Text { contents } => text.push_str(&contents.borrow()),
        _ => {}
    }
    for child in node.children.borrow().iter() {
        walk(child, seen, text);
    }
}

#[test]
fn a_parser_finds_no_error() {
    for outcomes in [vec![sample::outcome()], vec![sample::outcome(), sample::hostile()], vec![]] {
        let page = page(&outcomes);
        let parsed = parse_document(RcDom::default(), Default::default()).one(page.as_str());
        let errors = parsed.errors.borrow();
        assert!(errors.is_empty(), "{errors:?}");
    }
}

#[test]
fn hostile_texts_stay_texts() {
    let page = page(&[sample::hostile()]);
    let (mut elements, mut text) = (Vec::new(), String::new());
    let parsed = parse_document(RcDom::default(), Default::default()).one(page.as_str());
    walk(&parsed.document, &mut elements, &mut text);
    let unknown = ["script", "img", "b", "iframe", "marquee", "link", "a\u{202e}"];
    assert!(elements.iter().all(|(name, _)| !unknown.contains(&name.as_str())), "{elements:?}");
    for (name, attributes) in &elements {
        for (attribute, value) in attributes {
            assert!(!attribute.starts_with("on"), "{name} {attribute}");
            let leads_out = matches!(attribute.as_str(), "href" | "src") && !value.starts_with('#');
            assert!(!leads_out, "{name} {attribute}={value}");
        }
    }
    // All of it is there to read, and nothing of it steers.
    assert!(text.contains("<script>alert(1)</script>") && text.contains("\"><img src=x onerror=alert(1)>"), "{text}");
    assert!(text.contains("\\u{202e}") && text.contains("\\u{1b}"), "{text}");
    assert!(!page.chars().any(|letter| crate::words::steers(letter) && !matches!(letter, '\n' | '\t')));
}

#[test]
fn headings_go_down_one_by_one_and_ids_stand_alone() {
    let page = page(&[sample::outcome(), sample::outcome()]);
    let (mut elements, mut text) = (Vec::new(), String::new());
    let parsed = parse_document(RcDom::default(), Default::default()).one(page.as_str());
    walk(&parsed.document, &mut elements, &mut text);
    let mut last = 0;
    for (name, _) in &elements {
        if let Some(level) = name.strip_prefix('h').and_then(|level| level.parse::<u32>().ok()) {
            assert!(level <= last + 1, "h{level} after h{last}");
            last = level;
        }
    }
    let mut ids: Vec<&String> = elements
        .iter()
        .flat_map(|(_, attributes)| attributes)
        .filter(|(name, _)| name == "id")
        .map(|(_, id)| id)
        .collect();
    let count = ids.len();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), count, "an id stands twice");
    let tables = elements.iter().filter(|(name, _)| name == "table").count();
    let captions = elements.iter().filter(|(name, _)| name == "caption").count();
    assert_eq!(tables, captions);
    let scoped =
        |(_, attributes): &&(String, Vec<(String, String)>)| attributes.iter().any(|(name, _)| name == "scope");
    let heads = elements.iter().filter(|(name, _)| name == "th");
    assert!(heads.clone().count() > 10 && heads.clone().filter(scoped).count() == heads.count());
}

#[test]
fn what_failed_and_what_is_drawn_can_be_read_without_colour_and_without_eyes() {
    let page = page(&[sample::outcome()]);
    for said in ["shape-cross", "FAILED", "look-bad", "role=\"img\"", "<desc id=", "<title id=", "@media print"] {
        assert!(page.contains(said), "{said}");
    }
    for outside in ["<script", "http://", "https://", "@import", "url("] {
        assert!(!page.replace("http://www.w3.org/2000/svg", "").contains(outside), "{outside}");
    }
}
