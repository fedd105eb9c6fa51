//! The string's restraints, as one measured thing pins them down.

use serde_json::Value;
use study::{Held, Measured, Moved, Pinned};
use units::{Dimension, Role, Style};

use crate::ReportError;
use crate::push::figures;
use crate::show::{plain, significant};
use crate::table::wrap;
use crate::tree::Node;

/// What was measured and what it says, for a terminal of `width` characters.
///
/// # Errors
/// As [`pin_json`].
pub fn pin_text(
    measured: &Measured,
    pinned: &Pinned,
    style: Style,
    width: usize,
) -> Result<String, ReportError> {
    pin_json(measured, pinned)?;
    let lines = [
        format!("Measured: {}.", pin_seen(measured, style)),
        format!("Sideways: {}", found(&pinned.left, ["to the left", "to the right"], style)),
        format!("Up and down: {}", found(&pinned.up, ["up", "down"], style)),
    ];
    Ok(lines.map(|text| wrap(&text, width).join("\n") + "\n").join("\n"))
}

/// What was measured, in half a sentence.
pub fn pin_seen(measured: &Measured, style: Style) -> String {
    let how = match measured.how {
        Moved::NockTurn(angle) => {
            let degrees = Dimension::Angle.unit("deg").map_or(angle, |unit| unit.of_si(angle));
            format!("with its nock turned by {} deg", significant(degrees))
        }
        Moved::Bare => "bare against fletched".to_owned(),
        Moved::Pushed(force) => {
            let [left, up] = measured.shift.map(|give| Role::Impact.text(give.abs(), style));
            let force = plain(Role::Force, force, style);
            return format!("pushed with {force} the nock gave way {left} to the left and {up} up");
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

fn found(held: &Held, words: [&str; 2], style: Style) -> String {
    match held {
        Held::Found { restraint, open, all } => {
            let mut text = format!(
                "a restraint of {} explains it; what else is poorly known leaves {} to {}.",
                figures(restraint.value),
                figures(restraint.low),
                figures(restraint.high),
            );
            if *open {
                text.push_str(" With some of those values no restraint explains it.");
            }
            let others: Vec<String> = all
                .iter()
                .filter(|other| other.total_cmp(&restraint.value).is_ne())
                .map(|other| figures(*other))
                .collect();
            if !others.is_empty() {
                text.push_str(" A shift as large follows from ");
                text.push_str(&others.join(" or "));
                text.push_str(" as well.");
            }
            text
        }
        Held::Unexplained { restraint, shift, lack } => format!(
            "no restraint explains it. The nearest, {}, gives {}, {} off. Look again at what was \
             measured, and at the faults and the rest of this build.",
            figures(*restraint),
            part(*shift, words, style),
            Role::Impact.text(lack.abs(), style),
        ),
        Held::Unfelt => "no restraint moves it, so nothing is said of it.".to_owned(),
        Held::Lost => "with no restraint does this arrow get that far.".to_owned(),
    }
}

/// What was measured and what it says, as JSON in SI.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn pin_json(measured: &Measured, pinned: &Pinned) -> Result<Value, ReportError> {
    let shift = |[left, up]: [f64; 2]| {
        Node::Map(vec![("left", Node::Number(left, "m")), ("up", Node::Number(up, "m"))])
    };
    let answer = vec![("sideways", node(&pinned.left)), ("up_and_down", node(&pinned.up))];
    let turn = match measured.how {
        Moved::NockTurn(angle) => Node::Number(angle, "rad"),
        Moved::Bare | Moved::Pushed(_) => Node::Null,
    };
    let push = match measured.how {
        Moved::Pushed(force) => Node::Number(force, "N"),
        Moved::Bare | Moved::NockTurn(_) => Node::Null,
    };
    let seen = vec![
        ("distance", Node::Number(measured.distance.si(), "m")),
        ("shift", shift(measured.shift)),
        ("nock_turn", turn),
        ("bare", Node::Flag(measured.how == Moved::Bare)),
        ("push", push),
    ];
    Node::Map(vec![("measured", Node::Map(seen)), ("answer", Node::Map(answer))]).write()
}

fn node(held: &Held) -> Node {
    Node::Map(match held {
        Held::Found { restraint, open, all } => vec![
            ("explained", Node::Flag(true)),
            ("restraint", Node::Number(restraint.value, "1")),
            ("range", Node::band((restraint.low, restraint.high), "1")),
            ("range_open", Node::Flag(*open)),
            ("all", Node::Series(all.clone(), "1")),
        ],
        Held::Unexplained { restraint, shift, lack } => vec![
            ("explained", Node::Flag(false)),
            ("nearest", Node::Number(*restraint, "1")),
            ("nearest_shift", Node::Number(*shift, "m")),
            ("nearest_lack", Node::Number(*lack, "m")),
        ],
        Held::Unfelt => vec![("felt", Node::Flag(false))],
        Held::Lost => vec![("explained", Node::Flag(false))],
    })
}
