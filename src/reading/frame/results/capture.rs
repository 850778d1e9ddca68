//! What several swam, in one text of the coach's: `200s swift 2:46 finch 2:51`,
//! `heron 48 48 49, rook 50 50 51`, `lane 1 244 250 258`, `robin and lark both 3:59`.

use super::narrative::{Slot, Spec, Told, tell};
use super::set;
use crate::message::{Day, Doubt, Kind, Length, Name, Statement, Test, TypedTime, Wants};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::{fits, stroke_of, typed};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Clock, Far, Figure, Item, Named, Piece};
use crate::reading::situation::{Phase, Role};
use crate::units::{Centis, Stroke};

/// Someone, or several, and the pieces that tell of them.
#[derive(Debug, Clone)]
struct Entry {
    people: Vec<usize>,
    from: usize,
    to: usize,
}

/// What holds for all of them.
#[derive(Debug, Clone, Copy, Default)]
struct Heading {
    length: Option<Length>,
    count: Option<u32>,
    repeats: bool,
    stroke: Option<Stroke>,
    day: Option<Day>,
}

/// Reads a stretch as what several swam; of a coach's text only.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role != Role::Coach || c.speaks_ahead() {
        return vec![];
    }
    // Before the evening, a lane has swum nothing: `l1 hold 44, l2 48`.
    let of_lanes = c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_)));
    let dated = c.all.iter().any(|piece| matches!(piece.item, Item::Day(_)));
    if c.sit.phase == Phase::Before && of_lanes && !dated {
        return vec![];
    }
    let mut used = vec![false; c.len()];
    let Some(entries) = entries(c, &mut used) else { return vec![] };
    if let Some(asked) = whose_times(c, &entries) {
        return vec![asked];
    }
    let begins = entries.first().map_or(0, |entry| entry.from);
    let mut heading = heading(c, begins, &mut used);
    let mut candidate = Candidate::new("capture", c.len());
    let mut says: Vec<Statement> = Vec::new();
    let mut told_of = 0;
    for (place, entry) in entries.iter().enumerate() {
        let follows = place + 1 < entries.len();
        let next = follows.then(|| next_heading(c, entry)).flatten();
        let of = heading;
        let entry = match next {
            None => entry.clone(),
            Some((from, next)) => {
                used[from..entry.to].fill(true);
                heading = Heading { day: heading.day, ..next };
                Entry { to: from, ..entry.clone() }
            }
        };
        let Some(mut read) = one(c, &entry, &of, &says, &mut used) else { continue };
        told_of += 1;
        says.append(&mut read);
    }
    if says.is_empty() || told_of == 0 {
        return vec![];
    }
    candidate.used = used;
    candidate.says = says;
    let several = entries.len() > 1 || entries.iter().any(|entry| entry.people.len() > 1);
    vec![candidate.at_cost(if several { 0.2 } else { 0.45 })]
}

/// True for a figure that counts nothing: a time, or a distance.
fn may_be_time(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Figure(figure) if figure.whole().is_none_or(|value| value > 20))
}

/// `lane 1 40 40 41 40`: several times of a lane of as many others: whose are they?
fn whose_times(c: &Clause<'_, '_>, entries: &[Entry]) -> Option<Candidate> {
    let doubtful = |entry: &Entry| {
        let lane = entry.people.len() > 1
            && entry.from > 0
            && matches!(c.pieces[entry.from - 1].item, Item::Lanes(_));
        let stretch =
            Clause { pieces: &c.pieces[entry.from..entry.to], offset: c.offset + entry.from, ..*c };
        let times = stretch.pieces.iter().filter(|piece| may_be_time(piece)).count();
        let plain = stretch.pieces.iter().all(|piece| {
            matches!(piece.item, Item::Figure(_) | Item::Mark(_) | Item::Plural(_))
                || piece.means(Concept::All)
        });
        lane && plain && times > 2 && times != entry.people.len()
    };
    if !entries.iter().any(doubtful) {
        return None;
    }
    let mut candidate = Candidate::new("capture", c.len());
    candidate.used.fill(true);
    Some(candidate.asking(Doubt::Missing { wants: Wants::Whose }, vec![]).at_cost(0.5))
}

