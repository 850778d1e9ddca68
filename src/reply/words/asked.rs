//! What is asked before something is stored or done, and how to answer it.

use super::statements::canonical;
use super::unread::quoted;
use crate::message::{Doubt, Name, Wants};
use crate::reply::{Asks, QuestionReply, Voice};
use crate::units::Pace;

// What is told, and in which order.
impl Voice {
    /// Something to be settled by a word.
    pub fn question(self, reply: &QuestionReply) -> Vec<String> {
        let ask = self.ask(&reply.asks);
        let asks = match &reply.asks {
            Asks::Of { asks, .. } => asks,
            asks => asks,
        };
        if let Asks::Impossible { .. } | Asks::Readiness { .. } = asks {
            // These say themselves how they are answered.
            return vec![ask];
        }
        let options: Vec<String> = reply.options.iter().map(|word| self.option(word)).collect();
        let how = match options.as_slice() {
            [] => self.text_again().to_owned(),
            options => self.text_one_of(&self.one_of(options)),
        };
        vec![format!("{ask} {how}")]
    }
}

// In which words.
impl Voice {
    /// Something to be settled.
    fn ask(self, asks: &Asks) -> String {
        match asks {
            Asks::Doubt(doubt) => self.doubt(doubt),
            Asks::Implausible { distance, time } => say!(
                self,
                "{distance} in {time} is {pace} per 100: is that right? Not stored yet.",
                "{distance} en {time} son {pace} por 100: ¿es correcto? Aun sin guardar.",
                [distance, time = time.short(), pace = Pace::of(*distance, *time)]
            ),
            Asks::Impossible { distance, time } => say!(
                self,
                "I read {distance} in {time}, and nobody swims that. Nothing stored: what was the \
                 time? Text it like this: 200 test 3:12",
                "Leo {distance} en {time}, y eso no lo nada nadie. Sin guardar: ¿qué tiempo fue? \
                 Escribe asi: 200 test 3:12",
                [distance, time = time.short()]
            ),
            Asks::AnyDanger => say!(
                self,
                "Any chest pain, faintness, head knock or trouble breathing?",
                "¿Dolor de pecho, desmayo, golpe en la cabeza o falta de aire?"
            ),
            Asks::TwoReadings { distance, one, other } => say!(
                self,
                "{distance}: {one} or {other}? Not stored yet.",
                "{distance}: ¿{one} o {other}? Aun sin guardar.",
                [distance, one = one.short(), other = other.short()]
            ),
            Asks::ImpossiblePair { new, old } => say!(
                self,
                "{trial} is at a faster pace than the {old} of {day}: is that right? \
                 Not stored yet.",
                "{trial} va a mejor ritmo que el {old} del {day}: ¿es correcto? Aun sin \
                 guardar.",
                [trial = self.trial(new), old = self.trial(old), day = self.short_day(old.on)]
            ),
            Asks::TellAll { text, number } => say!(
                self,
                "Send {text} to all {number}? It can't be taken back.",
                "¿Enviar {text} a {number}? No se puede deshacer.",
                [text = quoted(text), number]
            ),
            Asks::PassOn => say!(
                self,
                "I don't know that. Pass it on to your coach?",
                "Eso no lo sé. ¿Se lo paso a tu coach?"
            ),
            Asks::Of { who, asks } => format!("{who}: {}", self.ask(asks)),
            Asks::WhoIs { name } => say!(
                self,
                "No {name} here. Who is meant? Not stored yet.",
                "Aqui no hay '{name}'. ¿Quién es? Aun sin guardar.",
                [name]
            ),
            Asks::WhoElse { name } => say!(
                self,
                "No {name} here, so not marked: who is it?",
                "Aqui no hay '{name}', queda sin marcar. ¿Quién es?",
                [name]
            ),
            Asks::Readiness { question } => self.readiness_question(*question).to_owned(),
            Asks::NoTexts { away_until: Some(until) } => say!(
                self,
                "Away until {day}: noted. No texts at all either, until you text START?",
                "Fuera hasta {day}: anotado. ¿Tampoco mensajes, hasta que escribas START?",
                [day = self.day(*until)]
            ),
            Asks::NoTexts { away_until: None } => say!(
                self,
                "Do you want no more texts, until you text START?",
                "¿No quieres mas mensajes, hasta que escribas START?"
            ),
            Asks::Leave { squad } => say!(
                self,
                "Leave {squad}? No more texts; your results stay with the squad. To erase them \
                 too, text FORGET ME instead.",
                "¿Dejar {squad}? No mas mensajes; tus resultados quedan en el equipo. Para \
                 borrarlos tambien escribe OLVIDAME.",
                [squad]
            ),
            Asks::Remove { name } => say!(
                self,
                "Take {name} out of the squad? The results stay with it.",
                "¿Sacar a {name} del equipo? Los resultados quedan.",
                [name]
            ),
            Asks::AnotherPerson { name } => say!(
                self,
                "Is {name} another person on this phone?",
                "¿Es {name} otra persona con este telefono?",
                [name]
            ),
            Asks::TakeBack { what, singly: true } => say!(
                self,
                "Undo {what}? A name takes back theirs alone.",
                "Deshacer {what}? Un nombre deshace lo suyo.",
                [what = self.taken_back(what)]
            ),
            Asks::TakeBack { what, singly: false } => {
                say!(self, "Undo {what}?", "Deshacer {what}?", [what = self.taken_back(what)])
            }
            Asks::WhichPerson => {
                say!(self, "Who is it? Not stored yet.", "¿Quien es? Aun no se guarda nada.")
            }
            Asks::SayWho { names } => {
                let names: Vec<String> = names.iter().map(Name::to_string).collect();
                say!(
                    self,
                    "Who is it, {names}? Nothing stored; begin with the name.",
                    "¿Quien es, {names}? No se guarda; empieza por el nombre.",
                    [names = self.one_of(&names)]
                )
            }
            Asks::WhichSquad => say!(
                self,
                "Which squad is that for? Not stored yet.",
                "¿Para que equipo es? Aun no se guarda nada."
            ),
            Asks::Forget => say!(
                self,
                "Leave the squad and erase all your texts, tests, sets and sessions? It can't be \
                 undone.",
                "¿Salir del equipo y borrar todos tus mensajes, tests, series y entrenos? No se \
                 puede deshacer."
            ),
        }
    }

