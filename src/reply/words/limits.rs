//! What somebody can't or may not do.

use crate::coaching::Ability;
use crate::message::Name;
use crate::reply::{LimitsReply, Voice};
use crate::session::Limit;
use crate::units::Equipment;

// What is told, and in which order.
impl Voice {
    /// What was left out of a session or a set, if anything.
    pub(super) fn within_limits(self, without: &[Limit]) -> Option<String> {
        (!without.is_empty()).then(|| self.within(&self.limits(without)))
    }

    /// What holds from now on.
    pub(super) fn limited(self, reply: &LimitsReply) -> Vec<String> {
        let who = reply.who.as_ref().map(crate::message::Name::as_str);
        let mut lines = Vec::new();
        match reply.limits.is_empty() {
            true if reply.kit.is_some() => {}
            true => lines.push(self.nothing_left_out(who, reply.all)),
            false => lines.push(self.left_out_by(who, reply.all, &self.limits(&reply.limits))),
        }
        lines.extend(reply.kit.as_ref().map(|kit| self.kit_there_is(&self.kit(kit))));
        lines.extend(reply.set_changed.map(|on| self.set_changed_too(&self.day(on))));
        lines
    }

    /// `no paddles, no fly`
    pub(super) fn limits(self, limits: &[Limit]) -> String {
        limits.iter().map(|limit| self.limit(*limit)).collect::<Vec<_>>().join(", ")
    }

    /// `fins, board`
    pub(super) fn kit(self, kit: &[Equipment]) -> String {
        kit.iter().map(|kit| self.equipment(*kit)).collect::<Vec<_>>().join(", ")
    }
}

// In which words.
impl Voice {
    /// `no paddles`
    fn limit(self, limit: Limit) -> String {
        match limit {
            Limit::Kit(kit) => {
                say!(self, "no {equipment}", "sin {equipment}", [equipment = self.equipment(kit)])
            }
            Limit::Stroke(stroke) => {
                say!(self, "no {stroke}", "sin {stroke}", [stroke = self.stroke(stroke)])
            }
            Limit::BreastKick => say!(self, "no breast kick", "sin patada de braza"),
            Limit::Dives => say!(self, "no dives", "sin zambullidas"),
            Limit::TumbleTurns => say!(self, "no tumble turns", "sin virajes"),
        }
    }

    /// Before what is left out by someone, by the squad, or by the sender.
    fn left_out_by(self, who: Option<&str>, all: bool, list: &str) -> String {
        match (who, all) {
            (_, true) => say!(
                self,
                "For all, until you say OK: {list}.",
                "Para todos, hasta que digas OK: {list}.",
                [list]
            ),
            (Some(who), _) => say!(
                self,
                "{who}: {list}, in every session until you say OK.",
                "{who}: {list}, en cada entreno hasta que digas OK.",
                [who, list]
            ),
            (None, _) => say!(
                self,
                "Noted: {list}, in every session until you say OK.",
                "Anotado: {list}, en cada entreno hasta que digas OK.",
                [list]
            ),
        }
    }

    /// Nothing is left out any more.
    fn nothing_left_out(self, who: Option<&str>, all: bool) -> String {
        match (who, all) {
            (_, true) => say!(
                self,
                "For all: nothing is left out any more.",
                "Para todos: ya no se deja nada fuera."
            ),
            (Some(who), _) => say!(
                self,
                "{who}: nothing is left out any more.",
                "{who}: ya no se deja nada fuera.",
                [who]
            ),
            (None, _) => say!(self, "Nothing is left out any more.", "Ya no se deja nada fuera."),
        }
    }

    /// All the kit they have.
    pub(super) fn kit_there_is(self, list: &str) -> String {
        say!(
            self,
            "Kit: {list}; no other in your sessions.",
            "Material: {list}; ningun otro en tus entrenos.",
            [list]
        )
    }

    /// Before what was left out of a session or a set.
    fn within(self, list: &str) -> String {
        say!(self, "Within limits: {list}.", "Dentro de lo permitido: {list}.", [list])
    }

    /// The set of a night is another from now on.
    fn set_changed_too(self, day: &str) -> String {
        say!(
            self,
            "The set of {day} is changed with it: text tonight.",
            "El entreno del {day} cambia con ello: escribe esta noche.",
            [day]
        )
    }

    /// A limit of the whole squad is lifted for all at once.
    pub(super) fn holds_for_all(self, limits: &[Limit]) -> String {
        let list = self.limits(limits);
        let lift = list.replace(self.pick("no ", "sin "), "").replace(',', "");
        say!(
            self,
            "For all of the squad: {list}. To lift it for all, text: all {lift} ok",
            "Para todo el grupo: {list}. Para levantarlo, escribe: todos {lift} ok",
            [list, lift]
        )
    }

    /// How far somebody can swim, as it bounds what they are set.
    pub(super) fn able(self, of: Option<&Name>, ability: &Ability) -> String {
        let of = of.map_or_else(String::new, |who| say!(self, " for {who}", " para {who}", [who]));
        let unbroken = ability.unbroken.map(|far| {
            say!(
                self,
                "{far} without a stop, noted{of}: no repeat is longer, and the first test \
                 neither. It grows step by step.",
                "{far} sin parar, anotado{of}: ninguna repeticion pasa de ahi, ni el primer test. \
                 Crece paso a paso.",
                [far, of]
            )
        });
        let most = ability.most.map(|far| {
            say!(
                self,
                "At most {far} a session, noted{of}.",
                "Como mucho {far} por entreno, anotado{of}.",
                [far, of]
            )
        });
        unbroken.into_iter().chain(most).collect::<Vec<_>>().join(" ")
    }
}
