//! Records: a run with everything that is needed to run it again, in one file.
//!
//! ```text
//! {"format":"dewline-record/1",
//!  "digest": SHA-256 of the canonical form of "record",
//!  "run_at": when it was run; outside the digest, inside the signature,
//!  "signature": {…} if it was signed,
//!  "record": {"asked", "files", "job", "made_by", "outcome", "parts"}}
//! ```
//!
//! `repl/schema/record-1.schema.json` describes it. The outcome in a record is that of a run from the record's own
//! texts, never of the files it was made from, so that nothing can be recorded that an audit would not find again.

mod canonical;
mod content;
mod host;
mod keys;
mod made_by;
mod names;
mod open;
mod recorder;
mod rerun;
mod seal;
pub(crate) mod strict;

pub use canonical::canonical;
pub use content::Site;
pub use host::RecordHost;
pub use keys::{Key, Trusted, make_pair};
pub use made_by::MadeBy;
pub use open::{Opened, SignatureState, open};
pub use recorder::{Recorder, gather};
pub use rerun::{Ran, Rerunner};
pub use strict::read as read_strictly;

use sha2::{Digest, Sha256};

/// The name and version of the format.
pub const FORMAT: &str = "dewline-record/1";
/// Bytes of one record.
pub const RECORD_BYTES: u64 = 256 * 1024 * 1024;
/// Values of tables in one record.
pub const RECORD_VALUES: usize = 1_000_000;

/// SHA-256 in hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    const DIGITS: [char; 16] = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', 'f'];
    let mut hex = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        hex.push(DIGITS[usize::from(byte >> 4)]);
        hex.push(DIGITS[usize::from(byte & 15)]);
    }
    hex
}
