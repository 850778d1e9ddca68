//! The small words: strokes, kit, levels, days, parts of a session.

use jiff::civil::Weekday;

use super::English;
use crate::coaching;
use crate::reply::phrases::Words;
use crate::session::{Part, Purpose};
use crate::units::{Course, Equipment, Level, Stroke};

impl Words for English {
    fn stroke(&self, stroke: Stroke) -> &'static str {
        match stroke {
            Stroke::Im => "IM",
            other => other.name(),
        }
    }

    fn equipment(&self, equipment: Equipment) -> &'static str {
        match equipment {
            Equipment::PullBuoy => "buoy",
            other => other.name(),
        }
    }

    fn level(&self, level: Level) -> &'static str {
        level.name()
    }

    fn on(&self) -> &'static str {
        "on"
    }

    fn rest(&self) -> &'static str {
        "rest"
    }

    fn part(&self, part: Part) -> &'static str {
        match part {
            Part::WarmUp => "Warm-up",
            Part::Drill => "Drill",
            Part::Build => "Build",
            Part::Test => "TEST",
            Part::Recovery => "Easy",
            Part::Main => "Main",
            Part::SwimDown => "Swim-down",
        }
    }

    fn title(&self, purpose: Purpose) -> &'static str {
        match purpose {
            Purpose::Endurance => "endurance",
            Purpose::PaceHolding => "holding pace",
            Purpose::Race => "race day",
            Purpose::RaceRehearsal => "race rehearsal",
            Purpose::Return => "easy return",
            Purpose::Speed => "speed",
            Purpose::Technique => "technique",
            Purpose::Test => "test",
            Purpose::Threshold => "threshold",
        }
    }

    fn course(&self, course: Course) -> &'static str {
        match course {
            Course::Short25m => "25 m pool",
            Course::Long50m => "50 m pool",
            Course::Short25yd => "25 yd pool",
            Course::OpenWater => "open water",
        }
    }

    fn weekday(&self, day: Weekday) -> &'static str {
        match day {
            Weekday::Monday => "Mon",
            Weekday::Tuesday => "Tue",
            Weekday::Wednesday => "Wed",
            Weekday::Thursday => "Thu",
            Weekday::Friday => "Fri",
            Weekday::Saturday => "Sat",
            Weekday::Sunday => "Sun",
        }
    }

    fn months(&self) -> &'static [&'static str; 12] {
        &["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
    }

    fn and(&self) -> &'static str {
        "and"
    }

    fn or(&self) -> &'static str {
        "or"
    }

    fn sentence(&self, words: coaching::Words) -> String {
        words.en.to_owned()
    }
}
