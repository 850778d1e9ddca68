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
