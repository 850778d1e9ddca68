//! The way from a text to a decision.

use std::borrow::Cow;
use std::ops::Range;
use std::slice::SliceIndex;

use crate::language::Language;
use crate::message::{About, Ask, Day, Kind, NextWish, Sought, Statement, Typed};
use crate::reading::ailments::{with_health, with_what_ails};
use crate::reading::amend_pieces::{amend, without_dangers};
use crate::reading::decide::{Decision, decide, stores, weighed};
use crate::reading::fallback::{self, Aside};
use crate::reading::follow;
use crate::reading::frame::{self, Clause};
use crate::reading::lex::{Form, Lexed, Token};
use crate::reading::lexicon::{
    Concept, Found, Lexicon, Sense, is_ordinary, knows, ordinary, which_language,
};
use crate::reading::likely::{Likely, Weights};
use crate::reading::piece::{Cell, Pieces, concepts_of, pieces};
use crate::reading::rank::best;
use crate::reading::situation::{Role, Situation};
use crate::reading::told_beside::with_suspected;
use crate::reading::unlikely::with_unlikely;

/// Reads a text in its situation. Pure.
pub fn read(text: &str, sit: &Situation) -> Decision {
    read_typed(&Typed::new(text), sit)
}

/// The same of a text that was taken apart before.
pub fn read_typed(typed: &Typed<'_>, sit: &Situation) -> Decision {
    let decision = read_on(typed, sit);
    if sit.pending { decision.as_meant() } else { decision }
}

fn read_on(typed: &Typed<'_>, sit: &Situation) -> Decision {
    let text = typed.text();
    let (decision, is_whole) = in_pieces(typed, 0, sit, |whole| {
        (settle(whole), follow::is_whole(whole) || follow::is_too_long(whole))
    });
    if let Some(meant) = repeated(&decision, sit) {
        return meant;
    }
    if matches!(&decision, Decision::Take { .. }) {
        return decision;
    }
    // What was missing from the text before: the two are one.
    if let Some(before) = &sit.unfinished {
        let joined = with_pieces("", &format!("{before}, {text}"), sit, |whole| {
            with_suspected(with_health(decide(&best(whole), whole), whole), whole)
        });
        // What was certain of it was kept when it was said.
        let kept = with_pieces("", before, sit, settle).certain();
        let joined = joined.without(&kept);
        let answers = match &joined {
            Decision::Take { .. } => true,
            Decision::Ask { options, .. } => !options.is_empty() && decision == Decision::Nothing,
            Decision::Nothing => false,
        };
        if answers {
            return joined;
        }
    }
    match is_whole {
        true => decision,
        false => match follow::on(text, sit) {
            Some(followed) => with_what_ails(followed, decision),
            None => decision,
        },
    }
}

/// `200 free obvs` behind the question whether 3:08 was a 200: what was asked about, said
/// again in part.
fn repeated(decision: &Decision, sit: &Situation) -> Option<Decision> {
    let ([said], true) = (sit.before.as_slice(), sit.pending) else { return None };
    let again = match decision {
        Decision::Take { says, .. } => says,
        Decision::Ask { options, .. } => &options.first()?.1,
        Decision::Nothing => return None,
    };
    let ([Statement { who: None, kind: Kind::Done(done) }], Kind::Test(test)) =
        (again.as_slice(), &said.kind)
    else {
        return None;
    };
    let far = done.distance?.amount == test.distance.amount;
    let bare = done.duration.is_none() && done.sport.is_none() && done.rpe.is_none();
    (far && bare).then(|| Decision::Take { says: vec![said.clone()], rest: None })
}

