//! Stable codes of messages and what `explain` says of each.

/// One message of the language, known by its code.
#[derive(Debug, PartialEq, Eq)]
pub struct Code {
    /// Such as `D0101`.
    pub id: &'static str,
    /// The message in general, one line.
    pub title: &'static str,
    /// What it means and how to mend it, with an example; several lines.
    pub explanation: &'static str,
}

/// Codes of one stage of the way from text to outcome. Each family has a file of its own.
#[derive(Debug)]
pub struct Family {
    /// What the family is about.
    pub about: &'static str,
    /// Its codes in order.
    pub codes: &'static [&'static Code],
}

impl Code {
    /// Finds a code by its name, in any case.
    pub fn find(id: &str) -> Option<&'static Code> {
        Code::all().find(|code| code.id.eq_ignore_ascii_case(id))
    }

    /// Every code, in order.
    pub fn all() -> impl Iterator<Item = &'static Code> {
        Code::families().iter().flat_map(|family| family.codes.iter().copied())
    }

    /// Every family, in order.
    pub fn families() -> &'static [&'static Family] {
        FAMILIES
    }
}

static FAMILIES: &[&Family] = &[
    &super::words::FAMILY,
    &super::statements::FAMILY,
    &super::names::FAMILY,
    &super::kinds::FAMILY,
    &super::tables::FAMILY,
    &super::running::FAMILY,
    &super::settings::FAMILY,
];

/// Declares the codes of one family: `codes! { "about"; NAME = "D0101", "title", "explanation"; … }`.
macro_rules! codes {
    ($about:literal; $($name:ident = $id:literal, $title:literal, $explanation:literal;)+) => {
        $(
            #[doc = concat!($id, ": ", $title)]
            pub static $name: $crate::diagnostic::Code =
                $crate::diagnostic::Code { id: $id, title: $title, explanation: $explanation };
        )+
        /// All codes of this family.
        pub static FAMILY: $crate::diagnostic::Family =
            $crate::diagnostic::Family { about: $about, codes: &[$(&$name),+] };
    };
}
pub(super) use codes;
