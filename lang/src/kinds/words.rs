//! Words from closed sets: a function's verdict, a choice, a column of `one of …`. What can never be equal is an error,
//! since `!= "beyond the limit"` of a verdict that says *beyond the stated limit* would always hold.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::Kind;
use super::checker::Checker;
use super::typed::{Scope, Typed};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::plan::{ColumnSource, Op, Plan, SlotSource};
use crate::source::Span;
use crate::suggest::word_meant;
use crate::syntax::tree::Words;

/// The words of a closed set.
pub(super) type WordSet = Arc<[String]>;

/// A word with which a text that is given from outside is compared, and where.
pub type ComparedWord = (Arc<str>, Span);

/// The words of both sets, those of the first before the others.
pub(super) fn either(one: &WordSet, other: &WordSet) -> WordSet {
    let more = other.iter().filter(|word| !one.contains(word));
    one.iter().chain(more).cloned().collect::<Vec<_>>().into()
}

/// `"a", "b", "c"`
pub(super) fn quoted<S: AsRef<str>>(words: &[S]) -> String {
    words.iter().map(|word| format!("\"{}\"", word.as_ref())).collect::<Vec<_>>().join(", ")
}

/// The word of a set that is meant by one from outside the sheet, where neither case nor outer spaces count.
pub fn folded<'a, S: AsRef<str>>(words: &'a [S], typed: &str) -> Option<&'a str> {
    let typed = typed.trim().to_lowercase();
    words.iter().map(AsRef::as_ref).find(|word| word.trim().to_lowercase() == typed)
}

/// How to mend a word that is none of a set.
pub fn mend_of_word<S: AsRef<str>>(words: &[S], typed: &str) -> String {
    let all = quoted(words);
    match folded(words, typed).or_else(|| word_meant(typed, words.iter().map(AsRef::as_ref))) {
        Some(near) => format!("did you mean \"{near}\"? It is one of {all}"),
        None => format!("it is one of {all}"),
    }
}

impl Typed {
    /// The words that this text can be, if it is of a closed set; a written text can be itself only.
    fn words(&self) -> Option<WordSet> {
        match (&self.kind, &self.node.op) {
            (Kind::Text(Some(words)), _) => Some(words.clone()),
            (Kind::Text(None), Op::Text(word)) => Some(Arc::from([word.to_string()])),
            _ => None,
        }
    }

    /// A branch of an `if`: a written text is one word of a set.
    pub(super) fn branch(self) -> Typed {
        match self.words() {
            Some(words) => Typed { kind: Kind::Text(Some(words)), ..self },
            None => self,
        }
    }

    fn is_written(&self) -> bool {
        matches!(self.node.op, Op::Text(_))
    }
}

impl Checker<'_, '_> {
    /// Two texts that are compared: an error if they can never be equal, advice if a word is compared with what may
    /// be anything. Names held against names, such as the tags of two units, are neither.
    pub(super) fn compare_words(&mut self, left: &Typed, right: &Typed, span: Span) {
        if !matches!((&left.kind, &right.kind), (Kind::Text(_), Kind::Text(_))) {
            return;
        }
        match (left.words(), right.words()) {
            (Some(one), Some(other)) if left.is_written() != right.is_written() => {
                let (set, word, place) =
                    if left.is_written() { (other, one, left.span()) } else { (one, other, right.span()) };
                if let Some(word) = word.first()
                    && !set.contains(word)
                {
                    let message =
                        format!("\"{word}\" is not one of the words of the other side, so the two are never equal");
                    let diagnostic = Diagnostic::error(&codes::BAD_CHOICE, message, place, "never equal");
                    self.report(diagnostic.with_mend(mend_of_word(&set, word)));
                }
            }
            (Some(one), Some(other)) if !left.is_written() && !one.iter().any(|word| other.contains(word)) => {
                let message = "these two have no word in common, so that they are never equal";
                let diagnostic = Diagnostic::error(&codes::BAD_CHOICE, message, span, "")
                    .with_label(left.span(), format!("one of {}", quoted(&one)))
                    .with_label(right.span(), format!("one of {}", quoted(&other)))
                    .with_mend("compare values of one set of words, or state both with `one of …`");
                self.report(diagnostic);
            }
            (Some(_), Some(_)) => {}
            (Some(words), None) | (None, Some(words)) if self.in_check && !asks_whether_written(&words) => {
                let free = if left.words().is_none() { left } else { right };
                let message = "a check compares a text that may be anything: a misspelt word would never be equal";
                let diagnostic = Diagnostic::advice(&codes::FREE_TEXT, message, free.span(), "any text");
                self.report(
                    diagnostic.with_mend("state its words where it is given, such as `: one of \"pass\", \"fail\"`"),
                );
            }
            _ => {}
        }
    }

