//! Texts of sheets and places in them.

use std::sync::Arc;

/// Which of the [`Sources`] a place is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct FileId(pub u32);

/// A run of bytes in one source text; `start <= end` always holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The text it is in.
    pub file: FileId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A span between two byte offsets, put in order: a parser that consumed nothing may give them
    /// the wrong way round.
    pub fn new(file: FileId, start: usize, end: usize) -> Span {
        let (low, high) = if start <= end { (start, end) } else { (end, start) };
        Span { file, start: low as u32, end: high as u32 }
    }

    /// The smallest span that holds both. The file is that of `self`.
    pub fn to(self, other: Span) -> Span {
        Span { file: self.file, start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// Whether another place lies inside this one.
    pub fn holds(self, other: Span) -> bool {
        self.file == other.file && self.start <= other.start && other.end <= self.end
    }

    /// The bytes as a range.
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// One source text with the name it was read under.
#[derive(Debug, Clone)]
pub struct Source {
    /// The name given to the host, or `-` for standard input, or `--set name` for a value set from outside.
    pub name: String,
    /// The whole text.
    pub text: Arc<str>,
}

/// All texts that a run has read, in order of reading.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    list: Vec<Source>,
}

impl Sources {
    /// Adds a text and gives its id.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<Arc<str>>) -> FileId {
        self.list.push(Source { name: name.into(), text: text.into() });
        FileId(self.list.len() as u32 - 1)
    }

    /// The source with this id.
    pub fn get(&self, id: FileId) -> Option<&Source> {
        self.list.get(id.0 as usize)
    }

    /// The text under a span; empty if the span lies in no source.
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.file).and_then(|source| source.text.get(span.range())).unwrap_or("")
    }

    /// All sources, in order of reading.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &Source)> {
        self.list.iter().enumerate().map(|(index, source)| (FileId(index as u32), source))
    }

    /// Line and column (both from 1, columns in characters) of a byte.
    pub fn line_column(&self, file: FileId, byte: u32) -> (usize, usize) {
        let text = self.get(file).map_or("", |source| &source.text);
        let before = text.get(..(byte as usize).min(text.len())).unwrap_or(text);
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    }
}
