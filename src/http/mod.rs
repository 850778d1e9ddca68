//! The HTTP interface: messages from programs and from plain gateways in,
//! answers out.
//!
//! Knows sockets, headers and forms; decides nothing about swimming and knows
//! no store.

mod access_log;
mod board;
mod body;
mod charset;
mod chat;
mod connections;
pub mod fields;
mod finish_on_drop;
mod health;
mod inlet;
mod limit;
mod limits;
mod listen;
mod media_type;
mod messages;
mod metrics;
mod neighbours;
mod openapi;
mod plain;
mod plain_token;
mod problem;
mod reception;
mod router;

pub use body::{read as read_body, read_of as read_body_of};
pub use chat::Chat;
pub use connections::{Peer, Places};
pub use inlet::{FieldNames, Inlet};
pub use limit::Limit;
pub use limits::{Limits, open_files};
pub use listen::serve;
pub use metrics::{Metrics, metrics_router};
pub use neighbours::{Neighbours, NoNeighbours};
pub use plain_token::PlainToken;
pub use problem::{Problem, ProblemBody};
pub use reception::Reception;
pub use router::{Door, guarded, no_such_path, router};
