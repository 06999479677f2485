//! One sheet being written, row by row.

use rust_xlsxwriter::{Color, Format, FormatAlign, FormatBorder, Worksheet};

use crate::words::{plain, width};

/// Rows of a sheet.
const ROWS: u32 = 1_048_576;
/// Letters of a field.
const LETTERS: usize = 32_767;
/// Letters up to which a column is made wide.
const WIDE: usize = 60;

/// How a field looks.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Style {
    /// As any other.
    Plain,
    /// The title of the sheet.
    Title,
    /// Over a list.
    Heading,
    /// Over a column.
    Head,
    /// What failed or broke: bold on red.
    Bad,
    /// What waits or asks for a look: on yellow.
    Look,
}

/// A field.
pub(super) enum Field {
    /// Nothing.
    Blank,
    /// A text, whatever it begins with.
    Text(String),
    /// A number with so many decimals; none says: as it comes.
    Number(f64, Option<usize>),
}

impl Field {
    /// A text; an empty one is blank.
    pub fn text(text: &str) -> Field {
        if text.is_empty() { Field::Blank } else { Field::Text(text.to_string()) }
    }

    /// A printed number with its decimals, else a text.
    pub fn printed(text: &str) -> Field {
        match text.parse::<f64>() {
            Ok(number) if number.is_finite() && text.starts_with(|sign: char| sign.is_ascii_digit() || sign == '-') => {
                let decimals = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
                Field::Number(number, (!text.contains(['e', 'E'])).then_some(decimals))
            }
            _ => Field::text(text),
        }
    }
}

/// A sheet and where it is written next.
pub(super) struct Sheet {
    sheet: Worksheet,
    row: u32,
    widths: Vec<usize>,
}

impl Sheet {
    /// An empty one; the name must be fit and free.
    pub fn named(name: &str) -> Sheet {
        let mut sheet = Worksheet::new();
        // A name that is refused leaves the one that the library gives.
        let _ = sheet.set_name(name);
        sheet.set_landscape().set_print_fit_to_pages(1, 0);
        Sheet { sheet, row: 0, widths: Vec::new() }
    }

    /// The heads of columns, which stay in sight and stand on every page.
    pub fn heads(&mut self, heads: &[String]) {
        let row = self.row;
        self.add(heads.iter().map(|head| (Field::text(head), Style::Head)).collect());
        let _ = self.sheet.set_freeze_panes(row + 1, 0);
        let _ = self.sheet.set_repeat_rows(row, row);
    }

    /// One row; false if there is no room for it.
    pub fn add(&mut self, fields: Vec<(Field, Style)>) -> bool {
        if self.row == ROWS {
            return false;
        }
        for (column, (field, style)) in fields.into_iter().enumerate() {
            let Ok(at) = u16::try_from(column) else { break };
            self.field(at, field, style);
        }
        self.row += 1;
        true
    }

    fn field(&mut self, column: u16, field: Field, style: Style) {
        let (row, format) = (self.row, format_of(style));
        let taken = match field {
            Field::Blank if style == Style::Plain => 0,
            Field::Blank => {
                let _ = self.sheet.write_blank(row, column, &format);
                0
            }
            Field::Text(text) => {
                let text: String = plain(&text).chars().take(LETTERS / 2).collect();
                let _ = self.sheet.write_string_with_format(row, column, &text, &format);
                if matches!(style, Style::Title | Style::Heading) { 0 } else { width(&text) }
            }
            Field::Number(number, decimals) => {
                let shown = match decimals {
                    Some(decimals) => format!("0{}{}", if decimals > 0 { "." } else { "" }, "0".repeat(decimals)),
                    None => "General".to_string(),
                };
                let _ = self.sheet.write_number_with_format(row, column, number, &format.set_num_format(shown));
                12
            }
        };
        let at = usize::from(column);
        if self.widths.len() <= at {
            self.widths.resize(at + 1, 0);
        }
        self.widths[at] = self.widths[at].max(taken.min(WIDE));
    }

    /// A blank row.
    pub fn gap(&mut self) {
        self.row = (self.row + 1).min(ROWS);
    }

    /// The sheet with its columns made wide enough.
    pub fn finished(mut self) -> Worksheet {
        for (at, columns) in self.widths.iter().enumerate() {
            if let Ok(at) = u16::try_from(at) {
                let _ = self.sheet.set_column_width(at, (columns + 2).max(8) as f64);
            }
        }
        self.sheet
    }
}

fn format_of(style: Style) -> Format {
    let format = Format::new().set_align(FormatAlign::Top);
    match style {
        Style::Plain => format,
        Style::Title => format.set_bold().set_font_size(14),
        Style::Heading => format.set_bold().set_border_top(FormatBorder::Medium),
        Style::Head => format.set_bold().set_border_bottom(FormatBorder::Medium),
        Style::Bad => {
            format.set_bold().set_font_color(Color::RGB(0x9b_1c_1c)).set_background_color(Color::RGB(0xfb_ec_eb))
        }
        Style::Look => format.set_background_color(Color::RGB(0xfd_f3_dc)),
    }
}
