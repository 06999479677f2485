//! `dewline calc`: one expression, one answer.

use clap::Args;
use dewline_lang::job;

use crate::console::Console;
use crate::draw::draw;
use crate::problem::Stop;
use crate::words::{hang, left, plain, width};

#[derive(Debug, Args)]
pub struct Arguments {
    /// The expression, such as '118 psig as kPaa'
    #[arg(value_name = "EXPR", allow_hyphen_values = true)]
    expression: String,
    /// The site, by altitude or atmosphere: "1280 ft" or "12.93 psia"
    #[arg(long, value_name = "ALTITUDE", allow_hyphen_values = true)]
    site: Option<String>,
}

pub fn calc(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let library = dewline_stdlib::library();
    let calculated = job::calculate(&library, &arguments.expression, arguments.site.as_deref());
    if !calculated.diagnostics.is_empty() {
        console.say(&draw(&calculated.sources, &calculated.diagnostics, console.err_paint));
    }
    if calculated.answers.is_empty() {
        return Ok(2);
    }
    let columns = calculated.answers.iter().map(|(field, _)| width(field)).max().unwrap_or(0);
    for (field, shown) in &calculated.answers {
        let lead = if field.is_empty() { String::new() } else { format!("{}  ", left(field, columns)) };
        writeln!(console.out, "{lead}{}", plain(shown))?;
    }
    console.out.flush()?;
    for (word, texts) in [("Assumed", &calculated.assumptions), ("Caution", &calculated.cautions)] {
        for text in texts {
            let mut said = String::new();
            hang(&mut said, &format!("{word}: "), text);
            console.say(&said);
        }
    }
    Ok(0)
}
