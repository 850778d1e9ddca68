//! The calendar that lasts: its page, from which it is opened, renewed or shut, and
//! the address under which calendars ask for it.

use axum::extract::{Request, State};
use axum::http::StatusCode;
use axum::http::header::CONTENT_SECURITY_POLICY;
use axum::response::Response;
use maud::{Markup, html};

use super::address::{Address, NotShown, behind};
use super::answer::answer;
use super::files::handed_out;
use super::layout::{self, Again};
use super::policy::policy_with_forms;
use crate::desk::board::CalendarSeen;
use crate::export::File;
use crate::http::router::Doorway;
use crate::reply::{Label, voice};

/// What calendars' addresses end in.
const ENDING: &str = ".ics";
/// What the page's buttons send.
const OPEN: &[u8] = b"do=open";
const SHUT: &[u8] = b"do=shut";

/// Says whether there is a calendar that lasts, and lets it be opened or shut.
#[utoipa::path(get, path = "/board/{token}/calendar", tag = "operations",
    params(("token" = String, Path, description = "What opens the page")),
    responses(
        (status = 200, description = "The page", body = String, content_type = "text/html"),
        NotShown,
    ))]
pub async fn calendar(
    State(door): State<Doorway>,
    Address(token): Address<String>,
) -> Result<Response, NotShown> {
    let look = behind(&door.reception, &token, |service, token| async move {
        service.calendar_seen(&token).await
    });
    Ok(shown(&look.await?, None, &token))
}

/// Opens the calendar under a new address, which shuts the old one, or shuts it.
#[utoipa::path(post, path = "/board/{token}/calendar", tag = "operations",
    params(("token" = String, Path, description = "What opens the page")),
    request_body(content = String, content_type = "application/x-www-form-urlencoded",
        description = "`do=open` or `do=shut`"),
    responses(
        (status = 200, description = "The page, with the address where it is new", body = String,
            content_type = "text/html"),
        NotShown,
    ))]
pub async fn wish(
    State(door): State<Doorway>,
    Address(token): Address<String>,
    request: Request,
) -> Result<Response, NotShown> {
    let (_, body) = door.read(request).await?;
    match body.as_slice() {
        OPEN => {
            let open = behind(&door.reception, &token, |service, token| async move {
                service.open_calendar(&token).await
            });
            let (seen, url) = open.await?;
            Ok(shown(&seen, Some(&url), &token))
        }
        SHUT => {
            let shut = behind(&door.reception, &token, |service, token| async move {
                service.shut_calendar(&token).await
            });
            Ok(shown(&shut.await?, None, &token))
        }
        _ => Err(NotShown::Shut),
    }
}

/// Hands out a calendar to whoever has its address.
#[utoipa::path(get, path = "/calendar/{file}", tag = "operations",
    params(("file" = String, Path, description = "The address's token, and `.ics`")),
    responses(
        (status = 200, description = "The calendar (RFC 5545)", body = String,
            content_type = "text/calendar"),
        NotShown,
    ))]
pub async fn feed(
    State(door): State<Doorway>,
    Address(file): Address<String>,
) -> Result<Response, NotShown> {
    let token = file.strip_suffix(ENDING).ok_or(NotShown::Shut)?;
    let look =
        behind(&door.reception, token, |service, token| async move { service.calendar(&token) });
    Ok(handed_out(File::Calendar, look.await?))
}

/// The calendar's page, with its address where that is new.
fn shown(seen: &CalendarSeen, url: Option<&str>, token: &str) -> Response {
    let page = page(seen, url, &format!("../{token}"));
    let mut response = answer(StatusCode::OK, page);
    response.headers_mut().insert(CONTENT_SECURITY_POLICY, policy_with_forms());
    response
}

fn page(seen: &CalendarSeen, url: Option<&str>, back: &str) -> Markup {
    let voice = voice(seen.language);
    let label = |label| voice.label(label);
    let button = |does: &str, word| html! { button name="do" value=(does) { (label(word)) } };
    let body = html! {
        main.note.lasting {
            h1 { (seen.of) ": " (label(Label::Calendar)) }
            p { (label(Label::CalendarHow)) }
            @if let Some(url) = url {
                p.address { a href=(url) { (url) } }
                p { (label(Label::CalendarOnce)) }
            } @else if let Some(since) = seen.since {
                p { (voice.since(&voice.day(since))) }
            }
            form method="post" {
                @if seen.since.is_some() {
                    (button("open", Label::CalendarRenew)) " " (button("shut", Label::CalendarShut))
                } @else {
                    (button("open", Label::CalendarOpen))
                }
            }
            p { a.back href=(back) { (label(Label::Back)) } }
        }
    };
    let title = format!("{}: {}", label(Label::Calendar), seen.of);
    layout::whole(seen.language, &title, Again::Never, &body)
}
