//! The language and the trade library, as the commands use them.

use dewline_lang::library::Library;

/// The functions that sheets can call.
pub fn library() -> Library {
    dewline_stdlib::library()
}

/// The candidate nearest to a mistyped word, if one is near enough.
pub fn suggest<'a>(word: &str, candidates: impl Iterator<Item = &'a str>) -> Option<String> {
    dewline_lang::suggest::did_you_mean(word, candidates).map(str::to_string)
}
