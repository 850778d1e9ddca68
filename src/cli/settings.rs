//! What can be set, from where, and which setting goes before which: flags,
//! then the environment, then the file, then the default.

use std::fs;
use std::num::NonZeroU32;
use std::path::{Path, PathBuf};

use serde::Deserialize;

use super::arguments::{Serve, Shared};
use crate::clock::ClockMode;
use crate::control::DataFolder;
use crate::outbox::{Destination, NotADestination};

/// Where data are kept if nothing is said.
const DATA: &str = "./lapwing-data";

/// Where we listen if nothing is said.
const LISTEN: &str = "127.0.0.1:7373";

/// The settings in force.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Settings {
    /// The data folder.
    pub data: DataFolder,
    /// Where to listen.
    pub listen: String,
    /// How many messages a sender may bring in a minute, if that is limited.
    pub limit: Option<NonZeroU32>,
    /// What counts as now.
    pub clock: ClockMode,
    /// Where replies to others than the sender are brought, if anywhere.
    pub outbox: Option<Destination>,
}

/// A settings file.
#[derive(Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    data: Option<PathBuf>,
    listen: Option<String>,
    limit: Option<NonZeroU32>,
    #[serde(default, deserialize_with = "clock_mode")]
    clock: Option<ClockMode>,
    #[serde(default)]
    outbox: OutboxTable,
}

/// The file's `[outbox]`.
#[derive(Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
struct OutboxTable {
    url: Option<String>,
    #[serde(default)]
    allow_private: bool,
    limit: Option<NonZeroU32>,
}

/// Why a settings file can't be used.
#[derive(Debug, thiserror::Error)]
pub enum SettingsError {
    /// It can't be read.
    #[error("{}: {cause}", file.display())]
    Unread {
        /// Which file.
        file: PathBuf,
        /// Why not.
        cause: std::io::Error,
    },
    /// What it says can't be understood; the cause names the line.
    #[error("{}: {cause}", file.display())]
    Unfit {
        /// Which file.
        file: PathBuf,
        /// What can't be understood, and where.
        cause: Box<toml::de::Error>,
    },
    /// Letters can't be brought where they should be.
    #[error(transparent)]
    Outbox(#[from] NotADestination),
}

impl Settings {
    /// The settings from these flags (which hold the environment's too) and
    /// the file they name.
    ///
    /// # Errors
    /// The file can't be read or understood, or an address in the settings is
    /// none.
    pub fn gather(shared: &Shared, serve: &Serve) -> Result<Settings, SettingsError> {
        let file = shared.config.as_deref().map(File::read).transpose()?.unwrap_or_default();
        let data = shared.data.clone().or(file.data);
        let OutboxTable { url, allow_private, limit } = file.outbox;
        let outbox = serve.outbox_url.clone().or(url);
        Ok(Settings {
            data: DataFolder::new(data.unwrap_or_else(|| DATA.into())),
            listen: serve.listen.clone().or(file.listen).unwrap_or_else(|| LISTEN.into()),
            limit: serve.limit.or(file.limit),
            clock: serve.clock.clock.or(file.clock).unwrap_or_default(),
            outbox: outbox.map(|url| Destination::new(&url, allow_private, limit)).transpose()?,
        })
    }
}

impl File {
    fn read(path: &Path) -> Result<File, SettingsError> {
        let text = fs::read_to_string(path)
            .map_err(|cause| SettingsError::Unread { file: path.to_owned(), cause })?;
        toml::from_str(&text)
            .map_err(|cause| SettingsError::Unfit { file: path.to_owned(), cause: Box::new(cause) })
    }
}

fn clock_mode<'de, D: serde::Deserializer<'de>>(source: D) -> Result<Option<ClockMode>, D::Error> {
    let word = String::deserialize(source)?;
    word.parse().map(Some).map_err(serde::de::Error::custom)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn gathered(file: &str, flags: Shared) -> Result<Settings, String> {
        let dir = tempfile::tempdir().unwrap();
        let config = dir.path().join("lapwing.toml");
        fs::write(&config, file).unwrap();
        Settings::gather(&Shared { config: Some(config), ..flags }, &Serve::default())
            .map_err(|refusal| refusal.to_string())
    }

    const NONE: Shared = Shared { data: None, config: None };

    #[test]
    fn flags_go_before_the_file_and_the_file_before_the_default() {
        let file = "data = \"/srv/a\"\nclock = \"message\"\n";
        let settings = gathered(file, NONE).unwrap();
        assert_eq!(settings.data.path(), Path::new("/srv/a"));
        assert_eq!((settings.listen.as_str(), settings.clock), (LISTEN, ClockMode::Message));
        let flags = Shared { data: Some("/srv/b".into()), ..NONE };
        assert_eq!(gathered(file, flags).unwrap().data.path(), Path::new("/srv/b"));
        assert_eq!(gathered("", NONE).unwrap().data.path(), Path::new(DATA));
    }

    #[test]
    fn the_outbox_is_off_until_it_has_an_address() {
        assert_eq!(gathered("[outbox]\nlimit = 5\n", NONE).unwrap().outbox, None);
        let file = "[outbox]\nurl = \"https://gateway.example.org/in\"\nlimit = 5\n";
        let outbox = gathered(file, NONE).unwrap().outbox.unwrap();
        assert_eq!((outbox.per_minute.get(), outbox.allow_private), (5, false));
        let private = "[outbox]\nurl = \"http://10.0.0.5/?token=7\"\n";
        let refusal = gathered(private, NONE).unwrap_err();
        assert!(refusal.contains("allow_private") && !refusal.contains("token"), "{refusal}");
        assert!(gathered(&format!("{private}allow_private = true\n"), NONE).is_ok());
    }

    #[test]
    fn what_the_file_may_not_say_is_refused_with_its_line() {
        for (file, word) in [
            ("\nlisten = \"[::]:80\"\ndate = \"x\"\n", "date"),
            ("\n\nclock = \"sundial\"\n", "sundial"),
            ("\n\nlisten = 80\n", "listen"),
            ("\n\nlimit = 0\n", "limit"),
            ("\n[outbox]\nsecret = \"x\"\n", "secret"),
        ] {
            let refusal = gathered(file, NONE).unwrap_err();
            assert!(refusal.contains("line 3") && refusal.contains(word), "{refusal}");
        }
    }
}
