//! The files of a job: the folder of its outermost sheet, and nothing outside it but the forms of the library and folders
//! that the user has allowed.

mod allowed;
mod identify;
mod keep;
mod library;
mod table;
mod text;
mod workbook;

use std::fs;
use std::io::{self, Read};
use std::path::{Component, Path, PathBuf};

use dewline_lang::host::{Document, Host, HostProblem, RawTable};
use dewline_lang::limits;
use dewline_lang::suggest::did_you_mean;
use serde::{Deserialize, Serialize};

use crate::problem::said;
use crate::record::sha256;

pub use allowed::Allowed;
use allowed::below;
pub use identify::identify;
pub use keep::{Asked, KeepingHost, Kept};
pub use table::{read_table, refill};
pub use text::read_text;
use workbook::read_workbook;
pub use workbook::workbook;

/// Bytes of one data file.
const DATA_BYTES: u64 = 128 * 1024 * 1024;

/// What a file is asked for as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Use {
    /// A sheet that another uses or fills.
    Sheet,
    /// A table's rows.
    Table,
}

impl Use {
    /// The most bytes that such a file may have.
    fn most(self) -> u64 {
        match self {
            Use::Sheet => limits::SHEET_BYTES as u64,
            Use::Table => DATA_BYTES,
        }
    }
}

/// A file as it was found.
#[derive(Debug, Clone)]
pub struct Found {
    /// The name it is known by from now on.
    pub name: String,
    /// All of it.
    pub bytes: Vec<u8>,
}

/// Where the bytes of files come from. Every byte that a sheet reads comes through here, whatever gives it, so that a
/// record can keep all of them: see [`KeepingHost`].
pub trait Files {
    /// The file that `path` means in the file `from`.
    fn find(&self, from: &str, path: &str, wanted: Use) -> Result<Found, HostProblem>;
}

/// A sheet out of these files.
pub fn sheet_of(files: &dyn Files, from: &str, path: &str) -> Result<Document, HostProblem> {
    let found = files.find(from, path, Use::Sheet)?;
    let text = read_text(path, found.bytes, true)?;
    Ok(Document { name: found.name, text })
}

/// A table out of these files.
pub fn table_of(files: &dyn Files, from: &str, path: &str) -> Result<RawTable, HostProblem> {
    let found = files.find(from, path, Use::Table)?;
    let (file, sheet) = workbook(path).unwrap_or((path, None));
    let sha256 = sha256(&found.bytes);
    Ok(RawTable { sha256, ..data_table(found.name, file, sheet, found.bytes)? })
}

/// Reads files in and under one folder.
#[derive(Debug)]
pub struct FolderHost {
    /// The folder without links.
    root: PathBuf,
    /// The folder as the user wrote it, with `/` at its end; empty for the working folder. Names of files begin with it,
    /// so that messages name them as the user would.
    prefix: String,
    /// Folders that the user has allowed beside it.
    allowed: Allowed,
}

impl FolderHost {
    /// Opens the outermost sheet; its folder is the one that nothing leaves. `-` is read from `input`, and its folder is
    /// the working folder.
    pub fn open(path: &str, input: &mut dyn Read) -> Result<(FolderHost, Document), HostProblem> {
        if path == "-" {
            let bytes = read_bounded(input, limits::SHEET_BYTES as u64, "standard input")?;
            let host = FolderHost::new("")?;
            return Ok((host, Document { name: "-".to_string(), text: read_text("standard input", bytes, true)? }));
        }
        let name = if cfg!(windows) { path.replace('\\', "/") } else { path.to_string() };
        let prefix = name.rfind('/').map_or("", |at| &name[..=at]);
        // A form of the library is run as if it stood in the working folder.
        let there = fs::symlink_metadata(path).is_ok();
        if let (Some(form), false) = (library::form(&name), there) {
            return Ok((FolderHost::new("")?, form));
        }
        let bytes =
            read_file(Path::new(path), &name, limits::SHEET_BYTES as u64).map_err(|it| form_meant(it, &name, there))?;
        let text = read_text(&name, bytes, true)?;
        Ok((FolderHost::new(prefix)?, Document { name, text }))
    }

    /// A host for the folder that a sheet of this path would stand in; the working folder for none.
    pub fn around(path: Option<&str>) -> Result<FolderHost, HostProblem> {
        let name = path.unwrap_or_default();
        let name = if cfg!(windows) { name.replace('\\', "/") } else { name.to_string() };
        FolderHost::new(name.rfind('/').map_or("", |at| &name[..=at]))
    }

    /// A host for the folder of this name as the user wrote it, with `/` at its end.
    fn new(prefix: &str) -> Result<FolderHost, HostProblem> {
        let folder = if prefix.is_empty() { "." } else { prefix };
        let root = fs::canonicalize(folder)
            .map_err(|error| problem(format!("the folder \"{folder}\" cannot be used: {}", said(&error)), None))?;
        Ok(FolderHost { root, prefix: prefix.to_string(), allowed: Allowed::default() })
    }

