//! Clients for HTTP with the one TLS provider we ship.
//!
//! Knows no address and no message; who calls whom is said elsewhere.

use reqwest::ClientBuilder;

/// Whose certificates a client believes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trust {
    /// Those the system believes; it must have some.
    System,
    /// Nobody's: for addresses without TLS, so that a machine without
    /// certificates can still reach them.
    None,
}

/// A client to be built.
///
/// `reqwest::Client::new` panics where the system has no certificates; this
/// lets the caller see the error when it builds.
pub fn client(trust: Trust) -> ClientBuilder {
    // A second call finds the provider there, which is what it is for.
    let _ = rustls::crypto::ring::default_provider().install_default();
    let builder = reqwest::Client::builder();
    match trust {
        Trust::System => builder,
        Trust::None => builder.tls_certs_only([]),
    }
}
