//! Whom we believe to be the database.

use std::sync::Arc;

use rustls::pki_types::CertificateDer;
use rustls::pki_types::pem::PemObject;
use rustls::{ClientConfig, RootCertStore};
use tokio_postgres_rustls::MakeRustlsConnect;

use super::DatabaseUrl;
use crate::journal::JournalError;

/// What checks the database's certificate: its name too, always.
///
/// # Errors
/// There is nobody to believe.
pub(super) fn connector(url: &DatabaseUrl) -> Result<MakeRustlsConnect, JournalError> {
    let failed = |why: String| JournalError::Storage(format!("{url} can't be believed: {why}"));
    let mut roots = RootCertStore::empty();
    if let Some(file) = url.roots() {
        let unread = |error| failed(format!("{}: {error}", file.display()));
        for root in CertificateDer::pem_file_iter(file).map_err(unread)? {
            let root = root.map_err(unread)?;
            roots.add(root).map_err(|error| failed(format!("{}: {error}", file.display())))?;
        }
    } else if url.is_secured() {
        let found = rustls_native_certs::load_native_certs();
        let (taken, _) = roots.add_parsable_certificates(found.certs);
        if taken == 0 {
            return Err(failed("the system believes nobody; name a file by sslrootcert".into()));
        }
    }
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let config = ClientConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()
        .map_err(|error| failed(error.to_string()))?
        .with_root_certificates(roots)
        .with_no_client_auth();
    Ok(MakeRustlsConnect::new(config))
}
