//! Lines and points over two axes, with a key above them.

use dewline_lang::library::{Axis, Drawing, Mark, Series};
use dewline_lang::units::show;
use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::HPos;

use super::Chart;
use super::scale::Scale;
use super::svg::{COMPUTED, FAINT, INK, LETTERS, LIMIT, LINE, NotDrawn, WIDTH, cut, draw, failed, letters};

/// Height of the plot itself.
const PLOT: u32 = 430;
/// Points of one series; of more, every so many is drawn.
const POINTS: usize = 2_000;

/// The chart of a drawing; nothing if it has no points.
pub(super) fn chart(drawing: &Drawing) -> Option<Chart> {
    let series: Vec<Series> = drawing.series.iter().map(thinned).filter(|one| !one.points.is_empty()).collect();
    if series.is_empty() {
        return None;
    }
    let points = || series.iter().flat_map(|one| &one.points);
    let limits = drawing.limits.iter().map(|limit| limit.at);
    let across = Scale::over(points().map(|point| point.0), 6, drawing.across.logarithmic);
    let up = Scale::over(points().map(|point| point.1).chain(limits), 6, drawing.up.logarithmic);
    let key: Vec<(String, Sign)> = key(drawing, &series);
    let above = LINE * (key.len() as i32 + 1) + 8;
    let height = PLOT + above as u32;
    let inside = draw(height, |surface| {
        head(surface, &named(&drawing.up), &key)?;
        let (_, plot) = surface.split_vertically(above);
        lines(&plot, drawing, &series, &across, &up)
    })?;
    let says = format!("{} {}", drawing.says, told(drawing, &series));
    Some(Chart { title: drawing.title.clone(), says: says.trim().to_string(), inside, size: (WIDTH, height) })
}

/// How a line of the key is marked.
#[derive(Clone, Copy)]
enum Sign {
    Of(Mark, RGBColor),
    Limit,
}

fn key(drawing: &Drawing, series: &[Series]) -> Vec<(String, Sign)> {
    let mut key: Vec<(String, Sign)> = Vec::new();
    for (at, one) in series.iter().enumerate() {
        if !one.name.is_empty() && (series.len() > 1 || !drawing.limits.is_empty()) {
            key.push((one.name.clone(), Sign::Of(one.mark, colour(series, at))));
        }
    }
    for limit in &drawing.limits {
        let unit = Some(drawing.up.unit.as_str()).filter(|unit| !unit.is_empty());
        let at = [Some(show::number(limit.at).as_str()), unit].into_iter().flatten().collect::<Vec<_>>().join(" ");
        key.push((format!("{}: {at}", limit.name), Sign::Limit));
    }
    key
}

/// Readings in ink, what was computed in its own colour, expectations and limits in theirs; of several alike the
/// first two differ, and marks tell the rest apart.
fn colour(series: &[Series], at: usize) -> RGBColor {
    match series.get(at).map(|one| one.mark) {
        Some(Mark::Dashed) => LIMIT,
        Some(Mark::Line) => COMPUTED,
        _ if series.len() > 1 && at % 2 == 1 && series.iter().all(|one| one.mark == Mark::LineAndPoints) => COMPUTED,
        _ => INK,
    }
}

/// The name of the axis that goes up, and the key below it.
fn head(surface: &DrawingArea<SVGBackend<'_>, Shift>, up: &str, key: &[(String, Sign)]) -> Result<(), NotDrawn> {
    let text = |words: &str, x: i32, y: i32| {
        surface.draw(&Text::new(cut(words, 58), (x, y), letters(INK, HPos::Left))).map_err(failed)
    };
    text(up, 8, LINE / 2)?;
    for (at, (words, sign)) in key.iter().enumerate() {
        let y = LINE * (at as i32 + 1) + LINE / 2;
        let ends = [(12, y), (60, y)];
        match sign {
            Sign::Limit => dashes(surface, ends, LIMIT)?,
            Sign::Of(Mark::Dashed, colour) => dashes(surface, ends, *colour)?,
            Sign::Of(mark, colour) => {
                if *mark != Mark::Points {
                    surface.draw(&PathElement::new(ends, colour.stroke_width(4))).map_err(failed)?;
                }
                if *mark != Mark::Line {
                    surface.draw(&Circle::new((36, y), 7, colour.filled())).map_err(failed)?;
                }
            }
        }
        text(words, 76, y)?;
    }
    Ok(())
}