    /// Lets sheets use files of these folders too.
    pub fn allowing(self, allowed: &Allowed) -> FolderHost {
        FolderHost { allowed: allowed.clone(), ..self }
    }

    /// The folder as the user wrote it, with `/` at its end; the names of its files begin with it.
    pub fn prefix(&self) -> &str {
        &self.prefix
    }

    /// Where a file of this name lies; a form of the library lies nowhere.
    pub fn lies(&self, name: &str) -> Option<PathBuf> {
        let file = match self.allowed.folder(name) {
            Some(folder) => folder.join(name.rsplit('/').next()?),
            None => self.root.join(name.strip_prefix(&self.prefix).unwrap_or(name)),
        };
        fs::canonicalize(file).ok()
    }

    /// The file that `path` means in the file `from`, and the name it is known by.
    fn place(&self, from: &str, path: &str) -> Result<(PathBuf, String), HostProblem> {
        if let Some(folder) = self.allowed.folder(from) {
            return self.beyond(&folder, path);
        }
        let inside = self.relative(from, path).and_then(|relative| {
            let file = self.root.join(relative);
            let real = fs::canonicalize(&file).map_err(|error| unreadable(&file, path, &error))?;
            let name = self.name(&real).ok_or_else(|| {
                problem(
                    format!("\"{path}\" is a link that leads out of the folder of the sheet"),
                    Some("copy the file into the folder of the sheet, or allow that folder with --allow"),
                )
            })?;
            Ok((real, name))
        });
        if inside.is_ok() || self.allowed.is_empty() {
            return inside;
        }
        let own = self.root.join(self.folder_in(from));
        self.beyond(&own, path).or(inside)
    }

    /// The file that `path` means in a folder, wherever it lies, if it may be used.
    fn beyond(&self, folder: &Path, path: &str) -> Result<(PathBuf, String), HostProblem> {
        let file = folder.join(path.trim());
        let real = fs::canonicalize(&file).map_err(|error| unreadable(&file, path, &error))?;
        let name = self.name(&real).or_else(|| self.allowed.name(&real)).ok_or_else(|| outside(path))?;
        Ok((real, name))
    }

    /// The name of a file in the folder of the sheet.
    fn name(&self, real: &Path) -> Option<String> {
        Some(format!("{}{}", self.prefix, below(&self.root, real)?))
    }

    /// The folder of a file, from the folder of the sheet. A form of the library stands in no folder of its own.
    fn folder_in<'a>(&self, from: &'a str) -> &'a str {
        let from = if library::is_form(from) { "" } else { from.strip_prefix(&self.prefix).unwrap_or(from) };
        from.rfind('/').map_or("", |at| &from[..at])
    }

    /// `path` from the folder of `from`, below the root.
    fn relative(&self, from: &str, path: &str) -> Result<PathBuf, HostProblem> {
        let bare = path.trim();
        let mut letters = bare.chars();
        let drive =
            matches!((letters.next(), letters.next()), (Some(letter), Some(':')) if letter.is_ascii_alphabetic());
        if bare.is_empty() {
            return Err(problem("the name of the file is empty".to_string(), None));
        }
        if drive || bare.starts_with(['/', '\\', '~']) {
            return Err(problem(
                format!("\"{path}\" is not a place inside the folder of the sheet"),
                Some(
                    "copy the file into the folder of the sheet and write its name alone, or allow its folder with --allow",
                ),
            ));
        }
        if bare.contains('\\') {
            let mend = format!("write \"{}\"", bare.replace('\\', "/"));
            return Err(problem(format!("\"{path}\" has \\ between its folders"), Some(&mend)));
        }
        let mut relative = PathBuf::from(self.folder_in(from));
        for part in Path::new(bare).components() {
            match part {
                Component::Normal(part) => relative.push(part),
                Component::ParentDir if relative.pop() => {}
                Component::CurDir => {}
                _ => {
                    return Err(outside(path));
                }
            }
        }
        Ok(relative)
    }

    /// Whether `path` in the file `from` is there at all, readable or not.
    fn has(&self, from: &str, path: &str) -> bool {
        self.relative(from, path).is_ok_and(|relative| fs::symlink_metadata(self.root.join(relative)).is_ok())
    }
}

impl Files for FolderHost {
    /// A form is looked for beside the sheet that names it, then beside the outermost sheet, then in the library.
    fn find(&self, from: &str, path: &str, wanted: Use) -> Result<Found, HostProblem> {
        // Of a workbook a path may name a sheet too.
        let path = workbook(path).filter(|_| wanted == Use::Table).map_or(path, |(file, _)| file);
        let mut from = from;
        if let (Use::Sheet, Some(form), false) = (wanted, library::form(path), self.has(from, path)) {
            if !self.has("", path) {
                return Ok(Found { name: form.name, bytes: form.text.into_bytes() });
            }
            from = "";
        }
        let (file, name) =
            self.place(from, path).map_err(|it| form_meant(it, path, self.has(from, path) || wanted == Use::Table))?;
        let bytes = read_file(&file, path, wanted.most())?;
        Ok(Found { name, bytes })
    }
}

