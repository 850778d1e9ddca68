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

/// Every drill. None has a breath to hold or a distance to stay under water.
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
        id: "still-head",
        stroke: Stroke::Free,
        cures: Fault::Balance,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &[],
        words: Words {
            en: "easy swim: eyes down, the back of the head stays at the surface",
            es: "nado suave: mirada abajo, la nuca se queda en la superficie",
        },
    },
    Drill {
        id: "torpedo-kick",
        stroke: Stroke::Free,
        cures: Fault::Balance,
        for_returners: false,
        open_water: false,
        equipment: Some(Equipment::Snorkel),
        loads: &[],
        words: Words {
            en: "kick on the front, arms at your sides: press the chest, hips rise",
            es: "piernas boca abajo, brazos al lado: pecho abajo, cadera arriba",
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
        id: "one-eye",
        stroke: Stroke::Free,
        cures: Fault::Breathing,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["neck"],
        words: Words {
            en: "easy swim: one eye stays in the water as you breathe",
            es: "nado suave: un ojo se queda en el agua al respirar",
        },
    },
    Drill {
        id: "other-side",
        stroke: Stroke::Free,
        cures: Fault::Breathing,
        for_returners: false,
        open_water: false,
        equipment: None,
        loads: &["neck"],
        words: Words {
            en: "breathe to your weaker side on each second 25: same roll on both sides",
            es: "respira al lado malo en cada segundo 25: mismo giro a ambos lados",
        },
    },
    Drill {
        id: "scull-front",
        stroke: Stroke::Free,
        cures: Fault::Catch,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["shoulder", "elbow"],
        words: Words {
            en: "ten short sculls in front, then swim: fingertips down before you press",
            es: "diez remadas cortas delante y nada: dedos abajo antes de empujar",
        },
    },
    Drill {
        id: "fists",
        stroke: Stroke::Free,
        cures: Fault::Catch,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &[],
        words: Words {
            en: "swim with closed fists, last 10 m open: feel the forearm hold the water",
            es: "nada con puños cerrados, últimos 10 m abiertos: siente el antebrazo",
        },
    },
    Drill {
        id: "dog-paddle",
        stroke: Stroke::Free,
        cures: Fault::Catch,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &[],
        words: Words {
            en: "long dog paddle under water: elbow high, hand back to the hip",
            es: "perrito largo bajo el agua: codo alto, mano hasta la cadera",
        },
    },
    Drill {
        id: "quick-feet",
        stroke: Stroke::Free,
        cures: Fault::Kick,
        for_returners: true,
        open_water: false,
        equipment: Some(Equipment::Fins),
        loads: &["knee"],
        words: Words {
            en: "kick on the back, arms at your sides: toes just break the surface",
            es: "piernas de espalda, brazos al lado: los pies apenas salen",
        },
    },
    Drill {
        id: "vertical-start",
        stroke: Stroke::Free,
        cures: Fault::Kick,
        for_returners: false,
        open_water: false,
        equipment: None,
        loads: &["back"],
        words: Words {
            en: "six fast kicks off the wall, then swim: small and from the hip",
            es: "seis patadas rápidas desde la pared y nada: pequeñas y desde la cadera",
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
        id: "count-down",
        stroke: Stroke::Free,
        cures: Fault::Length,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &[],
        words: Words {
            en: "count your strokes, one fewer on the second: glide, don't stop",
            es: "cuenta brazadas, una menos en el segundo: desliza sin parar",
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
        id: "zip-up",
        stroke: Stroke::Free,
        cures: Fault::Rotation,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["shoulder"],
        words: Words {
            en: "draw the thumb up your side on the way forward: elbow leads, body rolls",
            es: "sube el pulgar por el costado: el codo guía, el cuerpo gira",
        },
    },
    Drill {
        id: "long-push",
        stroke: Stroke::Free,
        cures: Fault::Turns,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &[],
        words: Words {
            en: "push off long and narrow to the flags at most, then swim: ears between arms",
            es: "empuja largo y estrecho hasta las banderas como mucho: orejas entre brazos",
        },
    },
    Drill {
        id: "front-quadrant",
        stroke: Stroke::Free,
        cures: Fault::Timing,
        for_returners: false,
        open_water: false,
        equipment: Some(Equipment::Snorkel),
        loads: &[],
        words: Words {
            en: "one hand is always in front of the head: patient hands",
            es: "siempre hay una mano delante de la cabeza: manos pacientes",
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
        id: "cup-head",
        stroke: Stroke::Back,
        cures: Fault::Balance,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &[],
        words: Words {
            en: "easy backstroke: head so still that a cup would stand on it",
            es: "espalda suave: cabeza tan quieta que aguanta un vaso",
        },
    },
    Drill {
        id: "back-shoulder",
        stroke: Stroke::Back,
        cures: Fault::Rotation,
        for_returners: true,
        open_water: false,
        equipment: Some(Equipment::Fins),
        loads: &["shoulder"],
        words: Words {
            en: "six kicks on the side, then roll over: shoulder out before the hand",
            es: "seis patadas de lado y gira: sale el hombro antes que la mano",
        },
    },
    Drill {
        id: "back-one-arm",
        stroke: Stroke::Back,
        cures: Fault::Catch,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["shoulder"],
        words: Words {
            en: "one arm only, the other at your side: little finger in, hand to the hip",
            es: "un solo brazo: entra el meñique, mano hasta la cadera",
        },
    },
    Drill {
        id: "two-kicks-one-pull",
        stroke: Stroke::Breast,
        cures: Fault::Timing,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["knee", "hip"],
        words: Words {
            en: "two kicks for each pull: hands rest in front while the legs finish",
            es: "dos patadas por brazada: manos quietas delante hasta acabar la patada",
        },
    },
    Drill {
        id: "breast-scull",
        stroke: Stroke::Breast,
        cures: Fault::Catch,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["elbow"],
        words: Words {
            en: "scull wide in front, legs light: elbows stay ahead of the ribs",
            es: "remadas anchas delante: los codos no pasan de las costillas",
        },
    },
    Drill {
        id: "breast-back-kick",
        stroke: Stroke::Breast,
        cures: Fault::Kick,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["knee", "hip"],
        words: Words {
            en: "breast kick on the back, arms at your sides: heels back, knees under water",
            es: "patada de braza de espalda: talones atrás, rodillas bajo el agua",
        },
    },
    Drill {
        id: "breast-flutter",
        stroke: Stroke::Breast,
        cures: Fault::Balance,
        for_returners: true,
        open_water: false,
        equipment: None,
        loads: &["shoulder"],
        words: Words {
            en: "breast arms with a light free kick: shoulders forward, not up",
            es: "brazos de braza con patada de crol suave: hombros adelante, no arriba",
        },
    },
    Drill {
        id: "one-arm-fly",
        stroke: Stroke::Fly,
        cures: Fault::Timing,
        for_returners: true,
        open_water: false,
        equipment: Some(Equipment::Fins),
        loads: &["shoulder", "back", "neck"],
        words: Words {
            en: "one arm only, the other in front: hips up as the hand goes in",
            es: "un solo brazo, el otro delante: cadera arriba al entrar la mano",
        },
    },
    Drill {
        id: "fly-body",
        stroke: Stroke::Fly,
        cures: Fault::Balance,
        for_returners: true,
        open_water: false,
        equipment: Some(Equipment::Fins),
        loads: &["back", "neck"],
        words: Words {
            en: "wave from the chest, arms at your sides, breathe when you want",
            es: "onda desde el pecho, brazos al lado, respira cuando quieras",
        },
    },
    Drill {
        id: "three-three-three",
        stroke: Stroke::Fly,
        cures: Fault::Length,
        for_returners: false,
        open_water: false,
        equipment: None,
        loads: &["shoulder", "back", "neck"],
        words: Words {
            en: "three left, three right, three whole: soft entry, thumbs at shoulder width",
            es: "tres izquierda, tres derecha, tres completas: entrada suave",
        },
    },
    Drill {
        id: "sighting",
        stroke: Stroke::Free,
        cures: Fault::Timing,
        for_returners: true,
        open_water: true,
        equipment: None,
        loads: &["neck"],
        words: Words {
            en: "eyes up twice in each ten strokes, like a crocodile: kick a little as you look",
            es: "mira al frente dos veces cada diez brazadas, como un cocodrilo",
        },
    },
    Drill {
        id: "draft",
        stroke: Stroke::Free,
        cures: Fault::Length,
        for_returners: true,
        open_water: true,
        equipment: None,
        loads: &[],
        words: Words {
            en: "swim at a partner's hip, then change: long strokes, no touching feet",
            es: "nada a la cadera de un compañero y cambia: brazadas largas",
        },
    },
    Drill {
        id: "buoy-turn",
        stroke: Stroke::Free,
        cures: Fault::Turns,
        for_returners: true,
        open_water: true,
        equipment: None,
        loads: &[],
        words: Words {
            en: "round a mark: three short strokes, then long again",
            es: "rodea una marca: tres brazadas cortas y otra vez largo",
        },
    },
];

/// The row of that id.
pub fn drill(id: &str) -> Option<&'static Drill> {
    DRILLS.iter().find(|drill| drill.id == id)
}
