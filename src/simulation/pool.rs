//! What a virtual swimmer swims: tests and repeats, by critical speed and a
//! reserve that hard repeats drain and rests refill.

use crate::session::Repeat;
use crate::units::{Centis, Distance};

/// Seconds in which about two thirds of the reserve come back at rest (ours).
const REFILL_S: f64 = 75.0;

/// A swimmer's ability on one day, in units of their pool.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ability {
    /// Seconds for 200, flat out.
    pub time_200_s: f64,
    /// How they slow with distance: `T(D) = T200 * (D/200)^k`.
    pub exponent: f64,
}

impl Ability {
    /// Seconds for `distance`, flat out.
    pub fn time(&self, distance: Distance) -> f64 {
        self.time_200_s * libm::pow(f64::from(distance.amount()) / 200.0, self.exponent)
    }

    /// Critical speed: 200 over the difference of 400 and 200.
    pub fn critical_speed(&self) -> f64 {
        let time_400 = self.time_200_s * libm::pow(2.0, self.exponent);
        200.0 / (time_400 - self.time_200_s)
    }

    /// What can be swum above critical speed before it is used up.
    fn reserve(&self) -> f64 {
        200.0 - self.critical_speed() * self.time_200_s
    }

    /// Their times, unrounded, for a line of repeats with a target: on it while
    /// the reserve lasts, slower after.
    pub fn repeats(&self, line: &Repeat, target: Centis) -> Repeated {
        let (critical, full) = (self.critical_speed(), self.reserve());
        let distance = f64::from(line.distance.amount());
        let (wanted, best) = (target.seconds(), self.time(line.distance));
        let (mut left, mut least) = (full, full);
        let times = (0..line.count)
            .map(|_| {
                // What is left of the reserve bounds the speed of one repeat.
                let affordable = (distance - left).max(distance * 0.2) / critical;
                let time = wanted.max(best).max(affordable);
                left -= (distance - critical * time).max(0.0);
                least = least.min(left);
                let rest = line.send_off.map_or(15.0, |on| on.time().seconds() - time).max(2.0);
                left += (full - left) * (1.0 - libm::exp(-rest / REFILL_S));
                time
            })
            .collect();
        Repeated { times, drained: 1.0 - least / full }
    }
}

/// A line of repeats, swum.
#[derive(Debug, Clone, PartialEq)]
pub struct Repeated {
    /// Seconds for each.
    pub times: Vec<f64>,
    /// How much of the reserve was used up at the worst moment, 0 to 1.
    pub drained: f64,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Level, SendOff, Stroke, Unit};

    /// Common practice, no source: 50s at 200 pace can be held on 1:15, and are
    /// lost by the fourth or fifth on 1:00.
    #[test]
    fn rest_decides_what_is_held() {
        let able = Ability { time_200_s: 192.0, exponent: 1.095 };
        let set = |send_off| Repeat {
            count: 8,
            distance: Distance::new(50, Unit::Metre).unwrap(),
            stroke: Stroke::Free,
            target: Centis::from_whole_seconds(48).ok(),
            send_off: SendOff::new(send_off).ok(),
            rest: None,
            aim: None,
            level: Level::Sprint,
            equipment: vec![],
            cue: None,
        };
        let held = |send_off| {
            let swum = able.repeats(&set(send_off), Centis::from_whole_seconds(48).unwrap());
            swum.times.iter().take_while(|time| **time <= 49.0).count()
        };
        assert!(held(80) >= 7, "{}", held(80));
        assert!(held(60) < held(80), "{} {}", held(60), held(80));
        let slow = able.repeats(&set(75), Centis::from_whole_seconds(60).unwrap());
        assert!(slow.drained.abs() < 1e-9, "slower than critical speed drains nothing");
    }
}
