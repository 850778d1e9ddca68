//! `lapwing check-config`: whether a server would start with these settings.

use super::arguments::{Serve, Shared};
use super::console::print;
use super::run::Outcome;
use super::settings::Settings;

/// Tells what the settings come to, or all that is wrong with them.
pub fn run(shared: &Shared, serve: &Serve) -> Outcome {
    let settings = Settings::for_server(shared, serve)?;
    print(format_args!("data: {}", settings.data.path().display()))?;
    print(format_args!("listen: {}", settings.listen))?;
    for gateway in &settings.gateways {
        let does = match (&gateway.take, &gateway.send) {
            (Some(_), Some(_)) => "takes and sends",
            (Some(_), None) => "takes",
            (None, _) => "sends",
        };
        print(format_args!("gateway {}: {does} texts", gateway.name))?;
    }
    for chat in &settings.chats {
        let reaches = if chat.send.is_some() { ", reaches its people alone" } else { "" };
        print(format_args!("chat {}: takes messages{reaches}", chat.name))?;
    }
    if let Some(matrix) = &settings.matrix {
        print(format_args!("matrix: {}", matrix.account.user_id()))?;
    }
    let outbox = settings.outbox.as_ref().and_then(|to| to.url.host_str());
    print(format_args!("outbox: {}", outbox.unwrap_or("no address, texts to others wait")))?;
    Ok(())
}
