//! From the best reading to what is done: take it, ask, keep what is certain and
//! name the rest.

use crate::message::{Choice, Day, Doubt, Kind, Message, Reading, Statement};
use crate::reading::frame::{Clause, complaints};
use crate::reading::gist::{beside, says_whether, surely};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::likely::{Class, doubt, features_of};
use crate::reading::otherwise::{instead, otherwise};
use crate::reading::piece::{Item, Piece};
use crate::reading::rank::{Part, Ranked, best};
use crate::reading::related_kinds::{self, related};
use crate::reading::together::{is_of_no_evening, said};

/// Risk up to which what is left beside a danger or an ill can't change what was read.
const HARMLESS: f32 = 0.75;

/// Risk beyond which a reading that would be kept is not believed.
const DOUBTFUL: f32 = 4.5;

/// The odds of being wrong, as a logarithm, from which on a reading is asked about before
/// it is kept: about one in four of them.
const ASKED: f32 = -1.3;

/// The same of a reading that explains all of the text, whose words leave less room.
const ASKED_WHOLE: f32 = -0.7;

/// What may be left of a text that is explained all the same: an article, a mark.
const LITTLE: f32 = 0.05;

/// What is to be done with a text.
#[derive(Debug, Clone, PartialEq)]
pub enum Decision {
    /// It says this, and what was left of it.
    Take {
        /// What it says.
        says: Vec<Statement>,
        /// Figures and the like that nothing was made of, as typed.
        rest: Option<String>,
    },
    /// Ask first.
    Ask {
        /// What.
        about: Doubt,
        /// Each answer and what it says, beside what is kept all the same.
        options: Vec<(String, Vec<Statement>)>,
        /// What is certain whatever the answer is.
        says: Vec<Statement>,
    },
    /// It says nothing that we know.
    Nothing,
}

/// Decides. Beside a danger nothing is asked: what is certain by itself is taken.
pub fn decide(ranked: &Ranked, whole: &Clause<'_, '_>) -> Decision {
    let read: Vec<&Part> = ranked.parts.iter().filter(|part| part.frame.is_some()).collect();
    if read.is_empty() && !whole.danger {
        return Decision::Nothing;
    }
    if whole.danger {
        let sure = |part: &&&Part| part.asks.is_none() && part.left.risk <= HARMLESS;
        let mut says: Vec<Statement> =
            read.iter().filter(sure).flat_map(|part| part.says.clone()).collect();
        says.extend(swum_apart(whole, &says));
        return match says.is_empty() {
            true => Decision::Nothing,
            false => Decision::Take { says, rest: None },
        };
    }
    let says = said(ranked, whole);
    if let Some(question) = read.iter().find_map(|part| part.asks.clone()) {
        // What ails somebody waits for no answer about the rest.
        let (says, waits): (Vec<_>, Vec<_>) = says.into_iter().partition(ails);
        let with_rest = |(word, more)| (word, waits.iter().cloned().chain(more).collect());
        let options: Vec<_> = question.options.into_iter().map(with_rest).collect();
        let asked = instead(&question.about, &options, &waits, whole);
        let asked = asked.unwrap_or(Decision::Ask { about: question.about, options, says: vec![] });
        return asked.keeping(says);
    }
    if let Some(more) = unsaid(ranked, &says, whole) {
        let waits_not = |one: &Statement| ails(one) || !stores(&one.kind);
        let (says, waits): (Vec<_>, Vec<_>) = says.into_iter().partition(waits_not);
        return Decision::ask_whether_beside(waits.into_iter().chain(more).collect(), says);
    }
    if !is_weighed(ranked, &says) {
        return Decision::Take { says, rest: None };
    }
    if ranked.left.risk > DOUBTFUL {
        return Decision::Nothing;
    }
    // What ails somebody is not kept waiting for an answer about the rest of it.
    let waits = !says.iter().any(ails) || ranked.left.risk > HARMLESS;
    let asked = if ranked.left.cost > LITTLE { ASKED } else { ASKED_WHOLE };
    let misfit =
        says.iter().any(|one| is_of_no_evening(one, whole)) || skips_a_figure(ranked, whole);
    if !waits || !misfit && doubt(ranked, &says, whole) < asked {
        return Decision::Take { says, rest: None };
    }
    match otherwise(&says, Some(ranked), whole) {
        Some(second) => Decision::ask_which(says, second),
        None => {
            let (ails, asked): (Vec<_>, Vec<_>) = says.iter().cloned().partition(ails);
            match asked.is_empty() {
                true => Decision::ask_whether(says),
                false => Decision::ask_whether_beside(asked, ails),
            }
        }
    }
}

