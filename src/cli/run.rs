//! From the arguments to a command, and from its outcome to an exit code.

use std::error::Error;
use std::ffi::OsString;
use std::io;
use std::process::ExitCode;
use std::time::Duration;

use clap::parser::ValueSource;
use clap::{ArgMatches, CommandFactory, FromArgMatches};
use rustix::fs::Mode;
use rustix::process::{Resource, Rlimit, getrlimit, setrlimit, umask};

use super::arguments::{Arguments, Command, Matrix, Serve};
use super::console::Loudness;
use super::settings::Settings;
use super::{
    chat, check_config, completions, console, demo, export, import, matrix, outbox, read, rules,
    send, serve, simulate, squad, upkeep, version,
};

/// Why a command was not done, for people.
pub type Failed = Box<dyn Error + Send + Sync>;

/// What a command ends in.
pub type Outcome = Result<(), Failed>;

/// How long work that nobody waits for any more may hold up the end.
const LAST_WAIT: Duration = Duration::from_millis(500);

/// Does what the arguments say; 0 if it was done, 1 if not, 2 if the arguments
/// make no sense.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let (arguments, matches) = match parsed(arguments.into_iter().collect()) {
        Ok(parsed) => parsed,
        Err(told) => {
            let _ = told.print();
            return ExitCode::from(u8::try_from(told.exit_code()).unwrap_or(2));
        }
    };
    // What we store is about people: no file of ours is for other users.
    umask(Mode::RWXG | Mode::RWXO);
    raise_limit_of_open_files();
    console::begin(Loudness::of(arguments.shared.quiet, arguments.shared.verbose));
    let runtime = match tokio::runtime::Runtime::new() {
        Ok(runtime) => runtime,
        Err(failed) => return refused(&failed),
    };
    let outcome = runtime.block_on(done(arguments, &matches));
    runtime.shutdown_timeout(LAST_WAIT);
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        // Whoever reads what we print has read enough.
        Err(failed) if is_broken_pipe(failed.as_ref()) => ExitCode::SUCCESS,
        Err(failed) => refused(failed.as_ref()),
    }
}

fn is_broken_pipe(failed: &(dyn Error + Send + Sync + 'static)) -> bool {
    let failed = failed.downcast_ref::<io::Error>();
    failed.is_some_and(|failed| failed.kind() == io::ErrorKind::BrokenPipe)
}

/// The arguments; without a command, those of the demo.
fn parsed(mut words: Vec<OsString>) -> Result<(Arguments, ArgMatches), clap::Error> {
    let read = |words: &[OsString]| {
        let matches = Arguments::command().try_get_matches_from(words)?;
        Arguments::from_arg_matches(&matches).map(|arguments| (arguments, matches))
    };
    let (arguments, matches) = read(&words)?;
    if arguments.command.is_some() {
        return Ok((arguments, matches));
    }
    words.push("demo".into());
    read(&words)
}

async fn done(arguments: Arguments, matches: &ArgMatches) -> Outcome {
    let shared = arguments.shared;
    let for_server = |asked: &Serve| Settings::for_server(&shared, asked);
    let settings = || Settings::for_command(&shared, &Serve::default());
    match arguments.command {
        Some(Command::Serve(asked)) => serve::run(&for_server(&asked)?).await,
        Some(Command::Squad(asked)) => squad::run(&settings()?, asked).await,
        Some(Command::Chat(asked)) => {
            let clock = Serve { clock: asked.clock, ..Serve::default() };
            chat::run(&Settings::for_command(&shared, &clock)?, asked).await
        }
        Some(Command::Send(asked)) => send::run(&settings()?, asked).await,
        Some(Command::Read(asked)) => read::run(&settings()?, asked).await,
        Some(Command::Outbox(asked)) => outbox::run(&settings()?, asked).await,
        Some(Command::Export(asked)) => export::run(&settings()?, asked).await,
        Some(Command::Import(asked)) => import::run(&settings()?, asked).await,
        Some(Command::Rules(asked)) => rules::run(&settings()?, &asked),
        Some(Command::Simulate(asked)) => simulate::run(&settings()?, asked).await,
        Some(Command::Check) => upkeep::check(&settings()?.data).await,
        Some(Command::CheckConfig(asked)) => check_config::run(&shared, &asked).await,
        Some(Command::Matrix(Matrix::Registration(asked))) => {
            matrix::register(&for_server(&Serve::default())?, &asked)
        }
        Some(Command::Backup(asked)) => upkeep::backup(&settings()?.data, asked).await,
        Some(Command::Restore(asked)) => upkeep::restore(&settings()?.data, &asked.file).await,
        Some(Command::Repair(asked)) => upkeep::repair(&settings()?.data, asked.from).await,
        Some(Command::Prepare(asked)) => upkeep::prepare(&settings()?.data, asked.role).await,
        Some(Command::Completions(asked)) => completions::run(asked),
        Some(Command::Version(asked)) => version::run(asked),
        Some(Command::Demo(asked)) => {
            let settings = for_server(&asked)?;
            demo::run(demo::in_own_folder(settings, told_by_flag(matches))).await
        }
        None => Ok(()),
    }
}

/// Whether the data folder was named on the command line itself.
fn told_by_flag(matches: &ArgMatches) -> bool {
    let innermost = matches.subcommand().map_or(matches, |(_, inner)| inner);
    innermost.value_source("data") == Some(ValueSource::CommandLine)
}

/// A thousand connections need more files than many systems allow at first.
fn raise_limit_of_open_files() {
    let limit = getrlimit(Resource::Nofile);
    let raised = Rlimit { current: limit.maximum, ..limit };
    if let Err(refused) = setrlimit(Resource::Nofile, raised) {
        tracing::debug!(%refused, "the limit of open files stays");
    }
}

fn refused(why: &dyn Error) -> ExitCode {
    console::warn(format_args!("lapwing: {why}"));
    ExitCode::FAILURE
}
