//! The list of refrigerants: designations, compositions and safety groups of ASHRAE 34.

use std::sync::OnceLock;

use super::error::NameError;

/// One line of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// Designation, for instance `R-410A`.
    pub designation: &'static str,
    /// Safety group, where ASHRAE 34 assigns one.
    pub safety_group: Option<&'static str>,
    /// Where the safety group was taken from.
    pub safety_group_source: &'static str,
    /// Components with their shares of the mass, which add up to 1; a pure refrigerant has one.
    pub composition: Vec<(&'static str, f64)>,
}

static LIST: &str = include_str!("../../data/refrigerants.tsv");

/// All refrigerants, pure ones first, each group by number.
pub fn all() -> &'static [Listed] {
    static READ: OnceLock<Vec<Listed>> = OnceLock::new();
    READ.get_or_init(|| LIST.lines().filter(|l| !l.starts_with('#')).filter_map(read).collect())
}

/// The place of a refrigerant in the list, by its designation in any usual spelling: case, hyphens,
/// spaces and brackets do not matter and the R may be missing.
pub fn find(name: &str) -> Result<usize, NameError> {
    let wanted = key(name);
    let place = all().iter().position(|listed| key(listed.designation) == wanted);
    place.ok_or_else(|| NameError::Unknown { asked: name.trim().to_string(), alike: alike(&wanted) })
}

/// A test reads the whole list, so a line that cannot be read never gets here.
fn read(line: &'static str) -> Option<Listed> {
    let mut fields = line.split('\t');
    let (designation, group, source, parts) = (fields.next()?, fields.next()?, fields.next()?, fields.next()?);
    let composition = if parts == "pure" {
        vec![(designation, 1.0)]
    } else {
        let shares: Option<Vec<_>> = parts
            .split("; ")
            .map(|part| {
                let (name, percent) = part.rsplit_once(' ')?;
                Some((name, percent.parse::<f64>().ok()? / 100.0))
            })
            .collect();
        shares?
    };
    Some(Listed {
        designation,
        safety_group: (group != "-").then_some(group),
        safety_group_source: match source {
            "handbook" => "ASHRAE Handbook - Fundamentals (2021), chapter 29, tables 1 and 2",
            "memory" => "ASHRAE 34, from memory: check against the standard",
            _ => "not assigned, as far as known here",
        },
        composition,
    })
}

/// A designation without what spellings differ in.
fn key(name: &str) -> String {
    let mut key: String = name.chars().filter(|c| c.is_alphanumeric()).collect();
    key.make_ascii_lowercase();
    match key.strip_prefix('r') {
        Some(rest) => rest.to_string(),
        None => key,
    }
}

/// Up to three designations within two slips of the wanted one.
fn alike(wanted: &str) -> Vec<&'static str> {
    let mut near: Vec<(usize, &'static str)> = all()
        .iter()
        .map(|listed| (slips(wanted, &key(listed.designation)), listed.designation))
        .filter(|(slips, _)| *slips <= 2)
        .collect();
    near.sort_by_key(|(slips, _)| *slips);
    let least = near.first().map_or(0, |(slips, _)| *slips);
    near.into_iter().filter(|(slips, _)| *slips == least).take(3).map(|(_, name)| name).collect()
}

/// Least number of inserted, dropped or changed letters between two words.
fn slips(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut corner = row[0];
        row[0] = i + 1;
        for (j, &cb) in b.iter().enumerate() {
            let changed = corner + usize::from(ca != cb);
            corner = row[j + 1];
            row[j + 1] = changed.min(row[j] + 1).min(corner + 1);
        }
    }
    row[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_is_read_and_every_composition_is_whole() {
        let lines = LIST.lines().filter(|l| !l.starts_with('#')).count();
        assert_eq!(all().len(), lines);
        for listed in all() {
            let sum: f64 = listed.composition.iter().map(|(_, share)| share).sum();
            assert!((sum - 1.0).abs() < 1e-12, "{} {sum}", listed.designation);
        }
    }

    #[test]
    fn usual_spellings_are_found() {
        for name in ["R-410A", "r410a", "R 410A", "410a"] {
            assert_eq!(find(name).map(|i| all()[i].designation), Ok("R-410A"));
        }
        assert_eq!(find("R1234ze(E)").map(|i| all()[i].designation), Ok("R-1234ze(E)"));
        assert_eq!(find("R-13I1").map(|i| all()[i].designation), Ok("R-13I1"));
    }

    #[test]
    fn a_slip_is_answered_with_what_is_alike() {
        let Err(NameError::Unknown { alike, .. }) = find("R-454D") else { unreachable!("R-454D is no refrigerant") };
        assert_eq!(alike, ["R-454A", "R-454B", "R-454C"]);
        let Err(NameError::Unknown { alike, .. }) = find("water glycol") else { unreachable!("not a refrigerant") };
        assert!(alike.is_empty());
    }
}