/// `200 in 4:02. felt dizzy after`: what a sentence without a word of danger tells of a swim, and
/// that it would be kept for if it came alone.
fn swum_apart(whole: &Clause<'_, '_>, told: &[Statement]) -> Vec<Statement> {
    if told.iter().any(|one| one.kind.is_swum()) {
        return vec![];
    }
    let ends: Vec<usize> = (0..whole.len())
        .filter(|at| whole.at(*at).is_some_and(Piece::ends_sentence))
        .map(|at| at + 1)
        .collect();
    let from = std::iter::once(0).chain(ends.iter().copied());
    let to = ends.iter().copied().chain([whole.len()]);
    let sentences = from.zip(to).filter(|(from, to)| from < to && to - from < whole.len());
    let calm = sentences.map(|(from, to)| whole.part(from, to)).filter(|sentence| {
        // Words of danger stand there as pictures.
        !sentence.pieces.iter().any(|piece| piece.item == Item::Picture)
    });
    let swum = calm.filter_map(|sentence| {
        let alone = &Clause { danger: false, ..sentence };
        match decide(&best(alone), alone) {
            Decision::Take { says, .. } if says.iter().all(|one| one.kind.is_swum()) => Some(says),
            _ => None,
        }
    });
    swum.flatten().collect()
}

/// How likely the words must make a kind of which nothing was read.
const UNSAID: f32 = 0.75;

/// `200 test 3:12`: short, and explained to the last piece.
fn is_plain(ranked: &Ranked, whole: &Clause<'_, '_>) -> bool {
    const SHORT: usize = 3;
    whole.len() <= SHORT && ranked.left.cost == 0.0
}

/// `only 5x50, my calf cramped up`: what the words speak for and no frame read beside the
/// rest, of the pieces that are left.
fn unsaid(ranked: &Ranked, says: &[Statement], whole: &Clause<'_, '_>) -> Option<Vec<Statement>> {
    let told: Vec<Class> = says.iter().filter_map(|one| Class::of(&one.kind)).collect();
    let missing =
        |class: Class| related(class).is_some_and(|kin| !told.iter().any(|one| kin.contains(one)));
    let likely = whole.likely.ranked();
    let mut classes = likely.iter().filter(|(class, odds)| *odds >= UNSAID && missing(*class));
    let used = ranked.used(whole.len(), |_, _| true);
    let stands = |one: &Statement| stands(&one.kind, whole);
    let by_kind = classes.find_map(|(class, _)| {
        beside(whole, used.clone(), *class).filter(|says| says.iter().all(stands))
    });
    if by_kind.is_some() || is_plain(ranked, whole) {
        return by_kind;
    }
    // What ails somebody waits for no answer: it is looked for in each stretch by itself.
    let others = |class: Class| missing(class) && !related_kinds::ails(class);
    // Whether somebody comes needs no word of coming here: the whole text tells it.
    let stands = |one: &Statement| matches!(one.kind, Kind::Attend { .. }) || stands(one);
    surely(whole, UNSAID, others).filter(|says| says.iter().all(stands))
}

/// True of what has more to stand on than a word that leans that way.
fn stands(kind: &Kind, whole: &Clause<'_, '_>) -> bool {
    match kind {
        Kind::Attend { on, .. } => {
            let past = |on: Day| whole.date_of(on).is_some_and(|on| on < whole.sit.today);
            says_whether(whole) && !on.is_some_and(past)
        }
        Kind::SetResult(set) => {
            let repeats = whole.pieces.iter().any(|one| matches!(one.item, Item::Repeat(..)));
            !set.times.is_empty() || repeats
        }
        // What is told of pain and illness is kept anyway.
        Kind::Ill { .. } => complaints(whole).is_empty(),
        Kind::Pain(pain) => complaints(whole).is_empty() && !is_denied(&pain.place, whole),
        Kind::Here { .. } | Kind::Absent { .. } => false,
        _ => true,
    }
}

/// `shoulder didn't hurt once`, `no pain at all in the knee`: none of it.
fn is_denied(place: &str, whole: &Clause<'_, '_>) -> bool {
    const NO_MORE: [Concept; 5] =
        [Concept::Not, Concept::Without, Concept::Didnt, Concept::Better, Concept::Past];
    let is = |piece: &Piece<'_>| {
        piece.sense(|sense| matches!(sense, Sense::Body(body) if *body == place).then_some(()))
    };
    let found = whole.pieces.iter().position(|piece| is(piece).is_some());
    found.is_some_and(|at| {
        let near = whole.pieces.part(at.saturating_sub(6), at + 5);
        near.iter().any(|one| NO_MORE.iter().any(|no| one.means(*no)) || one.text == "no")
    })
}

/// `94 94 194 94`, of which one was left out: no sum or word says why.
fn skips_a_figure(ranked: &Ranked, whole: &Clause<'_, '_>) -> bool {
    let is_figure =
        |at: usize| whole.pieces.get(at).is_some_and(|piece| matches!(piece.item, Item::Figure(_)));
    ranked.parts.iter().any(|part| {
        let used: Vec<bool> = (part.at.0..part.at.1)
            .zip(part.used.iter())
            .map(|(at, used)| *used && is_figure(at))
            .collect();
        let mut threes = (part.at.0 + 1..part.at.1).zip(used.windows(3));
        threes.any(|(middle, three)| three == [true, false, true] && is_figure(middle))
    })
}

