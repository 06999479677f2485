//! Who is who: the files of a job, the names of a sheet, and the order that formulas ask for.

mod directory;
mod files;
mod order;
mod references;

pub(crate) use directory::is_literal;
pub use directory::{Directory, Entry, Item, ItemKind};
pub use files::{File, Files, read_files};
pub use order::{Part, Task, answered, order};
pub(crate) use references::dotted;
