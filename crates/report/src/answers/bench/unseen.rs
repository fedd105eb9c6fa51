//! What a way of reading a shaft cannot see.

use study::workbench::{CutShaft, Cutting, Read};
use units::{Role, Style};

use super::words::row;

/// An end not read over more than this is pointed out, m. Chosen: an inch.
const UNREAD: f64 = 0.0255;

/// One sentence for each way of reading, with the shafts that were read so.
pub(super) fn unseen(found: &Cutting, style: Style) -> Vec<String> {
    let mut kinds: Vec<(String, Vec<&str>)> = Vec::new();
    for shaft in &found.shafts {
        for said in says(shaft, style) {
            match kinds.iter_mut().find(|kind| kind.0 == said) {
                Some(kind) => kind.1.push(&shaft.shaft.name),
                None => kinds.push((said, vec![&shaft.shaft.name])),
            }
        }
    }
    let all = found.shafts.len();
    kinds
        .into_iter()
        .map(|(said, names)| {
            let who = match names.as_slice() {
                [one] => format!("Shaft {one}"),
                many if many.len() == all => format!("All {all} shafts"),
                many => format!("Shafts {}", row(many.iter().copied())),
            };
            format!("{who}: {said}")
        })
        .collect()
}

fn says(shaft: &CutShaft, style: Style) -> Vec<String> {
    let stock = shaft.axis.stock();
    let axis = match &shaft.shaft.read {
        Read::Profile(axis) => axis,
        Read::Places(seen) => return vec![places(seen, stock)],
    };
    let mut out = Vec::new();
    if axis.one_side() {
        out.push(
            "read at one clock position. That tells nothing of the bends across it, and sag is in \
             the readings: it hardly narrows the choice. Read at four."
                .to_owned(),
        );
    } else if axis.sightings().len() < 2 * (axis.stations().len().saturating_sub(2)) {
        out.push(
            "read at two opposite clock positions. That tells nothing of the bends across them, so \
             the ring is as wide as for a shaft half unknown. Read at four."
                .to_owned(),
        );
    }
    let (first, last) = axis.reach();
    let (rear, front) = (first, stock - last);
    if rear.max(front) > UNREAD {
        out.push(format!(
            "not read over the last {} at the nock end and {} at the point end. Ends hook most: read \
             to the very ends.",
            Role::Part.text(rear, style),
            Role::Part.text(front, style)
        ));
    }
    out
}

fn places(seen: &[workbench::Sighting], stock: f64) -> String {
    let at = |x: f64| seen.iter().any(|one| (one.station - x).abs() < 1e-6);
    match (at(stock / 2.0), at(0.0), at(stock)) {
        (false, false, false) => {
            "known by the grade alone. The list takes off where such shafts hook most; no reading \
             tells which of them do."
        }
        (true, false, false) => {
            "read in the middle alone. That reading does not see the ends: the list takes off where \
             such shafts hook most, not where this one does."
        }
        (_, true, true) => {
            "read at the ends and in the middle. How far in a hook reaches is not seen: it is taken as \
             one to three inches, all alike."
        }
        _ => "read at one end. The other is known by its kind alone.",
    }
    .to_owned()
}
