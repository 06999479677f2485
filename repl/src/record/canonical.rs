//! JSON in its canonical form, RFC 8785: no blanks, members in the order of their names, numbers as ECMAScript writes
//! them. The crates for it cost an audit ten times as much as writing plain JSON does; one of them is the test's oracle.

use std::cmp::Ordering;
use std::io::{self, Write};
use std::ops::Range;

use serde::Serialize;
use serde_json::ser::{CharEscape, Formatter, Serializer};

/// A value's canonical form. Raw JSON inside it is taken as it stands: it must be canonical already.
pub fn canonical<T: Serialize + ?Sized>(value: &T) -> serde_json::Result<String> {
    let mut form = Form::default();
    value.serialize(&mut Serializer::with_formatter(io::sink(), &mut form))?;
    String::from_utf8(form.out).map_err(serde::ser::Error::custom)
}

/// What was written so far. Members are written in the order they come and put in order at the end of their object.
#[derive(Default)]
struct Form {
    out: Vec<u8>,
    /// Where each open object begins, and how many members stood before it.
    objects: Vec<(usize, usize)>,
    /// Members of all open objects.
    members: Vec<Member>,
    scratch: Vec<u8>,
}

#[derive(Clone)]
struct Member {
    /// The name with its quotes.
    name: Range<usize>,
    /// Up to where the value goes.
    end: usize,
}

impl Form {
    fn put(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.out.extend_from_slice(bytes);
        Ok(())
    }

    fn number(&mut self, number: f64) -> io::Result<()> {
        if !number.is_finite() {
            return Err(io::Error::new(io::ErrorKind::InvalidInput, "JSON has no number that is not finite"));
        }
        self.put(ryu_js::Buffer::new().format_finite(number).as_bytes())
    }

    /// RFC 8785, 3.2.3: names are ordered by their UTF-16 code units.
    fn order(&self, one: &Member, other: &Member) -> Ordering {
        let bare = |member: &Member| self.out.get(member.name.start + 1..member.name.end - 1).unwrap_or_default();
        let plain = |name: &[u8]| name.is_ascii() && !name.contains(&b'\\');
        let (a, b) = (bare(one), bare(other));
        if plain(a) && plain(b) {
            return a.cmp(b);
        }
        let units = |member: &Member| -> Vec<u16> {
            let quoted = self.out.get(member.name.clone()).unwrap_or_default();
            serde_json::from_slice::<String>(quoted).unwrap_or_default().encode_utf16().collect()
        };
        units(one).cmp(&units(other))
    }

    fn end_object(&mut self) -> io::Result<()> {
        let (start, before) = self.objects.pop().unwrap_or_default();
        let mut members = self.members.split_off(before);
        let sorted = |pair: &[Member]| self.order(&pair[0], &pair[1]).is_lt();
        if !members.windows(2).all(sorted) {
            members.sort_by(|one, other| self.order(one, other));
            if !members.windows(2).all(sorted) {
                return Err(io::Error::new(io::ErrorKind::InvalidData, "a name stands twice in an object"));
            }
            self.scratch.clear();
            for (index, member) in members.iter().enumerate() {
                if index > 0 {
                    self.scratch.push(b',');
                }
                self.scratch.extend_from_slice(self.out.get(member.name.start..member.end).unwrap_or_default());
            }
            self.out.truncate(start);
            self.out.extend_from_slice(&self.scratch);
        }
        self.put(b"}")
    }
}

/// All numbers are doubles.
macro_rules! as_double {
    ($($name:ident: $type:ty),*) => {
        $(fn $name<W: ?Sized + Write>(&mut self, _: &mut W, value: $type) -> io::Result<()> {
            self.number(value as f64)
        })*
    };
}

impl Formatter for &mut Form {
    as_double!(write_i8: i8, write_i16: i16, write_i32: i32, write_i64: i64, write_i128: i128);
    as_double!(write_u8: u8, write_u16: u16, write_u32: u32, write_u64: u64, write_u128: u128);
    as_double!(write_f32: f32, write_f64: f64);

    fn write_number_str<W: ?Sized + Write>(&mut self, _: &mut W, value: &str) -> io::Result<()> {
        let number = value.parse().map_err(|error| io::Error::new(io::ErrorKind::InvalidInput, error))?;
        self.number(number)
    }

