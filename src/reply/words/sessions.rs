//! Sessions and weeks in whiteboard shorthand.

use crate::coaching::{self, Promise, WeekKind, is_hard};
use crate::language::Language;
use crate::reply::shorthand::{block_shorthand, repeat_shorthand, shown};
use crate::reply::{CautionKind, News, PlanReply, SessionReply, Voice};
use crate::session::{Block, Cue, Part, Purpose, Repeat, Session};
use crate::units::SendOff;

// What is told, and in which order.
impl Voice {
    /// That what was promised waits.
    fn waits(self, promise: &Promise) -> Option<String> {
        match promise {
            Promise::Easy => None,
            Promise::Set { set } => Some(self.set_waits(&repeat_shorthand(set, self))),
            Promise::Test => Some(self.test_is_promised().to_owned()),
        }
    }

    /// A session on its own.
    pub(in crate::reply) fn session(self, reply: &SessionReply) -> Vec<String> {
        // What is not urgent comes behind the main set; open water is no place to learn
        // it later.
        let caution = reply.caution.clone().map(|kind| self.caution_with(kind));
        let (first, behind) = match reply.caution {
            Some(CautionKind::Effort) => (None, caution),
            _ => (caution, None),
        };
        let mut lines = self.session_lines(&reply.session, behind.unwrap_or_default());
        if let (Some(lane), Some(head)) = (reply.lane, lines.first_mut()) {
            head.insert_str(0, &format!("{}, ", self.lane(lane)));
        }
        if reply.on_squad_night {
            lines.insert(1, self.for_alone().to_owned());
        }
        if reply.after_yes {
            lines.insert(1, self.harder_sessions_after_yes().to_owned());
        }
        if reply.if_well {
            lines.insert(1, self.only_if_well().to_owned());
        }
        if let Some(last) = reply.unheard {
            lines.insert(1, self.unheard_since(&self.day(last)));
        }
        if let Some(promise) = &reply.waits {
            lines.splice(1..1, self.waits(promise));
        }
        if let Some((day, news)) = reply.changed {
            lines.insert(0, self.another_than_told(&self.day(day), news));
        }
        lines.splice(1..1, first.unwrap_or_default());
        lines
    }

    /// A session, first things first: its head; the main set with its stop rule, to the
    /// swim-down; what is to be heeded; what is swum before; what to think of.
    pub(super) fn session_lines(self, session: &Session, heed: Vec<String>) -> Vec<String> {
        let mut lines = vec![self.head(
            &self.day(session.on),
            &distance(session),
            session.duration_s().div_ceil(60),
            self.title(session.purpose),
        )];
        let is_main = |block: &Block| matches!(block.part, Part::Main | Part::Test);
        let main_from = session.blocks.iter().position(is_main).unwrap_or(0);
        let (before, from_main) = session.blocks.split_at(main_from);
        for block in from_main {
            lines.push(self.block_line(block));
            let test = block.repeats.first().filter(|_| block.part == Part::Test);
            lines.extend(test.map(|test| self.how_to_test(test.distance.amount())));
            let rule = block.repeats.iter().find_map(coaching::stop_rule);
            lines.extend(rule.map(|rule| self.stop_rule(&shown(rule.over), rule.then)));
        }
        lines.extend((session.purpose == Purpose::Race).then(|| self.then_the_race().to_owned()));
        lines.extend(heed);
        let mut first = before.iter().map(|block| self.with_its_cue(block)).collect::<Vec<_>>();
        if let Some(warm_up) = first.first_mut() {
            warm_up.insert_str(0, &format!("{} ", self.before_it()));
        }
        lines.extend(first);
        let others = session.blocks.iter().filter(|block| block.part != Part::Drill);
        let repeats = others.flat_map(|block| &block.repeats);
        lines.extend(repeats.filter_map(|repeat| self.cue_line(repeat)));
        lines
    }

    /// `Drill 4x25 on :55: fists closed, last 10 m open`
    fn with_its_cue(self, block: &Block) -> String {
        let line = self.block_line(block);
        match block.repeats.iter().find_map(|repeat| self.cue_of(repeat)) {
            Some(cue) if block.part == Part::Drill => format!("{line}: {cue}"),
            _ => line,
        }
    }

    /// What to think of.
    fn cue_of(self, repeat: &Repeat) -> Option<String> {
        Some(match repeat.cue.as_ref()? {
            Cue::Drill(id) => self.cue(id),
            Cue::Coach(text) => text.clone(),
        })
    }

