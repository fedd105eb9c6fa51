//! The string's restraint, as one measured shift pins it down.

use serde_json::Value;
use study::{Measured, Moved, Pinned};
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
    let lines = [format!("Measured: {}.", pin_seen(measured, style)), found(pinned, style)];
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
    };
    let range = plain(Role::Range, measured.distance.si(), style);
    format!("at {range} the arrow {how} hit {}", apart(measured.shift, style))
}

/// A shift in words.
fn apart([left, up]: [f64; 2], style: Style) -> String {
    let part = |value: f64, words: [&str; 2]| {
        let sense = if value < 0.0 { words[1] } else { words[0] };
        format!("{} {sense}", Role::Impact.text(value.abs(), style))
    };
    let left = part(left, ["to the left", "to the right"]);
    format!("{left} and {}", part(up, ["up", "down"]))
}

fn found(pinned: &Pinned, style: Style) -> String {
    match pinned {
        Pinned::Found { restraint, open, side, all } => {
            let mut text = format!(
                "A restraint of {} explains it; what else is poorly known leaves {} to {}. The \
                 computed shift lies {} to the side of the measured one.",
                figures(restraint.value),
                figures(restraint.low),
                figures(restraint.high),
                Role::Impact.text(side.abs(), style)
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
                text.push_str(" A shift as large, but farther to the side, follows from ");
                text.push_str(&others.join(" or "));
                text.push('.');
            }
            text
        }
        Pinned::Unexplained { restraint, shift, lack } => format!(
            "No restraint explains it. The nearest, {}, moves the impact {}, {} too {}. Look \
             again at what was measured, and at the faults and the rest of this build.",
            figures(*restraint),
            apart(*shift, style),
            Role::Impact.text(lack.abs(), style),
            if *lack < 0.0 { "little" } else { "much" }
        ),
        Pinned::Lost => "With no restraint does this arrow get that far.".to_owned(),
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
    let answer = match pinned {
        Pinned::Found { restraint, open, side, all } => vec![
            ("explained", Node::Flag(true)),
            ("restraint", Node::Number(restraint.value, "1")),
            ("range", Node::band((restraint.low, restraint.high), "1")),
            ("range_open", Node::Flag(*open)),
            ("to_the_side", Node::Number(*side, "m")),
            ("all", Node::Series(all.clone(), "1")),
        ],
        Pinned::Unexplained { restraint, shift: moved, lack } => vec![
            ("explained", Node::Flag(false)),
            ("nearest", Node::Number(*restraint, "1")),
            ("nearest_shift", shift(*moved)),
            ("nearest_lack", Node::Number(*lack, "m")),
        ],
        Pinned::Lost => vec![("explained", Node::Flag(false))],
    };
    let turn = match measured.how {
        Moved::NockTurn(angle) => Node::Number(angle, "rad"),
        Moved::Bare => Node::Null,
    };
    let seen = vec![
        ("distance", Node::Number(measured.distance.si(), "m")),
        ("shift", shift(measured.shift)),
        ("nock_turn", turn),
        ("bare", Node::Flag(measured.how == Moved::Bare)),
    ];
    Node::Map(vec![("measured", Node::Map(seen)), ("answer", Node::Map(answer))]).write()
}
