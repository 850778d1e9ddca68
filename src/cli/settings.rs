//! What can be set, from where, and which setting goes before which: flags,
//! then the environment, then the file, then the default.

use std::num::NonZeroU32;

use super::arguments::{Serve, Shared};
use super::keys;
use crate::clock::ClockMode;
use crate::config::{
    BoardUrl, ChatConfig, Config, Environment, Faults, GatewayConfig, MatrixConfig, Place, Read,
};
use crate::control::{self, DataFolder};
use crate::journal::DatabaseUrl;
use crate::outbox::Destination;

/// Names the password of the database that holds the journal.
const PASSWORD: &str = "LAPWING_JOURNAL_PASSWORD";

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
    /// Where a monitor may fetch figures, if anywhere.
    pub metrics: Option<String>,
    /// How many messages a sender may bring in a minute, if that is limited.
    pub limit: Option<NonZeroU32>,
    /// How addresses of squads' pages begin; as ours does where nothing is said.
    pub board: Option<BoardUrl>,
    /// What counts as now.
    pub clock: ClockMode,
    /// Where other machines reach this one, if anywhere.
    pub neighbour: Option<BoardUrl>,
    /// Where replies to others than the sender are brought, if anywhere.
    pub outbox: Option<Destination>,
    /// Plain gateways with names of their own.
    pub gateways: Vec<GatewayConfig>,
    /// Chat servers.
    pub chats: Vec<ChatConfig>,
    /// The Matrix homeserver.
    pub matrix: Option<MatrixConfig>,
}

impl Settings {
    /// The settings for a server, from these flags (which hold the
    /// environment's too) and the file they name.
    ///
    /// # Errors
    /// All that is wrong with the file, the flags, the secrets and tokens that the
    /// file names, and the coach's own rules.
    pub fn for_server(shared: &Shared, serve: &Serve) -> Result<Settings, Faults> {
        let (settings, mut faults) = Settings::gathered(shared, serve, &Environment::process());
        keys::faults(&settings.data).for_each(|unfit| faults.add(Place::Environment, unfit));
        if let Err(wrong) = control::rulebook(&settings.data) {
            faults.add(Place::Environment, wrong);
        }
        if settings.data.database().is_some() && settings.board.is_none() {
            let why = "--board-url is not given: where the journal is in a database, the pages of \
                       every machine that may serve must have the same address";
            faults.add(Place::Environment, why);
        }
        faults.none().map(|()| settings)
    }

    /// The settings for a command that serves nothing: secrets may be missing.
    ///
    /// # Errors
    /// All that is wrong with the file and the flags.
    pub fn for_command(shared: &Shared, serve: &Serve) -> Result<Settings, Faults> {
        let (settings, faults) = Settings::gathered(shared, serve, &Environment::process());
        faults.only(Place::File).none().map(|()| settings)
    }

    fn gathered(shared: &Shared, serve: &Serve, from: &Environment) -> (Settings, Faults) {
        let read = shared.config.as_deref().map(|file| Config::read(file, from));
        let Read { config, mut faults } = read.unwrap_or_default();
        let data = shared.data.clone().or(config.data);
        let database = database(shared, config.journal, from, &mut faults);
        let outbox = serve.outbox_url.as_deref().or(config.outbox.url.as_deref());
        let outbox = outbox.and_then(|url| {
            let to = Destination::new(url, config.outbox.allow_private, config.outbox.limit);
            to.map_err(|unfit| faults.add(Place::File, unfit)).ok()
        });
        let settings = Settings {
            data: DataFolder::new(data.unwrap_or_else(|| DATA.into())).with_database(database),
            listen: serve.listen.clone().or(config.listen).unwrap_or_else(|| LISTEN.into()),
            metrics: serve.metrics.clone().or(config.metrics),
            limit: serve.limit.or(config.limit),
            board: serve.board_url.clone().or(config.board),
            neighbour: serve.neighbour_url.clone(),
            clock: serve.clock.clock.or(config.clock).unwrap_or_default(),
            outbox,
            gateways: config.gateways,
            chats: config.chats,
            matrix: config.matrix,
        };
        (settings, faults)
    }
}

/// The database that holds the journal, with its password, if it is in one.
fn database(
    shared: &Shared,
    config: Option<DatabaseUrl>,
    from: &Environment,
    faults: &mut Faults,
) -> Option<DatabaseUrl> {
    let flag = shared.journal.as_deref().map(str::parse::<DatabaseUrl>).transpose();
    let flag = flag.map_err(|unfit| faults.add(Place::File, format!("--journal: {unfit}"))).ok()?;
    let database = flag.or(config)?;
    match from.given(PASSWORD) {
        Ok(password) => Some(database.with_password(password.as_ref())),
        Err(unfit) => {
            faults.add(Place::File, unfit);
            None
        }
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;

    fn gathered(file: &str, flags: Shared) -> Result<Settings, String> {
        let dir = tempfile::tempdir().unwrap();
        let config = dir.path().join("lapwing.toml");
        std::fs::write(&config, file).unwrap();
        let flags = Shared { config: Some(config), ..flags };
        Settings::for_server(&flags, &Serve::default()).map_err(|faults| faults.to_string())
    }

    const NONE: Shared =
        Shared { data: None, config: None, journal: None, quiet: false, verbose: 0 };

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
    fn the_journal_is_in_the_folder_until_a_database_is_named() {
        assert_eq!(gathered("", NONE).unwrap().data.database(), None);
        let file = "journal = \"postgres://heron@db.example.org/squads\"\n\
                    [board]\nurl = \"https://squad.example.org\"\n";
        let shown = |flags: Shared| gathered(file, flags).unwrap().data.shown();
        assert_eq!(shown(NONE), "postgres://db.example.org/squads");
        let flag = Some("postgres://heron@localhost/others".into());
        assert_eq!(shown(Shared { journal: flag, ..NONE }), "postgres://localhost/others");
        for (file, flag) in [
            ("journal = \"postgres://a:plover@b/c\"\n", None),
            ("", Some("postgres://a:plover@b/c")),
        ] {
            let flags = Shared { journal: flag.map(str::to_owned), ..NONE };
            let refusal = gathered(file, flags).unwrap_err();
            assert!(refusal.contains(PASSWORD) && !refusal.contains("plover"), "{refusal}");
        }
    }

    #[test]
    fn a_flag_is_checked_as_the_file_is() {
        let flags =
            Serve { outbox_url: Some("http://127.0.0.1/?token=7".into()), ..Serve::default() };
        let refusal = Settings::for_server(&NONE, &flags).unwrap_err().to_string();
        assert!(refusal.contains("private network") && !refusal.contains("token"), "{refusal}");
    }
}
