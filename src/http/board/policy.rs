//! How the pages look and what runs on them, and the policy that lets nothing
//! else in.

use std::sync::LazyLock;

use axum::http::HeaderValue;
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use sha2::{Digest, Sha256};

/// The pages' whole style.
pub const STYLE: &str = include_str!("board.css");
/// The pages' whole script: all that is said works without it.
pub const SCRIPT: &str = include_str!("board.js");

/// Only that style and that script, known by their digests (Content Security
/// Policy Level 3, W3C, section 6.7.2.3), and what the script asks of ourselves:
/// no picture, font, frame or form, from nowhere.
pub fn policy() -> HeaderValue {
    static POLICY: LazyLock<HeaderValue> = LazyLock::new(|| policy_by("'none'"));
    POLICY.clone()
}

/// The same for a page with buttons, whose forms go to ourselves.
pub fn policy_with_forms() -> HeaderValue {
    static POLICY: LazyLock<HeaderValue> = LazyLock::new(|| policy_by("'self'"));
    POLICY.clone()
}

fn policy_by(forms_to: &str) -> HeaderValue {
    let digest = |whole: &str| BASE64_STANDARD.encode(Sha256::digest(whole));
    let (style, script) = (digest(STYLE), digest(SCRIPT));
    let policy = format!(
        "default-src 'none'; style-src 'sha256-{style}'; script-src 'sha256-{script}'; \
         connect-src 'self'; base-uri 'none'; form-action {forms_to}; frame-ancestors 'none'"
    );
    HeaderValue::try_from(policy).unwrap_or(HeaderValue::from_static("default-src 'none'"))
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;

    /// Colours by name, of the light page and the dark.
    fn palettes() -> [BTreeMap<&'static str, [f64; 3]>; 2] {
        let (screen, _) = STYLE.split_once("@media print").unwrap();
        let (light, dark) = screen.split_once("prefers-color-scheme: dark").unwrap();
        [light, dark].map(|half| {
            half.lines()
                .filter_map(|line| line.trim().strip_prefix("--")?.split_once(": #"))
                .map(|(name, hex)| {
                    let digit = |at| u8::from_str_radix(&hex[at..at + 2], 16).unwrap();
                    (name, [0, 2, 4].map(|at| f64::from(digit(at)) / 255.0))
                })
                .collect()
        })
    }

    /// WCAG 2.2, "relative luminance" and "contrast ratio".
    fn contrast(one: [f64; 3], other: [f64; 3]) -> f64 {
        let channel =
            |c: f64| if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) };
        let luminance =
            |[r, g, b]: [f64; 3]| 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
        let (one, other) = (luminance(one), luminance(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    /// WCAG 2.2, 1.4.3 (text, AA: 4.5) and 1.4.11 (what is no text: 3).
    #[test]
    fn every_colour_can_be_read_on_its_ground_by_day_and_night() {
        for palette in palettes() {
            let ratio = |one: &str, other: &str| contrast(palette[one], palette[other]);
            for ground in ["paper", "card", "lit"] {
                for text in ["ink", "soft", "deep", "alarm"] {
                    let found = ratio(text, ground);
                    assert!(found >= 4.5, "{text} on {ground}: {found:.2}");
                }
                assert!(ratio("edge", ground) >= 3.0, "edge on {ground}");
            }
            for (text, ground) in [("on-deep", "deep"), ("on-alarm", "alarm")] {
                let found = ratio(text, ground);
                assert!(found >= 4.5, "{text} on {ground}: {found:.2}");
            }
        }
        // The standard's own extremes.
        assert!((contrast([0.0; 3], [1.0; 3]) - 21.0).abs() < 1e-9);
    }

    /// 1.4.4: nothing is smaller than 14 px where a browser's text is 16.
    #[test]
    fn nothing_is_too_small_to_read_wet() {
        let (screen, _) = STYLE.split_once("@media print").unwrap();
        for line in screen.lines() {
            let Some(size) = line.trim().strip_prefix("font-size: ") else { continue };
            let size: f64 = size.trim_end_matches("rem;").parse().unwrap();
            assert!(size >= 0.875, "{line}");
        }
    }
}
