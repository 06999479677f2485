//! JSON without double names: two readers of one record must not see two records.

use std::fmt;

use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Value};

/// A value as read; a name that stands twice in an object is refused. The reader bounds how deep values lie in one
/// another.
pub fn read(text: &str) -> serde_json::Result<Value> {
    serde_json::from_str::<Strict>(text).map(|strict| strict.0)
}

struct Strict(Value);

impl<'de> Deserialize<'de> for Strict {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Strict, D::Error> {
        deserializer.deserialize_any(Any).map(Strict)
    }
}

struct Any;

impl<'de> Visitor<'de> for Any {
    type Value = Value;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("JSON")
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E: Error>(self, value: bool) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_str<E: Error>(self, value: &str) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_string<E: Error>(self, value: String) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        while let Some(Strict(item)) = items.next_element()? {
            list.push(item);
        }
        Ok(Value::Array(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some((name, Strict(value))) = members.next_entry::<String, Strict>()? {
            if map.contains_key(&name) {
                return Err(A::Error::custom(format!("the name {name:?} stands twice in one object")));
            }
            map.insert(name, value);
        }
        Ok(Value::Object(map))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::read;

    #[test]
    fn a_name_that_stands_twice_is_refused() {
        assert!(read(r#"{"a":1,"b":{"c":[1,{"d":2,"d":2}]}}"#).unwrap_err().to_string().contains("\"d\" stands twice"));
        assert_eq!(read(r#"{"a":1,"b":[true,null,-2.5,"x"]}"#).unwrap()["b"][2], -2.5);
    }

    #[test]
    fn what_lies_too_deep_is_refused() {
        assert!(read(&"[".repeat(100_000)).is_err());
    }
}
