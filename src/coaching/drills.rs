//! The drill table: what to swim, with which kit, and one thing to think of.
//!
//! Data and how to choose a row; not where in a session it stands.

use crate::units::{Equipment, Stroke};

use super::rulebook::Words;

/// A row of the drill table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drill {
    /// Its name in sessions.
    pub id: &'static str,
    /// The stroke it is for; [`Stroke::Choice`] for any.
    pub stroke: Stroke,
    /// What it is good for: one word of the fault it cures.
    pub cures: Fault,
    /// Also for those who can hardly swim 50 without a rest.
    pub for_returners: bool,
    /// Only in open water; all others only in a pool.
    pub open_water: bool,
    /// What it is swum with.
    pub equipment: Option<Equipment>,
    /// Sore places that it would load.
    pub loads: &'static [&'static str],
    /// What to do and the one cue.
    pub words: Words,
}

/// What a drill works on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fault {
    /// Legs sink, hips snake.
    Balance,
    /// Holds the breath, lifts the head.
    Breathing,
    /// Slips through the water.
    Catch,
    /// Kick stops or splashes.
    Kick,
    /// Hurried strokes.
    Length,
    /// Flat or over-turned body.
    Rotation,
    /// Arms and legs out of time.
    Timing,
    /// Slow off the wall.
    Turns,
}

/// Every drill.
pub const DRILLS: &[Drill] = &[
    Drill {
        id: "side-kick",
        stroke: Stroke::Free,
        cures: Fault::Balance,
        for_returners: true,
        open_water: false,
        equipment: Some(Equipment::Fins),
        loads: &["shoulder"],
        words: Words {
            en: "kick on your side, lower arm long, breathe when you like",
            es: "piernas de lado, brazo de abajo largo, respira cuando quieras",
        },
    },
    Drill {
        id: "scull-front",
        stroke: Stroke::Free,
        cures: Fault::Catch,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["shoulder"],
        words: Words {
            en: "ten short sculls in front, then swim: fingertips down before you press",
            es: "diez remadas cortas delante y nada: dedos abajo antes de empujar",
        },
    },
    Drill {
        id: "six-change",
        stroke: Stroke::Free,
        cures: Fault::Rotation,
        for_returners: true,
        open_water: false,
        equipment: Some(Equipment::Fins),
        loads: &[],
        words: Words {
            en: "six kicks on the side, then change arms: hip and hand turn together",
            es: "seis patadas de lado y cambia de brazo: cadera y mano giran juntas",
        },
    },
    Drill {
        id: "bubbles",
        stroke: Stroke::Free,
        cures: Fault::Breathing,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &[],
        words: Words {
            en: "easy swim: breathe out in the water before the head turns",
            es: "nado suave: suelta el aire en el agua antes de girar la cabeza",
        },
    },
    Drill {
        id: "catch-up",
        stroke: Stroke::Free,
        cures: Fault::Length,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["shoulder"],
        words: Words {
            en: "one hand waits in front until the other joins it: long from wall to wall",
            es: "una mano espera delante a la otra: largo de pared a pared",
        },
    },
    Drill {
        id: "back-balance",
        stroke: Stroke::Back,
        cures: Fault::Balance,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &[],
        words: Words {
            en: "kick on the back, arms at your sides: hips at the surface",
            es: "piernas de espalda, brazos al lado: caderas arriba",
        },
    },
    Drill {
        id: "two-kicks-one-pull",
        stroke: Stroke::Breast,
        cures: Fault::Timing,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["knee"],
        words: Words {
            en: "two kicks for each pull: hands rest in front while the legs finish",
            es: "dos patadas por brazada: manos quietas delante hasta acabar la patada",
        },
    },
    Drill {
        id: "one-arm-fly",
        stroke: Stroke::Fly,
        cures: Fault::Timing,
        for_returners: false,
        open_water: false,
        equipment: Some(Equipment::Fins),
        loads: &["shoulder", "back", "neck"],
        words: Words {
            en: "one arm only, the other in front: hips up as the hand goes in",
            es: "un solo brazo, el otro delante: cadera arriba al entrar la mano",
        },
    },
];

/// The row of that id.
pub fn drill(id: &str) -> Option<&'static Drill> {
    DRILLS.iter().find(|drill| drill.id == id)
}
