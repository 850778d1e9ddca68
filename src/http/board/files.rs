//! `GET /board/{token}/{file}`, `GET /me/{token}/{file}`: the files of a squad or a
//! swimmer, for whoever has the page.

use axum::extract::State;
use axum::http::HeaderValue;
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::Response;
use maud::{Markup, html};

use super::address::{Address, NotShown, behind};
use super::answer::guarded;
use super::page::Page;
use crate::export::File;
use crate::http::router::{Door, Doorway};
use crate::reply::Label;

/// Links to the files.
pub fn part(page: Page<'_>) -> Markup {
    let inside = html! {
        p.soft { (page.label(Label::TakeHow)) }
        (links(page.token, page.label(Label::Calendar)))
    };
    page.folded("take", page.label(Label::Take), None, &inside)
}

/// A link a file, beside the page's own address as whoever reads it has it, and one
/// to the calendar that lasts.
pub fn links(token: &str, lasting: &str) -> Markup {
    html! {
        ul.files {
            @for file in File::ALL { li { a href=(format!("{token}/{file}")) download { (file) } } }
            li { a href=(format!("{token}/calendar")) { (lasting) } }
        }
    }
}

/// Hands out one of the squad's files.
#[utoipa::path(get, path = "/board/{token}/{file}", tag = "operations",
    params(("token" = String, Path, description = "What the text `board` was answered with"),
        ("file" = String, Path, description = "`members.csv`, `tests.csv`, `sets.csv`, `sessions.csv`, `attendance.csv`, `everything.jsonl` or `calendar.ics`")),
    responses(
        (status = 200, description = "The file", body = String, content_type = "text/csv"),
        NotShown,
    ))]
pub async fn file(
    State(door): State<Doorway>,
    Address((token, name)): Address<(String, String)>,
) -> Result<Response, NotShown> {
    taken(&door, &token, &name).await
}

/// Hands out one of a swimmer's own files.
#[utoipa::path(get, path = "/me/{token}/{file}", tag = "operations",
    params(("token" = String, Path, description = "What the text `trend` was answered with"),
        ("file" = String, Path, description = "As of the squad's page")),
    responses(
        (status = 200, description = "The file", body = String, content_type = "text/csv"),
        NotShown,
    ))]
pub async fn own_file(
    State(door): State<Doorway>,
    Address((token, name)): Address<(String, String)>,
) -> Result<Response, NotShown> {
    taken(&door, &token, &name).await
}

/// Whose it is, the token says.
async fn taken(door: &Door, token: &str, name: &str) -> Result<Response, NotShown> {
    let file: File = name.parse().map_err(|_| NotShown::Shut)?;
    let look = behind(&door.reception, token, |service, token| async move {
        service.taken_by_board(&token, file)
    });
    Ok(handed_out(file, look.await?))
}

/// A file for somebody to keep.
pub fn handed_out(file: File, text: String) -> Response {
    let mut response = guarded(text);
    let headers = response.headers_mut();
    headers.insert(CONTENT_TYPE, HeaderValue::from_static(file.media_type()));
    let named = HeaderValue::try_from(format!("attachment; filename=\"{file}\""));
    headers.extend(named.map(|named| (CONTENT_DISPOSITION, named)));
    response
}