    /// Remembers with which words a text of this sheet is compared that is given from outside, so that what fills it can
    /// be held against them.
    pub(super) fn remember_compared(&mut self, left: &Typed, right: &Typed, scope: &Scope) {
        for (given, written) in [(left, right), (right, left)] {
            let (Kind::Text(None), Op::Text(word)) = (&given.kind, &written.node.op) else { continue };
            let compared = (word.clone(), written.span());
            match given.node.op {
                Op::Slot(slot) => self.remember_for_slot(slot, compared),
                Op::Row(column) => {
                    if let Some(table) = scope.table {
                        self.remember_for_column(table, column, compared);
                    }
                }
                Op::Column { table, column } => self.remember_for_column(table, column, compared),
                _ => {}
            }
        }
    }

    fn remember_for_slot(&mut self, slot: usize, word: ComparedWord) {
        if let Some(slot) = self.plan.slots.get_mut(slot)
            && matches!(slot.source, SlotSource::Given(_))
            && !slot.compared_with.contains(&word)
        {
            slot.compared_with.push(word);
        }
    }

    pub(super) fn remember_for_column(&mut self, table: usize, column: usize, word: ComparedWord) {
        if let Some(column) = self.plan.tables.get_mut(table).and_then(|table| table.columns.get_mut(column))
            && matches!(column.source, ColumnSource::Rows { .. })
            && !column.compared_with.contains(&word)
        {
            column.compared_with.push(word);
        }
    }

    /// What fills a text of a form, against the words with which the form compares it.
    pub(super) fn fill_words(&mut self, name: &str, filled_with: &Kind, compared: &[ComparedWord], place: Span) {
        let Kind::Text(Some(words)) = filled_with else { return };
        for (word, there) in compared.iter().filter(|(word, _)| !words.iter().any(|one| **one == **word)) {
            let message = format!("the form compares `{name}` with \"{word}\", and it is never filled with that");
            let diagnostic = Diagnostic::error(&codes::BAD_CHOICE, message, place, "filled here")
                .with_label(*there, "compared here")
                .with_mend(mend_of_word(words, word));
            self.report(diagnostic);
        }
    }

    /// A text that fills a text of a form, handed on: its words are compared there.
    pub(super) fn hand_on_compared(&mut self, with: &Op, compared: &[ComparedWord]) {
        if let Op::Slot(slot) = with {
            for word in compared {
                self.remember_for_slot(*slot, word.clone());
            }
        }
    }

    /// A written text where one of certain words is wanted: one of them, or an error.
    pub(super) fn chosen(&mut self, typed: Typed, wanted: &Kind) -> Typed {
        let (Kind::Text(Some(words)), Op::Text(word)) = (wanted, &typed.node.op) else { return typed };
        if !words.iter().any(|one| **one == **word) {
            let message = format!("\"{word}\" is not one of the choices");
            let diagnostic = Diagnostic::error(&codes::BAD_CHOICE, message, typed.span(), "");
            self.report(diagnostic.with_mend(mend_of_word(words, word)));
            return Typed::unknown(typed.span());
        }
        Typed { kind: wanted.clone(), ..typed }
    }

    /// The set that `one of …` states. Words that differ in case or outer spaces only could not be told apart in a file.
    pub(super) fn stated_words(&mut self, words: &[Words]) -> Kind {
        let mut seen: BTreeMap<String, Span> = BTreeMap::new();
        for word in words {
            let folded = word.text.trim().to_lowercase();
            if folded.is_empty() {
                let message = "an empty text is no word to choose";
                self.report(
                    Diagnostic::error(&codes::BAD_CHOICE, message, word.span, "")
                        .with_mend("a value not taken yet is `?`, or a blank field"),
                );
            } else if let Some(first) = seen.get(&folded) {
                let message =
                    format!("\"{}\" stands twice among the words; case and outer spaces do not count", word.text);
                self.report(
                    Diagnostic::error(&codes::BAD_CHOICE, message, word.span, "again here")
                        .with_label(*first, "first here")
                        .with_mend("take one of them away"),
                );
            } else {
                seen.insert(folded, word.span);
            }
        }
        Kind::Text(Some(words.iter().map(|word| word.text.clone()).collect::<Vec<_>>().into()))
    }
}

/// `""` and what stands for nothing written, such as `"-"`: that may be asked of any text.
fn asks_whether_written(words: &WordSet) -> bool {
    !words.iter().any(|word| word.chars().any(char::is_alphanumeric))
}

/// Where a plan compares the texts of a table's column.
pub(super) fn compared_column(plan: &Plan, table: usize, column: &str) -> Vec<ComparedWord> {
    let columns = plan.tables.get(table).map_or(&[][..], |table| &table.columns);
    columns.iter().find(|one| one.name == column).map_or_else(Vec::new, |one| one.compared_with.clone())
}
