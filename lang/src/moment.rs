//! Dates and times as a sheet knows them: with or without an offset, to the second or a whole day.

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
