//! A chart with its title and what it shows in words.

use maud::{Markup, PreEscaped, html};

use crate::report::chart::Chart;

/// The figure of a chart; `id` tells it from others of the page.
pub(super) fn figure(chart: &Chart, id: &str) -> Markup {
    let (title, says) = (format!("{id}-t"), format!("{id}-d"));
    let (width, height) = chart.size;
    html! {
        h3 { (chart.title) }
        figure {
            svg role="img" aria-labelledby={ (title) " " (says) } viewBox={ "0 0 " (width) " " (height) }
                xmlns="http://www.w3.org/2000/svg" {
                title id=(title) { (chart.title) }
                desc id=(says) { (chart.says) }
                (PreEscaped(&chart.inside))
            }
        }
    }
}
