//! What a request with a letter looks like to one kind of other end.

use jiff::Timestamp;
use reqwest::{Client, RequestBuilder, StatusCode, Url};

use super::{Returned, Wish};
use crate::service::Letter;

/// A kind of other end. It sends nothing itself.
pub trait Manner: Send + Sync + 'static {
    /// The request that brings a letter to the destination at `to`. Each try of
    /// a letter must be the same to the other end, as far as it tells repeats.
    ///
    /// # Errors
    /// It can't be written.
    fn request(
        &self,
        http: &Client,
        to: &Url,
        letter: &Letter,
        now: Timestamp,
    ) -> Result<RequestBuilder, Returned>;

    /// What a refusal asks for beyond what its status does in any manner;
    /// `said` is the beginning of its body.
    fn wish(&self, status: StatusCode, said: &[u8]) -> Option<Wish> {
        let _ = (status, said);
        None
    }
}
