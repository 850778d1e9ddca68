//! The SMS alphabet and its segments against 3GPP TS 23.038 (6.2.1 and
//! 6.2.1.1) and 23.040, and against outside libraries.

use std::process::Command;

use lapwing::reply::{Alphabet, alphabet, segments};
use rand::seq::IndexedRandom;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha12Rng;
use serde_json::json;

/// The default alphabet by code, 0x00 to 0x7F. Source: 3GPP TS 23.038, 6.2.1.
#[rustfmt::skip]
const DEFAULT: [u32; 128] = [
    0x0040, 0x00A3, 0x0024, 0x00A5, 0x00E8, 0x00E9, 0x00F9, 0x00EC, 0x00F2, 0x00C7, 0x000A, 0x00D8, 0x00F8, 0x000D, 0x00C5, 0x00E5,
    0x0394, 0x005F, 0x03A6, 0x0393, 0x039B, 0x03A9, 0x03A0, 0x03A8, 0x03A3, 0x0398, 0x039E, 0x001B, 0x00C6, 0x00E6, 0x00DF, 0x00C9,
    0x0020, 0x0021, 0x0022, 0x0023, 0x00A4, 0x0025, 0x0026, 0x0027, 0x0028, 0x0029, 0x002A, 0x002B, 0x002C, 0x002D, 0x002E, 0x002F,
    0x0030, 0x0031, 0x0032, 0x0033, 0x0034, 0x0035, 0x0036, 0x0037, 0x0038, 0x0039, 0x003A, 0x003B, 0x003C, 0x003D, 0x003E, 0x003F,
    0x00A1, 0x0041, 0x0042, 0x0043, 0x0044, 0x0045, 0x0046, 0x0047, 0x0048, 0x0049, 0x004A, 0x004B, 0x004C, 0x004D, 0x004E, 0x004F,
    0x0050, 0x0051, 0x0052, 0x0053, 0x0054, 0x0055, 0x0056, 0x0057, 0x0058, 0x0059, 0x005A, 0x00C4, 0x00D6, 0x00D1, 0x00DC, 0x00A7,
    0x00BF, 0x0061, 0x0062, 0x0063, 0x0064, 0x0065, 0x0066, 0x0067, 0x0068, 0x0069, 0x006A, 0x006B, 0x006C, 0x006D, 0x006E, 0x006F,
    0x0070, 0x0071, 0x0072, 0x0073, 0x0074, 0x0075, 0x0076, 0x0077, 0x0078, 0x0079, 0x007A, 0x00E4, 0x00F6, 0x00F1, 0x00FC, 0x00E0,
];

/// The code that leads to the extension table, no character itself.
const ESCAPE: u32 = 0x1B;

/// The extension table. Source: 3GPP TS 23.038, 6.2.1.1.
const EXTENSION: [u32; 10] =
    [0x000C, 0x005E, 0x007B, 0x007D, 0x005C, 0x005B, 0x007E, 0x005D, 0x007C, 0x20AC];

fn letters(table: &[u32]) -> impl Iterator<Item = char> {
    table.iter().filter(|&&code| code != ESCAPE).map(|&code| char::from_u32(code).unwrap())
}

/// Every character there is, in its place: one septet, two, or not at all.
#[test]
fn the_alphabet_is_the_standards() {
    for c in (0..=0x1_FFFF).filter_map(char::from_u32) {
        let one = c.to_string();
        let septets = if letters(&DEFAULT).any(|known| known == c) {
            1
        } else if letters(&EXTENSION).any(|known| known == c) {
            2
        } else {
            assert_eq!(alphabet(&one), Alphabet::Ucs2, "{c:?}");
            continue;
        };
        assert_eq!(alphabet(&one), Alphabet::Gsm7, "{c:?}");
        assert_eq!(segments(&one.repeat(160 / septets)).len(), 1, "{c:?}");
        assert_eq!(segments(&one.repeat(160 / septets + 1)).len(), 2, "{c:?}");
        assert_eq!(segments(&one.repeat(2 * (153 / septets))).len(), 2, "{c:?}");
        assert_eq!(segments(&one.repeat(2 * (153 / septets) + 1)).len(), 3, "{c:?}");
    }
}

/// Random texts of letters that are cheap, dear and impossible in GSM 7-bit,
/// cut to the same parts by a splitter and in the same alphabet by a codec,
/// both of other hands.
#[test]
#[ignore = "needs LAPWING_REFERENCE_PYTHON: a python with tests/reference/requirements.txt"]
fn outside_libraries_cut_the_same() {
    let python = std::env::var("LAPWING_REFERENCE_PYTHON").unwrap();
    let mut random = ChaCha12Rng::seed_from_u64(23_038);
    let cheap: Vec<char> = letters(&DEFAULT).collect();
    let dear: Vec<char> = letters(&EXTENSION).collect();
    let wide: Vec<char> = "çáłжя水’—…\u{1F3CA}\u{1F44B}".chars().collect();
    let cases: Vec<_> = (0..3000)
        .map(|_| {
            let (length, of_dear) = (random.random_range(0..700), random.random_range(0.0..0.4));
            let of_wide = if random.random_bool(0.5) { 0.0 } else { random.random_range(0.0..0.3) };
            let text: String = (0..length)
                .map(|_| match random.random_range(0.0..1.0) {
                    draw if draw < of_wide => wide.choose(&mut random).unwrap(),
                    draw if draw < of_wide + of_dear => dear.choose(&mut random).unwrap(),
                    _ => cheap.choose(&mut random).unwrap(),
                })
                .collect();
            let gsm = alphabet(&text) == Alphabet::Gsm7;
            json!({ "text": text, "gsm": gsm, "parts": segments(&text) })
        })
        .collect();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("cases.json");
    std::fs::write(&path, serde_json::to_vec(&cases).unwrap()).unwrap();
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/segments.py");
    let output = Command::new(python).arg(script).arg(&path).output().unwrap();
    let said = String::from_utf8_lossy(&output.stdout);
    println!("{said}{}", String::from_utf8_lossy(&output.stderr));
    assert!(output.status.success(), "{said}");
}
