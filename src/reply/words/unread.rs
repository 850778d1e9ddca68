//! What could not be read, and an example of what can.

use super::small::first_upper;
use crate::reply::{NotUnderstoodReply, Unread, Voice, carried};

// What is told, and in which order.
impl Voice {
    /// What was asked before this text and gave way to it, cut to the question.
    pub fn never_answered(self, asked: &str) -> String {
        let ends = [asked.find('?').map(|at| at + 1), asked.find(". ")];
        let end = ends.into_iter().flatten().min().unwrap_or(asked.len());
        let first: String = asked[..end].chars().take(MOST_ASKED).collect();
        self.not_stored(first.trim_end())
    }

    /// Something that could not be read.
    pub(in crate::reply) fn not_understood(self, reply: &NotUnderstoodReply) -> Vec<String> {
        let first = if reply.understood.is_empty() {
            self.unread(&reply.rest)
        } else {
            self.read_but(&self.all_of(&reply.understood), &self.but(&reply.rest))
        };
        vec![first_upper(&first), self.like_this(&reply.example)]
    }
}

// In which words.
impl Voice {
    /// Some of a text was read, and `what` about the rest.
    fn read_but(self, understood: &str, what: &str) -> String {
        say!(
            self,
            "I read {understood}, but {what}",
            "He leido {understood}, pero {what}",
            [understood, what]
        )
    }

    /// What was wrong with a text of which nothing was read.
    fn unread(self, rest: &Unread) -> String {
        match rest {
            Unread::Words(words) => {
                say!(self, "I can't read {words}.", "No entiendo {words}.", [words = quoted(words)])
            }
            Unread::Prose { call, .. } => {
                let call = self.call(call.as_deref());
                say!(
                    self,
                    "I can't read that. Hurt or unwell: out of the water, lifeguard, {call}. \
                     Worried or unsafe: text WORRIED, the welfare officer alone is told.",
                    "No entiendo eso. Dolor o malestar: fuera del agua, socorrista, {call}. Con \
                     miedo o en apuros: escribe PREOCUPADO, y nadie lo sabe sino bienestar.",
                    [call]
                )
            }
            other => self.but(other),
        }
    }

    /// What was wrong with the rest of a text.
    fn but(self, rest: &Unread) -> String {
        match rest {
            Unread::Empty => say!(self, "that text was empty.", "ese mensaje estaba vacio."),
            Unread::TooLong => {
                say!(self, "that is too long for me.", "eso es demasiado largo para mi.")
            }
            Unread::Unsaid => say!(self, "I can't read all of that.", "no lo entiendo todo."),
            Unread::NotText => {
                say!(self, "that was no text I can read.", "eso no era un texto que pueda leer.")
            }
            Unread::Words(words) | Unread::Prose { words, .. } => {
                say!(self, "not {words}.", "no {words}.", [words = quoted(words)])
            }
        }
    }

    /// An example to follow.
    fn like_this(self, example: &str) -> String {
        say!(
            self,
            "Nothing stored. Text it like this: {example}",
            "Sin guardar. Escribe asi: {example}",
            [example]
        )
    }

    /// Those who should have been told have opted out.
    pub fn nobody_told(self) -> &'static str {
        self.pick(
            "Your coach takes no texts: tell your coach yourself.",
            "Tu entrenador no recibe mensajes: avisale tu.",
        )
    }

    /// What was asked and gave way, in the words asked.
    fn not_stored(self, asked: &str) -> String {
        say!(
            self,
            "Not stored, as it was never answered: {asked}",
            "Sin guardar, porque quedo sin respuesta: {asked}",
            [asked]
        )
    }
}

/// The first words of what was typed, in quotes and in the SMS alphabet.
pub fn quoted(text: &str) -> String {
    const MOST: usize = 40;
    let mut letters = carried(text);
    if let Some((end, _)) = letters.char_indices().nth(MOST) {
        letters.truncate(end);
        letters.push_str("...");
    }
    format!("'{letters}'")
}

/// Characters of an earlier question that are said again.
const MOST_ASKED: usize = 100;

#[cfg(test)]
mod tests {
    use super::quoted;

    #[test]
    fn what_was_typed_stays_in_the_sms_alphabet() {
        for (typed, shown) in [
            ("tset", "'tset'"),
            ("r\u{e1}pido y ni\u{f1}o", "'rapido y ni\u{f1}o'"),
            ("ra\u{301}pido", "'rapido'"),
            ("\u{663}:\u{661}", "'?:?'"),
            (&"a".repeat(41), &format!("'{}...'", "a".repeat(40))),
        ] {
            assert_eq!(quoted(typed), shown);
        }
    }
}
