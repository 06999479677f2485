//! Bytes of a file as text: UTF-8, without a byte order mark.

use dewline_lang::host::HostProblem;

/// The text of a file. `shown` is how messages call it; `filled` says that an empty one is an error.
pub fn read_text(shown: &str, bytes: Vec<u8>, filled: bool) -> Result<String, HostProblem> {
    if let Some(what) = other_format(&bytes) {
        return Err(HostProblem { message: format!("\"{shown}\" is {}", what.0), mend: Some(what.1.to_string()) });
    }
    let mut text = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let bytes = error.as_bytes();
        let line = bytes[..at].iter().filter(|&&byte| byte == b'\n').count() + 1;
        HostProblem {
            message: format!("\"{shown}\" is not UTF-8 text: line {line} holds the byte {:#04x}", bytes[at]),
            mend: Some("save it again with the encoding UTF-8; often a degree sign is the culprit".to_string()),
        }
    })?;
    if text.starts_with('\u{feff}') {
        text.drain(..'\u{feff}'.len_utf8());
    }
    if filled && text.lines().all(|line| line.trim().is_empty() || line.trim_start().starts_with('#')) {
        let but = if text.trim().is_empty() { "" } else { " but for comments" };
        return Err(HostProblem {
            message: format!("\"{shown}\" is empty{but}"),
            mend: Some("a sheet begins with a line such as: sheet \"Riser B: pressure test\"".to_string()),
        });
    }
    Ok(text)
}

/// Other formats by their first bytes: what it is, and what to do.
fn other_format(bytes: &[u8]) -> Option<(&'static str, &'static str)> {
    match bytes {
        [0xff, 0xfe, ..] | [0xfe, 0xff, ..] => Some(("UTF-16 text", "save it again with the encoding UTF-8")),
        [b'P', b'K', 3, 4, ..] => {
            Some(("a workbook or archive, not text", "give a workbook a name that ends in .xlsx"))
        }
        _ if bytes.iter().take(4_096).any(|&byte| byte == 0) => Some(("not a text file", "name a text file")),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_byte_order_mark_is_dropped() {
        assert_eq!(read_text("a", b"\xef\xbb\xbfa = 1".to_vec(), true).unwrap(), "a = 1");
    }

    #[test]
    fn a_stray_byte_is_named_with_its_line() {
        let problem = read_text("a.csv", b"t\n61 \xb0F".to_vec(), false).unwrap_err();
        assert_eq!(problem.message, "\"a.csv\" is not UTF-8 text: line 2 holds the byte 0xb0");
    }

    #[test]
    fn other_formats_are_called_by_their_name() {
        assert!(read_text("a", b"\xff\xfea\0".to_vec(), true).unwrap_err().message.contains("UTF-16"));
        assert!(read_text("a", b"PK\x03\x04".to_vec(), true).unwrap_err().message.contains("workbook"));
        assert!(read_text("a", b" \r\n".to_vec(), true).unwrap_err().message.contains("empty"));
    }
}
