//! `differential COUNT`: so many random expressions, computed by the language and by an evaluator written anew.

use dewline_tests::differential::compare;

fn main() {
    let count = std::env::args().nth(1).and_then(|text| text.parse().ok()).unwrap_or(1_000_000);
    let agreed = compare(count);
    println!("{} expressions came to the same bits, {} to the same error", agreed.values, agreed.errors);
}
