//! Texts with fillings.

use super::block::{Block, Data, States};
use super::evaluate::{Sight, spent, text_block};
use super::fault::Fault;
use super::shown;
use crate::diagnostic::running as codes;
use crate::limits;
use crate::plan::{Template, TemplatePart};
use crate::source::Span;

/// A text filled in for the one row at hand.
pub fn fill(sight: &Sight<'_>, template: &Template, span: Span) -> Block {
    let mut text = String::new();
    let mut states = States::known();
    for part in &template.parts {
        match part {
            TemplatePart::Plain(words) => text.push_str(words),
            TemplatePart::Filled(node, typing) => {
                let block = sight.eval(node);
                states = states.merge(&block.states, 1);
                match shown::value(&block, 0, typing, sight.system, sight.atmosphere.number_at(0)) {
                    Some(shown) => text.push_str(&shown.text),
                    None if states.all_known() => states = sight.atmosphere.states.clone(),
                    None => {}
                }
            }
        }
        sight.spend(text.len());
        if sight.is_spent() {
            return spent(span);
        }
        if text.len() > limits::TEXT_BYTES {
            let message = format!("this text grows beyond {} characters", limits::TEXT_BYTES);
            return Block::broken(Fault::new(&codes::TEXT_TOO_LONG, message, span));
        }
    }
    if states.all_known() { text_block(text) } else { Block { data: Data::Nothing(1), states } }
}
