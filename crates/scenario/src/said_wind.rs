//! A wind as it is said: `10 mph from the left`, `headwind 5 mph`, `from 9 o'clock`.

use units::{Bare, Dimension, Role, Style, read};

/// What a text says of the wind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum SaidWind {
    /// No side: a speed, or nothing that is one.
    Speed,
    /// A speed, and where it comes from in degrees clockwise from the target.
    From {
        /// The speed, as said.
        speed: String,
        /// Where from, in standard form.
        from: String,
    },
    /// More than one reading: why, and how each is written.
    Unclear {
        /// Why.
        why: &'static str,
        /// How each is written.
        like: String,
    },
}

/// Ways to say where from, the longer ones first, in degrees clockwise from the target as
/// seen from above: from the right carries the arrow left.
const WAYS: [(&str, u16); 36] = [
    ("from the left to the right", LEFT),
    ("from the left to right", LEFT),
    ("from left to right", LEFT),
    ("from the right to the left", RIGHT),
    ("from the right to left", RIGHT),
    ("from right to left", RIGHT),
    ("from the left side", LEFT),
    ("from left side", LEFT),
    ("from the left", LEFT),
    ("from left", LEFT),
    ("from my left", LEFT),
    ("left to right", LEFT),
    ("l to r", LEFT),
    ("to the right", LEFT),
    ("toward the right", LEFT),
    ("towards the right", LEFT),
    ("from the right side", RIGHT),
    ("from right side", RIGHT),
    ("from the right", RIGHT),
    ("from right", RIGHT),
    ("from my right", RIGHT),
    ("right to left", RIGHT),
    ("r to l", RIGHT),
    ("to the left", RIGHT),
    ("toward the left", RIGHT),
    ("towards the left", RIGHT),
    ("headwind", AHEAD),
    ("head wind", AHEAD),
    ("from ahead", AHEAD),
    ("from the front", AHEAD),
    ("in my face", AHEAD),
    ("tailwind", BEHIND),
    ("tail wind", BEHIND),
    ("from behind", BEHIND),
    ("from the back", BEHIND),
    ("at my back", BEHIND),
];
const AHEAD: u16 = 0;
const RIGHT: u16 = 90;
const BEHIND: u16 = 180;
const LEFT: u16 = 270;

/// Words beside the speed that say nothing of the side.
const FILLERS: [&str; 9] =
    ["wind", "winds", "a", "the", "of", "blowing", "coming", "breeze", "steady"];
/// Words for a wind across, which leave its side open.
const ACROSS: [&str; 5] = ["crosswind", "cross", "sidewind", "side", "across"];
/// Sides alone, which may mean from there or to there.
const SIDES: [&str; 2] = ["left", "right"];
/// Quarters of the sky. Where the target lies among them nobody said.
const SKY: [&str; 12] =
    ["north", "south", "east", "west", "n", "s", "e", "w", "ne", "nw", "se", "sw"];

/// Reads a wind.
pub(crate) fn wind(text: &str) -> SaidWind {
    let mut words = words(text);
    let mut from: Vec<u16> = hours(&mut words).into_iter().collect();
    for (way, degrees) in WAYS {
        let way: Vec<&str> = way.split(' ').collect();
        if let Some(at) = words.windows(way.len()).position(|part| part == way) {
            words.drain(at..at + way.len());
            from.push(degrees);
        }
    }
    let has = |list: &[&str]| words.iter().any(|word| list.contains(&word.as_str()));
    let (across, side, sky) = (has(&ACROSS), has(&SIDES), has(&SKY));
    let rest = [&FILLERS[..], &ACROSS, &SIDES, &SKY, &["from"]].concat();
    let speed: Vec<&str> =
        words.iter().map(String::as_str).filter(|word| !rest.contains(word)).collect();
    let all = speed.join(" ");
    // What stands beside the speed is not said again.
    let ends = (1..=speed.len()).rev();
    let told = ends.map(|end| speed[..end].join(" ")).find(|speed| is_speed(speed));
    let unclear = |why, speed: &str, like: [&str; 3]| {
        let like = like.join(&format!("\"{speed} "));
        SaidWind::Unclear { why, like }
    };
    match (from.as_slice(), told) {
        ([], Some(speed)) if sky && speed == all => unclear(
            "where the target lies is not known",
            &speed,
            [
                "the side you feel it on, ",
                "from the left\" or ",
                "from 9 o'clock\" (12 o'clock is the target)",
            ],
        ),
        ([], Some(speed)) if (side || across) && speed == all => unclear(
            "it may come from either side",
            &speed,
            ["", "from the left\", which carries arrows to the right, or ", "from the right\""],
        ),
        ([], _) => SaidWind::Speed,
        ([one], _) if !(side || sky) => SaidWind::From { speed: all, from: format!("{one} deg") },
        (_, told) => unclear(
            "it comes from more than one side",
            told.as_deref().unwrap_or("10 mph"),
            [
                "one side, ",
                "from the left\", or the hour between, ",
                "from 10 o'clock\" (12 o'clock is the target)",
            ],
        ),
    }
}

