//! `dewline forms` and `dewline show`: the forms of the library.

use clap::Args;
use dewline_lang::suggest::did_you_mean;
use dewline_stdlib::forms::{FORMS, Form};

use crate::console::Console;
use crate::problem::{Problem, Stop};
use crate::words::hang;

#[derive(Debug, Args)]
pub struct Arguments {
    /// The form, such as evacuation; all forms: dewline forms
    form: String,
}

/// Name, title and what it is for, a form after another.
pub fn forms(console: &mut Console<'_>) -> Result<u8, Stop> {
    let mut out = String::new();
    for form in FORMS {
        out.push_str(&format!("{}: {}\n", form.name, form.title()));
        hang(&mut out, "  ", &form.about());
    }
    out.push_str(
        "\nFill one in a sheet:    fill \"forms/evacuation.dew\" as evac ( hold = log )\n\
         Run one by itself:      dewline run forms/evacuation.dew --set hold=hold.csv\n\
         Make one your own:      dewline show evacuation > forms/evacuation.dew\n\
         A form in the folder forms beside your sheet comes before that of the library.\n",
    );
    console.out.write_all(out.as_bytes())?;
    Ok(0)
}

/// The text of a form, byte for byte.
pub fn show(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let form = find(&arguments.form)?;
    console.out.write_all(form.text.as_bytes())?;
    Ok(0)
}

/// By its name, or by the path that a sheet writes.
fn find(asked: &str) -> Result<&'static Form, Problem> {
    let name = asked.trim();
    let name = name.strip_prefix("forms/").unwrap_or(name);
    let name = name.strip_suffix(".dew").unwrap_or(name).to_lowercase().replace([' ', '_'], "-");
    Form::find(&name).ok_or_else(|| {
        let begun = FORMS.iter().map(|form| form.name).find(|one| name.len() > 2 && one.starts_with(&name));
        let near = begun.or_else(|| did_you_mean(&name, FORMS.iter().map(|form| form.name)));
        Problem::new(format!("there is no form \"{asked}\"")).with_mend(match near {
            Some(near) => format!("did you mean {near}? All forms: dewline forms"),
            None => "all forms: dewline forms".to_string(),
        })
    })
}
