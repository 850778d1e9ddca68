//! Events as they were written before an evening was kept as one value: read for as
//! long as there are logs that hold them, written no more.

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{EveningBy, EveningKept, LaneKept, SetSource};
use crate::message::Name;
use crate::session::Session;
use crate::units::Lane;

/// The set of a night, apart from its lanes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SetEarlier {
    /// The night.
    pub on: Date,
    /// What it was written from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<SetSource>,
    /// When it began, where that was not with the night.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub begun: Option<Timestamp>,
    /// One version a lane.
    pub lanes: Vec<VersionEarlier>,
}

/// What one lane swims.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct VersionEarlier {
    /// The lane.
    pub lane: Lane,
    /// Who was in it when the set was written.
    pub swimmers: Vec<Name>,
    /// Its version.
    pub session: Session,
}

/// The lanes of a night, apart from its set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DrawnEarlier {
    /// The night.
    pub on: Date,
    /// Every lane there is, lane 1 first.
    pub lanes: Vec<OrderEarlier>,
    /// How many were asked for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asked: Option<u8>,
}

/// Who swims in a lane.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct OrderEarlier {
    /// The lane.
    pub lane: Lane,
    /// In the order they lead off.
    pub swimmers: Vec<Name>,
}

impl SetEarlier {
    /// The evening that it comes to.
    pub fn evening(&self) -> EveningKept {
        let lane = |version: &VersionEarlier| LaneKept {
            lane: version.lane,
            swimmers: version.swimmers.clone(),
            session: Some(version.session.clone()),
            own: Default::default(),
        };
        EveningKept {
            by: EveningBy::Set,
            source: self.source.clone(),
            edited: self.source.is_none(),
            begun: self.begun,
            lanes: self.lanes.iter().map(lane).collect(),
            ..EveningKept::new(self.on)
        }
    }

    /// Takes a swimmer's name out of it.
    pub fn forget(&mut self, who: &Name) {
        self.lanes.iter_mut().for_each(|lane| lane.swimmers.retain(|one| one != who));
    }
}

impl DrawnEarlier {
    /// The evening that it comes to, after what stood `before`.
    pub fn evening(&self, before: Option<&EveningKept>) -> EveningKept {
        let before = before.cloned().unwrap_or_else(|| EveningKept::new(self.on));
        let session = |lane: Lane| {
            let own = before.lanes.iter().find(|known| known.lane == lane);
            own.or(before.lanes.get(before.lanes.len() / 2))?.session.clone()
        };
        let lane = |order: &OrderEarlier| LaneKept {
            lane: order.lane,
            swimmers: order.swimmers.clone(),
            session: session(order.lane),
            own: Default::default(),
        };
        EveningKept {
            by: EveningBy::Lanes,
            drawn: true,
            asked: self.asked,
            lanes: self.lanes.iter().map(lane).collect(),
            ..before
        }
    }

    /// Takes a swimmer's name out of it.
    pub fn forget(&mut self, who: &Name) {
        self.lanes.iter_mut().for_each(|lane| lane.swimmers.retain(|one| one != who));
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::history::Event;

    #[test]
    fn what_was_written_before_is_read_as_an_evening() {
        let drawn = json!({
            "event": "lanes_drawn",
            "drawn": {
                "on": "2026-03-04",
                "lanes": [{ "lane": 1, "swimmers": ["teal"] }, { "lane": 2, "swimmers": [] }],
                "asked": 2,
            },
        });
        let Event::LanesDrawn { drawn } = serde_json::from_value(drawn).unwrap() else { panic!() };
        let evening = drawn.evening(None);
        assert_eq!((evening.lanes.len(), evening.asked, evening.drawn), (2, Some(2), true));
        assert_eq!(evening.lanes[0].swimmers, [Name::new("teal").unwrap()]);
        let set = json!({
            "event": "squad_set_put",
            "set": { "on": "2026-03-04", "lanes": [] },
        });
        let Event::SquadSetPut { set } = serde_json::from_value(set).unwrap() else { panic!() };
        assert_eq!(set.evening().by, EveningBy::Set);
        let said = json!({ "event": "remarked", "text": "gap 10" });
        assert!(matches!(serde_json::from_value(said), Ok(Event::Remarked { .. })));
    }
}
