//! Files in the making: neither a problem nor an interrupt, a closed terminal or a polite end leaves them behind.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, Once, PoisonError};

/// A file that is cleared away unless it gets to its place.
#[derive(Debug)]
pub struct Unfinished(PathBuf);

impl Unfinished {
    /// Begins one under this name.
    pub fn begin(path: PathBuf) -> io::Result<(File, Unfinished)> {
        static WATCHED: Once = Once::new();
        WATCHED.call_once(watch);
        let mut all = all();
        let file = created(&path)?;
        all.insert(path.clone());
        Ok((file, Unfinished(path)))
    }

    /// Puts it in its place, instead of what stands there.
    pub fn put(self, place: &Path) -> io::Result<()> {
        let mut all = all();
        fs::rename(&self.0, place)?;
        all.remove(&self.0);
        Ok(())
    }
}

/// A new file. What stands there, left by a process killed or put there by somebody, goes; a link is never followed.
fn created(path: &Path) -> io::Result<File> {
    let create = || File::options().write(true).create_new(true).open(path);
    create().or_else(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => fs::remove_file(path).and_then(|()| create()),
        _ => Err(error),
    })
}

impl Drop for Unfinished {
    fn drop(&mut self) {
        let mut all = all();
        if all.remove(&self.0) {
            let _ = fs::remove_file(&self.0);
        }
    }
}

fn all() -> MutexGuard<'static, BTreeSet<PathBuf>> {
    static ALL: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());
    ALL.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Waits for a signal on a thread of its own, where files can be removed, and then ends as the signal would have it, so
/// that a shell or a batch sees what happened.
#[cfg(unix)]
fn watch() {
    use signal_hook::iterator::Signals;
    use signal_hook::low_level::emulate_default_handler;

    let Ok(mut signals) = Signals::new(heeded()) else { return };
    std::thread::spawn(move || {
        for signal in signals.forever() {
            let all = all();
            for path in all.iter() {
                let _ = fs::remove_file(path);
            }
            // Still under the lock: no file is begun from here on.
            let _ = emulate_default_handler(signal);
        }
    });
}

#[cfg(not(unix))]
fn watch() {}

/// Signals that end the process unless whoever started it had them ignored, as `nohup` does. Where that cannot be told, a
/// closed terminal is left to the system.
#[cfg(unix)]
fn heeded() -> Vec<i32> {
    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};

    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let mask = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    match mask.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok()) {
        Some(ignored) => {
            [SIGHUP, SIGINT, SIGTERM].into_iter().filter(|signal| ignored >> (signal - 1) & 1 == 0).collect()
        }
        None => vec![SIGINT, SIGTERM],
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use std::io::Write;

    #[test]
    fn it_is_gone_unless_it_gets_to_its_place() {
        let folder = tempfile::tempdir().unwrap();
        let (part, place) = (folder.path().join(".a.part"), folder.path().join("a"));
        let (_, unfinished) = Unfinished::begin(part.clone()).unwrap();
        assert!(part.exists());
        drop(unfinished);
        assert!(!part.exists());
        fs::write(&part, "left by another").unwrap();
        let (mut file, unfinished) = Unfinished::begin(part.clone()).unwrap();
        file.write_all(b"whole").unwrap();
        unfinished.put(&place).unwrap();
        assert!(!part.exists());
        assert_eq!(fs::read_to_string(place).unwrap(), "whole");
    }

    #[cfg(unix)]
    #[test]
    fn a_link_planted_there_leads_nowhere() {
        let folder = tempfile::tempdir().unwrap();
        let (part, other) = (folder.path().join(".a.part"), folder.path().join("other"));
        fs::write(&other, "of somebody else").unwrap();
        std::os::unix::fs::symlink(&other, &part).unwrap();
        let (mut file, unfinished) = Unfinished::begin(part).unwrap();
        file.write_all(b"whole").unwrap();
        drop(unfinished);
        assert_eq!(fs::read_to_string(other).unwrap(), "of somebody else");
    }
}