/// What a text may say that neither this way nor the notation reads: something put right
/// in what was said before, or its gist. `question` where it was taken for a question that
/// nobody can answer.
pub fn guess(typed: &Typed<'_>, sit: &Situation, question: bool) -> Decision {
    let decision = in_pieces(typed, 0, sit, |whole| {
        let anew = if question { None } else { follow::anew(whole) };
        let gist = || {
            let guess = with_health(fallback::guess(whole, question)?, whole);
            Some(with_suspected(guess, whole))
        };
        anew.or_else(gist).unwrap_or(Decision::Nothing)
    });
    if sit.pending { decision.as_meant() } else { decision }
}

/// What a text surely tells by its words and figures, to be asked about.
pub fn tells(typed: &Typed<'_>, sit: &Situation) -> Vec<Statement> {
    in_pieces(typed, 0, sit, fallback::tells)
}

/// What a text that nothing reads is all the same: small talk, a question of health.
pub fn aside(typed: &Typed<'_>, sit: &Situation) -> Option<Aside> {
    in_pieces(typed, 0, sit, fallback::aside)
}

/// The decision on a text's best reading, or on what its words make likely; not beside
/// a danger, where words alone say too little.
fn settle(whole: &Clause<'_, '_>) -> Decision {
    let decision = match decide(&best(whole), whole) {
        Decision::Nothing if !whole.danger => {
            fallback::by_words(whole).unwrap_or(Decision::Nothing)
        }
        // What worries gets the line that says where help is, and no shrug.
        Decision::Take { says, .. }
            if whole.unwell && says.iter().all(|one| one.kind.is_past_answering()) =>
        {
            Decision::Nothing
        }
        decision => decision,
    };
    let decision = with_suspected(with_health(with_questions(decision, whole), whole), whole);
    with_unlikely(decision, whole)
}

/// The same with the questions that no frame knows taken apart, to be answered from what is
/// known; where something of health stands in the text, none.
fn with_questions(decision: Decision, whole: &Clause<'_, '_>) -> Decision {
    let Decision::Take { mut says, rest } = decision else { return decision };
    // How far somebody swam is told of one: a coach who names nobody asks something else.
    let of_many = |one: &Statement| one.who.is_none() && whole.sit.role == Role::Coach;
    let is_open = |one: &Statement| match &one.kind {
        Kind::Ask(Ask { about: About::Other, .. }) => true,
        Kind::Ask(Ask { about: About::Swum { .. }, .. }) => of_many(one),
        _ => false,
    };
    if let [Statement { who: None, kind: Kind::Next(wish) }] = says.as_slice()
        && *wish == NextWish::default()
        && let Some(asks) = what_is_on(whole)
    {
        return Decision::Take { says: vec![Statement { who: None, kind: asks }], rest };
    }
    if let [Statement { who, kind: Kind::Best }] = says.as_slice()
        && let Some(question) = frame::best_over(whole, who.clone())
    {
        let text = whole.typed(0, whole.len()).to_owned();
        let asks = Kind::Ask(Ask { about: About::Parts(Box::new(question)), text });
        return Decision::Take { says: vec![Statement { who: who.clone(), kind: asks }], rest };
    }
    // What is kept beside a question has to be sure.
    let sure = |one: &Statement| !stores(&one.kind) || is_sure(&one.kind);
    if !says.iter().any(is_open) || !says.iter().all(sure) || frame::speaks_of_health(whole) {
        return Decision::Take { says, rest };
    }
    for one in says.iter_mut().filter(|one| is_open(one)) {
        if let Kind::Ask(ask) = &mut one.kind
            && let Some(question) = with_pieces("", &ask.text, whole.sit, frame::question_in)
        {
            ask.about = About::Parts(Box::new(question));
        }
    }
    Decision::Take { says, rest }
}

/// `whats on monday`: of another day than today, the squad's and no session of one's own.
fn what_is_on(whole: &Clause<'_, '_>) -> Option<Kind> {
    let own = [Concept::Session, Concept::Set, Concept::Something, Concept::Give];
    let short = whole.len() <= LONGEST_ON && !whole.has_any(&own);
    let question = short.then(|| frame::question_in(whole)).flatten()?;
    let other_day = question.on.is_some_and(|on| on != Day::Today);
    let text = whole.typed(0, whole.len()).to_owned();
    (question.sought == Sought::Evening && other_day)
        .then(|| Kind::Ask(Ask { about: About::Parts(Box::new(question)), text }))
}

