//! `GET /board/{token}/swimmer/{name}`: how it is going for one swimmer.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use maud::{Markup, html};

use super::address::{Address, NotShown, behind};
use super::answer::answer;
use super::files;
use super::layout::{self, Again};
use super::progress::{days, next, repeats, tests, weeks};
use crate::desk::board::One;
use crate::http::router::{Door, Doorway};
use crate::message::Name;
use crate::reply::{Label, voice};

/// Shows one swimmer's page to whoever has the squad's.
#[utoipa::path(get, path = "/board/{token}/swimmer/{name}", tag = "operations",
    params(("token" = String, Path, description = "What the text `board` was answered with"),
        ("name" = String, Path, description = "The swimmer's handle")),
    responses(
        (status = 200, description = "The page", body = String, content_type = "text/html"),
        NotShown,
    ))]
pub async fn swimmer(
    State(door): State<Doorway>,
    Address((token, name)): Address<(String, Name)>,
) -> Result<Response, NotShown> {
    shown(&door, &token, Some(name)).await
}

/// Shows a swimmer their own page.
#[utoipa::path(get, path = "/me/{token}", tag = "operations",
    params(("token" = String, Path, description = "What the text `trend` was answered with")),
    responses(
        (status = 200, description = "The page", body = String, content_type = "text/html"),
        NotShown,
    ))]
pub async fn own(
    State(door): State<Doorway>,
    Address(token): Address<String>,
) -> Result<Response, NotShown> {
    shown(&door, &token, None).await
}

/// Who looks at the page.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Whose {
    /// Whoever has the squad's page.
    AnyOfTheSquad,
    /// The swimmer.
    Own,
}

/// The page of whoever is named by the squad's token, else of the swimmer whose own it is.
async fn shown(door: &Door, token: &str, name: Option<Name>) -> Result<Response, NotShown> {
    let whose = if name.is_some() { Whose::AnyOfTheSquad } else { Whose::Own };
    let look = behind(&door.reception, token, |service, token| async move {
        service.board_of_one(&token, name.as_ref()).await
    });
    Ok(answer(StatusCode::OK, page(&look.await?, token, whose)))
}

fn page(one: &One, token: &str, whose: Whose) -> Markup {
    let voice = voice(one.language);
    let name = one.who.name.as_str();
    let body = html! {
        div id="page" {
            header {
                h1 { (name) }
                p.day { (one.squad) ", " (voice.day(one.today)) }
                @if whose == Whose::AnyOfTheSquad { p.live { a.back href=(format!("../../{token}")) { (voice.label(Label::Back)) } } }
            }
            main {
                (part("next", voice.label(Label::Next), &next(voice, one)))
                (part("tests", voice.label(Label::Tests), &tests(voice, &one.tests)))
                (part("weeks", voice.label(Label::ByWeek), &weeks(voice, one)))
                (part("days", voice.label(Label::Days), &days(voice, one)))
                @for set in &one.sets { (repeats(voice, set)) }
                @if whose == Whose::Own {
                    (part("take", voice.label(Label::Take), &files::links(token, voice.label(Label::Calendar))))
                }
            }
        }
    };
    let title = format!("{name}: {}", one.squad);
    layout::whole(one.language, &title, Again::Never, &body)
}

fn part(id: &str, heading: &str, inside: &Markup) -> Markup {
    html! {
        section class=(id) aria-labelledby=(id) {
            h2 id=(id) { (heading) }
            (inside)
        }
    }
}
