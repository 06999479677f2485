//! One bar a row, lying, so that names of rows are read without turning the head; limits as lines across.

use dewline_lang::library::Limit;
use dewline_lang::units::show;
use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::HPos;

use super::Chart;
use super::scale::Scale;
use super::svg::{COMPUTED, FAINT, INK, LIMIT, LINE, NotDrawn, QUIET, WIDTH, cut, draw, failed, letters};

/// Letters of a row's name.
const NAME: usize = 16;
/// Where the bars begin and end.
const FROM: i32 = 232;
const TO: i32 = 640;

/// The word of a row that no check asks about.
const NOT_ASKED: &str = "not asked";

/// Bars to draw.
pub(super) struct Bars {
    pub title: String,
    /// The unit of the values; empty for numbers.
    pub unit: String,
    pub bars: Vec<Bar>,
    /// Rows that have no bar, since there are too many.
    pub left_out: usize,
    pub limits: Vec<Limit>,
}

/// One row.
pub(super) struct Bar {
    pub name: String,
    pub value: Option<f64>,
    /// The value as the table shows it.
    pub shown: String,
    /// `FAILED` and the like; empty where it passed.
    pub word: &'static str,
}

/// The chart; nothing if no row has a value.
pub(super) fn chart(bars: &Bars) -> Option<Chart> {
    let values = || bars.bars.iter().filter_map(|bar| bar.value);
    values().next()?;
    let limits = bars.limits.iter().map(|limit| limit.at).filter(|at| at.is_finite());
    let scale = Scale::over(values().chain(limits).chain([0.0]), 5, false);
    let height = LINE * (bars.bars.len() as i32 + 2 + bars.limits.len() as i32) + 12;
    let inside = draw(height as u32, |surface| paint(surface, bars, &scale))?;
    let mut says: Vec<String> = bars.limits.iter().map(|limit| limit_words(limit, &bars.unit)).collect();
    says.extend(
        bars.bars
            .iter()
            .filter(|bar| !bar.word.is_empty() && bar.word != NOT_ASKED)
            .map(|bar| format!("{} {}: {}", bar.name, bar.shown, bar.word)),
    );
    if bars.left_out > 0 {
        says.push(format!("the first {} rows; {} more have no bar", bars.bars.len(), bars.left_out));
    }
    let says = format!("One bar a row{}{}.", if says.is_empty() { "" } else { "; " }, says.join("; "));
    Some(Chart { title: bars.title.clone(), says, inside, size: (WIDTH, height as u32) })
}

fn limit_words(limit: &Limit, unit: &str) -> String {
    format!("{} {} {unit}", limit.name, show::number(limit.at)).trim_end().to_string()
}

fn paint(surface: &DrawingArea<SVGBackend<'_>, Shift>, bars: &Bars, scale: &Scale) -> Result<(), NotDrawn> {
    let (low, high) = scale.ends;
    let x = |value: f64| FROM + ((value - low) / (high - low) * f64::from(TO - FROM)).round() as i32;
    let text = |words: String, at: (i32, i32), side: HPos| {
        surface.draw(&Text::new(words, at, letters(INK, side))).map_err(failed)
    };
    let top = LINE * (bars.limits.len() as i32 + 1);
    let bottom = top + LINE * bars.bars.len() as i32;
    for (at, limit) in bars.limits.iter().enumerate() {
        let y = LINE * at as i32 + LINE / 2;
        let at = x(limit.at);
        // Its words stand on the side where there is room.
        let (side, words_at) = if at > (FROM + TO) / 2 { (HPos::Right, at - 10) } else { (HPos::Left, at + 10) };
        text(limit_words(limit, &bars.unit), (words_at, y), side)?;
    }
    text(bars.unit.clone(), (TO + 48, bottom + LINE / 2), HPos::Left)?;
    for mark in &scale.marks {
        let at = x(*mark);
        let line = [(at, top - LINE / 3), (at, bottom)];
        surface.draw(&PathElement::new(line, FAINT.stroke_width(2))).map_err(failed)?;
        text(scale.words(*mark), (at, bottom + LINE / 2), HPos::Center)?;
    }
    for (row, bar) in bars.bars.iter().enumerate() {
        let y = top + LINE * row as i32 + LINE / 2;
        text(cut(&bar.name, NAME), (FROM - 12, y), HPos::Right)?;
        let Some(value) = bar.value else {
            text("?".to_string(), (x(0.0_f64.clamp(low, high)) + 10, y), HPos::Left)?;
            continue;
        };
        let zero = x(0.0);
        let ends = [(zero.min(x(value)), y - 10), (zero.max(x(value)), y + 10)];
        if bar.word == NOT_ASKED {
            surface.draw(&Rectangle::new(ends, QUIET.stroke_width(3))).map_err(failed)?;
        } else if bar.word.is_empty() {
            surface.draw(&Rectangle::new(ends, COMPUTED.filled())).map_err(failed)?;
        } else {
            // Told apart by shape too: an outline with a cross at its end.
            surface.draw(&Rectangle::new(ends, LIMIT.stroke_width(4))).map_err(failed)?;
            let tip = x(value);
            for slope in [[(tip - 9, y - 9), (tip + 9, y + 9)], [(tip - 9, y + 9), (tip + 9, y - 9)]] {
                surface.draw(&PathElement::new(slope, LIMIT.stroke_width(4))).map_err(failed)?;
            }
        }
        let words = format!("{} {}", cut(&bar.shown, 12), bar.word);
        let beside = x(value).max(zero) + 16;
        text(words.trim_end().to_string(), (beside, y), HPos::Left)?;
    }
    surface.draw(&PathElement::new([(x(0.0), top), (x(0.0), bottom)], INK.stroke_width(2))).map_err(failed)?;
    for (at, limit) in bars.limits.iter().enumerate() {
        let (from, at) = (LINE * at as i32, x(limit.at));
        for y in (from..bottom).step_by(20) {
            let dash = [(at, y), (at, (y + 12).min(bottom))];
            surface.draw(&PathElement::new(dash, LIMIT.stroke_width(3))).map_err(failed)?;
        }
    }
    Ok(())
}
