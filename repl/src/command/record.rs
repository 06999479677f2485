//! `dewline record`: keys for signing records.

use clap::{Args, Subcommand};

use crate::console::Console;
use crate::problem::Stop;
use crate::record::make_pair;

#[derive(Debug, Args)]
pub struct Arguments {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Make a pair of keys: NAME.private.pem signs records, NAME.public.pem is for those who audit them
    Keys {
        /// Where, and how the files begin
        name: String,
    },
}

pub fn record(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let What::Keys { name } = &arguments.what;
    let pair = make_pair(name)?;
    let text = format!(
        "{} signs records (--sign); keep it to yourself.\n{} is for those who audit them (--trust).\nkey {}\n",
        pair.private.display(),
        pair.public.display(),
        pair.name
    );
    console.out.write_all(text.as_bytes())?;
    Ok(0)
}
