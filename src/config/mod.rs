//! The settings file: what it may say, and every fault in it at once.
//!
//! Each table has a file of its own here. Secrets are never in the file: it
//! names environment variables that hold them. Knows TOML and the environment;
//! starts nothing.

mod board;
mod chat;
mod environment;
mod fault;
mod file;
mod gateway;
mod matrix;
mod outbox;
mod table;

pub use board::{BoardUrl, NotABoardUrl};
pub use chat::{ChatConfig, ChatSend};
pub use environment::Environment;
pub use fault::{Fault, Faults, Place};
pub use file::{Config, Read};
pub use gateway::{GatewayConfig, SendBy, Take};
pub use matrix::MatrixConfig;
pub use outbox::Outbox;
