//! The engine against an evaluator written anew. `.ci/run` holds a million expressions against it, in the release build.

use dewline_tests::differential::compare;

const COUNT: usize = 50_000;

#[test]
fn the_engine_and_a_tree_walker_come_to_the_same_bits() {
    let agreed = compare(COUNT);
    assert_eq!(agreed.values + agreed.errors, COUNT);
    // Were nearly all of one sort, little would be shown.
    assert!(agreed.values > COUNT / 2 && agreed.errors > COUNT / 100, "{agreed:?}");
}
