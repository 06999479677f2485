//! `dewline pt`: a pressure–temperature chart at the site, bubble and dew.

use clap::Args;
use dewline_lang::job;

use super::refrigerants::find;
use crate::console::Console;
use crate::draw::draw;
use crate::problem::{Problem, Stop};
use crate::words::{hang, plain, right};

#[derive(Debug, Args)]
pub struct Arguments {
    /// A designation, such as R-410A
    pub refrigerant: String,
    /// The site, by altitude or atmosphere: "1280 ft" or "12.93 psia"
    #[arg(long, value_name = "ALTITUDE", allow_hyphen_values = true)]
    pub site: Option<String>,
    /// In °F and psig instead of °C and kPag
    #[arg(long)]
    pub ip: bool,
    /// Lowest temperature
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true)]
    pub from: Option<i32>,
    /// Highest temperature
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true)]
    pub to: Option<i32>,
    /// From one line to the next
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(i32).range(1..=1000))]
    pub step: Option<i32>,
}

/// Most lines of a chart.
const LINES_MAX: i32 = 2000;
const COLUMN: usize = 12;

pub fn pt(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let name = find(&arguments.refrigerant)?.designation();
    let (temperature, pressure, digit, usual) =
        if arguments.ip { ("degF", "psig", "0.1", (-40, 150, 5)) } else { ("degC", "kPag", "1", (-40, 65, 2)) };
    let (from, to) = (arguments.from.unwrap_or(usual.0), arguments.to.unwrap_or(usual.1));
    let step = arguments.step.unwrap_or(usual.2);
    if from > to {
        return Err(Problem::new(format!("the chart would begin at {from} and end at {to}")).into());
    }
    if to.saturating_sub(from) / step > LINES_MAX {
        return Err(Problem::new(format!("more than {LINES_MAX} lines")).with_mend("take a larger --step").into());
    }
    let library = dewline_stdlib::library();
    let site = arguments.site.as_deref();
    let atmosphere = job::calculate(&library, &format!("0 {pressure} as kPaa"), site);
    if !atmosphere.diagnostics.is_empty() {
        console.say(&draw(&atmosphere.sources, &atmosphere.diagnostics, console.err_paint));
        return Ok(2);
    }
    let mut assumed: Vec<String> = Vec::new();
    writeln!(console.out, "{name}")?;
    let heads = [temperature, "bubble", "dew"].map(|head| right(head, COLUMN));
    writeln!(console.out, "{}  {pressure}", heads.concat())?;
    for t in (from..=to).step_by(step.unsigned_abs() as usize) {
        let mut line = right(&t.to_string(), COLUMN);
        for function in ["bubble_pressure", "dew_pressure"] {
            let asked = format!("{function}({name}, {t} {temperature}) as {pressure} to {digit}");
            let answer = job::calculate(&library, &asked, site);
            let shown = answer.answers.first().map(|(_, shown)| plain(shown).into_owned());
            // Outside of the refrigerant's lines a dash stands for the missing value.
            let number = shown.as_deref().and_then(|shown| shown.split(' ').next()).unwrap_or("-");
            line.push_str(&right(number, COLUMN));
            for text in answer.assumptions {
                if !assumed.contains(&text) {
                    assumed.push(text);
                }
            }
        }
        writeln!(console.out, "{line}")?;
    }
    console.out.flush()?;
    for text in &assumed {
        let mut said = String::new();
        hang(&mut said, "Assumed: ", text);
        console.say(&said);
    }
    Ok(0)
}