fn dashes(
    surface: &DrawingArea<SVGBackend<'_>, Shift>,
    [from, to]: [(i32, i32); 2],
    colour: RGBColor,
) -> Result<(), NotDrawn> {
    let mut x = from.0;
    while x < to.0 {
        let dash = [(x, from.1), ((x + 12).min(to.0), to.1)];
        surface.draw(&PathElement::new(dash, colour.stroke_width(4))).map_err(failed)?;
        x += 18;
    }
    Ok(())
}

fn lines(
    plot: &DrawingArea<SVGBackend<'_>, Shift>,
    drawing: &Drawing,
    series: &[Series],
    across: &Scale,
    up: &Scale,
) -> Result<(), NotDrawn> {
    let mut chart = ChartBuilder::on(plot)
        .margin_right(52)
        .margin_top(6)
        .x_label_area_size(LINE * 2 + 6)
        .y_label_area_size(112)
        .build_cartesian_2d(across.clone(), up.clone())
        .map_err(failed)?;
    chart
        .configure_mesh()
        .light_line_style(TRANSPARENT)
        .bold_line_style(FAINT.stroke_width(2))
        .axis_style(INK.stroke_width(2))
        .label_style(("sans-serif", LETTERS).into_font().color(&INK))
        .x_label_formatter(&|mark| across.words(*mark))
        .y_label_formatter(&|mark| up.words(*mark))
        .x_desc(cut(&named(&drawing.across), 52))
        .draw()
        .map_err(failed)?;
    for limit in drawing.limits.iter().filter(|limit| limit.at.is_finite()) {
        let at = up.at(limit.at);
        let ends = [(across.ends.0, at), (across.ends.1, at)];
        chart.draw_series(DashedLineSeries::new(ends, 12, 8, LIMIT.stroke_width(3))).map_err(failed)?;
    }
    for (at, one) in series.iter().enumerate() {
        let style = colour(series, at);
        let points: Vec<(f64, f64)> = one.points.iter().map(|(x, y)| (across.at(*x), up.at(*y))).collect();
        match one.mark {
            Mark::Dashed => chart
                .draw_series(DashedLineSeries::new(points.clone(), 12, 8, style.stroke_width(3)))
                .map(|_| ())
                .map_err(failed)?,
            Mark::Points => {}
            Mark::Line | Mark::LineAndPoints => chart
                .draw_series(LineSeries::new(points.iter().copied(), style.stroke_width(3)))
                .map(|_| ())
                .map_err(failed)?,
        }
        if matches!(one.mark, Mark::Points | Mark::LineAndPoints) {
            let size = if points.len() > 200 { 3 } else { 7 };
            let dots = points.iter().map(|point| Circle::new(*point, size, style.filled()));
            chart.draw_series(dots).map_err(failed)?;
        }
    }
    Ok(())
}

/// `pressure, micron`
fn named(axis: &Axis) -> String {
    let parts = [axis.name.as_str(), &axis.unit];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
}

/// Finite points, at most so many.
fn thinned(series: &Series) -> Series {
    let usable = |point: &&(f64, f64)| point.0.is_finite() && point.1.is_finite();
    let points: Vec<(f64, f64)> = series.points.iter().filter(usable).copied().collect();
    let every = points.len().div_ceil(POINTS).max(1);
    Series { points: points.into_iter().step_by(every).collect(), ..series.clone() }
}

/// First, last, least and most of what was read, in words.
fn told(drawing: &Drawing, series: &[Series]) -> String {
    let read = series.iter().find(|one| matches!(one.mark, Mark::Points | Mark::LineAndPoints));
    let Some((first, last)) = read.and_then(|one| Some((one.points.first()?, one.points.last()?))) else {
        return String::new();
    };
    let with_unit = |number: f64, axis: &Axis| format!("{} {}", show::number(number), axis.unit).trim().to_string();
    format!(
        "From {} at {} to {} at {}.",
        with_unit(first.1, &drawing.up),
        with_unit(first.0, &drawing.across),
        with_unit(last.1, &drawing.up),
        with_unit(last.0, &drawing.across)
    )
}