/// Pieces up to which a text asks what is on, and nothing else.
const LONGEST_ON: usize = 6;

/// What is told beside a question as a matter of course: a swim, and who comes.
const fn is_sure(kind: &Kind) -> bool {
    kind.is_swum() || matches!(kind, Kind::Attend { .. })
}

/// The language that a text is written in; the usual one where its words speak for
/// none.
pub fn language_of(lexed: &Lexed, usual: Language, is_name: impl Fn(&str) -> bool) -> Language {
    which_language(&lexed.tokens(), ordinary(lexed), usual, is_name)
}

/// What `f` makes of a text in pieces: what the models are trained from.
pub fn in_its_pieces<O>(text: &str, sit: &Situation, f: impl FnOnce(&Clause<'_, '_>) -> O) -> O {
    with_pieces("", text, sit, f)
}

/// What the doubt about a text's best reading is judged by; nothing of one that would not
/// be kept, or is asked about anyway.
pub fn doubts(text: &str, sit: &Situation) -> Option<Vec<String>> {
    with_pieces("", text, sit, |whole| weighed(&best(whole), whole))
}

/// Takes a text in pieces. What stands in `notation` before it is our own, in English
/// whatever the sender's language.
pub fn with_pieces<O>(
    notation: &str,
    text: &str,
    sit: &Situation,
    f: impl FnOnce(&Clause<'_, '_>) -> O,
) -> O {
    let joined = match (notation, text) {
        ("", alone) | (alone, "") => alone.into(),
        _ => Cow::Owned(format!("{notation}, {text}")),
    };
    in_pieces(&Typed::new(&joined), notation.len(), sit, f)
}

