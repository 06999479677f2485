//! Values while a plan runs: one, or one a row, each known, pending, left out or broken.

use std::borrow::Cow;
use std::sync::Arc;

use super::doubt::Doubt;
use super::fault::Fault;
pub use super::states::{Mark, States};
use crate::moment::Moment;

/// One value (length 1), or a value a row. A length of 1 stands for any number of rows with the same value.
#[derive(Debug, Clone)]
pub struct Block {
    /// The values; of those not known something arbitrary.
    pub data: Data,
    /// What is known of each.
    pub states: States,
}

/// The values of a block, all of one sort.
#[derive(Debug, Clone)]
pub enum Data {
    /// Numbers and quantities in SI.
    Numbers(Vec<f64>),
    /// Texts, refrigerants, gases.
    Texts(Vec<Arc<str>>),
    /// Flags.
    Flags(Vec<bool>),
    /// Times.
    Moments(Vec<Moment>),
    /// Fields of a record, each as long as the block.
    Record(Vec<Block>),
    /// Nothing is known of any of this many values.
    Nothing(usize),
}

impl Block {
    /// Numbers, all known.
    pub fn numbers(values: Vec<f64>) -> Block {
        Block { data: Data::Numbers(values), states: States::known() }
    }

    /// One number.
    pub fn number(value: f64) -> Block {
        Block::numbers(vec![value])
    }

    /// One text.
    pub fn text(text: Arc<str>) -> Block {
        Block { data: Data::Texts(vec![text]), states: States::known() }
    }

    /// Flags, all known.
    pub fn flags(values: Vec<bool>) -> Block {
        Block { data: Data::Flags(values), states: States::known() }
    }

    /// One time.
    pub fn moment(moment: Moment) -> Block {
        Block { data: Data::Moments(vec![moment]), states: States::known() }
    }

    /// Values not taken yet.
    pub fn pending(length: usize) -> Block {
        Block { data: Data::Nothing(length), states: States::all(Mark::Pending, length) }
    }

    /// One value that cannot be computed.
    pub fn broken(fault: Fault) -> Block {
        let mut states = States::known();
        states.break_at(0, Arc::new(fault), 1);
        Block { data: Data::Nothing(1), states }
    }

    /// How many values.
    pub fn len(&self) -> usize {
        match &self.data {
            Data::Numbers(values) => values.len(),
            Data::Texts(values) => values.len(),
            Data::Flags(values) => values.len(),
            Data::Moments(values) => values.len(),
            Data::Record(fields) => fields.first().map_or(1, Block::len),
            Data::Nothing(length) => *length,
        }
    }

    /// How many values it holds, all fields of a record counted.
    pub fn values(&self) -> usize {
        match &self.data {
            Data::Record(fields) => fields.iter().map(Block::values).sum(),
            _ => self.len(),
        }
    }

    /// How many bytes its texts have.
    pub fn text_bytes(&self) -> usize {
        match &self.data {
            Data::Texts(texts) => texts.iter().map(|text| text.len()).sum(),
            Data::Record(fields) => fields.iter().map(Block::text_bytes).sum(),
            _ => 0,
        }
    }

    /// Whether there is no value.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The mark of one value.
    pub fn mark(&self, at: usize) -> Mark {
        self.states.mark(at)
    }

    /// Whether one value is known.
    pub fn is_known(&self, at: usize) -> bool {
        self.mark(at) == Mark::Known
    }

