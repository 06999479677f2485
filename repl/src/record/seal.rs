//! A record as its file: digest, signature, text.

use serde_json::json;

use super::content::{Content, Signature};
use super::{FORMAT, Key, canonical, sha256};
use crate::problem::Problem;

/// What a signature vouches for: the digest and the time of the run.
pub(super) fn statement(digest: &str, run_at: &str) -> serde_json::Result<String> {
    canonical(&json!({"format": FORMAT, "digest": digest, "run_at": run_at}))
}

/// The text of the file, and its digest.
pub(super) fn sealed(content: &Content, run_at: &str, key: Option<&Key>) -> Result<(String, String), Problem> {
    let cannot = |error| Problem::new(format!("the record cannot be written as JSON: {error}"));
    let record = canonical(content).map_err(cannot)?;
    let digest = sha256(record.as_bytes());
    let mut text = format!("{{\"format\":\"{FORMAT}\",\n\"digest\":\"{digest}\",\n\"run_at\":\"{run_at}\",\n");
    if let Some(key) = key {
        let statement = statement(&digest, run_at).map_err(cannot)?;
        let signature =
            Signature { algorithm: "Ed25519".to_string(), key: key.public()?, value: key.sign(statement.as_bytes()) };
        text.push_str(&format!("\"signature\":{},\n", canonical(&signature).map_err(cannot)?));
    }
    text.push_str(&format!("\"record\":{record}}}\n"));
    Ok((text, digest))
}
