//! Which machines a letter may be brought to: none inside our own network,
//! which whoever names the address could not reach themselves.

use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr};

use reqwest::dns::{Addrs, Name, Resolve, Resolving};

/// The name leads nowhere but into a private network.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the address is a private one")]
pub(super) struct NotPublic;

/// Looks names up and lets only public addresses through. The connection goes
/// to what it lets through and is not looked up again, so a name can't lead
/// elsewhere between the check and the use.
#[derive(Debug, Clone, Copy)]
pub(super) struct PublicNames;

impl Resolve for PublicNames {
    fn resolve(&self, name: Name) -> Resolving {
        Box::pin(async move {
            let found = tokio::net::lookup_host((name.as_str(), 0)).await?;
            let public: Vec<SocketAddr> = found.filter(|found| is_public(found.ip())).collect();
            if public.is_empty() {
                return Err(NotPublic.into());
            }
            Ok(Box::new(public.into_iter()) as Addrs)
        })
    }
}

/// Whether an address belongs to the internet at large: not private, loopback,
/// link-local, shared, multicast, reserved or unspecified, and no way round to
/// one that is. Source: the special-purpose address registries (RFC 6890 and
/// its updates, "Globally Reachable").
pub fn is_public(address: IpAddr) -> bool {
    match address {
        IpAddr::V4(address) => is_public_v4(address),
        IpAddr::V6(address) => is_public_v6(address),
    }
}

fn is_public_v4(address: Ipv4Addr) -> bool {
    let [a, b, c, _] = address.octets();
    !matches!(
        (a, b, c),
        (0 | 10 | 127 | 224.., ..)
            | (100, 64..=127, _)
            | (169, 254, _)
            | (172, 16..=31, _)
            | (192, 168, _)
            | (192, 0, 0 | 2)
            | (192, 88, 99)
            | (198, 18 | 19, _)
            | (198, 51, 100)
            | (203, 0, 113)
    )
}

fn is_public_v6(address: Ipv6Addr) -> bool {
    let [a, b, c, d, e, f, g, h] = address.segments();
    let inner = |high: u16, low: u16| {
        let ([one, two], [three, four]) = (high.to_be_bytes(), low.to_be_bytes());
        is_public_v4(Ipv4Addr::new(one, two, three, four))
    };
    match (a, b) {
        // IPv4 in IPv6, and the well-known translation to IPv4 (RFC 6052).
        (0, 0) if (c, d, e, f) == (0, 0, 0, 0xffff) => inner(g, h),
        (0x64, 0xff9b) if (c, d, e, f) == (0, 0, 0, 0) => inner(g, h),
        // Tunnels and protocol assignments, documentation, 6to4.
        (0x2001, 0..=0x1ff | 0xdb8) | (0x2002, _) | (0x3fff, 0..=0xfff) => false,
        // Of the rest, only this eighth is given out for global use.
        (0x2000..=0x3fff, _) => true,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One or both ends of each block of the registries that is not globally
    /// reachable, and its neighbours that are.
    #[test]
    fn only_public_addresses_pass() {
        for private in [
            "0.0.0.0",
            "10.0.0.1",
            "10.255.255.255",
            "100.64.0.1",
            "100.127.255.255",
            "127.0.0.1",
            "127.9.9.9",
            "169.254.169.254",
            "172.16.0.1",
            "172.31.255.255",
            "192.0.0.8",
            "192.0.2.1",
            "192.168.1.1",
            "198.18.0.1",
            "198.19.255.255",
            "198.51.100.7",
            "203.0.113.9",
            "224.0.0.1",
            "240.0.0.1",
            "255.255.255.255",
            "::",
            "::1",
            "::ffff:127.0.0.1",
            "::ffff:10.1.2.3",
            "::127.0.0.1",
            "64:ff9b::a00:1",
            "64:ff9b:1::1",
            "100::1",
            "2001::1",
            "2001:db8::1",
            "2002:7f00:1::",
            "3fff::1",
            "fc00::1",
            "fdff::1",
            "fe80::1",
            "fec0::1",
            "ff02::1",
            "5f00::1",
        ] {
            assert!(!is_public(private.parse().unwrap()), "{private}");
        }
        for public in [
            "1.1.1.1",
            "9.255.255.255",
            "11.0.0.0",
            "100.63.255.255",
            "100.128.0.0",
            "126.0.0.1",
            "128.0.0.1",
            "169.253.0.1",
            "172.15.0.1",
            "172.32.0.1",
            "192.167.0.1",
            "192.0.3.1",
            "198.17.0.1",
            "198.20.0.1",
            "223.255.255.255",
            "::ffff:1.1.1.1",
            "64:ff9b::101:101",
            "2001:200::1",
            "2606:4700::1111",
            "2a00::1",
        ] {
            assert!(is_public(public.parse().unwrap()), "{public}");
        }
    }

    #[tokio::test]
    async fn a_name_that_leads_home_is_refused() {
        let refused = PublicNames.resolve("localhost".parse().unwrap()).await.err().unwrap();
        assert!(refused.downcast_ref::<NotPublic>().is_some(), "{refused}");
    }
}
