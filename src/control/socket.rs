//! Where the control socket lies, and how to name it within the system's
//! limit for such names.

use std::fs::{self, File, Permissions};
use std::io;
use std::os::fd::AsRawFd;
use std::os::unix::fs::{FileTypeExt, PermissionsExt};
use std::path::PathBuf;

use tokio::net::UnixListener;

use super::DataFolder;

/// The longest name a socket may have on every system we know, in bytes, its
/// closing zero left out: 108 on Linux, 104 elsewhere (`sys/un.h`).
const LONGEST: usize = 103;

/// A socket's name, valid while this value lives.
#[derive(Debug)]
pub struct SocketName {
    path: PathBuf,
    /// The open folder that a short name goes through.
    _folder: Option<File>,
}

impl SocketName {
    /// The name of the folder's control socket: its path, or, where that is
    /// too long for a socket, a short one through the open folder.
    ///
    /// # Errors
    /// The folder can't be opened.
    pub fn of(folder: &DataFolder) -> io::Result<SocketName> {
        let path = folder.path().join("control");
        if path.as_os_str().len() <= LONGEST {
            return Ok(SocketName { path, _folder: None });
        }
        let folder = File::open(folder.path())?;
        let path = PathBuf::from(format!("/proc/self/fd/{}/control", folder.as_raw_fd()));
        Ok(SocketName { path, _folder: Some(folder) })
    }

    /// The name.
    pub fn path(&self) -> &std::path::Path {
        &self.path
    }

    /// Listens under this name, readable and writable by the owner alone.
    ///
    /// Only the folder's owner may call this: a socket file that is there was
    /// left by a process that was killed, and is replaced.
    ///
    /// # Errors
    /// Something else bears the name, or the system refuses.
    pub fn listen(&self) -> io::Result<UnixListener> {
        match fs::symlink_metadata(&self.path) {
            Ok(found) if found.file_type().is_socket() => fs::remove_file(&self.path)?,
            Ok(_) => {
                let why = format!("{} is in the way of the control socket", self.path.display());
                return Err(io::Error::new(io::ErrorKind::AlreadyExists, why));
            }
            Err(gone) if gone.kind() == io::ErrorKind::NotFound => {}
            Err(failed) => return Err(failed),
        }
        let listener = UnixListener::bind(&self.path)?;
        fs::set_permissions(&self.path, Permissions::from_mode(0o600))?;
        Ok(listener)
    }

    /// Takes the socket file away, by the folder's owner.
    pub fn remove(&self) {
        if let Err(failed) = fs::remove_file(&self.path) {
            tracing::debug!(%failed, "the control socket's file stays");
        }
    }
}
