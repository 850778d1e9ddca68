//! How the meanings of a question's words go together: the table that says what is asked.
//!
//! The rows are tried in order, the first that fits holds. None of them knows a language.

use super::word::{Asked, Word};
use crate::message::{Pick, Sought, Term};

/// What stands beside the words: figures, people, days, and who asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Beside {
    /// A time: `3:05`.
    Timed,
    /// Two times.
    Pair,
    /// No time.
    Untimed,
    /// A distance: `200`.
    Far,
    /// Repeats: `4x25`.
    Repeats,
    /// Somebody's name.
    Person,
    /// A lane.
    Lane,
    /// One of two small figures: `3 or 4`.
    Either,
    /// A day.
    Day,
    /// A week or a month.
    Span,
    /// A piece of kit.
    Kit,
    /// A word of the trade.
    Named,
    /// It speaks of what was.
    Past,
    /// It doesn't.
    NotPast,
    /// Whoever runs the evening asks.
    Coach,
    /// A swimmer, or a guardian, asks.
    Swimmer,
    /// The sender themselves, or the one they answer for, is named.
    Own,
    /// The squad, or everybody, is meant.
    Us,
    /// An evening is under way.
    During,
    /// Something was said before.
    Said,
    /// It is no longer than some words.
    Short,
    /// It is no longer than a few, each of them known.
    Bare,
    /// Nobody is named, and no lane.
    Nobody,
    /// The sender isn't named.
    NotOwn,
}

use Beside::{
    Bare, Coach, Day, During, Either, Far, Kit as Gear, Lane as InLane, Named, Nobody, NotOwn,
    NotPast, Own, Pair, Past, Person, Repeats, Said, Short, Span, Swimmer, Timed, Untimed, Us,
};
use Word::{
    Again, Ahead, Average, Been, Before, Better, Bring, Close, Come, ComesTo, Compare, Data, Did,
    DoneSoFar, Else, Finish, Fit, Gave, Hold, How, HowLong, HowMany, HowMuch, HowOften, InPool,
    Include, Keep, Kit, Lane, Last, LastIn, LastTime, Left, Lengths, Make, Mean, Need, Off, On,
    Per, Pr, Quickest, Reach, Rest, Robot, SameTime, See, SendOff, Set, Since, Slowest, Stored,
    Take, Test, That, Tight, Time, Total, Under, What, WhatIs, When, Where, Who, Why, Worse, Yet,
    You,
};

/// One way to ask.
pub struct Row {
    /// What is asked.
    pub gives: Sought,
    /// Of each of these one must be asked for.
    words: &'static [&'static [Word]],
    /// All of these must stand beside.
    beside: &'static [Beside],
    /// None of these may be asked for.
    none: &'static [Word],
}

const fn row(
    gives: Sought,
    words: &'static [&'static [Word]],
    beside: &'static [Beside],
    none: &'static [Word],
) -> Row {
    Row { gives, words, beside, none }
}

