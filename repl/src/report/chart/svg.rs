//! What all charts share: the drawing surface, its colours and its letters.

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

/// Width of every chart in its own units. The page shows it at about half of that, so that lines have no steps.
pub(super) const WIDTH: u32 = 880;
/// Letters, in the same units.
pub(super) const LETTERS: u32 = 28;
/// Height of a line of letters.
pub(super) const LINE: i32 = 38;

/// Ink for axes, words and readings.
pub(super) const INK: RGBColor = RGBColor(0x1c, 0x21, 0x26);
/// What nobody asks about.
pub(super) const QUIET: RGBColor = RGBColor(0x54, 0x5d, 0x68);
/// Lines behind the rest.
pub(super) const FAINT: RGBColor = RGBColor(0xc9, 0xd1, 0xd9);
/// What was computed.
pub(super) const COMPUTED: RGBColor = RGBColor(0x0b, 0x55, 0x86);
/// Limits, and what is outside them.
pub(super) const LIMIT: RGBColor = RGBColor(0x9b, 0x1c, 0x1c);

/// Why nothing was drawn: the surface is a text in memory, so nobody needs to hear more than that.
pub(super) struct NotDrawn;

/// Draws on a surface so high and gives what is inside of its `svg` element.
pub(super) fn draw(
    height: u32,
    paint: impl FnOnce(&DrawingArea<SVGBackend<'_>, Shift>) -> Result<(), NotDrawn>,
) -> Option<String> {
    let mut text = String::new();
    {
        let surface = SVGBackend::with_string(&mut text, (WIDTH, height)).into_drawing_area();
        paint(&surface).ok()?;
        surface.present().ok()?;
    }
    let inside = text.split_once("<svg").and_then(|(_, rest)| rest.split_once('>')).map(|(_, inside)| inside)?;
    inside.rsplit_once("</svg>").map(|(inside, _)| inside.trim().to_string())
}

/// Any failure to draw.
pub(super) fn failed<E: std::error::Error + Send + Sync>(_: DrawingAreaErrorKind<E>) -> NotDrawn {
    NotDrawn
}

/// Letters in a colour, standing to one side of their place.
pub(super) fn letters(colour: RGBColor, side: HPos) -> TextStyle<'static> {
    ("sans-serif", LETTERS).into_font().color(&colour).pos(Pos::new(side, VPos::Center))
}

/// A text cut to so many letters.
pub(super) fn cut(text: &str, most: usize) -> String {
    let text = crate::words::plain(text);
    if text.chars().count() <= most {
        return text.into_owned();
    }
    text.chars().take(most - 1).chain(['…']).collect()
}
