//! Keys for signing: Ed25519, in the PEM files that other programs read too (PKCS #8 and SubjectPublicKeyInfo).

use std::io::Write;
use std::path::{Path, PathBuf};

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use ed25519_dalek::pkcs8::spki::der::pem::LineEnding;
use ed25519_dalek::pkcs8::{DecodePrivateKey, DecodePublicKey, EncodePrivateKey, EncodePublicKey, KeypairBytes};
use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};

use super::sha256;
use crate::host::{read_data_file, read_text};
use crate::output::synced;
use crate::problem::{Problem, said};

/// A private key.
pub struct Key(SigningKey);

/// Public keys of those whose signature counts.
#[derive(Debug, Default)]
pub struct Trusted(Vec<VerifyingKey>);

impl Key {
    /// Reads a private key from its file.
    pub fn read(path: &str) -> Result<Key, Problem> {
        let text = read_text(path, read_data_file(path)?, false)?;
        let problem = match () {
            () if text.contains("BEGIN PUBLIC KEY") => "is a public key; signing needs the private one",
            () if text.contains("BEGIN ENCRYPTED PRIVATE KEY") => "is locked with a password, which is not supported",
            () => match SigningKey::from_pkcs8_pem(&text) {
                Ok(key) => return Ok(Key(key)),
                Err(_) => "is not an Ed25519 private key in PKCS #8 PEM form",
            },
        };
        Err(Problem::new(format!("\"{path}\" {problem}")).with_mend("make a pair with: dewline record keys NAME"))
    }

    /// The public key, as the base64 of its SubjectPublicKeyInfo.
    pub(super) fn public(&self) -> Result<String, Problem> {
        public_base64(&self.0.verifying_key())
            .ok_or_else(|| Problem::new("the public key of the signing key cannot be written"))
    }

    /// A signature as base64.
    pub(super) fn sign(&self, statement: &[u8]) -> String {
        STANDARD.encode(self.0.sign(statement).to_bytes())
    }
}

impl Trusted {
    /// Reads public keys from their files.
    pub fn read(paths: &[String]) -> Result<Trusted, Problem> {
        let mut keys = Vec::new();
        for path in paths {
            let text = read_text(path, read_data_file(path)?, false)?;
            if text.contains("PRIVATE KEY") {
                return Err(Problem::new(format!("\"{path}\" is a private key; trust needs the public one"))
                    .with_mend("and keep the private one to yourself"));
            }
            let key = VerifyingKey::from_public_key_pem(&text).map_err(|_| {
                Problem::new(format!("\"{path}\" is not an Ed25519 public key in PEM form"))
                    .with_mend("name the .public.pem that dewline record keys made")
            })?;
            keys.push(key);
        }
        Ok(Trusted(keys))
    }

    /// No key was named.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// A signature that fits: whose it is, and whether that key is trusted. `Err` says what is wrong with it.
pub(super) fn verify(
    signature: &super::content::Signature,
    statement: &[u8],
    trusted: &Trusted,
) -> Result<(String, bool), String> {
    if signature.algorithm != "Ed25519" {
        return Err(format!("it is made by {:?}, not by Ed25519", short(&signature.algorithm)));
    }
    let der = STANDARD.decode(&signature.key).map_err(|_| "its public key is not base64".to_string())?;
    let key = VerifyingKey::from_public_key_der(&der).map_err(|_| "its public key is no Ed25519 key".to_string())?;
    let bytes = STANDARD.decode(&signature.value).map_err(|_| "it is not base64".to_string())?;
    let value = Signature::from_slice(&bytes).map_err(|_| "it has not the length of a signature".to_string())?;
    key.verify_strict(statement, &value).map_err(|_| "it does not fit the record and its key".to_string())?;
    Ok((name(&der), trusted.0.contains(&key)))
}

/// How a key is called in messages: the beginning of the SHA-256 of its SubjectPublicKeyInfo.
fn name(der: &[u8]) -> String {
    sha256(der).chars().take(16).collect()
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}

fn public_base64(key: &VerifyingKey) -> Option<String> {
    Some(STANDARD.encode(key.to_public_key_der().ok()?.as_bytes()))
}

/// A new pair.
pub struct Pair {
    /// The private key's file.
    pub private: PathBuf,
    /// The public key's file.
    pub public: PathBuf,
    /// How messages call the key.
    pub name: String,
}

/// Makes a pair and writes it to `NAME.private.pem`, which its owner alone may read, and `NAME.public.pem`. Neither is
/// ever overwritten.
pub fn make_pair(path: &str) -> Result<Pair, Problem> {
    let private = PathBuf::from(format!("{path}.private.pem"));
    let public = PathBuf::from(format!("{path}.public.pem"));
    if let Some(there) = [&private, &public].into_iter().find(|one| one.symlink_metadata().is_ok()) {
        return Err(there_already(there));
    }
    let mut secret = [0; 32];
    getrandom::fill(&mut secret)
        .map_err(|error| Problem::new(format!("the system gives no random numbers: {error}")))?;
    let key = SigningKey::from_bytes(&secret);
    let cannot = |_| Problem::new("the key cannot be written as PEM");
    // Without the public key inside: that first version of the form is what every program reads.
    let private_pem =
        KeypairBytes { secret_key: secret, public_key: None }.to_pkcs8_pem(LineEnding::LF).map_err(cannot)?;
    let verifying = key.verifying_key();
    let public_pem =
        verifying.to_public_key_pem(LineEnding::LF).map_err(|_| Problem::new("the key cannot be written as PEM"))?;
    let der = verifying.to_public_key_der().map_err(|_| Problem::new("the key cannot be written as PEM"))?;
    write_new(&private, private_pem.as_bytes(), true)?;
    if let Err(problem) = write_new(&public, public_pem.as_bytes(), false) {
        // Half a pair is of no use, and its name would be taken.
        let _ = std::fs::remove_file(&private);
        return Err(problem);
    }
    Ok(Pair { private, public, name: name(der.as_bytes()) })
}

fn there_already(path: &Path) -> Problem {
    Problem::new(format!("\"{}\" is there already, and a key is never overwritten", path.display()))
        .with_mend("give the pair another name")
}

fn write_new(path: &Path, bytes: &[u8], private: bool) -> Result<(), Problem> {
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.mode(if private { 0o600 } else { 0o644 });
    }
    #[cfg(not(unix))]
    let _ = private;
    let written = options.open(path).and_then(|mut file| {
        let written = file.write_all(bytes).and_then(|()| file.sync_all());
        if written.is_err() {
            let _ = std::fs::remove_file(path);
        }
        written.and_then(|()| synced(path))
    });
    written.map_err(|error| match error.kind() {
        std::io::ErrorKind::AlreadyExists => there_already(path),
        _ => Problem::new(format!("\"{}\" cannot be written: {}", path.display(), said(&error))),
    })
}
