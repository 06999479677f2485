//! `dewline columns`: the table lines that fit a data file.

use clap::Args;
use dewline_lang::host::RawTable;
use dewline_lang::moment::Moment;
use dewline_lang::units;
use unicode_normalization::UnicodeNormalization;

use crate::console::Console;
use crate::host::{read_data_table, workbook};
use crate::problem::Stop;
use crate::settings::name_and_unit;
use crate::words::{left, width};

/// Words that cannot be names.
const RESERVED: [&str; 12] = ["if", "then", "else", "and", "or", "not", "as", "within", "where", "true", "false", "_"];

#[derive(Debug, Args)]
pub struct Arguments {
    /// A CSV or XLSX file; `log.xlsx#Log` names a sheet
    file: String,
}

pub fn columns(arguments: &Arguments, console: &mut Console<'_>) -> Result<u8, Stop> {
    let table = read_data_table(&arguments.file)?;
    let (heads, kinds) = lines(&table);
    let file = arguments.file.rsplit(['/', '\\']).next().unwrap_or(&arguments.file);
    let alone = workbook(file).map_or(file, |(file, _)| file);
    let stem = alone.rsplit_once('.').map_or(alone, |(stem, _)| stem);
    writeln!(console.out, "table {} from {}", name(stem), quoted(file))?;
    for line in [heads, kinds] {
        writeln!(console.out, "  {line}")?;
    }
    writeln!(console.out, "end")?;
    Ok(0)
}

/// The line of names and the line of kinds.
fn lines(table: &RawTable) -> (String, String) {
    let mut used: Vec<String> = Vec::new();
    let mut heads = Vec::new();
    let mut kinds = Vec::new();
    for (index, header) in table.headers.iter().enumerate() {
        if header.is_empty() {
            continue;
        }
        let fields = || table.rows.iter().filter_map(move |row| row.fields.get(index)).map(String::as_str);
        let Column { words, unit } = column(header, || fields().all(is_blank_or_number));
        let mut name = name(&words);
        let wanted = name.clone();
        for number in 2.. {
            if !used.contains(&name) {
                break;
            }
            name = format!("{wanted}_{number}");
        }
        used.push(name.clone());
        // The language finds a column by its name, case, blanks, `_` and a unit in brackets apart.
        let same = |other: &&String| bare(&name_and_unit(other).0) == bare(&name);
        let found = same(&header) && table.headers.iter().filter(same).count() == 1;
        heads.push(if found { name } else { format!("{name} = {}", quoted(header)) });
        kinds.push(unit.unwrap_or_else(|| kind(fields()).to_string()));
    }
    let widths: Vec<usize> = heads.iter().zip(&kinds).map(|(head, kind)| width(head).max(width(kind))).collect();
    let line = |parts: &[String]| {
        let padded: Vec<String> = parts.iter().zip(&widths).map(|(part, &columns)| left(part, columns)).collect();
        padded.join(" | ").trim_end().to_string()
    };
    (line(&heads), line(&kinds))
}

/// A name as the language compares it with headers.
fn bare(text: &str) -> String {
    text.nfc().filter(|letter| !matches!(letter, ' ' | '_')).collect::<String>().to_lowercase()
}

/// A header taken apart.
struct Column {
    /// What the name is made from.
    words: String,
    /// The unit, in the catalogue's spelling.
    unit: Option<String>,
}