/// Each person or group with the stretch that tells of them.
fn entries(c: &Clause<'_, '_>, used: &mut [bool]) -> Option<Vec<Entry>> {
    let mut groups: Vec<(Vec<usize>, usize, usize)> = Vec::new();
    let mut at = 0;
    while at < c.len() {
        match c.pieces[at].item {
            Item::Person(person) => {
                let from = at;
                let mut people = vec![person];
                used[at] = true;
                at += 1;
                loop {
                    let mut next = at;
                    while c.at(next).is_some_and(|piece| {
                        piece.means(Concept::And)
                            || matches!(piece.item, Item::Mark(',' | '&' | '+' | '/'))
                    }) {
                        next += 1;
                    }
                    match c.at(next).map(|piece| piece.item) {
                        // `finch & teal, finch 2:50`: said again, it begins anew.
                        Some(Item::Person(other)) if !people.contains(&other) => {
                            people.push(other);
                            used[next] = true;
                            at = next + 1;
                        }
                        _ => break,
                    }
                }
                groups.push((people, from, at));
            }
            Item::Lanes(lanes) => {
                used[at] = true;
                let is_person = |piece: &Piece<'_>| matches!(piece.item, Item::Person(_));
                let close = c.pieces[at + 1..].iter().take(3).any(is_person);
                // `lane 1 averages on the 50s: swift 37, finch 38`
                let colon = c.pieces[at + 1..].windows(2).find(|pair| is_person(&pair[1]));
                let headed = colon.is_some_and(|pair| pair[0].item == Item::Mark(':'));
                let followed = close || headed;
                if !followed {
                    let people: Vec<usize> = (1..=20u32)
                        .filter(|lane| lanes & (1 << lane) != 0)
                        .filter_map(|lane| c.sit.lanes.get(lane as usize - 1))
                        .flatten()
                        .copied()
                        .collect();
                    if !people.is_empty() {
                        groups.push((people, at, at + 1));
                    }
                }
                at += 1;
            }
            _ => at += 1,
        }
    }
    if groups.is_empty() {
        return None;
    }
    // `lane 4 62 64 68 robin plover puffin`: whose they are stands behind.
    if let [(_, lane, from), (people, to, _)] = groups.as_slice()
        && matches!(c.pieces[*lane].item, Item::Lanes(_))
    {
        let times = c.pieces[*from..*to].iter().filter(|piece| may_be_time(piece)).count();
        if times > 1 && times == people.len() {
            return Some(vec![Entry { people: people.clone(), from: *from, to: *to }]);
        }
    }
    // `312 heron 258 teal`: the time stands before its name.
    let first = groups[0].1;
    let timed = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(figure) if figure.whole().is_none_or(|value| value < 1000 && !is_heading(value)));
    let before = first > 0 && timed(&c.pieces[first - 1]);
    let ends =
        groups.last().is_some_and(|(_, _, to)| c.pieces[*to..].iter().all(|piece| !timed(piece)));
    let each_before = groups.iter().all(|(_, from, _)| *from > 0 && timed(&c.pieces[*from - 1]));
    let run = c.pieces[..first].iter().filter(|piece| timed(piece)).count();
    if before && ends && groups.len() == 1 && groups[0].0.len() == run && run > 1 {
        // `3:31 3:42 3:57 dunnock wren lark`
        let from = c.pieces[..first].iter().position(timed).unwrap_or(0);
        return Some(vec![Entry { people: groups[0].0.clone(), from, to: first }]);
    }
    if before && ends && each_before {
        let mut entries = Vec::new();
        for (people, from, _) in groups {
            entries.push(Entry { people, from: from - 1, to: from });
        }
        return Some(entries);
    }
    let mut entries = Vec::new();
    for (place, (people, _, to)) in groups.iter().enumerate() {
        let end = groups.get(place + 1).map_or(c.len(), |(_, from, _)| *from);
        entries.push(Entry { people: people.clone(), from: *to, to: end });
    }
    Some(entries)
}

