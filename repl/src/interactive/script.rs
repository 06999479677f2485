//! Lines from a pipe: the same session without a prompt. Every line is read, whatever came of those before it.

use std::io::{BufRead, BufReader};

use crate::console::Console;
use crate::problem::{Problem, Stop, said};
use crate::session::{Reply, Session};

/// Exit code 2 if a line could not be used; else that of the sheet as it then stands, if one was opened or saved.
pub fn run(mut session: Session, console: &mut Console<'_>) -> Result<u8, Stop> {
    let input = std::mem::replace(&mut console.input, Box::new(std::io::empty()));
    let mut reader = BufReader::new(input);
    let mut refused = false;
    let (mut typed, mut first, mut number) = (String::new(), 1, 0);
    loop {
        let mut line = String::new();
        number += 1;
        let read = match reader.read_line(&mut line) {
            Ok(read) => read,
            Err(error) => {
                return Err(
                    Problem::new(format!("line {number} of standard input cannot be read: {}", said(&error))).into()
                );
            }
        };
        if typed.is_empty() {
            first = number;
        } else if read > 0 {
            typed.push('\n');
        }
        typed.push_str(line.trim_end_matches(['\n', '\r']));
        if read > 0 && session.wants_more(&typed) {
            continue;
        }
        if read == 0 && typed.is_empty() {
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
        if read == 0 {
            tell(&session.interrupt(), number, console)?;
            break;
        }
    }
    Ok(if refused { 2 } else { session.exit_code() })
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