/// The unit stands in `[…]` or `(…)`, or is the last word of a column of numbers.
fn column(header: &str, numeric: impl Fn() -> bool) -> Column {
    let known = |word: &str| units::parse(word.trim()).ok().map(|unit| unit.text);
    let (before, in_brackets) = name_and_unit(header);
    if let Some(unit) = in_brackets {
        let unit = known(&unit).unwrap_or(unit);
        let unit = if unit == "-" || unit.is_empty() { "number".to_string() } else { unit };
        return Column { words: before, unit: Some(unit) };
    }
    if let Some((before, inside)) = header.strip_suffix(')').and_then(|text| text.rsplit_once('('))
        && let Some(unit) = known(inside)
        && numeric()
    {
        return Column { words: before.to_string(), unit: Some(unit) };
    }
    if let Some((before, last)) = header.rsplit_once([' ', '_', ','])
        && !before.trim().is_empty()
        && says_a_unit(last)
        && let Some(unit) = known(last)
        && numeric()
    {
        return Column { words: before.trim_end_matches(',').to_string(), unit: Some(unit) };
    }
    Column { words: header.to_string(), unit: None }
}

/// A last word long enough to be meant as a unit: `air_in` is no length and `phase A` no current.
fn says_a_unit(word: &str) -> bool {
    word.chars().count() > 1 && !matches!(word.to_lowercase().as_str(), "in" | "at" | "no" | "min" | "day")
}

/// A name of the language: letters in small, digits and `_`.
fn name(words: &str) -> String {
    let mut name = String::new();
    for letter in words.nfc().flat_map(char::to_lowercase) {
        if letter.is_alphanumeric() {
            name.push(letter);
        } else if !name.is_empty() && !name.ends_with('_') {
            name.push('_');
        }
    }
    let name = name.trim_matches('_').to_string();
    match name.chars().next() {
        None => "column".to_string(),
        Some(first) if !first.is_alphabetic() => format!("column_{name}"),
        _ if RESERVED.contains(&name.as_str()) => format!("{name}_"),
        _ => name,
    }
}

/// The kind of a column by its fields; blanks and `?` say nothing.
fn kind<'a>(fields: impl Iterator<Item = &'a str> + Clone) -> &'static str {
    let mut given = fields.filter(|field| !is_blank(field));
    let all = |test: fn(&str) -> bool| given.clone().all(test);
    if given.clone().next().is_none() {
        return "text";
    }
    if all(is_number) {
        "number"
    } else if all(|field| matches!(field.to_lowercase().as_str(), "true" | "false")) {
        "flag"
    } else if given.all(|field| Moment::parse(field).is_ok()) {
        "time"
    } else {
        "text"
    }
}

fn is_blank(field: &str) -> bool {
    field.is_empty() || field == "?"
}

fn is_number(field: &str) -> bool {
    field.parse::<f64>().is_ok_and(f64::is_finite)
}

fn is_blank_or_number(field: &str) -> bool {
    is_blank(field) || is_number(field)
}

/// A text of the language: a quote in it is doubled.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('"', "\"\""))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::host::read_table;

    fn of(csv: &str) -> (String, String) {
        lines(&read_table("a.csv".to_string(), "a.csv", csv.as_bytes().to_vec()).unwrap())
    }

    fn parts(line: &str) -> Vec<&str> {
        line.split('|').map(str::trim).collect()
    }

    #[test]
    fn names_units_and_kinds_come_from_headers_and_data() {
        let (heads, kinds) = of("Tag,Index [kW],Calling,air_in,CH 1 (micron),Suction psig,Read at\n\
             Exam 1,2.8,true,75.2,312,118,2026-03-14T07:40\nExam 2,?,false,,341,119,2026-03-14T07:45\n");
        assert_eq!(
            parts(&heads),
            ["tag", "index", "calling", "air_in", "ch_1 = \"CH 1 (micron)\"", "suction = \"Suction psig\"", "read_at"]
        );
        assert_eq!(parts(&kinds), ["text", "kW", "flag", "number", "micron", "psig", "time"]);
    }

    #[test]
    fn names_are_made_fit_and_kept_apart() {
        let (heads, _) = of("2nd floor,if,Druck Äußere,p,P,\n1,2,3,4,5,\n");
        assert_eq!(
            parts(&heads),
            ["column_2nd_floor = \"2nd floor\"", "if_", "druck_äußere", "p = \"p\"", "p_2 = \"P\""]
        );
    }
}