const fn is_heading(value: u32) -> bool {
    matches!(value, 25 | 50 | 100 | 200 | 400 | 800 | 500 | 1000 | 1500)
}

/// What stands before the first name.
fn heading(c: &Clause<'_, '_>, begins: usize, used: &mut [bool]) -> Heading {
    let mut heading = Heading::default();
    let first = c
        .pieces
        .iter()
        .position(|piece| matches!(piece.item, Item::Person(_) | Item::Lanes(_)))
        .unwrap_or(0);
    let end = first.min(begins.max(first));
    for (at, used) in used.iter_mut().enumerate().take(end) {
        *used |= take_heading(c, at, &mut heading);
    }
    for (at, piece) in c.pieces.iter().enumerate() {
        if let Item::Day(named) = piece.item
            && dotted(c, at).is_none()
        {
            heading.day = heading.day.or(c.past(named));
        }
    }
    for (at, piece) in c.pieces.iter().enumerate() {
        let plain = matches!(piece.item, Item::Day(_))
            || [
                Concept::Test,
                Concept::Set,
                Concept::Lane,
                Concept::Held,
                Concept::Then,
                Concept::And,
                Concept::Splits,
            ]
            .iter()
            .any(|concept| piece.means(*concept));
        used[at] |= plain;
    }
    // `heron 3:12, teal 2:58 for the 200`, `kite 47s heron 48s for the 50s`
    if heading.length.is_none() {
        for (at, piece) in c.pieces.iter().enumerate().skip(end) {
            let named = match piece.item {
                Item::Plural(value) => Some((value, true)),
                Item::Far(Far::Of(value, _)) => Some((value, false)),
                Item::Figure(Figure::Whole { value, .. })
                    if is_heading(value)
                        && at > 0
                        && (c.pieces[at - 1].means(Concept::Article)
                            || c.pieces[at - 1].means(Concept::For)) =>
                {
                    Some((value, false))
                }
                _ => None,
            };
            if let Some((value, plural)) = named.filter(|(value, plural)| {
                !plural
                    || is_heading(*value) && *value != 50
                    || c.at(at.wrapping_sub(1))
                        .is_some_and(|p| p.means(Concept::Article) || p.means(Concept::Of))
            }) {
                heading.length = Some(Length { amount: value, unit: None });
                heading.repeats = plural
                    && c.sit.tested != Some(value)
                    && c.sit.set.as_ref().is_some_and(|set| {
                        set.lines.iter().any(|line| line.distance == value && line.count > 1)
                    });
                used[at] = true;
                break;
            }
        }
    }
    heading
}

/// Takes a piece of the heading; true if it is one.
fn take_heading(c: &Clause<'_, '_>, at: usize, heading: &mut Heading) -> bool {
    let piece = &c.pieces[at];
    if let Some(stroke) = stroke_of(piece) {
        heading.stroke = Some(stroke);
        return true;
    }
    let line = |distance: u32| {
        c.sit.set.as_ref().is_some_and(|set| {
            set.lines.iter().any(|line| line.distance == distance && line.count > 1)
        })
    };
    match piece.item {
        // `the two hundreds`, said of a test over 200.
        Item::Repeat(count, Far::Of(each, None))
            if Some(count * each) == c.sit.tested && c.sit.phase != Phase::During =>
        {
            heading.length = Some(Length { amount: count * each, unit: None });
            heading.repeats = false;
        }
        Item::Repeat(count, far) => {
            heading.length = c.length(far);
            heading.count = Some(count);
            heading.repeats = true;
        }
        Item::Plural(value) => {
            heading.length = Some(Length { amount: value, unit: None });
            heading.repeats = line(value) && c.sit.tested != Some(value);
        }
        Item::Far(far) => heading.length = c.length(far),
        Item::Figure(Figure::Whole { value, .. })
            if is_heading(value) || matches!(value, 75 | 150 | 300) =>
        {
            heading.length = Some(Length { amount: value, unit: None });
            // `first 50 robin 58`: one of the set's.
            let which = at > 0
                && [Concept::First, Concept::Last, Concept::Next]
                    .iter()
                    .any(|one| c.pieces[at - 1].means(*one));
            heading.repeats = which && line(value) && c.sit.tested != Some(value);
        }
        _ => return false,
    }
    true
}

