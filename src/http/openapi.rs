//! `GET /openapi.json`: what our paths take and answer, in OpenAPI 3.1, made
//! from the handlers themselves.

use axum::Json;
use utoipa::OpenApi;

use super::{board, chat, health, messages, plain};

#[derive(OpenApi)]
#[openapi(
    info(
        title = "Lapwing",
        description = "A swim squad's coaching assistant by text message. Messages come in \
            signed by the Standard Webhooks scheme, or by a gateway's secret address.",
        license(name = "Apache-2.0", identifier = "Apache-2.0"),
    ),
    paths(
        messages::post,
        plain::get,
        plain::post,
        chat::take::take,
        board::calendar,
        board::feed,
        board::file,
        board::live,
        board::own,
        board::own_file,
        board::show,
        board::swimmer,
        board::wish,
        health::get,
        health::ready,
        get,
    ),
    tags(
        (name = "messages", description = "Messages in, answers out"),
        (name = "operations", description = "For whoever looks after the process"),
    ),
)]
struct Api;

/// The whole of this description.
#[utoipa::path(get, path = "/openapi.json", tag = "operations", responses(
    (status = 200, description = "This description", body = Object),
))]
pub async fn get() -> Json<utoipa::openapi::OpenApi> {
    Json(Api::openapi())
}
