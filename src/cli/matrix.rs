//! `lapwing matrix registration`: the file by which a homeserver gets to know
//! this server.

use super::arguments::Registration;
use super::console::print;
use super::run::Outcome;
use super::settings::Settings;
use crate::matrix::registration;

/// Prints it; both tokens are in it.
pub fn register(settings: &Settings, asked: &Registration) -> Outcome {
    let matrix = settings.matrix.as_ref().ok_or("the settings file has no [matrix]")?;
    let url = asked.url.clone().unwrap_or_else(|| format!("http://{}", settings.listen));
    print(registration(&matrix.account, &url).trim_end())?;
    Ok(())
}
