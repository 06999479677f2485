//! The compact form of tables: whole numbers in as few bytes as they take.

/// Writes numbers.
#[derive(Debug, Default)]
pub struct Writer {
    bytes: Vec<u8>,
}

impl Writer {
    /// What was written.
    pub fn into_bytes(self) -> Vec<u8> {
        self.bytes
    }

    /// A whole number, seven bits to a byte, least significant first.
    pub fn unsigned(&mut self, mut value: u64) {
        while value >= 0x80 {
            self.bytes.push(value as u8 | 0x80);
            value >>= 7;
        }
        self.bytes.push(value as u8);
    }

    /// A whole number with its sign in the lowest bit.
    pub fn signed(&mut self, value: i64) {
        self.unsigned((value << 1 ^ value >> 63) as u64);
    }

    /// A double as it is.
    pub fn float(&mut self, value: f64) {
        self.bytes.extend(value.to_le_bytes());
    }

    /// Bytes as they are.
    pub fn bytes(&mut self, bytes: &[u8]) {
        self.bytes.extend(bytes);
    }

    /// A text.
    pub fn text(&mut self, text: &str) {
        self.unsigned(text.len() as u64);
        self.bytes.extend(text.as_bytes());
    }
}

/// Reads numbers. `None` where the bytes end too early.
#[derive(Clone, Debug)]
pub struct Reader<'a> {
    bytes: &'a [u8],
}

impl<'a> Reader<'a> {
    /// From the beginning of `bytes`.
    pub fn new(bytes: &'a [u8]) -> Self {
        Self { bytes }
    }

    /// Whether all was read.
    pub fn is_done(&self) -> bool {
        self.bytes.is_empty()
    }

    /// What [`Writer::unsigned`] wrote.
    pub fn unsigned(&mut self) -> Option<u64> {
        let mut value = 0;
        let mut shift = 0;
        loop {
            let (&byte, rest) = self.bytes.split_first()?;
            self.bytes = rest;
            value |= u64::from(byte & 0x7F) << shift;
            if byte < 0x80 {
                return Some(value);
            }
            shift += 7;
            if shift > 63 {
                return None;
            }
        }
    }

    /// What [`Writer::signed`] wrote.
    pub fn signed(&mut self) -> Option<i64> {
        let value = self.unsigned()?;
        Some((value >> 1) as i64 ^ -((value & 1) as i64))
    }

    /// What [`Writer::float`] wrote.
    pub fn float(&mut self) -> Option<f64> {
        let (value, rest) = self.bytes.split_first_chunk::<8>()?;
        self.bytes = rest;
        Some(f64::from_le_bytes(*value))
    }

    /// What [`Writer::text`] wrote.
    pub fn text(&mut self) -> Option<&'a str> {
        let length = self.unsigned()? as usize;
        std::str::from_utf8(self.take(length)?).ok()
    }

    /// The next `length` bytes.
    pub fn take(&mut self, length: usize) -> Option<&'a [u8]> {
        if length > self.bytes.len() {
            return None;
        }
        let (taken, rest) = self.bytes.split_at(length);
        self.bytes = rest;
        Some(taken)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_come_back() {
        let mut writer = Writer::default();
        let numbers = [0, 1, -1, 63, -64, 64, 1 << 44, -(1 << 44), i64::MAX, i64::MIN];
        numbers.iter().for_each(|&n| writer.signed(n));
        writer.float(-0.1);
        writer.text("R-32");
        let bytes = writer.into_bytes();
        let mut reader = Reader::new(&bytes);
        for n in numbers {
            assert_eq!(reader.signed(), Some(n));
        }
        assert_eq!(reader.float(), Some(-0.1));
        assert_eq!(reader.text(), Some("R-32"));
        assert!(reader.is_done());
        assert_eq!(reader.unsigned(), None);
    }
}