/// Takes a text in pieces, the first bytes of which are our own `notation`.
fn in_pieces<O>(
    typed: &Typed<'_>,
    notation: usize,
    sit: &Situation,
    f: impl FnOnce(&Clause<'_, '_>) -> O,
) -> O {
    let lexed = typed.lexed();
    let tokens = lexed.tokens();
    let handles = sit.handles();
    let named = |word: &str| handles.get(word).copied();
    let others = |word: &str| named(word).is_some_and(|person| Some(person) != sit.me);
    let alarms = typed.alarms(&others);
    let unwell = alarms.unwell;
    let sure = alarms.danger.as_ref().is_some_and(|danger| danger.sure);
    let danger = alarms.danger.map(|danger| danger.at).unwrap_or_default();
    let speaks = |at: usize| {
        danger.iter().any(|(from, to)| (*from..*to).contains(&at))
            && tokens.get(at).is_some_and(|token| !others(token.text))
    };
    let notation = lexed.plain.len().min(notation);
    let theirs = tokens.iter().position(|token| token.span.0 >= notation).unwrap_or(tokens.len());
    let is_name = |word: &str| named(word).is_some();
    let ordinary = ordinary(lexed);
    let (own, known) = (part(&tokens, theirs..), part(ordinary, theirs..));
    let language = which_language(own, known, sit.language, is_name);
    let sit: &Situation = match language == sit.language {
        true => sit,
        false => &Situation { language, ..sit.clone() },
    };
    let own = Lexicon::of(language);
    let mut found: Vec<Found> = Vec::with_capacity(tokens.len() * 2);
    let mut ranges: Vec<Range<usize>> = Vec::with_capacity(tokens.len());
    for (at, token) in tokens.iter().enumerate() {
        let from = found.len();
        if speaks(at) {
            ranges.push(from..from);
            continue;
        }
        if matches!(token.form, Form::Word | Form::Digits { .. }) {
            let ours = token.span.1 <= notation;
            let lexicon = if ours { Lexicon::of(Language::English) } else { own };
            // No spelling reaches into what speaks of danger: `me duele el pecho`.
            let ahead = match danger.is_empty() {
                true => tokens.len(),
                false => (at..tokens.len()).find(|at| speaks(*at)).unwrap_or(tokens.len()),
            };
            found.extend(lexicon.senses_at(part(&tokens, at..ahead)));
            let before = ranges.last().cloned().unwrap_or_default();
            let said = at.checked_sub(1).and_then(|before| tokens.get(before));
            let said = said.map_or("", |before| before.text);
            let (senses, before) = (part(&found, from..), part(&found, before));
            if is_unwell(senses, before, said, tokens.get(at + 1), lexicon) {
                let mine = found.split_off(from);
                found.extend(mine.into_iter().filter(|one| !means(one, Concept::Me)));
            }
        }
        ranges.push(from..found.len());
    }
    let person = |text: &str, possessive: bool| {
        named(text).or_else(|| {
            let found = named(text.strip_suffix('s')?)?;
            (possessive || !is_ordinary(text, sit.language) || sit.language == Language::English)
                .then_some(found)
        })
    };
    let cells: Vec<Cell<'_>> = tokens
        .iter()
        .zip(ranges)
        .enumerate()
        .map(|(at, (token, range))| Cell {
            token: *token,
            spoken_for: speaks(at),
            senses: part(&found, range.clone()),
            person: match token.form {
                Form::Word => person(token.text, token.possessive).or_else(|| {
                    let timed = tokens.get(at + 1).is_some_and(|next| next.value().is_some());
                    (timed && range.is_empty()).then(|| sit.shortened(token.text))?
                }),
                _ => None,
            },
        })
        .collect();
    let is_known = |at: usize| ordinary.get(at).is_some_and(|known| knows(*known, language));
    let mut pieces = pieces(&cells, language, is_known);
    amend(&mut pieces);
    if sure {
        without_dangers(&mut pieces, speaks);
    }
    let spans: Vec<(usize, usize)> = tokens.iter().map(|token| token.span).collect();
    let unread = Likely::default();
    let among = concepts_of(&pieces);
    let whole = Clause {
        likely: &unread,
        among,
        among_all: among,
        question: None,
        pieces: Pieces(&pieces),
        offset: 0,
        all: Pieces(&pieces),
        plain: &lexed.plain,
        spans: &spans,
        sit,
        danger: !danger.is_empty(),
        unwell,
    };
    let likely = Weights::of(sit.language).likely(&whole);
    f(&Clause { likely: &likely, ..whole })
}

/// Some of a list; nothing of what lies beyond it.
fn part<T>(list: &[T], range: impl SliceIndex<[T], Output = [T]>) -> &[T] {
    list.get(range).unwrap_or_default()
}

/// True where `ill` is a complaint and no `I'll`: behind `is` or `I'm`, or with no verb to
/// come.
fn is_unwell(
    senses: &[Found],
    before: &[Found],
    said: &str,
    next: Option<&Token<'_>>,
    lexicon: &'static Lexicon,
) -> bool {
    let both = senses.iter().any(|one| means(one, Concept::Me))
        && senses.iter().any(|one| matches!(one.sense, Sense::Illness(_)));
    let joins =
        [Concept::And, Concept::But, Concept::Because, Concept::Cant, Concept::Wont, Concept::Not];
    let am = matches!(said, "im" | "am" | "hes" | "shes" | "theyre" | "feel" | "feeling" | "been");
    let verb = next.is_some_and(|next| {
        next.form == Form::Word && !joins.iter().any(|one| lexicon.means(next.text, *one))
    });
    both && (!verb || am || before.iter().any(|one| means(one, Concept::Is)))
}

fn means(found: &Found, concept: Concept) -> bool {
    found.sense == Sense::Word(concept)
}
