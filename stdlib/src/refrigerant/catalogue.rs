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
///
/// A sheet asks this for every row of a table, so it neither allocates nor walks the list.
pub fn find(name: &str) -> Result<usize, NameError> {
    static PLACES: OnceLock<Vec<(Key, usize)>> = OnceLock::new();
    let places = PLACES.get_or_init(|| {
        let designations = all().iter().map(|listed| Key::of(listed.designation));
        let mut places: Vec<(Key, usize)> = designations.zip(0..).collect();
        places.sort_unstable();
        places
    });
    let wanted = Key::of(name);
    match places.binary_search_by_key(&wanted, |(key, _)| *key) {
        Ok(found) => Ok(places[found].1),
        Err(_) => Err(NameError::Unknown { asked: name.trim().to_string(), alike: alike(&wanted) }),
    }
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

/// A designation without what spellings differ in: up to sixteen letters and digits, one to a byte,
/// of which no designation has more than nine. Whatever is longer is none.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Key(u128);

impl Key {
    fn of(name: &str) -> Self {
        let mut key = 0;
        for byte in name.bytes().filter(|byte| byte.is_ascii_alphanumeric() || !byte.is_ascii()) {
            if key == 0 && byte.eq_ignore_ascii_case(&b'r') {
                continue;
            }
            if key >> 120 != 0 {
                return Self(u128::MAX);
            }
            key = key << 8 | u128::from(byte.to_ascii_lowercase());
        }
        Self(key)
    }

    fn letters(&self) -> Vec<u8> {
        self.0.to_be_bytes().into_iter().skip_while(|&byte| byte == 0).collect()
    }
}

/// Up to three designations within two slips of the wanted one, none with more than the best.
fn alike(wanted: &Key) -> Vec<&'static str> {
    let mut near: Vec<(usize, &'static str)> = all()
        .iter()
        .map(|listed| (slips(&wanted.letters(), &Key::of(listed.designation).letters()), listed.designation))
        .filter(|(slips, _)| *slips <= 2)
        .collect();
    near.sort_by_key(|(slips, _)| *slips);
    let least = near.first().map_or(0, |(slips, _)| *slips);
    near.into_iter().filter(|(slips, _)| *slips == least).take(3).map(|(_, name)| name).collect()
}

/// Least number of inserted, dropped or changed letters between two words.
fn slips(a: &[u8], b: &[u8]) -> usize {
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.iter().enumerate() {
        let mut corner = row[0];
        row[0] = i + 1;
        for (j, cb) in b.iter().enumerate() {
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
