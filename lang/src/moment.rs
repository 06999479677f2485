//! Dates and times as a sheet knows them: with or without an offset, to the second or a whole day.

mod read;

pub use read::MomentProblem;

use std::cmp::Ordering;
use std::fmt;

use jiff::SignedDuration;
use jiff::civil::{Date, DateTime};

const DAY: f64 = 86_400.0;
const MINUTE: f64 = 60.0;
const EPOCH: DateTime = DateTime::constant(1970, 1, 1, 0, 0, 0, 0);

/// A point in time, or a whole day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Seconds since 1970-01-01T00:00, in universal time if there is an offset, else in local time.
    /// Of a whole day its beginning.
    pub seconds: f64,
    /// Minutes east of universal time, if one was written.
    pub offset: Option<i16>,
    /// A date without a time: the whole day.
    pub whole_day: bool,
}

impl Moment {
    /// Reads ISO 8601: `2026-03-14`, `2026-03-14T07:40`, `2026-03-14T07:40:30+01:00`.
    pub fn parse(text: &str) -> Result<Moment, MomentProblem> {
        read::read(text)
    }

    /// The seconds from another moment to this one. Both must be whole days, or times that both have an offset or both
    /// have none; else the reason in words.
    pub fn since(self, earlier: Moment) -> Result<f64, String> {
        if self.whole_day != earlier.whole_day {
            let (day, time) = if self.whole_day { (self, earlier) } else { (earlier, self) };
            return Err(format!("{day} is a whole day and {time} a time: give the day a time, such as {day}T00:00"));
        }
        self.same_clock(earlier)?;
        Ok(self.seconds - earlier.seconds)
    }

    /// The moment so many seconds later (or earlier, below zero). A whole day moves by whole days only.
    pub fn plus(self, seconds: f64) -> Result<Moment, String> {
        if self.whole_day && seconds % DAY != 0.0 {
            return Err(format!(
                "{self} is a whole day and moves by whole days only: give it a time, such as {self}T00:00"
            ));
        }
        let moved = Moment { seconds: self.seconds + seconds, ..self };
        match moved.local() {
            Some(_) => Ok(moved),
            None => Err(format!("{self} moved by {} days is outside the years 1 to 9999", seconds / DAY)),
        }
    }

    /// Earlier, the same, or later. A time within a whole day is *the same* as that day, by the clock on site;
    /// two times need both an offset or neither.
    pub fn compare(self, other: Moment) -> Result<Ordering, String> {
        match (self.whole_day, other.whole_day) {
            (false, false) => {
                self.same_clock(other)?;
                Ok(self.seconds.total_cmp(&other.seconds))
            }
            _ => Ok(self.local_day().total_cmp(&other.local_day())),
        }
    }

    fn same_clock(self, other: Moment) -> Result<(), String> {
        if self.offset.is_some() == other.offset.is_some() {
            return Ok(());
        }
        let (with, without) = if self.offset.is_some() { (self, other) } else { (other, self) };
        Err(format!(
            "{with} says how far its clock is from universal time and {without} does not: write both the same way"
        ))
    }

    /// Seconds by the clock on site.
    fn local_seconds(self) -> f64 {
        self.seconds + f64::from(self.offset.unwrap_or(0)) * MINUTE
    }

    fn local_day(self) -> f64 {
        (self.local_seconds() / DAY).floor()
    }

    /// Date and time by the clock on site, if in the years 1 to 9999.
    fn local(self) -> Option<DateTime> {
        let seconds = self.local_seconds().floor();
        if !(seconds.is_finite() && seconds.abs() < 1e12) {
            return None;
        }
        let fraction = ((self.local_seconds() - seconds) * 1e6).round() * 1e3;
        let moved = EPOCH.checked_add(SignedDuration::new(seconds as i64, fraction as i32)).ok()?;
        (moved.year() >= 1).then_some(moved)
    }
}

impl fmt::Display for Moment {
    /// ISO 8601, as short as it can be: no seconds where they are zero.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(local) = self.local() else {
            return write!(out, "a time outside the years 1 to 9999");
        };
        write!(out, "{:04}-{:02}-{:02}", local.year(), local.month(), local.day())?;
        if self.whole_day {
            return Ok(());
        }
        write!(out, "T{:02}:{:02}", local.hour(), local.minute())?;
        let microseconds = local.subsec_nanosecond() / 1_000;
        if microseconds != 0 {
            let fraction = format!("{microseconds:06}");
            write!(out, ":{:02}.{}", local.second(), fraction.trim_end_matches('0'))?;
        } else if local.second() != 0 {
            write!(out, ":{:02}", local.second())?;
        }
        match self.offset {
            None => Ok(()),
            Some(0) => write!(out, "Z"),
            Some(minutes) => {
                let sign = if minutes < 0 { '-' } else { '+' };
                write!(out, "{sign}{:02}:{:02}", minutes.abs() / 60, minutes.abs() % 60)
            }
        }
    }
}

/// Seconds from 1970-01-01T00:00 to the beginning of a date.
fn seconds_to(date: Date) -> f64 {
    date.duration_since(EPOCH.date()).as_secs() as f64
}

#[cfg(test)]
mod tests;