    /// The end of a question: the words that settle it, listed.
    fn text_one_of(self, options: &str) -> String {
        say!(self, "Text {options}.", "Escribe {options}.", [options])
    }

    /// The end of a question that no one word settles.
    fn text_again(self) -> &'static str {
        self.pick("Text it again.", "Escribelo otra vez.")
    }

    /// A word that settles a question, as it is to be texted.
    pub fn option(self, option: &str) -> String {
        match option {
            "yes" => say!(self, "YES", "SI"),
            "done" => say!(self, "DONE", "HECHO"),
            other => other.to_uppercase(),
        }
    }

    fn doubt(self, doubt: &Doubt) -> String {
        match doubt {
            Doubt::Spelling { typed, meant } => say!(
                self,
                "{typed}: did you mean {meant}? Not stored yet.",
                "{typed}: ¿querias decir {meant}? Aun sin guardar.",
                [typed = quoted(typed), meant]
            ),
            Doubt::Mile => say!(
                self,
                "A mile: 1500 m or 1650 yd? Not stored yet.",
                "Una milla: ¿1500 m o 1650 yd? Aun sin guardar."
            ),
            Doubt::Splits { sum, time } => say!(
                self,
                "The splits add up to {sum}, not {time}. Which is right? Not stored yet.",
                "Los parciales suman {sum}, no {time}. ¿Qué vale? Aun sin guardar.",
                [sum = sum.short(), time = time.short()]
            ),
            Doubt::TimesCount { given, repeats } => say!(
                self,
                "{given} times for {repeats} repeats. {given} if you swam {given}, X if the rest \
                 were missed. Not stored yet.",
                "{given} tiempos para {repeats} repeticiones. {given} si hiciste {given}, X si el \
                 resto quedo sin hacer. Aun sin guardar.",
                [given, repeats]
            ),
            Doubt::Figure { typed } => say!(
                self,
                "What is {typed} there? Please say it with its unit: 45min, 200m, 1:05. Not stored \
                 yet.",
                "¿Qué es {typed} ahi? Ponle su unidad: 45min, 200m, 1:05. Aun sin guardar.",
                [typed = quoted(typed)]
            ),
            Doubt::TestOrSession => say!(
                self,
                "Was that a test or a session done? Not stored yet.",
                "¿Eso fue un test o un entreno hecho? Aun sin guardar."
            ),
            Doubt::Meant { says } => say!(
                self,
                "I read: {says}. Right? Not stored yet.",
                "He leido: {says}. ¿Es asi? Aun sin guardar.",
                [says = canonical(says)]
            ),
            Doubt::Either { first, second } => say!(
                self,
                "I read 1: {first}. Or 2: {second}. Not stored yet.",
                "He leido 1: {first}. O 2: {second}. Aun sin guardar.",
                [first = canonical(first), second = canonical(second)]
            ),
            Doubt::Missing { wants } => say!(
                self,
                "{missing} Not stored yet.",
                "{missing} Aun sin guardar.",
                [missing = self.missing(*wants)]
            ),
            Doubt::Digits { typed } => say!(
                self,
                "Is {typed} a number? Please use 0-9.",
                "¿Es {typed} un numero? Usa las cifras 0-9.",
                [typed = quoted(typed)]
            ),
        }
    }

    fn missing(self, wants: Wants) -> &'static str {
        match wants {
            Wants::Distance => self.pick("How far was that?", "¿Qué distancia fue?"),
            Wants::Time => self.pick("What was the time?", "¿Qué tiempo hiciste?"),
            Wants::Times => self
                .pick("What were the times, or the average?", "¿Qué tiempos salieron, o la media?"),
            Wants::HowFar => {
                self.pick("How far was it, or how long?", "¿Cuantos metros o minutos fueron?")
            }
            Wants::Whose => self.pick(
                "Whose are these? Put each name before its time.",
                "¿De quien es cada tiempo? Pon el nombre delante.",
            ),
            Wants::Who => self.pick("Who do you mean?", "¿A quien te refieres?"),
            Wants::Day => self.pick("Which day?", "¿Qué dia?"),
            Wants::Coming => self.pick("In or out?", "¿Vienes o no?"),
            Wants::HowLate => self.pick("How many minutes late?", "¿Cuantos minutos tarde?"),
            Wants::Lane => self.pick("Which lane?", "¿Qué calle?"),
            Wants::Set => self.pick("What shall they swim?", "¿Qué tienen que nadar?"),
            Wants::Change => self.pick(
                "What shall change: which lane, how many, or what send-off?",
                "¿Qué cambia: qué calle, cuantas, o cada cuanto?",
            ),
            Wants::Race => self.pick(
                "Which race: how far, and on what day?",
                "¿Qué prueba: qué distancia, y qué dia?",
            ),
            Wants::Which => self.pick("Which do you mean?", "¿Cual de ellos?"),
        }
    }
}
