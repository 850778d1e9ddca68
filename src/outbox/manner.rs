//! What a request with a letter looks like to one kind of other end.

use std::pin::Pin;

use jiff::Timestamp;
use reqwest::{Client, RequestBuilder, StatusCode, Url};

use super::{Returned, Wish};
use crate::service::Letter;

/// A request to be, or why it can't be written.
pub type Request<'a> = Pin<Box<dyn Future<Output = Result<RequestBuilder, Returned>> + Send + 'a>>;

/// A kind of other end. It sends no letter itself.
pub trait Manner: Send + Sync + 'static {
    /// The request that brings a letter to the destination at `to`. Each try of
    /// a letter must be the same to the other end, as far as it tells repeats.
    /// What must be found out first is asked of the other end meanwhile.
    fn request<'a>(
        &'a self,
        http: &'a Client,
        to: &'a Url,
        letter: &'a Letter,
        now: Timestamp,
    ) -> Request<'a>;

    /// What a refusal asks for beyond what its status does in any manner;
    /// `said` is the beginning of its body.
    fn wish(&self, status: StatusCode, said: &[u8]) -> Option<Wish> {
        let _ = (status, said);
        None
    }
}
