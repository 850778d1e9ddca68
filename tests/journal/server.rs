//! A PostgreSQL server of the tests' own, in a temporary folder, reached by a socket in
//! it alone. It ends, and its folder goes, when the tests do, however they end.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use lapwing::journal::DatabaseUrl;
use rustix::process::{Pid, Signal, kill_process};

/// What the server is run with.
const SETTINGS: &str = "
listen_addresses = ''
max_connections = 200
shared_buffers = 32MB
max_wal_size = 256MB
";

/// What keeps the server running until its own input ends.
const KEEPER: &str = r#"
"$1/postgres" -D "$2/data" -k "$2" >>"$2/log" 2>&1 &
server=$!
cat >/dev/null
kill -INT $server
wait $server
rm -rf "$2"
"#;

/// A server.
pub struct Server {
    programs: PathBuf,
    folder: PathBuf,
    port: u16,
    keeper: std::sync::Mutex<Option<Child>>,
    databases: AtomicU32,
}

/// The server that the tests share.
pub fn server() -> &'static Server {
    static SERVER: OnceLock<Server> = OnceLock::new();
    SERVER.get_or_init(|| Server::begin(""))
}

impl Server {
    /// Begins a server of which more is said in these settings.
    pub fn begin(settings: &str) -> Server {
        Server::begin_on(5432, |_| settings.to_owned())
    }

    /// The same with this port, and settings that are made up once its files are there.
    pub fn begin_on(port: u16, settings: impl FnOnce(&Server) -> String) -> Server {
        let server = Server::at_rest(port);
        let data = server.folder.join("data");
        server.run(
            "initdb",
            &["-U", "heron", "-A", "trust", "-E", "UTF8", "--locale=C", "-D"],
            &data,
        );
        let more = format!("{SETTINGS}\nport = {port}\n{}\n", settings(&server));
        let mut file = fs::File::options().append(true).open(data.join("postgresql.conf")).unwrap();
        file.write_all(more.as_bytes()).unwrap();
        server.start();
        server
    }

    fn at_rest(port: u16) -> Server {
        let folder = tempfile::tempdir().unwrap().keep();
        if is_root() {
            std::os::unix::fs::chown(&folder, Some(nobody()), None).unwrap();
        }
        let keeper = std::sync::Mutex::new(None);
        Server { programs: programs(), folder, port, keeper, databases: AtomicU32::new(0) }
    }

    /// A standby of it, that follows.
    pub fn standby(&self) -> Server {
        let standby = Server::at_rest(self.port);
        let host = self.folder.to_str().unwrap();
        let data = standby.folder.join("data");
        let copy = ["-h", host, "-U", "heron", "-R", "-c", "fast", "-D"];
        standby.run("pg_basebackup", &copy, &data);
        standby.start();
        standby
    }

    /// Makes a standby take writes, and returns once it does.
    pub fn promote(&self) {
        self.run("pg_ctl", &["promote", "-w", "-D"], &self.folder.join("data"));
    }

