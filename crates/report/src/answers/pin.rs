//! The string's restraint, as one measured shift pins it down.

use study::{Measured, Moved, Pinned};
use units::{Dimension, Role, Style};

use crate::ReportError;
use crate::document::{Cell, Document, Kind, Part, say, table_of};
use crate::show::{plain, significant, three};

/// What was measured and what it says.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn pin(measured: &Measured, pinned: &Pinned, style: Style) -> Result<Document, ReportError> {
    let number = |si| Cell::Quantity(Role::Number, si);
    let shift = |si| Cell::Quantity(Role::Impact, si);
    let mut rows = vec![
        ("measured at", Cell::Quantity(Role::Range, measured.distance.si())),
        ("measured to the left", shift(measured.shift[0])),
        ("measured up", shift(measured.shift[1])),
    ];
    if let Moved::NockTurn(angle) = measured.how {
        rows.push(("nock turned by", Cell::Quantity(Role::Angle, angle)));
    }
    match pinned {
        Pinned::Found { restraint, side, all, .. } => {
            rows.push(("restraint", Cell::Banded(Role::Number, *restraint)));
            rows.push(("to the side", shift(*side)));
            let others = all.iter().filter(|other| other.total_cmp(&restraint.value).is_ne());
            rows.extend(others.map(|other| ("another restraint", number(*other))));
        }
        Pinned::Unexplained { restraint, shift: moved, lack } => rows.extend([
            ("nearest restraint", number(*restraint)),
            ("moves to the left", shift(moved[0])),
            ("moves up", shift(moved[1])),
            ("too much by", shift(*lack)),
        ]),
        Pinned::Lost => {}
    }
    let table = table_of("pin", rows)
        .words("value", |(name, _)| *name)
        .cells("is", Kind::Own, |(_, cell)| cell.clone())
        .done();
    let seen = format!("Measured: {}.", pin_seen(measured, style));
    let parts = vec![say(found(pinned, style)), Part::Data(table)];
    Document::new("pin", "", seen, parts, style)
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
                three(restraint.value),
                three(restraint.low),
                three(restraint.high),
                Role::Impact.text(side.abs(), style)
            );
            if *open {
                text.push_str(" With some of those values no restraint explains it.");
            }
            let others: Vec<String> = all
                .iter()
                .filter(|other| other.total_cmp(&restraint.value).is_ne())
                .map(|other| three(*other))
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
            three(*restraint),
            apart(*shift, style),
            Role::Impact.text(lack.abs(), style),
            if *lack < 0.0 { "little" } else { "much" }
        ),
        Pinned::Lost => "With no restraint does this arrow get that far.".to_owned(),
    }
}
