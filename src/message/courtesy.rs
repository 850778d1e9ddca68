//! Texts that only want to be answered: a greeting, thanks, a fire alarm.
//!
//! Looked at where nothing else was read; danger words come long before.

/// A text that asks for nothing of ours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Courtesy {
    /// `hi`
    Greeting,
    /// `thanks`
    Thanks,
    /// `fire alarm, all out`
    EverybodyOut,
    /// `that was grand, legs like lead`
    Chat,
}

/// Words of an alarm in the building.
const ALARMS: [&str; 3] = ["fire alarm", "clear the pool", "alarma de incendio"];

/// What a text that nothing was read of says, if it is one of these.
pub fn courtesy(text: &str) -> Option<Courtesy> {
    const GREETINGS: [&str; 6] = ["hi", "hello", "hey", "hiya", "hola", "buenas"];
    const THANKS: [&str; 14] = [
        "thanks",
        "thank you",
        "thx",
        "ta",
        "cheers",
        "great",
        "many thanks",
        "thanks a lot",
        "thanks coach",
        "\u{1F44D}",
        "gracias",
        "genial",
        "muchas gracias",
        "mil gracias",
    ];
    const OUT: [&str; 7] = [
        "evacuat",
        "clear the water",
        "everyone out",
        "everybody out",
        "all out of the water",
        "todos fuera",
        "fuera del agua",
    ];
    let text = text.trim_matches(|c: char| !c.is_alphanumeric() && c != '\u{1F44D}').to_lowercase();
    let said = |words: &[&str]| words.contains(&text.as_str());
    match () {
        () if said(&GREETINGS) => Some(Courtesy::Greeting),
        () if said(&THANKS) => Some(Courtesy::Thanks),
        () if ALARMS.iter().chain(&OUT).any(|words| text.contains(words)) && !is_drill(&text) => {
            Some(Courtesy::EverybodyOut)
        }
        () => None,
    }
}

/// True of a fire alarm or an evacuation, whatever else the text says.
pub fn is_alarm(text: &str) -> bool {
    let text = text.to_lowercase();
    let past = [
        "last night",
        "yesterday",
        "false alarm",
        "back in now",
        "all back in",
        "all clear",
        "over now",
        "anoche",
        "ayer",
        "falsa alarma",
    ];
    ALARMS.iter().chain(&["evacua"]).any(|words| text.contains(words))
        && !is_drill(&text)
        && !past.iter().any(|words| text.contains(words))
}

/// `fire alarm test at 7.45`
fn is_drill(text: &str) -> bool {
    ["alarm test", "drill", "simulacro"].iter().any(|words| text.contains(words))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_is_told_from_the_others() {
        assert_eq!(courtesy("Hello!"), Some(Courtesy::Greeting));
        assert_eq!(courtesy("thanks :)"), Some(Courtesy::Thanks));
        assert_eq!(courtesy("Fire alarm, all out"), Some(Courtesy::EverybodyOut));
        assert_eq!(courtesy("fire alarm test at 7.45"), None);
        assert_eq!(courtesy("200 test 3:12"), None);
    }
}