    /// `Main 6x50 48 on 1:15`
    pub fn block_line(self, block: &Block) -> String {
        format!("{} {}", self.part(block.part), block_shorthand(block, self))
    }

    /// `4x25 fins: kick on your side, lower arm long`
    fn cue_line(self, repeat: &Repeat) -> Option<String> {
        let cue = self.cue_of(repeat)?;
        let kit = repeat.equipment.iter().map(|kit| format!(" {}", self.equipment(*kit)));
        let what = format!("{}x{}", repeat.count, repeat.distance.amount());
        Some(format!("{what}{}: {cue}", kit.collect::<String>()))
    }

    /// A week: its kind, then one line a session with the main set only, then
    /// the sessions whole.
    pub(in crate::reply) fn plan(self, reply: &PlanReply) -> Vec<String> {
        let starts = self.day(reply.starts);
        let sessions = reply.sessions.len();
        let mut lines = vec![self.week(reply.kind, &starts, sessions, &reply.distance.to_string())];
        if let Some(asked) = reply.asked {
            lines.push(self.other_week(asked, reply.kind));
        }
        lines.extend(reply.waits.as_ref().and_then(|promise| self.waits(promise)));
        for (day, news) in &reply.changed {
            lines.push(self.another_than_told(&self.day(*day), *news));
        }
        if reply.sessions.iter().any(is_hard) {
            lines.extend(self.caution_with(CautionKind::Effort));
        }
        lines.extend(reply.sessions.iter().map(|session| self.outline(session)));
        lines.extend(reply.sessions.iter().flat_map(|session| self.session_lines(session, vec![])));
        lines
    }

    /// `Wed 4 Mar 1100m: 2x(3x50 1:10 on 1:35, 50 easy on 2:15)`
    fn outline(self, session: &Session) -> String {
        let main = session
            .blocks
            .iter()
            .filter(|block| matches!(block.part, Part::Main | Part::Test))
            .map(|block| block_shorthand(block, self))
            .collect::<Vec<_>>()
            .join(" + ");
        // The day of a race has no main set but the race.
        let main = if main.is_empty() { self.title(session.purpose).to_owned() } else { main };
        format!("{} {}: {main}", self.day(session.on), distance(session))
    }
}

// In which words.
impl Voice {
    /// A session's first line: the day, the distance, the minutes, the purpose.
    fn head(self, day: &str, distance: &str, minutes: u32, title: &str) -> String {
        say!(
            self,
            "{day}, {distance} in {minutes} min, {title}:",
            "{day}, {distance} en {minutes} min, {title}:",
            [day, distance, minutes, title]
        )
    }

    /// `L2`
    pub fn lane(self, lane: u8) -> String {
        say!(self, "L{lane}", "C{lane}", [lane])
    }

    /// A week's first line.
    fn week(self, kind: WeekKind, starts: &str, sessions: usize, distance: &str) -> String {
        let sessions = self.count(sessions, ["session", "sessions"], ["entreno", "entrenos"]);
        say!(
            self,
            "{kind} week from {starts}: {sessions}, {distance}.",
            "Semana {kind} desde {starts}: {sessions}, {distance}.",
            [kind = self.kind(kind), starts, sessions, distance]
        )
    }

    /// When to change a set while it is swum: two running slower than `over`,
    /// then the longer send-off, or the rest of the round left out.
    pub(super) fn stop_rule(self, over: &str, then: Option<SendOff>) -> String {
        match then {
            Some(on) => say!(
                self,
                "Two running over {over}: on {on}, same pace; again: easy to the end.",
                "Dos seguidas por encima de {over}: cada {on}, mismo ritmo; otra vez: suave hasta \
                 el final.",
                [over, on]
            ),
            None => say!(
                self,
                "Two running over {over}: leave out the rest of the round.",
                "Dos seguidas por encima de {over}: deja el resto de la ronda.",
                [over]
            ),
        }
    }

