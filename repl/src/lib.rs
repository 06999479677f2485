//! Reports and commands of dewline.

mod command;
mod console;
#[allow(dead_code)]
mod draw;
mod host;
mod language;
mod output;
mod paint;
mod problem;
#[allow(dead_code)]
pub mod report;
mod words;

pub use command::run;
pub use console::Console;
pub use draw::draw;
pub use host::FolderHost;
pub use paint::Paint;
