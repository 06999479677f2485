//! Reusable forms: sheets with open inputs and tables, written in the language itself.

/// A form of the library.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Form {
    /// Its name, without folder and ending.
    pub name: &'static str,
    /// Its whole text.
    pub text: &'static str,
}

/// All forms, in the order of the work.
pub const FORMS: &[Form] = &[
    form("lines", include_str!("../forms/lines.dew")),
    form("brazing", include_str!("../forms/brazing.dew")),
    form("powered-early", include_str!("../forms/powered-early.dew")),
    form("standing-test", include_str!("../forms/standing-test.dew")),
    form("volume-check", include_str!("../forms/volume-check.dew")),
    form("evacuation", include_str!("../forms/evacuation.dew")),
    form("charge", include_str!("../forms/charge.dew")),
    form("before-start", include_str!("../forms/before-start.dew")),
    form("cooling", include_str!("../forms/cooling.dew")),
    form("heating", include_str!("../forms/heating.dew")),
    form("selectors", include_str!("../forms/selectors.dew")),
    form("unit", include_str!("../forms/unit.dew")),
    form("service", include_str!("../forms/service.dew")),
    form("handover", include_str!("../forms/handover.dew")),
    form("commissioning", include_str!("../forms/commissioning.dew")),
];

/// The release of the library that the forms belong to.
pub const RELEASE: &str = env!("CARGO_PKG_VERSION");

const fn form(name: &'static str, text: &'static str) -> Form {
    Form { name, text }
}

impl Form {
    /// The form of this name.
    pub fn find(name: &str) -> Option<&'static Form> {
        FORMS.iter().find(|form| form.name == name)
    }

    /// Its title, as in `sheet "…"`.
    pub fn title(&self) -> &'static str {
        let title = |line: &'static str| line.strip_prefix("sheet \"")?.strip_suffix('"');
        self.text.lines().find_map(title).unwrap_or(self.name)
    }

    /// What it is for: the comment that it begins with.
    pub fn about(&self) -> String {
        let lines = self.text.lines().map_while(|line| line.strip_prefix('#'));
        lines.map(str::trim).collect::<Vec<_>>().join(" ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_form_has_a_name_of_its_own_a_title_and_says_what_it_is_for() {
        for (at, form) in FORMS.iter().enumerate() {
            assert!(FORMS[..at].iter().all(|other| other.name != form.name), "{}", form.name);
            assert_ne!(form.title(), form.name, "{} has no title", form.name);
            assert!(form.about().len() > 20, "{} does not say what it is for", form.name);
        }
    }
}