    fn write_null<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        self.put(b"null")
    }

    fn write_bool<W: ?Sized + Write>(&mut self, _: &mut W, value: bool) -> io::Result<()> {
        self.put(if value { b"true" } else { b"false" })
    }

    fn begin_string<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        self.put(b"\"")
    }

    fn end_string<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        self.put(b"\"")
    }

    fn write_string_fragment<W: ?Sized + Write>(&mut self, _: &mut W, fragment: &str) -> io::Result<()> {
        self.put(fragment.as_bytes())
    }

    /// RFC 8785, 3.2.2.2: the short escapes where there are, else four small hexadecimal digits.
    fn write_char_escape<W: ?Sized + Write>(&mut self, _: &mut W, escape: CharEscape) -> io::Result<()> {
        let short: &[u8] = match escape {
            CharEscape::Quote => b"\\\"",
            CharEscape::ReverseSolidus => b"\\\\",
            CharEscape::Solidus => b"/",
            CharEscape::Backspace => b"\\b",
            CharEscape::FormFeed => b"\\f",
            CharEscape::LineFeed => b"\\n",
            CharEscape::CarriageReturn => b"\\r",
            CharEscape::Tab => b"\\t",
            CharEscape::AsciiControl(byte) => return self.put(format!("\\u{byte:04x}").as_bytes()),
        };
        self.put(short)
    }

    fn begin_array<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        self.put(b"[")
    }

    fn end_array<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        self.put(b"]")
    }

    fn begin_array_value<W: ?Sized + Write>(&mut self, _: &mut W, first: bool) -> io::Result<()> {
        if first { Ok(()) } else { self.put(b",") }
    }

    fn end_array_value<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        Ok(())
    }

    fn begin_object<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        self.put(b"{")?;
        self.objects.push((self.out.len(), self.members.len()));
        Ok(())
    }

    fn end_object<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        Form::end_object(self)
    }

    fn begin_object_key<W: ?Sized + Write>(&mut self, _: &mut W, first: bool) -> io::Result<()> {
        if !first {
            self.put(b",")?;
        }
        let start = self.out.len();
        self.members.push(Member { name: start..start, end: start });
        Ok(())
    }

    fn end_object_key<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        let end = self.out.len();
        if let Some(member) = self.members.last_mut() {
            member.name.end = end;
        }
        Ok(())
    }

    fn begin_object_value<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        self.put(b":")
    }

    fn end_object_value<W: ?Sized + Write>(&mut self, _: &mut W) -> io::Result<()> {
        let end = self.out.len();
        if let Some(member) = self.members.last_mut() {
            member.end = end;
        }
        Ok(())
    }

    fn write_raw_fragment<W: ?Sized + Write>(&mut self, _: &mut W, fragment: &str) -> io::Result<()> {
        self.put(fragment.as_bytes())
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use proptest::prelude::*;
    use serde_json::Value;

    use super::*;

    fn form(text: &str) -> String {
        canonical(&serde_json::from_str::<Value>(text).unwrap()).unwrap()
    }

    /// RFC 8785, 3.2.2 and 3.2.3, the example and its canonical form.
    #[test]
    fn the_example_of_the_standard() {
        let text = r#"{
            "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
            "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
            "literals": [null, true, false]
        }"#;
        let expected = r#"{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}"#;
        assert_eq!(form(text), expected);
    }

    /// RFC 8785, 3.2.3: the order of names.
    #[test]
    fn names_are_ordered_by_their_code_units() {
        let text = r#"{
            "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
            "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
        }"#;
        let form = form(text);
        let values = ["Carriage Return", "One", "Control", "Latin Small", "Euro Sign", "Emoji", "Hebrew"];
        let places: Vec<usize> = values.iter().map(|value| form.find(value).unwrap()).collect();
        assert!(places.is_sorted(), "{form}");
    }

    /// RFC 8785, appendix B: bits of a double and how it is written.
    #[test]
    fn numbers_of_the_standard() {
        for (bits, text) in [
            (0x0000_0000_0000_0000, "0"),
            (0x8000_0000_0000_0000, "0"),
            (0x0000_0000_0000_0001, "5e-324"),
            (0x8000_0000_0000_0001, "-5e-324"),
            (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
            (0xffef_ffff_ffff_ffff, "-1.7976931348623157e+308"),
            (0x4340_0000_0000_0000, "9007199254740992"),
            (0xc340_0000_0000_0000, "-9007199254740992"),
            (0x4430_0000_0000_0000, "295147905179352830000"),
            (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
            (0x44b5_2d02_c7e1_4af6, "1e+23"),
            (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
            (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
            (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
            (0x444b_1ae4_d6e2_ef50, "1e+21"),
            (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
            (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
            (0x41b3_de43_5555_5553, "333333333.3333332"),
            (0x41b3_de43_5555_5554, "333333333.33333325"),
            (0x41b3_de43_5555_5555, "333333333.3333333"),
            (0x41b3_de43_5555_5556, "333333333.3333334"),
            (0x41b3_de43_5555_5557, "333333333.33333343"),
            (0xbecb_f647_612f_3696, "-0.0000033333333333333333"),
            (0x4314_3ff3_c1cb_0959, "1424953923781206.2"),
        ] {
            assert_eq!(canonical(&f64::from_bits(bits)).unwrap(), text, "{bits:016x}");
        }
        assert_eq!(canonical(&1_u64).unwrap(), "1");
    }

    fn any_json() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<f64>().prop_filter("finite", |number| number.is_finite()).prop_map(Value::from),
            any::<i32>().prop_map(Value::from),
            any::<String>().prop_map(Value::from),
        ];
        leaf.prop_recursive(5, 60, 8, |inner| {
            prop_oneof![
                proptest::collection::vec(inner.clone(), 0..8).prop_map(Value::from),
                proptest::collection::btree_map(any::<String>(), inner, 0..8)
                    .prop_map(|members| Value::Object(members.into_iter().collect())),
            ]
        })
    }

    proptest! {
        #[test]
        fn another_make_writes_the_same(value in any_json()) {
            prop_assert_eq!(canonical(&value).unwrap().into_bytes(), serde_json_canonicalizer::to_vec(&value).unwrap());
        }
    }
}