/// Where from, said alone: `the left`, `behind`, `from my right`; none for what is no such
/// word.
pub(crate) fn side(text: &str) -> Option<String> {
    let said = words(text).join(" ");
    let alone = |way: &str| way == said || way.strip_prefix("from ") == Some(&said);
    WAYS.iter().find(|(way, _)| alone(way)).map(|(_, degrees)| format!("{degrees} deg"))
}

/// Lower case, without marks between words; `10mph` stays one.
fn words(text: &str) -> Vec<String> {
    let plain = text.to_lowercase().replace(['\u{2019}', '\u{2018}'], "'").replace([',', ';'], " ");
    let mut words = Vec::new();
    for word in plain.split_whitespace() {
        // left-to-right, head-wind; not -5.
        let letters = word.chars().all(|c| c.is_ascii_alphabetic() || c == '-');
        if letters {
            words.extend(word.split('-').filter(|part| !part.is_empty()).map(str::to_owned));
        } else {
            words.push(word.to_owned());
        }
    }
    words
}

/// Takes out `from 9 o'clock` or `at 9:30 o'clock`, or `from 45 deg`.
fn hours(words: &mut Vec<String>) -> Option<u16> {
    for at in 0..words.len() {
        for end in (at + 1..=words.len().min(at + 3)).rev() {
            let said = words[at..end].join(" ");
            // A number alone is no direction.
            let Ok(angle) =
                read(Dimension::Angle, &said, Bare::Asked(Role::Angle.unit(Style::Archery).0))
            else {
                continue;
            };
            let degrees = angle.si().to_degrees().rem_euclid(360.0).round();
            let before = at.checked_sub(1).map(|before| words[before].as_str());
            let lead = usize::from(matches!(before, Some("from" | "at")));
            words.drain(at - lead..end);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "0 to 360"
            )]
            return Some(degrees as u16 % 360);
        }
    }
    None
}

fn is_speed(text: &str) -> bool {
    read(Dimension::Speed, text, Bare::Asked(Role::Wind.unit(Style::Archery).0)).is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_a_wind_is_read_as_it_is_said() {
        for (text, speed, from) in [
            ("10 mph from the left", "10 mph", "270 deg"),
            ("10 mph from 9 o'clock", "10 mph", "270 deg"),
            ("10 mph at 9 o'clock", "10 mph", "270 deg"),
            ("from 3 o\u{2019}clock 10 mph", "10 mph", "90 deg"),
            ("15 mph left to right", "15 mph", "270 deg"),
            ("15 mph left-to-right", "15 mph", "270 deg"),
            ("15 mph from the left to right", "15 mph", "270 deg"),
            ("15 mph from the right to the left", "15 mph", "90 deg"),
            ("15 mph, right to left", "15 mph", "90 deg"),
            ("crosswind 10 mph from the right", "10 mph", "90 deg"),
            ("Crosswind of 10 mph from right", "10 mph", "90 deg"),
            ("headwind 5 mph", "5 mph", "0 deg"),
            ("5 mph head-wind", "5 mph", "0 deg"),
            ("tail wind of 3 m/s", "3 m/s", "180 deg"),
            ("10mph to the left", "10mph", "90 deg"),
            ("10 mph from 45 deg", "10 mph", "45 deg"),
            ("10 mph from 10:30 o'clock", "10 mph", "315 deg"),
        ] {
            let wanted = SaidWind::From { speed: speed.into(), from: from.into() };
            assert_eq!(wind(text), wanted, "{text}");
        }
        for text in ["10 mph", "4.5 m/s", "10 mhp", "-5 mph", ""] {
            assert_eq!(wind(text), SaidWind::Speed, "{text}");
        }
    }

    #[test]
    fn exact_what_is_not_clear_is_asked() {
        for text in ["10 mph left", "right 10 mph", "10 mph crosswind", "10 mph side wind"] {
            let SaidWind::Unclear { like, .. } = wind(text) else { panic!("{text}") };
            assert!(like.contains("\"10 mph from the left\""), "{text}: {like}");
            assert!(like.contains("\"10 mph from the right\""), "{text}: {like}");
        }
        for text in [
            "10 mph from the north",
            "10 mph NW",
            "10 mph from the left, headwind",
            "10 mph from the left to 4 o'clock",
        ] {
            let SaidWind::Unclear { like, .. } = wind(text) else { panic!("{text}") };
            assert!(like.contains("\"10 mph from the left\""), "{text}: {like}");
            assert!(like.contains("12 o'clock is the target"), "{text}: {like}");
        }
    }

    #[test]
    fn exact_a_side_alone() {
        for (text, degrees) in [
            ("left", "270 deg"),
            ("from the left", "270 deg"),
            ("The Right", "90 deg"),
            ("behind", "180 deg"),
            ("headwind", "0 deg"),
            ("left to right", "270 deg"),
        ] {
            assert_eq!(side(text).as_deref(), Some(degrees), "{text}");
        }
        assert_eq!(side("90 deg"), None);
        assert_eq!(side("north"), None);
    }
}
