//! What must hold of an evening at every instant, and from one to the next.

use std::collections::BTreeSet;

use lapwing::coaching::Rulebook;
use lapwing::desk::{Asked, board};
use lapwing::history::{BoardOpen, StrangersAsked};
use lapwing::swim::levels::Band;
use lapwing::units::{Centis, Distance, Level, Unit};
use rand::seq::IteratorRandom;

use crate::at_random::{Night, Tally};
use crate::squad::COACH;
use crate::told::{Swim, Told, Version, names, repeats};

impl Night {
    /// All answers at this instant, against each other and against what must hold.
    pub fn agrees(&mut self, told: &Told, tally: &mut Tally) {
        let context = self.context();
        let lanes = self.asks("coach", "lanes");
        if lanes.result["kind"] == "lanes" {
            for lane in lanes.result["lanes"].as_array().unwrap() {
                let names = names(&lane["swimmers"]);
                let number = lane["lane"].as_u64().unwrap();
                let version = told.lanes.get(&number).map(|one| one.swimmers.clone());
                assert_eq!(version.unwrap_or_default(), names, "lane {number}\n{context}");
                let Some(version) = told.lanes.get(&number) else { continue };
                for one in lane["send_offs"].as_array().unwrap() {
                    let on = one["send_off_s"].as_u64();
                    let same =
                        |swim: &Swim| u64::from(swim.far) == one["distance"] && swim.on == on;
                    assert!(version.repeats.iter().any(same), "{one}, lane {number}\n{context}");
                }
            }
        }
        let page = self.page();
        for lane in &page.lanes.lanes {
            let names: Vec<String> =
                lane.swimmers.iter().map(|one| one.who.name.to_string()).collect();
            let version = told.lanes.get(&u64::from(lane.lane)).map(|one| one.swimmers.clone());
            assert_eq!(version.unwrap_or_default(), names, "page, lane {}\n{context}", lane.lane);
        }
        for clock in &page.clock.lanes {
            let version = &told.lanes[&u64::from(clock.lane)];
            assert_eq!(version.duration_s, u64::from(clock.session.duration_s()), "{context}");
        }
        let placed: Vec<&String> = told.lanes.values().flat_map(|lane| &lane.swimmers).collect();
        let once: BTreeSet<&String> = placed.iter().copied().collect();
        assert_eq!(once.len(), placed.len(), "twice in a lane\n{context}");
        for bird in &self.gone {
            assert!(!once.contains(&(*bird).to_owned()), "{bird} is laned\n{context}");
        }
        for bird in &self.here {
            assert!(once.contains(&(*bird).to_owned()), "{bird} is in no lane\n{context}");
        }
        let asked: Vec<&'static str> = self.tested.keys().copied().sample(&mut self.dice, 3);
        for bird in asked {
            self.hears_the_same(bird, told, tally);
        }
        for lane in told.lanes.values() {
            self.is_sound(lane, told, &context);
        }
        let long = told.lanes.values().map(|lane| lane.duration_s);
        let (least, most) = (long.clone().min().unwrap_or(0), long.max().unwrap_or(0));
        if most - least > 120 {
            let apart = format!("{} min apart", (most - least).div_ceil(60));
            let all = format!("{}{}", told.text, self.more());
            assert!(all.contains(&apart), "{apart}: {all}\n{context}");
            tally.apart += 1;
        }
    }

    /// What waited behind the coach's `tonight`.
    fn more(&self) -> String {
        let mut talk = self.talk.clone();
        talk.hears("coach", "tonight");
        (0..6).map(|_| talk.hears("coach", "more").text).collect()
    }

    fn page(&self) -> board::Board {
        let book = &Rulebook::default();
        let strangers_asked = StrangersAsked::default();
        let asked = Asked::alone(COACH, "", self.talk.now, book, &strangers_asked);
        let open = BoardOpen {
            address: COACH.into(),
            of: None,
            token: String::new(),
            opened: self.talk.now,
            until: self.talk.now,
            language: None,
        };
        board::look(&self.talk.squad, &asked, &open).unwrap().shown
    }