impl Host for FolderHost {
    fn sheet(&self, from: &str, path: &str) -> Result<Document, HostProblem> {
        sheet_of(self, from, path)
    }

    fn table(&self, from: &str, path: &str) -> Result<RawTable, HostProblem> {
        table_of(self, from, path)
    }
}

fn outside(path: &str) -> HostProblem {
    problem(
        format!("\"{path}\" leads out of the folder of the sheet"),
        Some(
            "a sheet can use files in its own folder and below; copy the file there, or allow its folder with --allow",
        ),
    )
}

/// A sheet that is not there may be meant to be a form of the library.
fn form_meant(problem: HostProblem, path: &str, there: bool) -> HostProblem {
    match library::meant(path).filter(|_| !there) {
        Some(form) => HostProblem { mend: Some(format!("did you mean \"{form}\"?")), ..problem },
        None => problem,
    }
}

/// The bytes of a plain file that is not too large. `shown` is how messages call it.
pub fn read_file(file: &Path, shown: &str, most: u64) -> Result<Vec<u8>, HostProblem> {
    let about = fs::metadata(file).map_err(|error| unreadable(file, shown, &error))?;
    if about.is_dir() {
        return Err(problem(format!("\"{shown}\" is a folder"), Some("name a file in it")));
    }
    // A pipe or a device could keep us waiting for ever or never end.
    if !about.is_file() {
        return Err(problem(format!("\"{shown}\" is a device or a pipe, not a file"), None));
    }
    if about.len() > most {
        return Err(too_large(shown, most));
    }
    let mut opened = fs::File::open(file).map_err(|error| unreadable(file, shown, &error))?;
    read_bounded(&mut opened, most, &format!("\"{shown}\""))
}

/// The bytes of a data file named on the command line.
pub fn read_data_file(path: &str) -> Result<Vec<u8>, HostProblem> {
    read_file(Path::new(path), path, DATA_BYTES)
}

/// The table in a data file named on the command line.
pub fn read_data_table(path: &str) -> Result<RawTable, HostProblem> {
    let (file, sheet) = workbook(path).unwrap_or((path, None));
    data_table(file.to_string(), file, sheet, read_data_file(file)?)
}

/// A table by what its file's name ends in.
fn data_table(name: String, shown: &str, sheet: Option<&str>, bytes: Vec<u8>) -> Result<RawTable, HostProblem> {
    match workbook(shown) {
        Some(_) => read_workbook(name, shown, sheet, bytes),
        None => read_table(name, shown, bytes),
    }
}

/// All bytes of a stream that is not too large.
fn read_bounded(input: &mut dyn Read, most: u64, shown: &str) -> Result<Vec<u8>, HostProblem> {
    let mut bytes = Vec::new();
    input
        .take(most + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| problem(format!("{shown} could not be read: {}", said(&error)), None))?;
    if bytes.len() as u64 > most { Err(too_large(shown.trim_matches('"'), most)) } else { Ok(bytes) }
}

fn too_large(shown: &str, most: u64) -> HostProblem {
    problem(format!("\"{shown}\" is larger than {} MB", most / 1024 / 1024), Some("cut it into smaller files"))
}

/// Why a file cannot be opened; of a missing one, which in its folder may be meant.
fn unreadable(file: &Path, shown: &str, error: &io::Error) -> HostProblem {
    match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => {
            let near = file.file_name().and_then(|name| near_name(file.parent(), &name.to_string_lossy()));
            let folder = shown.rfind('/').map_or("", |at| &shown[..=at]);
            let mend = near.map(|near| format!("did you mean \"{folder}{near}\"?"));
            problem(format!("there is no file \"{shown}\""), mend.as_deref())
        }
        io::ErrorKind::PermissionDenied => problem(format!("\"{shown}\" may not be read: permission denied"), None),
        _ => problem(format!("\"{shown}\" cannot be opened: {}", said(error)), None),
    }
}

/// The file of a folder whose name is nearest to one that is not there.
fn near_name(folder: Option<&Path>, name: &str) -> Option<String> {
    let folder = folder.filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut names: Vec<String> = fs::read_dir(folder)
        .ok()?
        .take(1_000)
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| !name.starts_with('.'))
        .collect();
    names.sort();
    did_you_mean(name, names.iter().map(String::as_str)).map(str::to_string)
}

fn problem(message: String, mend: Option<&str>) -> HostProblem {
    HostProblem { message, mend: mend.map(str::to_string) }
}
