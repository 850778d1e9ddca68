//! Where a journal of these tests is at home: in a folder, or in a database. What any
//! journal promises is tested in both; the latter only where it is asked for, since it
//! wants a server to be installed.

use std::sync::Arc;

use lapwing::clock::WallClock;
use lapwing::journal::{DatabaseUrl, Journal, JournalError, PostgresJournal, SledJournal};

use crate::assert_no_blobs;
use crate::server::server;

/// Where a journal is, open or not.
pub trait Home: Sync {
    /// A new one, with nothing in it.
    fn new() -> Self
    where
        Self: Sized;

    /// The journal, opened.
    fn open(&self) -> Arc<dyn Journal>;

    /// Lets go of it and opens it again.
    fn again(&self, journal: Arc<dyn Journal>) -> Arc<dyn Journal> {
        journal.close();
        drop(journal);
        self.open()
    }

    /// Asserts what must be so whatever is in it.
    fn look(&self);
}

/// A folder of this machine.
pub struct Folder(pub tempfile::TempDir);

impl Home for Folder {
    fn new() -> Folder {
        Folder(tempfile::tempdir().unwrap())
    }

    fn open(&self) -> Arc<dyn Journal> {
        Arc::new(SledJournal::open(self.0.path().join("journal")).unwrap())
    }

    fn look(&self) {
        assert_no_blobs(&self.0.path().join("journal"));
    }
}

/// A database of a server's that these tests began.
pub struct Database(pub DatabaseUrl);

impl Home for Database {
    fn new() -> Database {
        Database(server().new_database())
    }

    fn open(&self) -> Arc<dyn Journal> {
        Arc::new(open(&self.0).unwrap())
    }

    fn look(&self) {}
}

/// Opens the journal in a database, by the machine's clock.
pub fn open(url: &DatabaseUrl) -> Result<PostgresJournal, JournalError> {
    PostgresJournal::open(url.clone(), Arc::new(WallClock))
}

/// The same to read it.
pub fn open_to_read(url: &DatabaseUrl) -> Result<PostgresJournal, JournalError> {
    PostgresJournal::open_to_read(url.clone(), Arc::new(WallClock))
}

/// Tests of what any journal promises: functions of a [`Home`].
macro_rules! in_both {
    ($($test:ident),* $(,)?) => {
        mod in_a_folder {
            $(#[test] fn $test() { super::$test(&<$crate::home::Folder as $crate::home::Home>::new()); })*
        }
        mod in_a_database {
            $(#[test] #[ignore = "wants PostgreSQL's server"] fn $test() {
                super::$test(&<$crate::home::Database as $crate::home::Home>::new());
            })*
        }
    };
}
pub(crate) use in_both;
