//! Lines from a pipe: the same session without a prompt. Every line is read, whatever came of those before it.

use std::io::{BufRead, BufReader, Read};

use dewline_lang::limits;

use crate::console::Console;
use crate::problem::{Problem, Stop, said};
use crate::session::{Reply, Session};

/// Lines of one statement, such as a table.
const LINES: usize = 20_000;
/// Bytes behind which a statement is only looked at anew by a line that can end it: each look reads all of it.
const LONG: usize = 4 * 1024;

/// Exit code 2 if a line could not be used; else that of the sheet as it then stands, if one was opened or saved.
pub fn run(mut session: Session, console: &mut Console<'_>) -> Result<u8, Stop> {
    let input = std::mem::replace(&mut console.input, Box::new(std::io::empty()));
    let mut reader = BufReader::new(input);
    let mut refused = false;
    let (mut typed, mut first, mut number) = (String::new(), 1, 0);
    loop {
        number += 1;
        let line = line(&mut reader, number)?;
        let ended = line.is_none();
        let line = line.unwrap_or_default();
        if typed.is_empty() {
            first = number;
        } else if !ended {
            typed.push('\n');
        }
        typed.push_str(line.trim_end_matches(['\n', '\r']));
        if typed.len() > limits::SHEET_BYTES || number - first > LINES {
            return Err(Problem::new(format!("line {first} of standard input begins something that does not end"))
                .with_mend("what is opened by a bracket, `table`, `stage` or `define` is to be closed")
                .into());
        }
        let word = line.trim();
        let can_end = typed.len() < LONG || word.is_empty() || word == "end" || word.contains([')', ']', '}']);
        if !ended && (!can_end || session.wants_more(&typed)) {
            continue;
        }
        if ended && typed.is_empty() {
            // A question that nobody answered leaves something undone.
            refused |= session.is_asking();
            tell(&session.interrupt(), number, console)?;
            break;
        }
        let reply = session.answer(&std::mem::take(&mut typed));
        refused |= reply.refused;
        tell(&reply, first, console)?;
        if reply.leave {
            break;
        }
        if ended {
            tell(&session.interrupt(), number, console)?;
            break;
        }
    }
    Ok(if refused { 2 } else { session.exit_code() })
}

/// The next line; none where there are no more.
fn line(reader: &mut impl BufRead, number: usize) -> Result<Option<String>, Problem> {
    let mut bytes = Vec::new();
    let most = limits::SHEET_BYTES as u64;
    let cannot = |why: &str| Problem::new(format!("line {number} of standard input cannot be read: {why}"));
    let read = reader.take(most + 1).read_until(b'\n', &mut bytes).map_err(|error| cannot(&said(&error)))?;
    if read as u64 > most {
        return Err(cannot(&format!("it is longer than {} MB", most / 1024 / 1024)));
    }
    let text = String::from_utf8(bytes).map_err(|_| cannot("it is not UTF-8 text"))?;
    Ok((read > 0).then_some(text))
}

fn tell(reply: &Reply, line: usize, console: &mut Console<'_>) -> Result<(), Stop> {
    console.out.write_all(reply.out.as_bytes())?;
    console.out.flush()?;
    if reply.refused {
        console.say(&format!("Line {line}:\n"));
    }
    console.say(&reply.said);
    Ok(())
}
