//! The program as it is installed, run in a folder of its own.

use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::time::{Duration, Instant};

use rustix::process::{Pid, Signal, kill_process};

/// How long anything may take before a test gives up.
const PATIENCE: Duration = Duration::from_secs(30);

/// The program with these arguments in this folder, with nothing else in its
/// environment that could tell it something.
pub fn lapwing(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_lapwing"));
    command.args(arguments).current_dir(folder).stdin(Stdio::null()).env_clear();
    command.stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

pub fn done(mut command: Command) -> Output {
    command.output().unwrap()
}

/// Its standard output, after success.
pub fn printed(command: Command) -> String {
    let output = done(command);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.success(), "{said}");
    String::from_utf8(output.stdout).unwrap()
}

/// What it says on standard error, after failure.
pub fn refused(command: Command) -> String {
    let output = done(command);
    assert!(!output.status.success());
    String::from_utf8(output.stderr).unwrap()
}

/// With these lines typed.
pub fn with_input(mut command: Command, lines: &str) -> Output {
    let mut child = command.stdin(Stdio::piped()).spawn().unwrap();
    child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
    child.wait_with_output().unwrap()
}

/// A running server; killed when the test ends.
pub struct Running {
    pub child: Child,
    pub url: String,
    /// What it said before it listened.
    pub said: String,
}

impl Running {
    /// Starts it and waits until it listens.
    pub fn start(command: Command) -> Running {
        Running::start_logging(command, std::io::sink())
    }

    /// The same, with what it says from then on written to `log`.
    pub fn start_logging(mut command: Command, mut log: impl Write + Send + 'static) -> Running {
        let mut child = command.stdout(Stdio::null()).spawn().unwrap();
        let mut lines = BufReader::new(child.stderr.take().unwrap()).lines();
        let mut said = String::new();
        let url = loop {
            let Some(Ok(line)) = lines.next() else { panic!("it ended: {said}") };
            if let Some(url) = line.strip_prefix("listening on ") {
                break url.to_owned();
            }
            said.push_str(&line);
            said.push('\n');
        };
        // Its log must go somewhere, or it would wait for us.
        std::thread::spawn(move || {
            lines.map_while(Result::ok).for_each(|line| writeln!(log, "{line}").unwrap());
        });
        Running { child, url, said }
    }

    pub fn serve(folder: &Path) -> Running {
        Running::start(lapwing(folder, &["serve", "--listen", "127.0.0.1:0"]))
    }

    pub fn port(&self) -> u16 {
        self.url.rsplit(':').next().unwrap().parse().unwrap()
    }

    pub fn signal(&self, signal: Signal) {
        let id = i32::try_from(self.child.id()).unwrap();
        kill_process(Pid::from_raw(id).unwrap(), signal).unwrap();
    }

    /// Told to stop, and waited for; what it said before it listened.
    pub fn stopped(mut self) -> String {
        self.signal(Signal::TERM);
        assert_eq!(self.end().0, Some(0));
        std::mem::take(&mut self.said)
    }

    /// Waits for its end; its exit code and how long it took.
    pub fn end(&mut self) -> (Option<i32>, Duration) {
        let begun = Instant::now();
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                return (status.code(), begun.elapsed());
            }
            assert!(begun.elapsed() < PATIENCE, "it doesn't end");
            std::thread::sleep(Duration::from_millis(10));
        }
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// A folder whose name is as long as `length`, within this one.
pub fn deep(folder: &Path, length: usize) -> PathBuf {
    let mut path = folder.to_owned();
    while path.as_os_str().len() < length {
        path.push("nest-of-a-lapwing");
    }
    fs::create_dir_all(&path).unwrap();
    path
}