/// A heading at the end of an entry, behind its times, holds for the names that follow:
/// `100fr teal 1:21 100bk kite 1:41`. A bare figure there is a time, unless a stroke or
/// the end of a sentence says otherwise.
fn next_heading(c: &Clause<'_, '_>, entry: &Entry) -> Option<(usize, Heading)> {
    let mut next = Heading::default();
    let mut from = entry.to;
    while from > entry.from + 1 {
        let mark = matches!(c.pieces[from - 1].item, Item::Mark(_) | Item::Line);
        if !mark && !take_heading(c, from - 1, &mut next) {
            break;
        }
        from -= 1;
    }
    let run = &c.pieces[from..entry.to];
    let ends = |piece: &Piece<'_>| matches!(piece.item, Item::Mark('.' | ';' | '/') | Item::Line);
    let parted = next.stroke.is_some() || run.first().is_some_and(ends);
    let timed = c.pieces[entry.from..from].iter().any(|piece| match piece.item {
        Item::Figure(figure) => !figure.whole().is_some_and(is_heading),
        Item::Each(_) => true,
        _ => false,
    });
    (next.length.is_some() && parted && timed).then_some((from, next))
}

/// The words that say that there is no time.
const NO_TIME: [Concept; 2] = [Concept::Dnf, Concept::Dns];

