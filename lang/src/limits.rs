//! Bounds that keep every sheet finite; each has an error that names it.

/// Bytes of one sheet.
pub const SHEET_BYTES: usize = 4 * 1024 * 1024;
/// Open brackets inside one another, and blocks inside blocks.
pub const NESTING: usize = 32;
/// Operators in one expression, so that no tree grows deeper than its walkers can bear.
pub const EXPRESSION_TOKENS: usize = 1_000;
/// Operations inside one another in one expression; a long sum counts one for each term.
pub const EXPRESSION_DEPTH: usize = 200;
/// Definitions calling one another.
pub const DEFINE_DEPTH: usize = 32;
/// Stack that checking and running the deepest sheet allowed needs; callers with less run it on a thread of its own.
pub const STACK_BYTES: usize = 256 * 1024 * 1024;
/// Named values of one sheet.
pub const CELLS: usize = 100_000;
/// Rows of one table.
pub const ROWS: usize = 5_000_000;
/// Columns of one table.
pub const COLUMNS: usize = 1_000;
/// Sheets inside sheets.
pub const FILL_DEPTH: usize = 16;
/// Cells of all filled sheets together.
pub const FILLED_CELLS: usize = 400_000;
/// Calls of definitions after expansion.
pub const CALLS: u64 = 1_000_000;
/// `solve` inside `solve`.
pub const SOLVE_DEPTH: usize = 2;
/// Steps of one `solve`.
pub const SOLVE_STEPS: usize = 200;
/// Elementary operations of one run, a row each: about as many nanoseconds.
pub const WORK: u64 = 5_000_000_000;
/// What every operation counts beside its rows.
pub const STEP_WORK: usize = 60;
/// What a call of a library function counts, where it is not one from numbers to a number.
pub const CALL_WORK: usize = 20_000;
/// What each row of a column handed to such a call counts.
pub const ROW_WORK: usize = 200;
/// Values in all tables of one run, given and computed; a row of a check counts as [`CHECK_VALUES`] of them.
pub const VALUES: usize = 5_000_000;
/// What the verdict on one row counts among the values held.
pub const CHECK_VALUES: usize = 50;
/// Bytes of one text made by a sheet.
pub const TEXT_BYTES: usize = 1024 * 1024;
/// Bytes of all texts that one run holds.
pub const TEXTS_BYTES: usize = 64 * 1024 * 1024;
/// Errors reported of one sheet, and of one run; the rest is counted.
pub const ERRORS: usize = 100;
/// Broken rows of one column that say each for itself what is wrong; those after them say that it is of the same sort.
pub const FAULTS: usize = 1_000;
/// Contributions to the doubt of values that one run keeps; what comes after is not told.
pub const DOUBT: usize = 20_000_000;
