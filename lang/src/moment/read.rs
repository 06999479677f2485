//! Reading a date or time, and saying in words why one cannot be.

use jiff::civil::Date;

use super::{MINUTE, Moment, seconds_to};

/// Why a text is no date or time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MomentProblem {
    /// What is wrong, in one line.
    pub message: String,
    /// How to mend it, where there is a way.
    pub mend: Option<String>,
}

pub(super) fn read(text: &str) -> Result<Moment, MomentProblem> {
    let (date, rest) = split_date(text).ok_or_else(|| shape(text))?;
    let seconds = seconds_to(date_of(date)?);
    if rest.is_empty() {
        return Ok(Moment { seconds, offset: None, whole_day: true });
    }
    if let Some(time) = rest.strip_prefix(' ') {
        let mend = format!("write `{date}T{}`", time.trim_start());
        return Err(MomentProblem { message: "date and time are joined by a `T`".to_string(), mend: Some(mend) });
    }
    let time = rest.strip_prefix(['T', 't']).ok_or_else(|| shape(text))?;
    let (clock, offset) = split_offset(time).ok_or_else(|| shape(text))?;
    let offset = offset.map(|written| offset_of(written).ok_or_else(|| shape(text))?).transpose()?;
    let since_midnight = clock_of(clock).ok_or_else(|| shape(text))??;
    let east = f64::from(offset.unwrap_or(0)) * MINUTE;
    Ok(Moment { seconds: seconds + since_midnight - east, offset, whole_day: false })
}

/// The date and what follows it, if the text begins like a date.
fn split_date(text: &str) -> Option<(&str, &str)> {
    let end = text.find(|letter: char| !letter.is_ascii_digit() && letter != '-').unwrap_or(text.len());
    let (date, rest) = text.split_at(end);
    (date.split('-').count() == 3).then_some((date, rest))
}

fn date_of(text: &str) -> Result<Date, MomentProblem> {
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts.as_slice() else {
        return Err(shape(text));
    };
    let numbers: Option<Vec<i16>> = parts.iter().map(|part| part.parse().ok()).collect();
    let Some([y, m, d]) = numbers.as_deref().and_then(|list| <[i16; 3]>::try_from(list).ok()) else {
        return Err(shape(text));
    };
    if (year.len(), month.len(), day.len()) != (4, 2, 2) {
        let mend = (year.len() == 4).then(|| format!("write `{y:04}-{m:02}-{d:02}`"));
        return Err(MomentProblem { message: "a date is year-month-day with 4, 2 and 2 digits".to_string(), mend });
    }
    if y == 0 {
        return Err(impossible("there is no year 0000"));
    }
    let name = usize::try_from(m - 1).ok().and_then(|index| MONTHS.get(index));
    let Some(name) = name else {
        let mend = (1..=12).contains(&d).then(|| format!("year, month, day: `{year}-{day}-{month}`?"));
        return Err(MomentProblem { message: format!("there is no month {month}"), mend });
    };
    let (Ok(month_number), Ok(day_number)) = (i8::try_from(m), i8::try_from(d)) else {
        return Err(shape(text));
    };
    Date::new(y, month_number, day_number).map_err(|_| {
        let days = Date::new(y, month_number, 1).map_or(31, |first| first.days_in_month());
        impossible(format!("{name} {year} has {days} days, and no day {day}"))
    })
}

/// The clock time, and the offset with its sign or `Z`.
fn split_offset(time: &str) -> Option<(&str, Option<&str>)> {
    match time.find(['Z', 'z', '+', '-', '−']) {
        Some(at) => Some((time.get(..at)?, Some(time.get(at..)?))),
        None => Some((time, None)),
    }
}

/// Seconds since midnight; `None` if the text has not the shape of a time at all.
fn clock_of(clock: &str) -> Option<Result<f64, MomentProblem>> {
    let mut parts = clock.split(':');
    let hour = two_digits(parts.next()?)?;
    let minute = two_digits(parts.next()?)?;
    let second = parts.next().map_or(Some(0.0), seconds_of)?;
    if parts.next().is_some() {
        return None;
    }
    Some(if hour > 23 {
        Err(impossible(format!("there is no hour {hour:02}: a day goes from 00:00 to 23:59")))
    } else if minute > 59 {
        Err(impossible(format!("there is no minute {minute:02}")))
    } else if second >= 60.0 {
        Err(impossible(format!("there is no second {second}")))
    } else {
        Ok(f64::from(hour) * 3_600.0 + f64::from(minute) * MINUTE + second)
    })
}

fn seconds_of(text: &str) -> Option<f64> {
    let (whole, fraction) = text.split_once('.').unwrap_or((text, "0"));
    let fine = !fraction.is_empty() && fraction.len() <= 9 && fraction.bytes().all(|digit| digit.is_ascii_digit());
    two_digits(whole)?;
    fine.then(|| text.parse().ok())?
}

fn offset_of(written: &str) -> Option<Result<i16, MomentProblem>> {
    if written == "Z" || written == "z" {
        return Some(Ok(0));
    }
    let (sign, digits) = match written.strip_prefix('+') {
        Some(digits) => (1, digits),
        None => (-1, written.strip_prefix(['-', '−'])?),
    };
    let (hours, minutes) = digits.split_once(':')?;
    let (hours, minutes) = (two_digits(hours)?, two_digits(minutes)?);
    // The farthest clocks on earth are 14 hours from universal time.
    if minutes > 59 || hours * 60 + minutes > 14 * 60 {
        return Some(Err(impossible(format!("no clock is {written} from universal time"))));
    }
    Some(Ok(sign * (hours * 60 + minutes)))
}

fn two_digits(text: &str) -> Option<i16> {
    (text.len() == 2 && text.bytes().all(|digit| digit.is_ascii_digit())).then(|| text.parse().ok())?
}

fn shape(text: &str) -> MomentProblem {
    MomentProblem {
        message: format!("`{text}` is not a date or time"),
        mend: Some(
            "write `2026-03-14` or `2026-03-14T07:40`, with `Z` or `+01:00` at the end if it matters".to_string(),
        ),
    }
}

fn impossible(message: impl Into<String>) -> MomentProblem {
    MomentProblem { message: message.into(), mend: None }
}

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];