/// What the stretch tells of its people; nothing where it tells nothing.
fn one(
    c: &Clause<'_, '_>,
    entry: &Entry,
    heading: &Heading,
    before: &[Statement],
    used: &mut [bool],
) -> Option<Vec<Statement>> {
    let stretch =
        Clause { pieces: &c.pieces[entry.from..entry.to], offset: c.offset + entry.from, ..*c };
    let names: Vec<Name> = entry.people.iter().filter_map(|person| c.name(*person)).collect();
    let first = *entry.people.first()?;
    let mut own = *heading;
    for (at, piece) in stretch.pieces.iter().enumerate() {
        if let Some(stroke) = stroke_of(piece) {
            own.stroke = Some(stroke);
            used[entry.from + at] = true;
        }
        if let Item::Repeat(count, far) = piece.item {
            own.length = c.length(far);
            own.count = Some(count);
            own.repeats = true;
            used[entry.from + at] = true;
        }
        let far = match piece.item {
            Item::Far(far) => c.length(far).map(|length| length.amount),
            Item::Figure(Figure::Whole { value, .. })
                if is_heading(value) && own.length.is_none() && at + 1 < stretch.len() =>
            {
                Some(value)
            }
            _ => None,
        };
        if let Some(amount) = far.filter(|_| own.length.is_none()) {
            own.length = Some(Length { amount, unit: None });
            used[entry.from + at] = true;
        }
    }
    // `teal same as finch`
    if stretch.has(Concept::Same) {
        return same_as(c, &stretch, entry, before, used);
    }
    // `robin plover puffin into 3`: where they go; `los del 4 ponlos a 1 15`: what they
    // are to do.
    let goes = [Concept::To, Concept::Move, Concept::Up, Concept::Down];
    if let [first, to, ..] = stretch.pieces
        && goes.iter().any(|one| first.means(*one))
        && matches!(to.item, Item::Figure(Figure::Whole { value: 1..=10, .. }))
    {
        return None;
    }
    // `l1 last 4 on 55`: when to leave.
    let by_lane = matches!(c.pieces[entry.from.saturating_sub(1)].item, Item::Lanes(_));
    let sent_off = stretch.pieces.windows(2).any(|pair| {
        (pair[0].means(Concept::SetTime) || pair[0].item == Item::Mark('@'))
            && matches!(pair[1].item, Item::Figure(_))
    });
    let told = stretch.has_any(&[Concept::Held, Concept::Made, Concept::Average, Concept::Missed]);
    if by_lane && sent_off && !told && c.sit.phase == Phase::During {
        return None;
    }
    let times = times(&stretch, &own);
    // One time each, in the order of their names.
    if entry.people.len() > 1 && times.len() == entry.people.len() {
        let mut says = Vec::new();
        for (person, time) in entry.people.iter().zip(&times) {
            says.push(single(c, *person, time.figure, &own)?);
            time.mark(used, entry);
        }
        return Some(says);
    }
    // `dunnock and wren both 52`, told while they swim: one repeat of each.
    let both = stretch.pieces.first().is_some_and(|piece| matches!(piece.text, "both" | "ambos"));
    if let [time] = times[..]
        && both
        && c.sit.phase == Phase::During
        && own.count.is_none()
    {
        time.mark(used, entry);
        used[entry.from] = true;
        return entry.people.iter().map(|person| single(c, *person, time.figure, &own)).collect();
    }
    if let ([_], Some(test)) = (entry.people.as_slice(), in_splits(c, &own, first, &times)) {
        times.iter().for_each(|time| time.mark(used, entry));
        for (at, piece) in c.pieces.iter().enumerate() {
            used[at] |= piece.means(Concept::Splits);
        }
        return Some(vec![test]);
    }
    let mode = mode(c, &own, first, &times);
    if let (Mode::Test(distance), true) = (mode, !times.is_empty()) {
        // `heron 312 no wait 321`, `wren first 50 in 48, end 3'38`
        let last = times.last()?.figure;
        times.iter().for_each(|time| time.mark(used, entry));
        let own = Heading { length: Some(distance), ..own };
        return entry.people.iter().map(|person| single(c, *person, last, &own)).collect();
    }
    if !stretch.has_any(&NO_TIME) || !times.is_empty() {
        let spec = spec(c, &own, first)?;
        let mut told = tell(&stretch, spec.0);
        // `lane 1 averaging 41 lane 2 48`
        if let ([Slot::Swum(time, tenths)], true) = (told.slots.as_slice(), c.has(Concept::Average))
        {
            told.average = Some((*time, *tenths));
            told.slots.clear();
        }
        // `lane 4 only doing 6`: what they are to do.
        let ahead = matches!(c.pieces[entry.from.saturating_sub(1)].item, Item::Lanes(_))
            && c.sit.phase == Phase::During
            && told.made.is_some()
            && stretch.pieces.iter().any(|piece| {
                matches!(piece.text, "doing" | "do" | "hace" | "hacen" | "haga" | "hagan")
            });
        if ahead {
            return None;
        }
        let is_told = told.is_something();
        if is_told {
            mark(&told, entry.from, used);
            let says: Option<Vec<Statement>> = names
                .iter()
                .map(|name| set_statement(&stretch, told.clone(), spec.0, spec.1, name, &own))
                .collect();
            if says.is_some() {
                return says;
            }
        }
    }
    if let Some(at) =
        stretch.pieces.iter().position(|piece| NO_TIME.iter().any(|concept| piece.means(*concept)))
    {
        used[entry.from + at] = true;
        let text = stretch.typed(at, stretch.len().min(at + 3)).to_owned();
        let far = own.length.map(|length| length.amount).or(c.sit.tested);
        let text = far.map_or_else(|| text.clone(), |far| format!("{far}: {text}"));
        return Some(
            names
                .into_iter()
                .map(|who| Statement { who: Some(who), kind: Kind::Note { text: text.clone() } })
                .collect(),
        );
    }
    None
}

/// A figure of an entry that may be a time.
#[derive(Debug, Clone, Copy)]
struct Timed {
    /// Its first piece, in the entry's stretch.
    at: usize,
    /// How many pieces it takes.
    width: usize,
    figure: Figure,
}

impl Timed {
    fn new(at: usize, figure: Figure) -> Self {
        Self { at, width: 1, figure }
    }

    fn mark(&self, used: &mut [bool], entry: &Entry) {
        let from = entry.from + self.at;
        used[from..from + self.width].fill(true);
    }
}

