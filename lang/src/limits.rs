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
pub const FILLED_CELLS: usize = 2_000_000;
/// Calls of definitions after expansion.
pub const CALLS: u64 = 1_000_000;
/// `solve` inside `solve`.
pub const SOLVE_DEPTH: usize = 2;
/// Steps of one `solve`.
pub const SOLVE_STEPS: usize = 200;
/// Elementary operations (times rows) of one run; a call of a library function counts as [`CALL_WORK`] of them.
pub const WORK: u64 = 5_000_000_000;
/// What a call of a library function counts in operations.
pub const CALL_WORK: usize = 500;
/// Bytes of one text made by a sheet.
pub const TEXT_BYTES: usize = 1024 * 1024;
/// Errors reported of one sheet; the rest is counted.
pub const ERRORS: usize = 100;
/// Contributions to the doubt of values that one run keeps; what comes after is not told.
pub const DOUBT: usize = 20_000_000;
