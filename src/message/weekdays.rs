//! Lists of weekdays as records keep them: Monday 1 to Sunday 7.

use jiff::civil::Weekday;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

pub fn serialize<S: Serializer>(days: &[Weekday], to: S) -> Result<S::Ok, S::Error> {
    days.iter().map(|day| day.to_monday_one_offset()).collect::<Vec<_>>().serialize(to)
}

pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Weekday>, D::Error> {
    Vec::<i8>::deserialize(from)?
        .into_iter()
        .map(|day| Weekday::from_monday_one_offset(day).map_err(serde::de::Error::custom))
        .collect()
}
