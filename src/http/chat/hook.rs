//! One chat server, as it is set up: its tokens, what we are called there, and
//! whether we can text its people alone.

use crate::http::PlainToken;

/// What addresses of people in chats begin with.
const SCHEME: &str = "chat";

/// A chat server whose messages we take.
#[derive(Clone)]
pub struct Chat {
    /// Its name in our address.
    pub name: String,
    /// What it shows us with each message of a room.
    pub token: PlainToken,
    /// What it shows us with each message that was said to us alone.
    pub direct_token: Option<PlainToken>,
    /// What we are called there.
    pub called: String,
    /// Other names under which the server may post what our webhook brings.
    pub also_called: Vec<String>,
    /// Letters can reach its people alone.
    pub reaches: bool,
}

/// Where a message was said, by the token that came with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Said {
    /// For all in the room to read.
    InRoom,
    /// To us alone.
    Alone,
}

impl Chat {
    /// What every address of this chat begins with: no two chats share an
    /// address, though they may share ids.
    pub fn prefix(name: &str) -> String {
        format!("{SCHEME}:{name}:")
    }

    pub(super) fn address(&self, id: &str) -> String {
        format!("{}{id}", Chat::prefix(&self.name))
    }

    /// The address of somebody the server knows by an id that stays. No two ids
    /// share one.
    pub(super) fn address_of_id(&self, id: &str) -> String {
        // A tilde at the beginning marks a name.
        match id.strip_prefix('~') {
            Some(rest) => self.address(&format!("%7E{}", visible(rest))),
            None => self.address(&visible(id)),
        }
    }

    /// The address of somebody on a server that names no ids and vouches for the
    /// names. No id has it.
    pub(super) fn address_of_name(&self, name: &str) -> String {
        self.address(&format!("~{}", visible(name)))
    }

    /// True for a name of ours.
    pub(super) fn is_called(&self, name: &str) -> bool {
        let all = self.also_called.iter().chain([&self.called]);
        all.into_iter().any(|ours| name.trim().to_lowercase() == ours.trim().to_lowercase())
    }

    /// Where what came with this token was said; none for a wrong one. Both are
    /// compared, so that the time doesn't tell which it was.
    pub(super) fn said(&self, token: &str) -> Option<Said> {
        let in_room = self.token.is(token);
        let alone = self.direct_token.as_ref().is_some_and(|direct| direct.is(token));
        match (in_room, alone) {
            (true, _) => Some(Said::InRoom),
            (false, true) => Some(Said::Alone),
            (false, false) => None,
        }
    }
}

/// An id in characters that can be seen, the others written as in a URL: what is
/// different stays different.
fn visible(id: &str) -> String {
    let hidden = |c: char| c.is_whitespace() || c.is_control() || c == '%';
    let mut seen = String::with_capacity(id.len());
    for c in id.chars() {
        match hidden(c) {
            false => seen.push(c),
            true => {
                let mut bytes = [0; 4];
                let encoded = c.encode_utf8(&mut bytes).bytes().map(|byte| format!("%{byte:02X}"));
                seen.extend(encoded);
            }
        }
    }
    seen
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn no_two_people_share_an_address() {
        let token = || "0123456789abcdef0123456789abcdef".parse().unwrap();
        let chat = Chat {
            name: "club".into(),
            token: token(),
            direct_token: None,
            called: "lapwing".into(),
            also_called: vec!["Dusk bot".into()],
            reaches: false,
        };
        let ids = ["a b", "a_b", "a%20b", "a\u{a0}b", "a\tb", "~a", "%7Ea", "a", "A", ""];
        let mut all: BTreeSet<String> = ids.iter().map(|id| chat.address_of_id(id)).collect();
        all.extend(ids.iter().map(|name| chat.address_of_name(name)));
        assert_eq!(all.len(), 2 * ids.len(), "{all:?}");
        assert_eq!(chat.address_of_id("u1"), "chat:club:u1");
        assert!(chat.is_called("Lapwing") && chat.is_called("DUSK BOT") && !chat.is_called("ann"));
    }
}