    /// A swimmer's own `tonight`: the lane, and its send-offs.
    fn hears_the_same(&self, bird: &'static str, told: &Told, tally: &mut Tally) {
        let heard = self.asks(&self.address(bird), "tonight");
        let lane = told.lanes.iter().find(|(_, lane)| lane.swimmers.iter().any(|one| one == bird));
        let number = heard.result["lane"].as_u64();
        let context = || format!("{bird}: {}\n{}", heard.text, self.context());
        assert_eq!(number, lane.map(|(number, _)| *number), "{}", context());
        let Some((_, lane)) = lane else { return };
        tally.own += 1;
        // Who is new or careful swims the gentle version, on times of their own.
        let gently = heard.result["blocks"]
            .as_array()
            .is_none_or(|blocks| repeats(blocks).iter().all(|one| one.level <= 1));
        if !gently {
            let own = repeats(heard.result["blocks"].as_array().unwrap());
            let on = |all: &[Swim]| all.iter().map(|one| (one.far, one.on)).collect::<Vec<_>>();
            assert_eq!(on(&own), on(&lane.repeats), "{}", context());
        }
    }

    /// Rest and gaps as the level wants, and a swim-down that nobody dawdles.
    fn is_sound(&self, lane: &Version, told: &Told, context: &str) {
        let turn = told.gap_s * lane.swimmers.len() as u64;
        for one in lane.repeats.iter().filter(|_| self.ours) {
            let (Some(on), Some(target)) = (one.on, one.target) else { continue };
            assert!(on >= turn || one.swum, "{one:?}, {turn} s a turn\n{context}");
            if one.level < 3 || one.swum {
                continue;
            }
            let far = Distance::new(one.far, Unit::Metre).unwrap();
            let time = Centis::from_seconds(target).unwrap();
            let usual = Band::of(Level::ALL[one.level - 1]).send_off(far, time).seconds();
            let most = u64::from(usual).max(turn).div_ceil(5) * 5 + 10;
            assert!(on <= most, "{one:?}: {usual} s would do\n{context}");
            assert!(on + 10 >= u64::from(usual), "{one:?}: {usual} s is the least\n{context}");
        }
        let times =
            lane.swimmers.iter().map(|one| self.tested.get(one.as_str()).copied().flatten());
        let Some(slowest) =
            times.collect::<Option<Vec<u32>>>().and_then(|all| all.into_iter().max())
        else {
            return;
        };
        // A threshold of 94 % of a 400, easy swimming of 84 % of that.
        let easy_100_s = f64::from(slowest) / 4.0 / 0.94 / 0.84;
        for one in lane.repeats.iter().filter(|one| one.part == "swim_down" && !one.swum) {
            let Some(on) = one.on.filter(|_| self.ours) else { continue };
            let easy = easy_100_s * f64::from(one.far) / 100.0;
            let most = (1.3 * easy + 5.0).max(turn as f64 + 5.0);
            assert!((on as f64) <= most, "{one:?}: easy is {easy:.0} s\n{context}");
        }
    }

    /// What was swum by the last look is what is told of it now.
    pub fn stays_swum(&self, before: &Told, after: &Told, tally: &mut Tally) {
        for (number, was) in &before.lanes {
            let Some(is) = after.lanes.get(number) else { continue };
            // Whoever changes a set that is over by the clock is behind it.
            if was.repeats.iter().all(|one| one.surely) {
                continue;
            }
            // The one under way may be made longer.
            let swum = was.repeats.iter().filter(|one| one.surely).count().saturating_sub(1);
            let on = |all: &[Swim]| {
                let told = all.iter().take(swum).map(|one| (one.far, one.on, one.part.clone()));
                told.collect::<Vec<_>>()
            };
            assert_eq!(
                on(&was.repeats),
                on(&is.repeats),
                "what lane {number} swam is another\n{}",
                self.context()
            );
            tally.swum += swum;
        }
    }
}
