//! Forms of the library as files: `forms/NAME.dew`, where the folders of the job hold none of that name.

use dewline_lang::host::Document;
use dewline_lang::outcome::Outcome;
use dewline_lang::source::Sources;
use dewline_lang::suggest::did_you_mean;
use dewline_stdlib::forms::{FORMS, Form, RELEASE};

/// The folder that forms are named in.
const FOLDER: &str = "forms/";

/// The form that a path means, under a name that tells where it is from. A record keeps that name with the text.
pub fn form(path: &str) -> Option<Document> {
    let form = Form::find(name_in(path)?)?;
    Some(Document { name: format!("{}{FOLDER}{}.dew", origin(), form.name), text: form.text.to_string() })
}

/// Whether a text of this name is a form of the library, of this release or of another.
pub fn is_form(name: &str) -> bool {
    release_and_form(name).is_some()
}

/// The path of the form that is meant by a path that leads nowhere: its name alone, or one near it.
pub fn meant(path: &str) -> Option<String> {
    let bare = path.strip_suffix(".dew").unwrap_or(path);
    let name = match Form::find(bare) {
        Some(form) => form.name,
        None => did_you_mean(name_in(path)?, FORMS.iter().map(|form| form.name))?,
    };
    Some(format!("{FOLDER}{name}.dew"))
}

/// Says in an outcome which forms came from the library, so that nothing is hidden.
pub fn mention_forms(outcome: &mut Outcome, sources: &Sources) {
    let mut releases: Vec<(&str, Vec<&str>)> = Vec::new();
    for (release, form) in sources.iter().filter_map(|(_, source)| release_and_form(&source.name)) {
        match releases.iter_mut().find(|(known, _)| *known == release) {
            Some((_, forms)) => forms.push(form),
            None => releases.push((release, vec![form])),
        }
    }
    for (release, forms) in releases {
        let forms = forms.join(", ");
        outcome.assumptions.push(format!("forms from the library of dewline {release}: {forms}"));
    }
}

/// The path of the library's form in whose place a file of this name stands: `forms/evacuation.dew` of `job/forms/evacuation.dew`.
pub fn replaced_by(name: &str) -> Option<String> {
    let start = name.rfind(FOLDER).filter(|start| *start == 0 || name[..*start].ends_with('/'))?;
    let path = name.get(start..)?;
    (!is_form(name) && Form::find(name_in(path)?).is_some()).then(|| path.to_string())
}

/// `evacuation` in `forms/evacuation.dew`.
fn name_in(path: &str) -> Option<&str> {
    path.strip_prefix(FOLDER)?.strip_suffix(".dew")
}

fn origin() -> String {
    format!("library {RELEASE}: ")
}

fn release_and_form(name: &str) -> Option<(&str, &str)> {
    let (release, path) = name.strip_prefix("library ")?.split_once(": ")?;
    Some((release, name_in(path)?))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_form_is_found_by_its_path_alone_and_tells_its_origin() {
        let found = form("forms/evacuation.dew").unwrap();
        assert!(is_form(&found.name) && found.text.contains("sheet \""), "{}", found.name);
        assert_eq!(release_and_form(&found.name), Some((RELEASE, "evacuation")));
        assert!(form("evacuation.dew").is_none() && form("job/forms/evacuation.dew").is_none());
        assert!(!is_form("forms/evacuation.dew"));
        for (name, form) in [
            ("forms/evacuation.dew", Some("forms/evacuation.dew")),
            ("job/forms/evacuation.dew", Some("forms/evacuation.dew")),
            ("job/forms/evacuation-2.dew", None),
            ("job/my-forms/evacuation.dew", None),
            (found.name.as_str(), None),
        ] {
            assert_eq!(replaced_by(name).as_deref(), form, "{name}");
        }
        for near in ["forms/evacuaton.dew", "evacuation", "evacuation.dew"] {
            assert_eq!(meant(near).as_deref(), Some("forms/evacuation.dew"), "{near}");
        }
        assert_eq!((meant("job.dew"), meant("evacuaton.dew")), (None, None));
    }
}