    /// Before what is swum before the main set.
    fn before_it(self) -> &'static str {
        self.pick("Before it:", "Antes:")
    }

    /// Somebody is ill: the session is for when that is over.
    fn only_if_well(self) -> &'static str {
        self.pick(
            "For when you are well and clear days have passed: text BETTER when you are.",
            "Para cuando ya no haya sintomas y pasen unos dias: escribe MEJOR al estarlo.",
        )
    }

    /// No swim was told since a day, though there were some to swim.
    fn unheard_since(self, day: &str) -> String {
        say!(
            self,
            "No swim told since {day}: if you swam, text it with its day (done 1500 fri).",
            "Sin noticias desde el {day}: si nadaste, dilo con su dia (hecho 1500 vie).",
            [day]
        )
    }

    /// Between the warm-up for a race and the swim-down comes the race.
    fn then_the_race(self) -> &'static str {
        self.pick(
            "The race comes before the swim-down. Swim your own race, and text me the time.",
            "La prueba va antes de la vuelta a la calma. Nada la tuya, y mandame el tiempo.",
        )
    }

    /// How a test is swum, and what to text of it.
    fn how_to_test(self, distance: u32) -> String {
        say!(
            self,
            "Even from the first length, as fast as you can keep up. Then: {distance} test and \
             the time.",
            "Ritmo uniforme desde el primer largo, lo que aguantes. Luego: {distance} test y el \
             tiempo.",
            [distance]
        )
    }

    /// It falls on a squad night: what comes first there.
    fn for_alone(self) -> &'static str {
        self.pick(
            "At squad night swim the squad's set (TONIGHT); this is for a swim alone.",
            "Con el grupo, nada su serie (MI CALLE); esto es para nadar sin el grupo.",
        )
    }

    /// Harder sessions come after the coach's yes.
    pub(super) fn harder_sessions_after_yes(self) -> &'static str {
        self.pick(
            "Harder ones come after your coach's yes: PLAN asks for a week.",
            "Las mas duras llegan con el si de tu entrenador: PLAN pide una semana.",
        )
    }

    /// Another session than was told for `day`, and why.
    fn another_than_told(self, day: &str, news: News) -> String {
        let why = match news {
            News::Away => self.pick("you are away then", "estas fuera"),
            News::Better => self.pick("you are on the way back", "estas volviendo"),
            News::Break => self.pick("you have been out of the water", "llevas dias sin nadar"),
            News::Corrected => self.pick("a result was put right", "se corrigio un resultado"),
            News::Done => self.pick("the last swim says so", "cuenta como fue el ultimo entreno"),
            News::Elsewhere => self.pick("you trained hard elsewhere", "cuenta tu otro entreno"),
            News::Limits => self.pick(
                "something is left out, or set by your coach",
                "hay cosas que dejas fuera o que fijo tu entrenador",
            ),
            News::Profile => self.pick("you changed your settings", "cambiaste tus datos"),
            News::Race => self.pick("a race is coming", "hay una prueba"),
            News::Set => self.pick("your last set says so", "cuenta tu ultima serie"),
            News::Shut => self.pick("the pool is shut", "la piscina esta cerrada"),
            News::SquadSet => {
                self.pick("the squad swims hard beside it", "el grupo nada fuerte al lado")
            }
            News::Test => self.pick("you were tested since", "cuenta tu test"),
            News::Tired => self.pick("you said you are tired", "dijiste que hay cansancio"),
            News::Trouble => self.pick("you told of pain or illness", "hay dolor o malestar"),
            News::Wish => self.pick("you asked for it", "lo pediste"),
        };
        say!(
            self,
            "Changed from what I said for {day}: {why}.",
            "Cambia lo dicho para el {day}: {why}.",
            [day, why]
        )
    }

    /// The set promised for the next hard swim has no room in this one.
    fn set_waits(self, set: &str) -> String {
        say!(
            self,
            "No room for {set} in this one: it waits for the next hard swim.",
            "Hoy no cabe {set}: espera al proximo dia fuerte.",
            [set]
        )
    }

    /// Nor has the test that was promised.
    fn test_is_promised(self) -> &'static str {
        self.pick(
            "No test in this one: it waits for the next hard swim.",
            "Hoy no hay test: espera al proximo dia fuerte.",
        )
    }

    /// The rules gave another kind of week than was asked for.
    fn other_week(self, asked: WeekKind, given: WeekKind) -> String {
        match self.language {
            Language::English => format!(
                "You asked for {}; the rules give {} (text WHY).",
                self.kind(asked).to_lowercase(),
                self.kind(given).to_lowercase()
            ),
            Language::Spanish => format!(
                "Pediste una semana {}; las reglas dan una {} (escribe PORQUE).",
                self.kind(asked),
                self.kind(given)
            ),
        }
    }

    fn kind(self, kind: WeekKind) -> &'static str {
        match kind {
            WeekKind::Easy => self.pick("Easy", "suave"),
            WeekKind::Normal => self.pick("Normal", "normal"),
            WeekKind::Hard => self.pick("Hard", "fuerte"),
            WeekKind::Taper => self.pick("Taper", "de puesta a punto"),
            WeekKind::Return => self.pick("Return", "de vuelta"),
        }
    }
}

fn distance(session: &Session) -> String {
    format!("{}{}", session.amount(), session.unit)
}
