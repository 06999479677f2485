//! What can be told of a text while it is being typed.

use super::join::{Text, join};
use super::lexeme::{Lexeme, LexemeKind, lexemes};
use super::token::TokenKind;
use crate::source::FileId;
use crate::units::{UnitSystem, system_of};

/// The unit system of the first value typed that speaks for one.
pub fn typed_system(text: &str) -> Option<UnitSystem> {
    let joined = join(Text { file: FileId::default(), text, base: 0 });
    joined.tokens.iter().find_map(|token| match &token.kind {
        TokenKind::Quantity(quantity) => quantity.pieces.iter().find_map(|piece| system_of(&piece.unit)),
        _ => None,
    })
}

/// Whether lines typed so far wait for more: in an open bracket, in a table, a stage or a definition without its `end`,
/// after the head of an instrument. An empty line ends what only brackets or an instrument hold open.
pub fn wants_more(text: &str) -> bool {
    let list: Vec<Lexeme> = lexemes(text).into_iter().filter(|lexeme| lexeme.kind != LexemeKind::Comment).collect();
    let mut blocks = 0_usize;
    let mut brackets = 0_usize;
    let mut instrument = false;
    let mut line: Vec<Lexeme> = Vec::new();
    for lexeme in &list {
        match lexeme.kind {
            LexemeKind::LineEnd if brackets == 0 => look(text, &line, &mut blocks, &mut instrument),
            LexemeKind::LineEnd => continue,
            kind if kind.closing().is_some() => brackets += 1,
            kind if kind.is_closing() => brackets = brackets.saturating_sub(1),
            _ => {}
        }
        if lexeme.kind == LexemeKind::LineEnd { line.clear() } else { line.push(*lexeme) }
    }
    if brackets == 0 {
        look(text, &line, &mut blocks, &mut instrument);
    }
    let ended = text.rsplit('\n').next().is_some_and(|last| last.trim().is_empty());
    blocks > 0 || (brackets > 0 || instrument) && !ended
}

/// What a whole line opens or closes.
fn look(text: &str, line: &[Lexeme], blocks: &mut usize, instrument: &mut bool) {
    let Some(first) = line.first() else { return };
    let word = text.get(first.range()).unwrap_or("");
    let second = line.get(1).map(|lexeme| lexeme.kind);
    let cell = matches!(second, Some(LexemeKind::Equals | LexemeKind::Colon));
    *instrument = !cell && matches!(word, "instrument" | "accuracy" | "repeats" | "serial" | "calibrated");
    match word {
        "end" if line.len() == 1 => *blocks = blocks.saturating_sub(1),
        "stage" if second == Some(LexemeKind::Text) => *blocks += 1,
        "table" if second == Some(LexemeKind::Word) => *blocks += 1,
        "define" if second == Some(LexemeKind::Word) && !has_formula(line) => *blocks += 1,
        _ => {}
    }
}

/// `=` outside of brackets, behind a bracket.
fn has_formula(line: &[Lexeme]) -> bool {
    let mut depth = 0_usize;
    line.iter().any(|lexeme| {
        if lexeme.kind.closing().is_some() {
            depth += 1;
        } else if lexeme.kind.is_closing() {
            depth = depth.saturating_sub(1);
        }
        depth == 0 && lexeme.kind == LexemeKind::Equals
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_unit_that_speaks_for_a_system_counts() {
        assert_eq!(typed_system("superheat(R-410A, 118 psig, 55 degF)"), Some(UnitSystem::Ip));
        assert_eq!(typed_system("208 V * 20 A"), None);
        assert_eq!(typed_system("350 micron + 3 kPaa"), Some(UnitSystem::Si));
        assert_eq!(typed_system("superheat(R-410A, 8 barg, 55 degF)"), Some(UnitSystem::Si));
        assert_eq!(typed_system("x as psig"), None);
    }

    #[test]
    fn what_is_open_waits_and_what_is_whole_does_not() {
        for open in [
            "a = max(1,",
            "superheat(R-410A",
            "table rise",
            "table rise\n  t | p\n  min | micron\n",
            "stage \"Evacuation\"\n\n",
            "stage \"E\"\n table x\n a\n number\n end\n",
            "define f(x)",
            "define f(x)\n  a = x\n",
            "instrument gauge \"g\"",
            "instrument gauge \"g\"\n  accuracy ± 1 psi",
        ] {
            assert!(wants_more(open), "{open}");
        }
        for whole in [
            "",
            "a = max(1,\n2)",
            "a = max(1,\n",
            "table rise\n t\n min\nend",
            "stage \"E\"\n table x\n a\n number\n end\nend",
            "define f(x) = x",
            "table = 3",
            "stage = 3",
            "instrument gauge \"g\"\n  accuracy ± 1 psi\n",
            "a = 3 # (",
            "\"(\"",
            ")",
        ] {
            assert!(!wants_more(whole), "{whole}");
        }
    }
}
