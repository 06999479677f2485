//! `dewline refrigerants`: what refrigerants there are, and what is known of one.

use clap::Args;
use dewline_stdlib::refrigerant::{NameError, Refrigerant, catalogue};

use crate::console::Console;
use crate::problem::{Problem, Stop};
use crate::words::{hang, left};

#[derive(Debug, Args)]
pub struct Arguments {
    /// A designation, such as R-454B; all refrigerants if not given
    designation: Option<String>,
}

pub fn refrigerants(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let text = match arguments.designation.as_deref() {
        None => list(),
        Some(name) => in_full(&find(name)?)?,
    };
    console.out.write_all(text.as_bytes())?;
    Ok(0)
}

/// The refrigerant of a designation, or the problem that there is none.
pub fn find(name: &str) -> Result<Refrigerant, Problem> {
    Refrigerant::find(name).map_err(|error| match error {
        NameError::Unknown { asked, alike } => {
            Problem::new(format!("there is no refrigerant \"{asked}\"")).with_mend(match alike.is_empty() {
                false => format!("did you mean {}? All refrigerants: dewline refrigerants", alike.join(" or ")),
                true => "all refrigerants: dewline refrigerants".to_string(),
            })
        }
        other => Problem::new(other.to_string()),
    })
}

/// A line a refrigerant: designation, safety group, composition or what it is, and what is amiss.
fn list() -> String {
    let mut out = String::new();
    for (listed, found) in catalogue::all().iter().zip(Refrigerant::all()) {
        let mut about = match listed.composition.len() {
            1 => String::new(),
            _ => composition(&listed.composition),
        };
        let remark = match found {
            Ok(r) if r.estimated_pairs().is_ok_and(|pairs| !pairs.is_empty()) => "estimated".to_string(),
            Ok(_) => String::new(),
            Err(NameError::NotModelled { reason, .. }) => format!("not computed: {reason}"),
            Err(error) => error.to_string(),
        };
        if !remark.is_empty() {
            let join = if about.is_empty() { "" } else { "; " };
            about = format!("{about}{join}{remark}");
        }
        let lead = format!("{}  {}  ", left(listed.designation, 12), left(listed.safety_group.unwrap_or("-"), 3));
        hang(&mut out, &lead, if about.is_empty() { "pure" } else { &about });
    }
    out
}

fn composition(parts: &[(&str, f64)]) -> String {
    // The standard gives tenths of a percent.
    let share = |(name, share): &(&str, f64)| format!("{name} {} %", (share * 1e3).round() / 10.0);
    parts.iter().map(share).collect::<Vec<_>>().join(", ")
}

/// All about one.
pub fn in_full(r: &Refrigerant) -> Result<String, Problem> {
    let unreadable = |error: dewline_stdlib::refrigerant::PropertyError| Problem::new(error.to_string());
    let celsius = |t: f64| format!("{:.2} °C ({:.2} °F)", t - 273.15, t * 1.8 - 459.67);
    let mut out = format!("{}\n", r.designation());
    if !r.is_pure() {
        hang(&mut out, "  mass shares     ", &composition(r.composition()));
    }
    let group = match r.safety_group() {
        Some(group) => format!("{group} ({})", r.safety_group_source()),
        None => "none assigned, as far as known here".to_string(),
    };
    hang(&mut out, "  safety group    ", &group);
    hang(&mut out, "  molar mass      ", &format!("{:.3} g/mol", r.molar_mass().value * 1e3));
    let point = r.critical_point();
    let critical = format!(
        "{}, {:.1} kPa absolute, {:.1} kg/m³",
        celsius(point.temperature.value),
        point.pressure.value / 1e3,
        point.density.value
    );
    hang(&mut out, "  critical point  ", &critical);
    for (name, range) in [("  bubble line     ", r.bubble_range()), ("  dew line        ", r.dew_range())] {
        let text =
            format!("{} to {}", celsius(range.lowest_temperature.value), celsius(range.highest_temperature.value));
        hang(&mut out, name, &text);
    }
    let limits = r.limits();
    let valid =
        format!("to {} and {:.0} MPa", celsius(limits.highest_temperature.value), limits.highest_pressure.value / 1e6);
    hang(&mut out, "  equations valid ", &valid);
    let estimated = r.estimated_pairs().map_err(unreadable)?;
    if !estimated.is_empty() {
        let pairs: Vec<String> = estimated.iter().map(|pair| pair.join(" with ")).collect();
        hang(&mut out, "  estimated       ", &format!("no parameters are published for {}", pairs.join(", ")));
    }
    let sources = r.source().map_err(unreadable)?;
    for source in sources.split(" | ").filter(|source| !source.starts_with("estimated")) {
        hang(&mut out, "  source          ", source);
    }
    Ok(out)
}
