//! Words coloured by what they look like. Nothing is said by colour alone.

use dewline_lang::syntax::{Class, words};

/// A line with its words coloured; every other byte stays.
pub fn coloured(line: &str) -> String {
    let mut out = String::with_capacity(line.len() * 2);
    let mut at = 0;
    for word in words(line) {
        let Some(text) = line.get(word.range.clone()) else { continue };
        out.push_str(line.get(at..word.range.start).unwrap_or(""));
        match code(word.class) {
            Some(code) => out.push_str(&format!("\u{1b}[{code}m{text}\u{1b}[0m")),
            None => out.push_str(text),
        }
        at = word.range.end;
    }
    out.push_str(line.get(at..).unwrap_or(""));
    out
}

fn code(class: Class) -> Option<&'static str> {
    Some(match class {
        Class::Keyword => "1",
        Class::Function => "36",
        Class::Unit => "32",
        Class::Text | Class::Time => "33",
        Class::Refrigerant => "35",
        Class::NotTaken => "1;33",
        Class::Comment => "2",
        Class::Strange => "4;31",
        Class::Number | Class::Name | Class::Mark | Class::Open | Class::Close => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::coloured;

    #[test]
    fn colours_come_between_the_bytes_and_change_none() {
        for line in ["over : F° = f(R-32, 3.5 psig) # x", "§ \"open", "", "  a\n b", "1-1/8 in"] {
            let mut plain = String::new();
            let painted = coloured(line);
            let mut rest = painted.as_str();
            while let Some(at) = rest.find('\u{1b}') {
                plain.push_str(&rest[..at]);
                rest = &rest[at..];
                rest = rest.find('m').map_or("", |end| &rest[end + 1..]);
            }
            plain.push_str(rest);
            assert_eq!(plain, line);
        }
        assert!(coloured("3 psig").contains("\u{1b}[32mpsig"));
    }
}