/// True of pain, illness and tiredness, which lower what follows whatever stood beside them.
pub const fn ails(one: &Statement) -> bool {
    one.kind.ails() || matches!(one.kind, Kind::Tired)
}

/// True of what would be kept and may have to be asked about.
fn is_weighed(ranked: &Ranked, says: &[Statement]) -> bool {
    let only_ails = says.iter().all(ails) && ranked.left.risk <= DOUBTFUL;
    says.iter().any(|one| stores(&one.kind)) && !only_ails
}

/// What the doubt about a reading is judged by, where one would be kept and is not asked
/// about anyway.
pub fn weighed(ranked: &Ranked, whole: &Clause<'_, '_>) -> Option<Vec<String>> {
    let says = said(ranked, whole);
    let asks = ranked.parts.iter().any(|part| part.asks.is_some());
    (!asks && !whole.danger && is_weighed(ranked, &says)).then(|| features_of(ranked, &says, whole))
}

/// True if a statement changes what is kept.
pub const fn stores(kind: &Kind) -> bool {
    kind.nature().stores
}

impl Decision {
    /// Asks whether this is meant, and keeps nothing until then.
    pub fn ask_whether(says: Vec<Statement>) -> Self {
        Self::ask_whether_beside(says, vec![])
    }

    /// The same beside what is certain whatever the answer is.
    pub fn ask_whether_beside(asked: Vec<Statement>, says: Vec<Statement>) -> Self {
        let options = vec![("yes".to_owned(), asked.clone())];
        Decision::Ask { about: Doubt::Meant { says: asked }, options, says }
    }

    /// Asks which of two is meant, and keeps nothing until then but what ails somebody by
    /// both; `yes` is the first.
    pub fn ask_which(first: Vec<Statement>, mut second: Vec<Statement>) -> Self {
        let (ails, first): (Vec<_>, Vec<_>) = first.into_iter().partition(ails);
        second.retain(|one| !ails.contains(one));
        let options = [("1", &first), ("2", &second), ("yes", &first)];
        let options = options.map(|(word, says)| (word.to_owned(), says.clone())).into();
        Decision::Ask { about: Doubt::Either { first, second }, options, says: ails }
    }

    /// The same, and this is kept whatever is answered.
    #[must_use]
    fn keeping(mut self, more: Vec<Statement>) -> Self {
        if let Decision::Take { says, .. } | Decision::Ask { says, .. } = &mut self {
            let new: Vec<_> = more.into_iter().filter(|one| !says.contains(one)).collect();
            says.splice(0..0, new);
        }
        self
    }

    /// What is kept of it whatever is answered.
    pub fn certain(self) -> Vec<Statement> {
        match self {
            Decision::Take { says, .. } | Decision::Ask { says, .. } => says,
            Decision::Nothing => vec![],
        }
    }

    /// The same without what was kept before.
    #[must_use]
    pub fn without(mut self, kept: &[Statement]) -> Self {
        if let Decision::Take { says, .. } | Decision::Ask { says, .. } = &mut self {
            says.retain(|one| !kept.contains(one));
        }
        self
    }

    /// The same where what was said last is not kept yet: what is put right is said by that.
    #[must_use]
    pub fn as_meant(self) -> Self {
        let meant = |says: Vec<Statement>| -> Vec<Statement> {
            let one = |one: Statement| match one.kind {
                Kind::Restate { says, .. } => says,
                kind => vec![Statement { who: one.who, kind }],
            };
            says.into_iter().flat_map(one).collect()
        };
        match self {
            Decision::Take { says, rest } => Decision::Take { says: meant(says), rest },
            Decision::Ask { about, options, says } => {
                let about = match about {
                    Doubt::Meant { says } => Doubt::Meant { says: meant(says) },
                    Doubt::Either { first, second } => {
                        Doubt::Either { first: meant(first), second: meant(second) }
                    }
                    about => about,
                };
                let options = options.into_iter().map(|(word, says)| (word, meant(says)));
                Decision::Ask { about, options: options.collect(), says: meant(says) }
            }
            Decision::Nothing => Decision::Nothing,
        }
    }

    /// The same in the form that the desk takes.
    pub fn into_reading(self) -> Option<Reading> {
        match self {
            Decision::Take { says, .. } => {
                (!says.is_empty()).then_some(Reading::Understood(Message { statements: says }))
            }
            Decision::Ask { about, options, says } => {
                let choice = |(word, statements): (String, Vec<Statement>)| Choice {
                    word,
                    message: Message { statements },
                };
                Some(Reading::Unsure {
                    options: options.into_iter().map(choice).collect(),
                    asks: about,
                    told: says,
                })
            }
            Decision::Nothing => None,
        }
    }
}