/// `3.10` that could be the third of October: behind a name a time.
fn dotted(c: &Clause<'_, '_>, at: usize) -> Option<Figure> {
    let typed = c.typed(at, at + 1);
    let (whole, parts) = typed.trim_end_matches('.').split_once('.')?;
    let (whole, parts, places) = (whole.parse().ok()?, parts.parse().ok()?, parts.len());
    let dated = matches!(c.pieces[at].item, Item::Day(Named::Day(Day::DayMonth(..), _)));
    (dated && places == 2).then_some(Figure::Parted { whole, parts, places: 2, comma: false })
}

/// The figures of a stretch that may be times.
fn times(c: &Clause<'_, '_>, heading: &Heading) -> Vec<Timed> {
    let mut times = Vec::new();
    let mut at = 0;
    while at < c.len() {
        if let Some(figure) = dotted(c, at) {
            times.push(Timed::new(at, figure));
        }
        if let Item::Span(time) = c.pieces[at].item
            && (60.0..=1800.0).contains(&time.seconds())
        {
            let figure = Figure::Clock(Clock { time, tenths: false, day_time: None });
            times.push(Timed::new(at, figure));
        }
        if let Item::Figure(figure) = c.pieces[at].item {
            let heads = figure.whole() == heading.length.map(|length| length.amount)
                && figure.whole().is_some_and(is_heading);
            // `4:22, died on the last 50`
            let part = at > 0
                && [Concept::Last, Concept::First].iter().any(|one| c.pieces[at - 1].means(*one))
                && figure.whole().is_some_and(is_heading);
            if part {
                at += 1;
                continue;
            }
            if let Some(joined) = c.minutes_apart(at) {
                // `3 11 and a half`
                let half = c.at(at + 2).is_some_and(|next| next.means(Concept::And))
                    && (at + 3..c.len().min(at + 5))
                        .any(|next| c.pieces[next].means(Concept::Half));
                let halved = half.then(|| half_more(joined)).flatten();
                let width = if half { 5.min(c.len() - at) } else { 2 };
                times.push(Timed { at, width, figure: halved.unwrap_or(joined) });
                at += 2;
                continue;
            }
            if !heads {
                times.push(Timed::new(at, figure));
            }
        }
        at += 1;
    }
    times
}

/// Half a second more.
fn half_more(figure: Figure) -> Option<Figure> {
    let time = figure.times().first().copied()?;
    let time = Centis::new(time.hundredths() + 50).ok()?;
    Some(Figure::Clock(Clock { time, tenths: true, day_time: None }))
}

/// What one time of a person is.
#[derive(Debug, Clone, Copy)]
enum Mode {
    Test(Length),
    Set,
}

/// Whether an entry tells of a test or of repeats.
fn mode(c: &Clause<'_, '_>, heading: &Heading, person: usize, times: &[Timed]) -> Mode {
    let known = c.sit.people.get(person);
    let stroke = heading.stroke.unwrap_or(Stroke::Free);
    let within = |distance: u32, low: f64, high: f64| {
        let expected = known.and_then(|known| known.expected(distance, stroke));
        let fit = |figure: &Figure| match expected {
            Some(expected) => figure
                .times()
                .into_iter()
                .any(|time| (low..=high).contains(&(time.seconds() / expected))),
            None => figure
                .times()
                .into_iter()
                .any(|time| fits(time, distance, c.sit.course, stroke, None)),
        };
        times.iter().all(|time| fit(&time.figure))
    };
    if let Some(length) = heading.length {
        let single = times.len() == 1 || c.has(Concept::Sorry);
        return if !heading.repeats && single { Mode::Test(length) } else { Mode::Set };
    }
    if times.len() != 1 && !c.has(Concept::Sorry) {
        return Mode::Set;
    }
    let tested = c.sit.tested.into_iter().chain([200, 400, 100]);
    let line = c.sit.set.as_ref().and_then(|set| set.main()).map(|line| line.distance);
    for distance in tested {
        if Some(distance) != line && within(distance, 0.82, 1.22) {
            return Mode::Test(Length { amount: distance, unit: None });
        }
    }
    Mode::Set
}

