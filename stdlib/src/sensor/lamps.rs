//! Displays of lamps that each stand for a number.

/// Lamps at most: more would not be whole in a double.
pub const MOST: usize = 32;

/// How lamps stand for a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Coding {
    /// 1, 2, 4, 8, …
    Binary,
    /// Four lamps to a decimal digit: 1, 2, 4, 8, 10, 20, 40, 80, …
    Decimal,
}

/// What the lamp of this place stands for, the least first.
fn weight(place: usize, coding: Coding) -> u64 {
    match coding {
        Coding::Binary => 1 << place,
        Coding::Decimal => (1 << (place % 4)) * 10_u64.pow(place as u32 / 4),
    }
}

/// The number that lit lamps stand for, the lamp of least weight first; nothing for too many lamps, or for a decimal
/// digit above nine.
pub fn number(lit: &[bool], coding: Coding) -> Option<u64> {
    if lit.len() > MOST {
        return None;
    }
    if coding == Coding::Decimal && lit.chunks(4).any(|digit| number(digit, Coding::Binary).is_none_or(|n| n > 9)) {
        return None;
    }
    Some(lit.iter().enumerate().filter(|(_, lit)| **lit).map(|(place, _)| weight(place, coding)).sum())
}

/// Which lamps are lit for a number, the lamp of least weight first; nothing if there are too few lamps.
pub fn lit(number: u64, lamps: usize, coding: Coding) -> Option<Vec<bool>> {
    if lamps > MOST {
        return None;
    }
    let mut left = number;
    let mut lit = vec![false; lamps];
    for place in (0..lamps).rev() {
        let weight = weight(place, coding);
        if left >= weight {
            left -= weight;
            if let Some(lamp) = lit.get_mut(place) {
                *lamp = true;
            }
        }
    }
    (left == 0).then_some(lit)
}

#[cfg(test)]
mod tests {
    use super::{Coding, lit, number};

    /// Worked by hand: {1, 4, 32} is 37, seven lamps all lit 127, decimal tens 0100 and units 0111 are 47.
    #[test]
    fn worked_cases() {
        assert_eq!(number(&[true, false, true, false, false, true], Coding::Binary), Some(37));
        assert_eq!(number(&[true, true, false, true], Coding::Binary), Some(11));
        assert_eq!(number(&[true; 7], Coding::Binary), Some(127));
        let decimal = [true, true, true, false, false, false, true, false];
        assert_eq!(number(&decimal, Coding::Decimal), Some(47));
        assert_eq!(number(&[false, true, false, true], Coding::Decimal), None);
        assert_eq!(number(&[true; 33], Coding::Binary), None);
    }

    #[test]
    fn there_and_back() {
        for n in 0..128 {
            assert_eq!(lit(n, 7, Coding::Binary).and_then(|lit| number(&lit, Coding::Binary)), Some(n));
        }
        for n in 0..100 {
            assert_eq!(lit(n, 8, Coding::Decimal).and_then(|lit| number(&lit, Coding::Decimal)), Some(n));
        }
        assert_eq!(lit(128, 7, Coding::Binary), None);
    }
}
