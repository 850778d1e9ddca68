//! The emergency number of a squad's country, by its time zone.
//!
//! Sources: the European emergency number 112 (EU Directive 2018/1972, article
//! 109); 3GPP TS 22.101, by which mobile telephones everywhere take 112 and 911
//! for a call to the emergency services; the numbers that the services of each
//! country publish. From memory; the coach can set another. A zone that is not in
//! the table has no number here, and is told to call the emergency number.

use super::Squad;

/// Zones by how they begin, the longest first where one begins another, and the
/// number to call for an ambulance.
const NUMBERS: &[(&str, &str)] = &[
    ("Africa/Accra", "112"),
    ("Africa/Ceuta", "112"),
    ("Africa/Johannesburg", "112"),
    ("Africa/Kampala", "112"),
    ("Africa/Lagos", "112"),
    ("Africa/Nairobi", "999"),
    ("America/Argentina", "107"),
    ("America/Asuncion", "911"),
    ("America/Bogota", "123"),
    ("America/Buenos_Aires", "107"),
    ("America/Caracas", "911"),
    ("America/Costa_Rica", "911"),
    ("America/El_Salvador", "911"),
    ("America/Guayaquil", "911"),
    ("America/Havana", "104"),
    ("America/La_Paz", "168"),
    ("America/Lima", "106"),
    ("America/Managua", "128"),
    ("America/Montevideo", "911"),
    ("America/Guatemala", "123"),
    ("America/Nuuk", "112"),
    ("America/Panama", "911"),
    ("America/Punta_Arenas", "131"),
    ("America/Santiago", "131"),
    ("America/Santo_Domingo", "911"),
    ("America/Sao_Paulo", "192"),
    ("America/Tegucigalpa", "911"),
    ("America/Tijuana", "911"),
    ("America/Anchorage", "911"),
    ("America/Boise", "911"),
    ("America/Cancun", "911"),
    ("America/Chicago", "911"),
    ("America/Chihuahua", "911"),
    ("America/Denver", "911"),
    ("America/Detroit", "911"),
    ("America/Edmonton", "911"),
    ("America/Halifax", "911"),
    ("America/Hermosillo", "911"),
    ("America/Indiana", "911"),
    ("America/Juneau", "911"),
    ("America/Kentucky", "911"),
    ("America/Los_Angeles", "911"),
    ("America/Mazatlan", "911"),
    ("America/Merida", "911"),
    ("America/Mexico_City", "911"),
    ("America/Monterrey", "911"),
    ("America/Montreal", "911"),
    ("America/New_York", "911"),
    ("America/North_Dakota", "911"),
    ("America/Phoenix", "911"),
    ("America/Puerto_Rico", "911"),
    ("America/Regina", "911"),
    ("America/St_Johns", "911"),
    ("America/Toronto", "911"),
    ("America/Vancouver", "911"),
    ("America/Winnipeg", "911"),
    ("Asia/Calcutta", "112"),
    ("Asia/Dubai", "998"),
    ("Asia/Hong_Kong", "999"),
    ("Asia/Jerusalem", "101"),
    ("Asia/Kolkata", "112"),
    ("Asia/Kuala_Lumpur", "999"),
    ("Asia/Manila", "911"),
    ("Asia/Nicosia", "112"),
    ("Asia/Seoul", "119"),
    ("Asia/Shanghai", "120"),
    ("Asia/Singapore", "995"),
    ("Asia/Taipei", "119"),
    ("Asia/Tokyo", "119"),
    ("Atlantic/Azores", "112"),
    ("Atlantic/Canary", "112"),
    ("Atlantic/Faroe", "112"),
    ("Atlantic/Madeira", "112"),
    ("Atlantic/Reykjavik", "112"),
    ("Australia/", "000"),
    ("Canada/", "911"),
    ("Europe/Belfast", "999"),
    ("Europe/Guernsey", "999"),
    ("Europe/Isle_of_Man", "999"),
    ("Europe/Jersey", "999"),
    ("Europe/London", "999"),
    ("Europe/", "112"),
    ("GB", "999"),
    ("NZ", "111"),
    ("Pacific/Auckland", "111"),
    ("Pacific/Chatham", "111"),
    ("Pacific/Honolulu", "911"),
    ("US/", "911"),
];

/// The number that zone's country calls for an ambulance, where it is known.
///
/// ```
/// use lapwing::history::emergency_number_of;
/// assert_eq!(emergency_number_of("Europe/London"), Some("999"));
/// assert_eq!(emergency_number_of("Europe/Madrid"), Some("112"));
/// assert_eq!(emergency_number_of("UTC"), None);
/// ```
pub fn emergency_number_of(zone: &str) -> Option<&'static str> {
    NUMBERS.iter().find(|(begins, _)| zone.starts_with(begins)).map(|(_, number)| *number)
}

impl Squad {
    /// The number to call for help: that which the coach set, or that of the
    /// squad's country, or none where neither is known.
    pub fn emergency_number(&self) -> Option<String> {
        let set = self.safe.emergency.clone();
        set.or_else(|| emergency_number_of(&self.timezone).map(str::to_owned))
    }
}