    /// Its folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Starts it, and returns once it answers. Its folder goes when it ends by itself.
    pub fn start(&self) {
        let mut keeper = self.command("sh");
        keeper.args(["-c", KEEPER, "sh"]).arg(&self.programs).arg(&self.folder);
        keeper.stdin(Stdio::piped());
        *self.keeper.lock().unwrap() = Some(keeper.spawn().unwrap());
        let until = Instant::now() + Duration::from_secs(60);
        while !self.psql("postgres", "select 1").0 {
            assert!(Instant::now() < until, "{}", self.log());
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// Ends it as a power cut would, to be started again.
    pub fn crash(&self) {
        self.run("pg_ctl", &["stop", "-m", "immediate", "-D"], &self.folder.join("data"));
        // The folder stays.
        let keeper = self.keeper.lock().unwrap().take();
        if let Some(mut keeper) = keeper {
            keeper.kill().unwrap();
            keeper.wait().unwrap();
        }
    }

    /// Has it stand still, until this is over: the system takes connections in its place,
    /// and nobody answers.
    pub fn stand_still(&self) {
        self.signal(Signal::STOP).unwrap();
    }

    fn signal(&self, signal: Signal) -> Option<()> {
        let noted = fs::read_to_string(self.folder.join("data/postmaster.pid")).ok()?;
        let process = Pid::from_raw(noted.lines().next()?.parse().ok()?)?;
        kill_process(process, signal).ok()
    }

    /// The address of a new database, as whom it belongs to.
    pub fn new_address(&self) -> String {
        let name = format!("squads{}", self.databases.fetch_add(1, Ordering::Relaxed));
        self.sql("postgres", &format!("create database {name}"));
        self.address("heron", &name)
    }

    /// The same, read.
    pub fn new_database(&self) -> DatabaseUrl {
        self.new_address().parse().unwrap()
    }

    /// The address of a database as this role.
    pub fn url(&self, role: &str, database: &str) -> DatabaseUrl {
        self.address(role, database).parse().unwrap()
    }

    /// The same in words.
    pub fn address(&self, role: &str, database: &str) -> String {
        let host = self.folder.display().to_string().replace('/', "%2F");
        format!("postgres://{role}@{host}/{database}")
    }

    /// What it answers in a database, a line a row.
    pub fn sql(&self, database: &str, sql: &str) -> String {
        let (done, said) = self.psql(database, sql);
        assert!(done, "{sql}: {said}");
        said
    }

    fn psql(&self, database: &str, sql: &str) -> (bool, String) {
        let out = Command::new("psql")
            .args(["-X", "-q", "-A", "-t", "-v", "ON_ERROR_STOP=1", "-U", "heron", "-d", database])
            .args(["-c", sql, "-h"])
            .arg(&self.folder)
            .args(["-p", &self.port.to_string()])
            .output()
            .unwrap();
        let said = [out.stdout, out.stderr].concat();
        (out.status.success(), String::from_utf8_lossy(&said).trim().to_owned())
    }

    /// Runs one of the server's own programs.
    pub fn run(&self, program: &str, arguments: &[&str], last: &Path) {
        let out = self
            .command(self.programs.join(program).to_str().unwrap())
            .args(arguments)
            .arg(last)
            .output()
            .unwrap();
        let said = [out.stdout, out.stderr].concat();
        assert!(out.status.success(), "{program}: {}", String::from_utf8_lossy(&said));
    }

    /// A command by a user who isn't root: the server refuses to be run by that one.
    fn command(&self, program: &str) -> Command {
        let mut command = match is_root() {
            true => {
                let mut command = Command::new("setpriv");
                command.arg(format!("--reuid={}", nobody())).args(["--clear-groups", program]);
                command
            }
            false => Command::new(program),
        };
        command.current_dir(&self.folder);
        command
    }

    fn log(&self) -> String {
        fs::read_to_string(self.folder.join("log")).unwrap_or_default()
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        if let Some(mut keeper) = self.keeper.lock().unwrap().take() {
            // Who stands still does not end.
            self.signal(Signal::CONT);
            drop(keeper.stdin.take());
            let _ = keeper.wait();
        }
    }
}

fn is_root() -> bool {
    rustix::process::geteuid().is_root()
}

fn nobody() -> u32 {
    65_534
}

/// Where the server's programs are: Debian has them beside each other by version.
fn programs() -> PathBuf {
    let versions = fs::read_dir("/usr/lib/postgresql").into_iter().flatten();
    let mut found: Vec<PathBuf> = versions
        .map(|version| version.unwrap().path().join("bin"))
        .filter(|programs| programs.join("postgres").exists())
        .collect();
    let of = |path: &PathBuf| {
        path.iter().nth_back(1).and_then(|version| version.to_str()?.parse::<u32>().ok())
    };
    found.sort_by_key(of);
    let path = std::env::var_os("PATH").unwrap_or_default();
    let here = std::env::split_paths(&path).find(|folder| folder.join("initdb").exists());
    found.pop().or(here).unwrap()
}
