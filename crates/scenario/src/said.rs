//! What an archer says of a group or a round, in words: `5 arrows at 40 yd span
//! 6 in`, `265 points with 30 arrows on 40 cm at 18 m`.

use units::{Bare, Dimension, Length, Role, Style, read};

/// A group that was shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SaidGroup {
    pub(crate) arrows: u32,
    pub(crate) spread: Length,
    pub(crate) distance: Length,
}

/// A round that was shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SaidRound {
    pub(crate) points: u32,
    pub(crate) arrows: u32,
    pub(crate) face: Length,
    pub(crate) distance: Length,
}

/// How a group is said.
pub(crate) const GROUP: &str = "5 arrows at 40 yd span 6 in";
/// How a round is said.
pub(crate) const ROUND: &str = "265 points with 30 arrows on 40 cm at 20 yd";

/// Words that say nothing here.
const FILLERS: [&str; 19] = [
    "a", "an", "my", "the", "of", "with", "and", "span", "spans", "spanned", "spread", "wide",
    "group", "groups", "grouped", "face", "points", "point", "scored",
];

pub(crate) fn group(text: &str) -> Option<SaidGroup> {
    let mut words = words(text);
    let arrows = count(&mut words)?;
    let distance = length_after(&mut words, "at", Role::Range)?;
    let spread = whole(&words, Role::Impact)?;
    Some(SaidGroup { arrows, spread, distance })
}

pub(crate) fn round(text: &str) -> Option<SaidRound> {
    let mut words = words(text);
    let arrows = count(&mut words)?;
    let distance = length_after(&mut words, "at", Role::Range)?;
    let face = length_after(&mut words, "on", Role::Impact)?;
    let points = match said(&words).as_slice() {
        [points] => points.parse().ok()?,
        _ => return None,
    };
    Some(SaidRound { points, arrows, face, distance })
}

fn words(text: &str) -> Vec<String> {
    let apart = text.to_lowercase().replace([',', ';', ':'], " ");
    apart.split_whitespace().map(str::to_owned).collect()
}

/// Takes out `5 arrows`, `5 shots` or `5-arrow`.
fn count(words: &mut Vec<String>) -> Option<u32> {
    let shot = |word: &str| matches!(word, "arrow" | "arrows" | "shot" | "shots");
    for at in 0..words.len() {
        if let Some((number, what)) = words[at].split_once('-')
            && shot(what)
            && let Ok(number) = number.parse()
        {
            words.remove(at);
            return Some(number);
        }
        if words.get(at + 1).is_some_and(|next| shot(next))
            && let Ok(number) = words[at].parse()
        {
            words.drain(at..at + 2);
            return Some(number);
        }
    }
    None
}

/// Takes out a word and the longest length behind it.
fn length_after(words: &mut Vec<String>, word: &str, role: Role) -> Option<Length> {
    let at = words.iter().position(|said| said == word)?;
    while words.get(at + 1).is_some_and(|next| FILLERS.contains(&next.as_str())) {
        words.remove(at + 1);
    }
    let longest = (at + 2..=words.len())
        .rev()
        .find_map(|end| Some((end, length(&words[at + 1..end].join(" "), role)?)))?;
    words.drain(at..longest.0);
    Some(longest.1)
}

fn whole(words: &[String], role: Role) -> Option<Length> {
    length(&said(words).join(" "), role)
}

fn said(words: &[String]) -> Vec<&str> {
    words.iter().map(String::as_str).filter(|word| !FILLERS.contains(word)).collect()
}

fn length(text: &str, role: Role) -> Option<Length> {
    let unit = role.unit(Style::Archery).0;
    let read = read(Dimension::Length, text, Bare::Asked(unit)).ok()?;
    Some(Length::from_si(read.si())).filter(|length| length.si() > 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_a_group_is_read_in_any_order() {
        let wanted = SaidGroup {
            arrows: 5,
            spread: Length::from_si(6.0 * 0.0254),
            distance: Length::from_si(40.0 * 0.9144),
        };
        for text in [
            GROUP,
            "my 5 arrows at 40 yards span 6 in",
            "6 inches at 40 yd with 5 arrows",
            "5 shots, 6\", at 40 yds",
            "a 5-arrow group of 6 in at 40 yd",
        ] {
            assert_eq!(group(text), Some(wanted), "{text}");
        }
        for text in [
            "5 arrows at 40 span 6 in",
            "6 in at 40 yd",
            "5 arrows at 40 yd",
            "",
            "-5 arrows at 1 yd 2 in",
        ] {
            assert_eq!(group(text), None, "{text}");
        }
    }

    #[test]
    fn exact_a_round_is_read() {
        let wanted = SaidRound {
            points: 265,
            arrows: 30,
            face: Length::from_si(0.4),
            distance: Length::from_si(20.0 * 0.9144),
        };
        for text in [ROUND, "265 with 30 arrows at 20 yd on a 40 cm face"] {
            assert_eq!(round(text), Some(wanted), "{text}");
        }
        assert_eq!(round("265 points at 20 yd"), None);
    }
}
