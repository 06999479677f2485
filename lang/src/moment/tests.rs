#![allow(clippy::unwrap_used, clippy::panic)]

use std::cmp::Ordering;

use super::Moment;

fn moment(text: &str) -> Moment {
    Moment::parse(text).unwrap()
}

#[test]
fn what_is_written_is_shown_again() {
    for text in [
        "2026-03-14",
        "2026-03-14T07:40",
        "2026-03-14T07:40:30",
        "2026-03-14T07:40:30.25",
        "2026-03-14T07:40Z",
        "2026-03-14T00:10+01:00",
        "2026-03-14T23:50-07:30",
        "2024-02-29",
        "0001-01-01",
        "9999-12-31T23:59:59",
        "1969-12-31T23:59:59.5",
    ] {
        assert_eq!(moment(text).to_string(), text);
    }
    assert_eq!(moment("2026-03-14T07:40:00").to_string(), "2026-03-14T07:40");
    assert_eq!(moment("2026-03-14t07:40+00:00").to_string(), "2026-03-14T07:40Z");
}

#[test]
fn seconds_count_from_1970() {
    assert_eq!(moment("1970-01-02").seconds, 86_400.0);
    // 2001-09-09T01:46:40Z is the thousand-millionth second of Unix time.
    assert_eq!(moment("2001-09-09T01:46:40Z").seconds, 1e9);
    assert_eq!(moment("2001-09-09T03:46:40+02:00").seconds, 1e9);
}

#[test]
fn impossible_dates_and_times_say_why() {
    for (text, message, mend) in [
        ("2026-02-30", "February 2026 has 28 days, and no day 30", None),
        ("2026-04-31T07:00", "April 2026 has 30 days, and no day 31", None),
        ("2026-03-00", "March 2026 has 31 days, and no day 00", None),
        ("2026-14-03", "there is no month 14", Some("year, month, day: `2026-03-14`?")),
        ("2026-13-40", "there is no month 13", None),
        ("0000-01-01", "there is no year 0000", None),
        ("2026-3-14", "a date is year-month-day with 4, 2 and 2 digits", Some("write `2026-03-14`")),
        ("14-03-2026", "a date is year-month-day with 4, 2 and 2 digits", None),
        ("2026-03-14 07:40", "date and time are joined by a `T`", Some("write `2026-03-14T07:40`")),
        ("2026-03-14T24:00", "there is no hour 24: a day goes from 00:00 to 23:59", None),
        ("2026-03-14T07:60", "there is no minute 60", None),
        ("2026-03-14T07:40:60", "there is no second 60", None),
        ("2026-03-14T07:40+15:00", "no clock is +15:00 from universal time", None),
    ] {
        let problem = Moment::parse(text).unwrap_err();
        assert_eq!((problem.message.as_str(), problem.mend.as_deref()), (message, mend), "{text}");
    }
    for text in ["", "now", "2026", "2026-03", "2026-03-14T7:40", "2026-03-14T07", "2026-03-14T07:40+1", "2026-03-14x"]
    {
        let problem = Moment::parse(text).unwrap_err();
        assert!(problem.message.ends_with("is not a date or time"), "{text}: {problem:?}");
    }
}

#[test]
fn times_subtract_if_their_clocks_are_the_same_sort() {
    assert_eq!(moment("2026-03-15T09:00").since(moment("2026-03-14T07:40")), Ok(91_200.0));
    assert_eq!(moment("2026-03-15T09:00+01:00").since(moment("2026-03-15T08:00Z")), Ok(0.0));
    assert_eq!(moment("2027-01-12").since(moment("2026-01-12")), Ok(365.0 * 86_400.0));
    assert!(
        moment("2026-03-15T09:00Z").since(moment("2026-03-14T07:40")).unwrap_err().contains("write both the same way")
    );
    assert!(moment("2026-03-15").since(moment("2026-03-14T07:40")).unwrap_err().contains("2026-03-15T00:00"));
}

#[test]
fn times_move_and_days_move_by_days() {
    assert_eq!(moment("2026-02-28T23:30").plus(3_600.0).unwrap().to_string(), "2026-03-01T00:30");
    assert_eq!(moment("2026-02-28").plus(86_400.0).unwrap().to_string(), "2026-03-01");
    assert!(moment("2026-02-28").plus(3_600.0).is_err());
    assert!(moment("9999-12-31T00:00").plus(1e9).is_err());
    assert!(moment("2026-02-28T00:00").plus(f64::MAX).is_err());
    assert!(moment("2026-02-28T00:00").plus(f64::NAN).is_err());
}

#[test]
fn a_date_is_the_whole_day() {
    let day = moment("2026-03-14");
    for (text, order) in [
        ("2026-03-13T23:59", Ordering::Less),
        ("2026-03-14T00:00", Ordering::Equal),
        ("2026-03-14T23:59:59", Ordering::Equal),
        ("2026-03-15T00:00", Ordering::Greater),
        ("2026-03-14T23:30-08:00", Ordering::Equal),
        ("2026-03-14", Ordering::Equal),
    ] {
        assert_eq!(moment(text).compare(day), Ok(order), "{text}");
    }
    assert_eq!(moment("2026-03-14T07:40").compare(moment("2026-03-14T07:41")), Ok(Ordering::Less));
    assert!(moment("2026-03-14T07:40").compare(moment("2026-03-14T07:41Z")).is_err());
}