/// `teal 2:56 splits 41 44 46 45`, `swift 200 1:19 out 1:24 back`: a test told with its
/// parts, or by them alone. They are of about equal length, and their sum is what the
/// swimmer may swim over the whole.
fn in_splits(
    c: &Clause<'_, '_>,
    heading: &Heading,
    person: usize,
    times: &[Timed],
) -> Option<Statement> {
    if heading.repeats || heading.count.is_some() {
        return None;
    }
    let length = heading.length.or(c.sit.tested.map(|amount| Length { amount, unit: None }))?;
    let stroke = heading.stroke.unwrap_or(Stroke::Free);
    let expected = c.sit.people.get(person)?.expected(length.amount, stroke)?;
    // `1:41 at the hundred`
    let is_part = |time: &&Timed| {
        time.figure.whole().is_some_and(|value| is_heading(value) && value < length.amount)
    };
    let times: Vec<Timed> = times.iter().filter(|time| !is_part(time)).copied().collect();
    let about = |figure: Figure, share: f64| {
        let fits = |time: &Centis| (0.75..=1.3).contains(&(time.seconds() / (expected * share)));
        figure.times().into_iter().find(fits)
    };
    let (first, last) = (times.first()?, times.last()?);
    let (total, parts) = match (about(first.figure, 1.0), about(last.figure, 1.0)) {
        (Some(total), _) => (Some(total), &times[1..]),
        (None, Some(total)) => (Some(total), &times[..times.len() - 1]),
        (None, None) => (None, times.as_slice()),
    };
    // `1:41 at the hundred, 3:28`: the other half is what is left.
    if let (Some(time), [half]) = (total, parts)
        && let Some(half) = about(half.figure, 0.5)
        && let Some(other) = time.less(half)
        && !c.has(Concept::Sorry)
    {
        return test(c, person, length, typed(time, false), vec![half, other], heading);
    }
    let each = 1.0 / parts.len().max(2) as f64;
    let splits: Option<Vec<Centis>> = parts.iter().map(|part| about(part.figure, each)).collect();
    let splits = splits.filter(|splits| splits.len() > 1)?;
    let sum = splits.iter().copied().reduce(|one, other| one + other)?;
    let time = total.unwrap_or(sum);
    let agree = (time.seconds() - sum.seconds()).abs() <= 3.0;
    agree.then(|| test(c, person, length, typed(time, false), splits, heading)).flatten()
}

/// One time of one person as a test.
fn single(
    c: &Clause<'_, '_>,
    person: usize,
    figure: Figure,
    heading: &Heading,
) -> Option<Statement> {
    let known = c.sit.people.get(person)?;
    let stroke = heading.stroke.unwrap_or(Stroke::Free);
    let length = match heading.length {
        Some(length) => length,
        None => match mode(c, heading, person, &[Timed::new(0, figure)]) {
            Mode::Test(length) => length,
            Mode::Set => {
                let (spec, length) = spec(c, heading, person)?;
                let time = c.time(figure, spec.distance, stroke, Some(known))?;
                return Some(repeat_once(
                    known.name.clone(),
                    length,
                    time,
                    figure.has_tenths(),
                    stroke,
                ));
            }
        },
    };
    let time = c.time(figure, length.amount, stroke, Some(known))?;
    if heading.repeats {
        return Some(repeat_once(known.name.clone(), length, time, figure.has_tenths(), stroke));
    }
    test(c, person, length, typed(time, figure.has_tenths()), vec![], heading)
}

fn test(
    c: &Clause<'_, '_>,
    person: usize,
    distance: Length,
    time: TypedTime,
    splits: Vec<Centis>,
    heading: &Heading,
) -> Option<Statement> {
    let test = Test {
        distance,
        time,
        stroke: heading.stroke,
        course: None,
        on: heading.day.or_else(|| night(c)),
        splits,
        start: None,
        meet: c.has(Concept::Meet),
    };
    Some(Statement { who: Some(c.name(person)?), kind: Kind::Test(test) })
}

fn night(c: &Clause<'_, '_>) -> Option<Day> {
    let night = c.sit.swum_on();
    (night != c.sit.today).then_some(Day::Full(night))
}