/// Every way to ask.
#[rustfmt::skip]
pub const ROWS: &[Row] = &[
    // What we are, what we keep, what we mean.
    row(Sought::Us, &[&[Robot], &[You]], &[], &[]),
    row(Sought::Data, &[&[Data], &[You, Who, What, Keep, See]], &[], &[]),
    row(Sought::Data, &[&[Keep], &[You], &[What, Who, See]], &[], &[Stored]),
    row(Sought::Data, &[&[See], &[Who]], &[], &[Lane]),
    row(Sought::Rest, &[&[Rest, Include], &[What, WhatIs, HowMuch]], &[Pair], &[Mean, Why]),
    row(Sought::Meaning, &[&[Include]], &[Timed], &[Why]),
    row(Sought::Meaning, &[&[Mean]], &[Named, Nobody], &[Why, Off, Else]),
    row(Sought::Meaning, &[&[Mean]], &[Timed, Nobody], &[Why, Off, Else, Better]),
    row(Sought::Meaning, &[&[Mean]], &[Repeats, Nobody], &[Why, Off, Else]),
    row(Sought::Meaning, &[&[WhatIs]], &[Named, Nobody, Untimed, NotOwn], &[Why, Off, Else, Average, Ahead, Need, Finish, Take, Total, HowMany, Quickest, DoneSoFar, Time]),
    row(Sought::Targets, &[&[Word::Term(Term::Css)], &[What, WhatIs]], &[Untimed], &[Mean, Why, Else, Ahead]),
    row(Sought::Targets, &[&[Word::Term(Term::Css)]], &[Person, Untimed, Short], &[Mean, Why, Else, Ahead]),

    row(Sought::Stored, &[&[Stored]], &[], &[Average, Else]),

    // A time in another pool.
    row(Sought::Converted, &[&[InPool]], &[Timed], &[Else, Need, Hold, SendOff, Rest, Per, HowMany, Why, Mean]),
    row(Sought::Converted, &[&[InPool], &[What, WhatIs, HowMuch]], &[Own, Untimed], &[Else, Need, Hold, SendOff, Rest, Per, HowMany, Total, Why, Mean, Set]),
    row(Sought::Converted, &[&[InPool], &[What, WhatIs, HowMuch]], &[Far, Untimed], &[Else, Need, Hold, SendOff, Rest, Per, HowMany, Total, Why, Mean, Set]),

    // Times that are aimed at.
    row(Sought::Pace, &[&[Need], &[Per, Hold, What, Time]], &[Timed], &[Else, Lane, Rest, SendOff]),
    row(Sought::Pace, &[&[Per], &[What, HowMuch]], &[Timed], &[Else, Lane, Rest, SendOff, Compare, ComesTo]),
    row(Sought::Sum, &[&[ComesTo]], &[Timed, Far], &[Else, Lane]),
    row(Sought::Pace, &[&[Per], &[What, HowMuch]], &[Untimed, Said, Short], &[Else, Lane, Rest, Hold]),
    row(Sought::Gap, &[&[Off]], &[Timed], &[Else, Lane, Left]),
    row(Sought::Gap, &[&[Off], &[HowMuch, What]], &[Timed], &[Else, Lane]),
    row(Sought::Gap, &[&[Off]], &[Person], &[Else, Lane]),
    row(Sought::Gap, &[&[Reach]], &[Timed, Far], &[Else, Lane, Who]),
    row(Sought::Gap, &[&[Reach]], &[Timed, Swimmer], &[Else, Lane, Who, Mean]),

    // Oneself beside others.
    row(Sought::Gap, &[&[Compare, Quickest, Slowest, Better, Worse]], &[Person, Swimmer, Own, Untimed], &[Else, Lane, Why]),

    // Who of all.
    row(Sought::Ranked(Pick::Closest), &[&[Close], &[Who, What]], &[Timed, Coach], &[Else, Lane, Why]),
    row(Sought::Ranked(Pick::Under), &[&[Who], &[Under]], &[Timed, Coach], &[Else]),
    row(Sought::Ranked(Pick::Worse), &[&[Who, What], &[Worse]], &[], &[Else, Why, Ahead]),
    row(Sought::Ranked(Pick::Better), &[&[Who, What], &[Better]], &[Coach], &[Else, Why, Ahead, Average]),
    row(Sought::Ranked(Pick::Better), &[&[Better]], &[Coach, Past], &[Else, Why, Ahead, Average, Compare]),
    row(Sought::Ranked(Pick::Slowest), &[&[Slowest], &[Who]], &[], &[Else, Why, Ahead]),
    row(Sought::Ranked(Pick::Quickest), &[&[Quickest], &[Who, What, Test]], &[], &[Else, Why, Ahead]),
    row(Sought::Ranked(Pick::Quickest), &[&[Quickest]], &[Coach, Far], &[Else, Why, Ahead]),
    row(Sought::Ranked(Pick::Quickest), &[&[Quickest]], &[Coach, Person], &[Else, Why, Ahead]),

    row(Sought::Average, &[&[Average]], &[Untimed, Coach], &[Else, Why, Ahead, Hold]),
    row(Sought::Average, &[&[Average]], &[Untimed, Own], &[Else, Why, Ahead, Hold]),
    row(Sought::Average, &[&[Average]], &[Untimed, Person], &[Else, Why, Ahead, Hold]),

    // What was swum in weeks and months.
    row(Sought::Swum, &[&[Total, Been], &[HowMuch, HowMany, What]], &[Span], &[Else, Who, Average]),
    row(Sought::Evening, &[&[What], &[Gave]], &[Day, Past, Nobody], &[Else, Why, Who, Time, Average]),

    // Whether a send-off can be made.
    row(Sought::Rest, &[&[Make]], &[Timed, Coach, InLane, Short], &[Else, Why, Mean, When, Left, DoneSoFar, Quickest]),
    row(Sought::Rest, &[&[Make]], &[Timed, Coach, Us, Short], &[Else, Why, Mean, When, Left, DoneSoFar, Quickest, Who]),
    row(Sought::Rest, &[&[Tight]], &[Timed, Coach, InLane], &[Else, Why, Mean, When, Left, DoneSoFar, Quickest, Ahead]),
    row(Sought::Rest, &[&[Tight]], &[Timed, Coach, Person, Short], &[Else, Why, Mean, When]),

    // How the set stands, and what it is.
    row(Sought::Room, &[&[Fit]], &[Repeats], &[Else]),
    row(Sought::Standing, &[&[DoneSoFar]], &[During, Untimed, Short], &[Else, Come, Hold, Total, LastIn]),
    row(Sought::Standing, &[&[DoneSoFar], &[HowMany, What, HowMuch, When, Finish]], &[During, Untimed], &[Else, Come, Hold, LastIn]),
    row(Sought::Standing, &[&[Left], &[HowMany, HowLong, HowMuch]], &[During], &[Else]),
    row(Sought::Standing, &[&[Finish], &[When, What, HowLong]], &[During, Untimed], &[Else, HowLong]),
    row(Sought::Rest, &[&[Tight]], &[Timed, Nobody], &[Else, Why, Mean, When]),
    row(Sought::Rest, &[&[Rest]], &[Pair], &[Else, Why, Mean, When]),
    row(Sought::Rest, &[&[Rest], &[HowMuch, HowLong, What, HowMany]], &[], &[Else, Why, Mean, Ahead]),
    row(Sought::Rest, &[&[SendOff], &[What, HowMuch, When]], &[], &[Else, Why, Mean]),
    row(Sought::Hold, &[&[Hold], &[What, HowMuch, Time, HowLong]], &[Untimed, NotPast], &[Else, Why, Mean]),
    row(Sought::Hold, &[&[Hold], &[What]], &[Untimed], &[Else, Why, Mean]),
    row(Sought::Total, &[&[Take], &[HowLong, HowMuch]], &[], &[Else, Since, Last, Come]),
    row(Sought::Total, &[&[Finish], &[HowLong]], &[], &[Else, Since]),
    row(Sought::Lengths, &[&[Lengths], &[HowMany, What]], &[Far], &[Else, Did]),

    // Kit.
    row(Sought::Kit, &[&[Bring]], &[Gear, NotPast, Untimed], &[Else, Why]),
    row(Sought::Kit, &[&[Bring], &[Kit]], &[NotPast], &[Else, Why, Who]),

    // Tests.
    row(Sought::LastSwum, &[&[Since]], &[Far], &[Else, Come, Been, Who]),
    row(Sought::LastSwum, &[&[Since, When], &[Last]], &[], &[Else, Who, HowMany, Come, Been, LastIn, Finish, Take]),
    row(Sought::LastSwum, &[&[Since, When], &[Test], &[Last]], &[], &[Else]),
    row(Sought::LastSwum, &[&[Last, LastTime]], &[Far, Us, Short, Untimed], &[Else, Who, HowMany, Come, Compare, Better, Quickest]),
    row(Sought::TestNight, &[&[Test], &[When, On]], &[NotPast], &[Else, Ahead, Quickest, Average, Did, Better]),
    row(Sought::TestNight, &[&[Test]], &[NotPast, Day, Short], &[Else, Quickest, Average, Did, Ahead]),

    // Who comes.
    row(Sought::Lane, &[&[Where]], &[Person, NotPast], &[Else, Time]),
    row(Sought::Silent, &[&[LastIn], &[Who]], &[], &[Else, Test]),
    row(Sought::Silent, &[&[LastIn], &[Who, What]], &[Coach, Nobody], &[Else, Test]),
    row(Sought::Untested, &[&[Yet], &[Who, What]], &[Coach, Nobody], &[Else, Come, Why]),
    row(Sought::LastCame, &[&[LastIn]], &[Person], &[Else, HowOften]),
    row(Sought::Swum, &[&[Been, HowOften]], &[Person], &[Else, LastIn]),
    row(Sought::Came, &[&[Come]], &[Person, Day, Untimed], &[Else, Why, Who, Lane, What, HowMuch, Time]),
    row(Sought::Came, &[&[Come]], &[Person, Coach], &[Else, Why, Who, Lane, Did, HowMany, What, Time]),
    row(Sought::Count, &[&[HowMany], &[Come]], &[NotOwn], &[Else, Why, Lane, DoneSoFar, Left]),
    row(Sought::Count, &[&[HowMany]], &[Day, Short, NotOwn], &[Else, Why, Lane, DoneSoFar, Left, Total, Lengths, Time, Test]),

    row(Sought::Total, &[&[Total], &[HowMuch, What, HowMany]], &[Untimed], &[Else, Time, Average, Better]),
    row(Sought::Total, &[&[Total]], &[Untimed, NotPast, Short, Nobody, Day], &[Else, Time, Average, Better, Come, Who, Why]),

    // Which lane.
    row(Sought::Lane, &[&[Lane], &[What, Where]], &[Short, Untimed], &[Else, Per, SendOff, Why, Average, Time, Rest, Hold]),
    row(Sought::Lane, &[], &[Person, Short, InLane, NotPast], &[Else, Why, Average, Time, Rest, Hold, Who, HowMany, Ahead, Did]),

    row(Sought::Lane, &[], &[Person, Short, Either, NotPast], &[Else, Why, Average, Time, Rest, Hold, Who, HowMany, Ahead, Did]),
    row(Sought::Goal, &[&[Pr]], &[Person], &[Else, Why]),

    // Times that were swum.
    row(Sought::Versus, &[&[Compare], &[LastTime, That]], &[Untimed], &[Else, Why, Ahead, Who, Hold, Need]),
    row(Sought::Versus, &[&[Compare], &[HowMuch, Did]], &[Untimed, Own], &[Else, Why, Ahead, Who, Hold, Need]),
    row(Sought::Time, &[&[What]], &[Own, Far, Past, Untimed], &[Else, HowMany, Why, Who, Ahead, Need]),
    row(Sought::Time, &[&[What]], &[Person, Far, Past, Untimed], &[Else, HowMany, Why, Who, Ahead, Need]),
    row(Sought::Time, &[&[Time, Did], &[What, HowMuch, Before]], &[Past, Untimed], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Set, Lane, Finish, Lengths]),
    row(Sought::Time, &[&[Time], &[What]], &[Person], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Lane, Finish]),
    row(Sought::Time, &[&[Time], &[Before]], &[], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Lane]),
    row(Sought::Time, &[&[Time], &[What]], &[Far], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Lane, Finish, When]),
    row(Sought::Time, &[&[Time], &[You]], &[Person], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Lane, Finish, When, Stored]),
    row(Sought::Time, &[&[Time], &[What], &[Did]], &[], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Lane, Finish]),
    row(Sought::Time, &[&[Did]], &[Person, Far, Past], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Lane, Come]),
    row(Sought::Time, &[&[Did, Under]], &[Person, Timed, Past], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Lane]),

    // How somebody, a lane, or whoever asks, did.
    row(Sought::Time, &[&[What]], &[Person, Past, Untimed, Short], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Set, Come, Average, Lane, Bring, Total, Mean]),
    row(Sought::Time, &[&[How], &[Did]], &[Person, Past, Untimed], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Set, Come, Average, Lane, Compare]),
    row(Sought::Time, &[&[How], &[Did]], &[Coach, Us, Nobody, Untimed], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Set, Come, Average, Lane, Compare, You]),
    row(Sought::Time, &[&[How, Time], &[Did]], &[InLane, Past, Untimed], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Set, Come, Average]),
    row(Sought::Time, &[&[How], &[Did]], &[Swimmer, Nobody, Short], &[Else, HowMany, Why, Who, Ahead, Hold, Need, Set, Come, Average, Lane, You]),

    // What is on.
    row(Sought::Evening, &[&[On, What, When]], &[Day, NotPast, Short, Nobody], &[Else, Why, Who, HowMany, Hold, Need, Test, Lane, Time, Come, Average, Quickest, Total, Ahead, Again]),
    row(Sought::Evening, &[&[SameTime]], &[Day, Nobody, Short], &[Else, Why, Who, HowMany, Hold, Need, Test, Lane, Average, Quickest]),
    row(Sought::Evening, &[&[See, Where, What], &[Set]], &[NotPast, Nobody, Short, Untimed], &[Else, Why, Who, HowMany, HowMuch, HowLong, Hold, Need, Test, Lane, Time, Average, Quickest, Total, Mean, Rest, SendOff, Compare, Better, You, Finish, Take, WhatIs]),
    row(Sought::Evening, &[], &[Day, NotPast, Bare, Nobody], &[Else, Why, Who, HowMany, Hold, Need, Test, Lane, Time, Come, Average, Quickest, Total, Ahead, Did, Bring, Again]),
    row(Sought::Evening, &[&[When]], &[NotPast, Bare, Nobody], &[Else, Why, Who, Test, Lane, Time, Did, Last, Ahead]),
];

impl Row {
    /// True if the words and what stands beside them ask for this.
    pub fn fits(&self, asked: &Asked, beside: impl Fn(Beside) -> bool) -> bool {
        self.words.iter().all(|any| asked.has_any(any))
            && !asked.has_any(self.none)
            && self.beside.iter().all(|one| beside(*one))
    }
}
