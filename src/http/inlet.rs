//! One plain gateway's way in: its token, the names of its fields, its limit.

use std::borrow::Cow;
use std::sync::Arc;

use super::{Limit, PlainToken, Problem};

/// A plain gateway's way in.
#[derive(Clone)]
pub struct Inlet {
    /// What its messages' ids are unique within.
    pub channel: Cow<'static, str>,
    /// The token in its URL, which tells it from the others.
    pub token: PlainToken,
    /// What it calls its fields.
    pub fields: FieldNames,
    /// How many messages it may bring; as many as it likes without.
    pub limit: Option<Arc<Limit>>,
}

/// What a gateway calls its fields.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldNames {
    /// The sender's address.
    pub from: String,
    /// The words.
    pub text: String,
    /// The message's id.
    pub id: String,
    /// The group chat's id.
    pub room: String,
    /// The charset of the words.
    pub charset: String,
}

impl Default for FieldNames {
    fn default() -> FieldNames {
        FieldNames {
            from: "from".to_owned(),
            text: "text".to_owned(),
            id: "id".to_owned(),
            room: "room".to_owned(),
            charset: "charset".to_owned(),
        }
    }
}

impl Inlet {
    /// The way in that is always there, for gateways that call the fields as we
    /// do.
    pub fn plain(token: PlainToken) -> Inlet {
        Inlet { channel: "plain".into(), token, fields: FieldNames::default(), limit: None }
    }

    /// The way in of a gateway with a name of its own.
    pub fn named(
        name: &str,
        token: PlainToken,
        fields: FieldNames,
        limit: Option<Arc<Limit>>,
    ) -> Inlet {
        Inlet { channel: format!("plain/{name}").into(), token, fields, limit }
    }

    /// Lets one message of this gateway's pass.
    ///
    /// # Errors
    /// 429 where it is one too many.
    pub(super) fn admit(&self) -> Result<(), Problem> {
        self.limit.as_ref().map_or(Ok(()), |limit| limit.admit(&self.channel))
    }
}
