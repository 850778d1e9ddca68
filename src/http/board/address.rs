//! What stands behind a page's address, or the page that says that it is shut.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::extract::{FromRequestParts, Path};
use axum::http::StatusCode;
use axum::http::request::Parts;
use axum::response::{IntoResponse, Response};
use maud::Markup;
use serde::de::DeserializeOwned;
use utoipa::openapi::{self, ContentBuilder, RefOr, ResponseBuilder};
use utoipa::{IntoResponses, PartialSchema};

use super::answer::answer;
use super::layout::{self, Again};
use crate::http::{Problem, Reception};
use crate::language::Language;
use crate::reply::{Label, voice};
use crate::service::{Failure, Service};

/// What an address of ours holds: a token, and what is asked for by it. One that holds
/// something else is answered as one that was shut.
pub struct Address<T>(pub T);

impl<T: DeserializeOwned + Send, S: Send + Sync> FromRequestParts<S> for Address<T> {
    type Rejection = NotShown;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, NotShown> {
        let path = Path::from_request_parts(parts, state).await;
        path.map(|Path(held)| Address(held)).map_err(|_| NotShown::Shut)
    }
}

/// Why nothing is shown.
pub enum NotShown {
    /// It is shut, or never was: which of them is nobody's business.
    Shut,
    /// It can't be shown now.
    Refused(Problem),
}

impl From<Problem> for NotShown {
    fn from(problem: Problem) -> NotShown {
        NotShown::Refused(problem)
    }
}

impl IntoResponse for NotShown {
    fn into_response(self) -> Response {
        match self {
            NotShown::Shut => {
                answer(StatusCode::NOT_FOUND, told(Label::Shut, Label::ShutHow, Again::Never))
            }
            NotShown::Refused(problem) => {
                let page = told(Label::Unavailable, Label::UnavailableHow, Again::Browser);
                answer(problem.status(), page)
            }
        }
    }
}

/// For the description of every path that is answered so.
impl IntoResponses for NotShown {
    fn responses() -> BTreeMap<String, RefOr<openapi::Response>> {
        let page = |said: &str| -> RefOr<openapi::Response> {
            let words = ContentBuilder::new().schema(Some(String::schema())).build();
            ResponseBuilder::new().description(said).content("text/html", words).into()
        };
        let shut = "There is no such thing, or it is shut, or never was";
        let codes = [("404", page(shut)), ("503", page("It can't be had now"))];
        codes.map(|(code, page)| (code.to_owned(), page)).into()
    }
}

/// A page of two sentences, to somebody whose language is not known.
fn told(heading: Label, how: Label, again: Again) -> Markup {
    let voice = voice(Language::English);
    layout::note(Language::English, voice.label(heading), voice.label(how), again)
}

/// What the service finds by a token.
///
/// # Errors
/// It finds nothing, or can't look now.
pub async fn behind<T: Send + 'static, Work>(
    reception: &Reception,
    token: &str,
    look: impl FnOnce(Arc<Service>, String) -> Work,
) -> Result<T, NotShown>
where
    Work: Future<Output = Result<Option<T>, Failure>> + Send + 'static,
{
    let token = token.to_owned();
    reception.ask(|service| look(service, token)).await?.ok_or(NotShown::Shut)
}
