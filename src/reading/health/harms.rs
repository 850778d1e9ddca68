//! Which signs together are words of harm or fear.
//!
//! Sources of the signs: what children's helplines and national safeguarding
//! bodies list for the public: touch, blows, threats, secrets asked for, messages
//! and pictures, bullying, self-harm, thoughts of ending one's life, fear of home.

use super::rule::{Rule, rules};

/// Words of harm or fear: they go one way, and differ in what helps at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Harm {
    /// Of any other kind.
    Any,
    /// Done to oneself, or thought of.
    ToOneself,
}

/// Every rule of harm.
pub const HARMS: &[Rule<Harm>] = rules! { Harm;
    sure Any: [Harm];
    sure Any: [TouchBad];
    sure Any: [Touch], near 4 [Private], near 16 [Unwanted Secret Authority];
    sure Any: [Authority Other], near 8 [Touch], near 12 [Unwanted];
    sure Any: [StrikeMe];
    sure Any: [Kin], then 5 [Strike], then 2 [Me];
    sure Any: [Fear], near 4 [Home];
    sure Any: [StayAway], near 14 [Home];
    sure Any: [Unsafe];
    sure Any: [Kin], near 8 [Rage];
    sure Any: [SelfRage], near 10 [Other Child Secret];
    sure Any: [SecretAdult];
    sure Any: [Message], near 8 [Often Secret Unwanted Fear];
    sure Any: [Contact], near 4 [Child], near 12 [Often Secret Unwanted];
    sure Any: [Secret], near 12 [Touch Message Picture Authority Bruise HurtSelf Strike];
    sure Any: [PictureBad];
    sure Any: [Picture], near 12 [Group], near 12 [Me];
    sure Any: [Picture], near 6 [Unwanted];
    sure Any: [Bully];
    sure Any: [Bruise], near 16 [Doubtful];
    sure Any: [Cry], near 16 [Doubtful];
    sure Any: [Cry], near 14 [Struck];
    sure ToOneself: [HurtSelf];
    sure ToOneself: [HurtSelfWeak] ! [PlaceWord Fall];
    sure ToOneself: [EndLife] ! [DieWeak];
    sure ToOneself: [DieWeak] ! [Effort];
    sure Any: [Hopeless];
    sure ToOneself: [ArmsHidden];
    sure ToOneself: [Cover], near 16 [ArmsHidden Secret];
    sure ToOneself: [Pills], near 8 [EndLife];
    sure ToOneself: [Pills], near 16 [Deliberate];
    sure Any: [Other Child], near 12 [Fear], near 8 [Place];
};
