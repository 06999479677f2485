//! Reports and commands of dewline.

mod audit;
mod command;
mod console;
mod draw;
mod formula;
mod host;
mod interactive;
mod output;
mod paint;
mod problem;
mod progress;
mod record;
pub mod report;
mod session;
mod settings;
mod unfinished;
mod words;

pub use command::run;
pub use console::Console;
pub use draw::draw;
pub use host::FolderHost;
pub use paint::Paint;