fn repeat_once(who: Name, length: Length, time: Centis, tenths: bool, stroke: Stroke) -> Statement {
    let set = crate::message::SetResult {
        count: 1,
        distance: length,
        stroke: (stroke != Stroke::Free).then_some(stroke),
        send_off: None,
        rest: None,
        target: None,
        times: vec![Some(typed(time, tenths))],
        average: None,
        made: None,
        of: None,
        equipment: vec![],
        rpe: None,
        heart_rate: None,
        strokes: None,
        on: None,
    };
    Statement { who: Some(who), kind: Kind::SetResult(set) }
}

/// The repeats that an entry tells of: those of the heading, else of the set.
fn spec<'a>(c: &Clause<'a, '_>, heading: &Heading, person: usize) -> Option<(Spec<'a>, Length)> {
    let main = c.sit.set.as_ref().and_then(|set| set.main());
    let line = match heading.length {
        Some(length) => c
            .sit
            .set
            .as_ref()
            .and_then(|set| set.lines.iter().find(|line| line.distance == length.amount)),
        None => main,
    };
    let distance = heading.length.map(|length| length.amount).or(line.map(|line| line.distance))?;
    let spec = Spec {
        count: heading.count.or(line.filter(|_| heading.count.is_none()).map(|line| line.count)),
        distance,
        stroke: heading.stroke.or(line.map(|line| line.stroke)).unwrap_or(Stroke::Free),
        target: line.and_then(|line| line.target),
        send_off: line.and_then(|line| line.send_off),
        whose: c.sit.people.get(person),
        so_far: heading.count.is_none() && c.sit.phase == Phase::During,
    };
    Some((spec, heading.length.unwrap_or(Length { amount: distance, unit: None })))
}

fn mark(told: &Told, from: usize, used: &mut [bool]) {
    for (at, one) in told.used.iter().enumerate() {
        used[from + at] |= *one;
    }
}

/// What an entry tells of the repeats, as a statement about one.
fn set_statement(
    c: &Clause<'_, '_>,
    mut told: Told,
    spec: Spec<'_>,
    length: Length,
    who: &Name,
    heading: &Heading,
) -> Option<Statement> {
    // As far as it has come: the coach sends the repeats as they are swum.
    let swum =
        told.slots.iter().filter(|slot| matches!(slot, Slot::Swum(..) | Slot::Missed)).count();
    let spec = match heading.count {
        None if swum == told.slots.len() && swum > 0 => {
            told.count = None;
            Spec { count: None, ..spec }
        }
        _ => spec,
    };
    let read = set::result(c, length, told, spec, Some(who.clone()), 0.0)?;
    read.says.into_iter().next()
}

/// `teal same as finch`: what was said of finch, of teal.
fn same_as(
    c: &Clause<'_, '_>,
    stretch: &Clause<'_, '_>,
    entry: &Entry,
    before: &[Statement],
    used: &mut [bool],
) -> Option<Vec<Statement>> {
    let _ = stretch;
    let other = c.pieces.get(entry.to).and_then(|piece| match piece.item {
        Item::Person(person) => c.name(person),
        _ => None,
    })?;
    let said = before.iter().find(|one| one.who.as_ref() == Some(&other))?;
    used[entry.from..entry.to].fill(true);
    let names = entry.people.iter().filter_map(|person| c.name(*person));
    Some(names.map(|who| Statement { who: Some(who), kind: said.kind.clone() }).collect())
}

/// A list of times of several, with nobody's name: whose are they?
pub fn nameless(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role != Role::Coach
        || !c.people().is_empty()
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_) | Item::Repeat(..)))
    {
        return vec![];
    }
    let figures = c.pieces.iter().filter(|piece| matches!(piece.item, Item::Figure(figure) if figure.times().iter().any(|time| time.seconds() > 60.0)));
    if figures.count() < 3 {
        return vec![];
    }
    let mut candidate = Candidate::new("nameless", c.len());
    candidate.used.fill(true);
    vec![candidate.asking(Doubt::Missing { wants: Wants::Whose }, vec![]).at_cost(1.5)]
}
