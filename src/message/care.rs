//! What is answered with care, though nobody is in danger.

/// What a text is to be answered with care for; the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Concern {
    /// Holding the breath, by any name: refused.
    BreathHold,
    /// Something between them and a clinician that makes them swim easy.
    Easing,
    /// Weight, food, the body: for a clinician or someone they trust.
    Gentle,
    /// Low spirits, a death: a kind word, and whom to talk to.
    Low,
    /// Fear of the water, panic in it: stay where one can stand, and tell the coach.
    Afraid,
    /// Whether they may swim: nobody here says yes.
    MaySwim,
    /// A medicine, an operation, a period: what only a clinician can say more of.
    Clinician,
    /// A clinician has cleared them, they say.
    Cleared,
    /// Dives.
    Dive,
    /// Swimming with nobody there.
    Alone,
    /// The sea, a lake, a river.
    OpenWater,
}
