//! The string's restraints, as one measured thing pins them down.

use study::{Held, MeasuredShift, Moved, Pinned};
use units::{Dimension, Role, Style};

use crate::ReportError;
use crate::document::{Cell, Document, Part, facts, say};
use crate::show::{plain, significant, three};

/// What was measured and what it says.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn pin(
    measured: &MeasuredShift,
    pinned: &Pinned,
    style: Style,
) -> Result<Document, ReportError> {
    let shift = |si| Cell::Quantity(Role::Impact, si);
    let mut rows = vec![
        ("measured at".to_owned(), Cell::Quantity(Role::Range, measured.distance.si())),
        ("measured to the left".to_owned(), shift(measured.shift[0])),
        ("measured up".to_owned(), shift(measured.shift[1])),
    ];
    match measured.how {
        Moved::NockTurn(angle) => {
            rows.push(("nock turned by".to_owned(), Cell::Quantity(Role::Angle, angle)));
        }
        Moved::Pushed(force) => {
            // Nothing was shot, so there is no distance.
            rows[0] = ("nock pushed with".to_owned(), Cell::Quantity(Role::Force, force));
        }
        Moved::Bare => {}
    }
    rows.extend(measured.error.map(|error| ("standard error".to_owned(), shift(error))));
    rows.extend(held(&pinned.left, ["sideways", "to the left", "left"]));
    rows.extend(held(&pinned.up, ["up and down", "up", "up"]));
    let table = facts("pin", ["value", "is"], rows);
    let seen = format!("Measured: {}.", pin_seen(measured, style));
    let error = measured.error.is_some();
    let [left, up] = [&pinned.left, &pinned.up];
    let sideways = found((left, up), ["to the left", "to the right"], error, style);
    let sideways = format!("Sideways: {sideways}");
    let up = format!("Up and down: {}", found((up, left), ["up", "down"], error, style));
    let short = vec![say(seen.clone()), say(sideways.clone()), say(up.clone())];
    let parts = vec![say(sideways), say(up), Part::Data(table)];
    Document::new("pin", "", seen, parts, style)?.shortly(short)
}

/// The rows of one direction: its name, and what a shift in it is called.
fn held(held: &Held, [way, to, far]: [&str; 3]) -> Vec<(String, Cell)> {
    let number = |name: &str, si| (format!("{name} {way}"), Cell::Quantity(Role::Number, si));
    let shift = |name: String, si| (name, Cell::Quantity(Role::Impact, si));
    match held {
        Held::Found { restraint, all, .. } => {
            let found = (format!("restraint {way}"), Cell::Banded(Role::Number, *restraint));
            let others = all.iter().filter(|other| other.total_cmp(&restraint.value).is_ne());
            let others = others.map(|other| number("another restraint", *other));
            std::iter::once(found).chain(others).collect()
        }
        Held::Unexplained { restraint, shift: moved, lack } => vec![
            number("nearest restraint", *restraint),
            shift(format!("moves {to}"), *moved),
            shift(format!("too far {far} by"), *lack),
        ],
        Held::Unfelt | Held::Lost => Vec::new(),
    }
}

/// What was measured, in half a sentence.
pub fn pin_seen(measured: &MeasuredShift, style: Style) -> String {
    let how = match measured.how {
        Moved::NockTurn(angle) => {
            let degrees = Dimension::Angle.unit("deg").map_or(angle, |unit| unit.of_si(angle));
            format!("with its nock turned by {} deg", significant(degrees))
        }
        Moved::Bare => "bare against fletched".to_owned(),
        Moved::Pushed(force) => {
            let force = plain(Role::Force, force, style);
            let against = match measured.shift.map(|give| give < 0.0) {
                [false, false] => "",
                _ => {
                    "; a give against its push is none: write it without its sign, as how far \
                     the nock gave way toward where it was pushed"
                }
            };
            return format!(
                "pushed with {force} the nock gave way {}{against}",
                apart(measured.shift, style)
            );
        }
    };
    let range = plain(Role::Range, measured.distance.si(), style);
    format!("at {range} the arrow {how} hit {}", apart(measured.shift, style))
}

/// A shift in words.
fn apart([left, up]: [f64; 2], style: Style) -> String {
    let left = part(left, ["to the left", "to the right"], style);
    format!("{left} and {}", part(up, ["up", "down"], style))
}

fn part(value: f64, words: [&str; 2], style: Style) -> String {
    let sense = if value < 0.0 { words[1] } else { words[0] };
    format!("{} {sense}", Role::Impact.text(value.abs(), style))
}

/// Whether it is the other direction that is off.
fn aside(lack: f64, other: &Held) -> bool {
    matches!(other, Held::Unexplained { lack: far, .. } if lack.abs() < ALONG * far.abs())
}

/// More restraints than this are not told one by one.
const MANY: usize = 4;
/// High over low of a range that a measurement no longer holds. Chosen: twice
/// either way, about what is assumed of a string without any.
const LOOSE: f64 = 4.0;

/// A direction off by less than this share of the other is not what fails. Chosen.
const ALONG: f64 = 0.25;

/// What is found of one direction, beside the other.
fn found((held, other): (&Held, &Held), words: [&str; 2], error: bool, style: Style) -> String {
    match held {
        Held::Unexplained { restraint, shift, lack } if aside(*lack, other) => format!(
            "it is the other direction that does not fit. With the restraints that come nearest, \
             here {}, this one gives {}, {} off.",
            three(*restraint),
            part(*shift, words, style),
            Role::Impact.text(lack.abs(), style),
        ),
        Held::Found { restraint, open, all } => {
            let what = if error { "its error and what else" } else { "what else" };
            let mut text = format!(
                "a restraint of {} explains it; {what} is poorly known leaves {} to {}.",
                three(restraint.value),
                three(restraint.low),
                three(restraint.high),
            );
            if restraint.high > LOOSE * restraint.low {
                text.push_str(" So wide a range says that what was measured hardly holds it.");
            }
            if *open {
                text.push_str(" With some of those values no restraint explains it.");
            }
            let others: Vec<String> = all
                .iter()
                .filter(|other| other.total_cmp(&restraint.value).is_ne())
                .map(|other| three(*other))
                .collect();
            if others.len() > MANY {
                text.push_str(" A shift as large follows from many others as well.");
            } else if !others.is_empty() {
                text.push_str(" A shift as large follows from ");
                text.push_str(&others.join(" or "));
                text.push_str(" as well.");
            }
            text
        }
        Held::Unexplained { restraint, shift, lack } => format!(
            "no restraint explains it. The nearest, {}, gives {}, {} off. Look again at what was \
             measured, and at the faults and the rest of this build.",
            three(*restraint),
            part(*shift, words, style),
            Role::Impact.text(lack.abs(), style),
        ),
        Held::Unfelt => "what was measured hardly changes with this restraint, so it says nothing \
            of it. A push on the nock of the bow without arrow ([measured] with push) does."
            .to_owned(),
        Held::Lost => "with no restraint does this arrow get that far.".to_owned(),
    }
}