    /// The numbers; zeros where nothing is known.
    pub fn as_numbers(&self) -> Cow<'_, [f64]> {
        match &self.data {
            Data::Numbers(values) => Cow::Borrowed(values),
            other => {
                debug_assert!(matches!(other, Data::Nothing(_)), "what holds no numbers is taken for numbers");
                Cow::Owned(vec![0.0; self.len()])
            }
        }
    }

    /// The numbers, taken over.
    pub fn into_numbers(self) -> (Vec<f64>, States) {
        let length = self.len();
        match self.data {
            Data::Numbers(values) => (values, self.states),
            other => {
                debug_assert!(matches!(other, Data::Nothing(_)), "what holds no numbers is taken for numbers");
                (vec![0.0; length], self.states)
            }
        }
    }

    /// One number, if it is known.
    pub fn number_at(&self, at: usize) -> Option<f64> {
        if !self.is_known(at) {
            return None;
        }
        match &self.data {
            Data::Numbers(values) => values.get(if values.len() == 1 { 0 } else { at }).copied(),
            _ => None,
        }
    }

    /// One flag, if it is known.
    pub fn flag_at(&self, at: usize) -> Option<bool> {
        if !self.is_known(at) {
            return None;
        }
        match &self.data {
            Data::Flags(values) => values.get(if values.len() == 1 { 0 } else { at }).copied(),
            _ => None,
        }
    }

    /// One text, if it is known.
    pub fn text_at(&self, at: usize) -> Option<&Arc<str>> {
        if !self.is_known(at) {
            return None;
        }
        match &self.data {
            Data::Texts(values) => values.get(if values.len() == 1 { 0 } else { at }),
            _ => None,
        }
    }

    /// One time, if it is known.
    pub fn moment_at(&self, at: usize) -> Option<Moment> {
        if !self.is_known(at) {
            return None;
        }
        match &self.data {
            Data::Moments(values) => values.get(if values.len() == 1 { 0 } else { at }).copied(),
            _ => None,
        }
    }

    /// Some rows; a uniform block stays as it is.
    pub fn slice(&self, start: usize, length: usize) -> Block {
        if self.len() == 1 {
            return self.clone();
        }
        fn part<T: Clone>(values: &[T], start: usize, length: usize) -> Vec<T> {
            values.get(start..start + length).unwrap_or(&[]).to_vec()
        }
        let data = match &self.data {
            Data::Numbers(values) => Data::Numbers(part(values, start, length)),
            Data::Texts(values) => Data::Texts(part(values, start, length)),
            Data::Flags(values) => Data::Flags(part(values, start, length)),
            Data::Moments(values) => Data::Moments(part(values, start, length)),
            Data::Record(fields) => Data::Record(fields.iter().map(|field| field.slice(start, length)).collect()),
            Data::Nothing(_) => Data::Nothing(length),
        };
        Block { data, states: self.states.slice(start, length) }
    }

    /// One row.
    pub fn row(&self, at: usize) -> Block {
        if self.len() == 1 { self.clone() } else { self.slice(at, 1) }
    }

    /// A uniform block spread over this many rows.
    pub fn spread(self, length: usize) -> Block {
        if self.len() == length || self.len() != 1 {
            return self;
        }
        fn fill<T: Clone>(values: &[T], length: usize) -> Vec<T> {
            values.first().map_or_else(Vec::new, |value| vec![value.clone(); length])
        }
        let doubt = self.states.doubt().map(|one| {
            let mut all = Doubt::with_room(length);
            (0..length).for_each(|_| all.push(one.row(0).iter().copied()));
            Box::new(all)
        });
        let mut states = States::known().with_doubt(doubt);
        let mark = self.states.mark(0);
        for at in 0..length {
            match (mark, self.states.fault(0)) {
                (Mark::Known, _) => break,
                (Mark::Broken, Some(fault)) => states.break_at(at, fault.clone(), length),
                (other, _) => states.set(at, other, length),
            }
        }
        let data = match self.data {
            Data::Numbers(values) => Data::Numbers(fill(&values, length)),
            Data::Texts(values) => Data::Texts(fill(&values, length)),
            Data::Flags(values) => Data::Flags(fill(&values, length)),
            Data::Moments(values) => Data::Moments(fill(&values, length)),
            Data::Record(fields) => Data::Record(fields.into_iter().map(|field| field.spread(length)).collect()),
            Data::Nothing(_) => Data::Nothing(length),
        };
        Block { data, states }
    }

    /// One block out of single values, in order.
    pub fn gather(rows: Vec<Block>) -> Block {
        let length = rows.len();
        let mut states = States::known();
        for (at, row) in rows.iter().enumerate() {
            match (row.mark(0), row.states.fault(0)) {
                (Mark::Known, _) => {}
                (Mark::Broken, Some(fault)) => states.break_at(at, fault.clone(), length),
                (mark, _) => states.set(at, mark, length),
            }
        }
        if rows.iter().any(|row| row.states.doubt().is_some()) {
            let mut doubt = Doubt::with_room(length);
            rows.iter().for_each(|row| doubt.push(row.states.doubt_at(0).iter().copied()));
            states = states.with_doubt(Some(Box::new(doubt)));
        }
        // The sort of a block is that of its first value of which something is known.
        let sample = rows.iter().find(|row| !matches!(row.data, Data::Nothing(_)));
        let data = match sample.map(|row| &row.data) {
            None | Some(Data::Nothing(_)) => Data::Nothing(length),
            Some(Data::Numbers(_)) => {
                Data::Numbers(rows.iter().map(|row| row.as_numbers().first().copied().unwrap_or(0.0)).collect())
            }
            Some(Data::Texts(_)) => {
                let none: Arc<str> = Arc::from("");
                Data::Texts(rows.iter().map(|row| row.text_at(0).unwrap_or(&none).clone()).collect())
            }
            Some(Data::Flags(_)) => Data::Flags(rows.iter().map(|row| row.flag_at(0).unwrap_or(false)).collect()),
            Some(Data::Moments(_)) => {
                let none = Moment { seconds: 0.0, offset: None, whole_day: false };
                Data::Moments(rows.iter().map(|row| row.moment_at(0).unwrap_or(none)).collect())
            }
            Some(Data::Record(fields)) => {
                let count = fields.len();
                Data::Record(
                    (0..count).map(|field| Block::gather(rows.iter().map(|row| row.field(field)).collect())).collect(),
                )
            }
        };
        Block { data, states }
    }

    /// A field of a record, with what is known of the record itself.
    pub fn field(&self, at: usize) -> Block {
        match &self.data {
            Data::Record(fields) => match fields.get(at) {
                Some(field) => {
                    let length = self.len();
                    let doubt = field.states.doubt().map(|doubt| Box::new(doubt.clone()));
                    Block {
                        data: field.data.clone(),
                        states: self.states.merge(&field.states, length).with_doubt(doubt),
                    }
                }
                None => Block::pending(self.len()),
            },
            _ => Block { data: Data::Nothing(self.len()), states: self.states.clone() },
        }
    }

    /// Makes room for this many rows in all.
    pub fn reserve(&mut self, rows: usize) {
        if let Data::Numbers(values) = &mut self.data {
            values.reserve_exact(rows.saturating_sub(values.len()));
        }
    }

    /// Appends further rows of the same sort.
    pub fn append(&mut self, more: Block) {
        let (before, added) = (self.len(), more.len());
        self.states.append(&more.states, before, added);
        match (&mut self.data, more.data) {
            (Data::Numbers(values), Data::Numbers(more)) => values.extend(more),
            (Data::Texts(values), Data::Texts(more)) => values.extend(more),
            (Data::Flags(values), Data::Flags(more)) => values.extend(more),
            (Data::Moments(values), Data::Moments(more)) => values.extend(more),
            (Data::Record(fields), Data::Record(more)) => {
                for (field, more) in fields.iter_mut().zip(more) {
                    field.append(more);
                }
            }
            (Data::Nothing(length), Data::Nothing(more)) => *length += more,
            (data, more) => {
                // One of the two is unknown throughout: give it the other's sort.
                let more = like(more, data, added);
                let own = std::mem::replace(data, Data::Nothing(0));
                *data = like(own, &more, before);
                let mut joined = Block { data: std::mem::replace(data, Data::Nothing(0)), states: States::known() };
                joined.append(Block { data: more, states: States::known() });
                *data = joined.data;
            }
        }
    }
}

/// Unknown values as arbitrary ones of the sort of others.
fn like(data: Data, sample: &Data, length: usize) -> Data {
    match (&data, sample) {
        (Data::Nothing(_), Data::Numbers(_)) => Data::Numbers(vec![0.0; length]),
        (Data::Nothing(_), Data::Texts(_)) => Data::Texts(vec![Arc::from(""); length]),
        (Data::Nothing(_), Data::Flags(_)) => Data::Flags(vec![false; length]),
        (Data::Nothing(_), Data::Moments(_)) => {
            Data::Moments(vec![Moment { seconds: 0.0, offset: None, whole_day: false }; length])
        }
        (Data::Nothing(_), Data::Record(fields)) => Data::Record(
            fields
                .iter()
                .map(|field| Block {
                    data: like(Data::Nothing(length), &field.data, length),
                    states: States::all(Mark::Pending, length),
                })
                .collect(),
        ),
        _ => data,
    }
}
