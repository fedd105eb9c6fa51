//! Dangers of a bow and an arrow, whoever shoots and wherever.

use arrow::Parts;
use launch::{BowKind, LaunchError, budget, kinetic_energy, power_stroke, push_bend};
use units::STANDARD_GRAVITY;

use super::ask::Looked;
use super::danger::{Danger, Seat};
use crate::{Setup, StudyError};

/// A grain per pound of force, kg/N.
const GRAIN_PER_POUND: f64 = 1.0 / (7000.0 * STANDARD_GRAVITY);
/// Least mass for the draw weight, gr per lb. Of a compound the mass at which its
/// speed is rated, the lightest that a rating tries: [astm-f1544]. Of limbs without
/// cams more (common practice, no source): less of the energy goes into a light arrow.
const fn least_grains(kind: BowKind) -> f64 {
    match kind {
        BowKind::Compound => 5.0,
        BowKind::Recurve => 6.0,
        BowKind::Longbow => 8.0,
    }
}
/// Most that the push may peak over the load that buckles the shaft. Chosen: one that is
/// two or three grades too weak stands at 2.5 and more (tested).
const MOST_OVER_BUCKLING: f64 = 2.5;
/// Where shafts end that common practice pairs with a bow: from 1.2 to this (tested).
const USUAL_OVER_BUCKLING: f64 = 1.9;
/// Most strain of the shaft's surface in the push. Chosen: a fifth of the 1 % at which
/// common carbon laminates break when bent (from memory), for scratches, cold and many
/// shots, and above the 0.08 % of fingers on shafts that suit the bow (tested).
const MOST_STRAIN: f64 = 0.002;
/// Least that the shaft's end stands ahead of the rest at full draw, m. Chosen: half an
/// inch; stretching into the draw by as much is ordinary.
const LEAST_AHEAD: f64 = 0.0127;
/// Least reach of what holds the point over the diameter of its joint. Chosen: half of
/// what the trade's usual parts have, 0.75 to 0.9 in in bores of 0.2 to 0.25 in.
const LEAST_SEAT: f64 = 1.5;
/// What rounding may add to an energy, as a share. Chosen: far below any reading.
const SLACK: f64 = 1e-3;

/// Every danger of an arrow on its bow.
pub(super) fn dangers(one: &Looked) -> Result<Vec<Danger>, StudyError> {
    let who = || one.variant.tag().who();
    let Setup { parts, faults, bow, form, departure, index, .. } = &one.setup;
    let built =
        arrow::build(parts, faults).map_err(|source| StudyError::Arrow { who: who(), source })?;
    let launch = |source: LaunchError| StudyError::Launch { who: who(), source };
    let mut found = Vec::new();

    let mass_per_force = built.mass.mass().si() / bow.draw_weight.si();
    let least = least_grains(bow.kind) * GRAIN_PER_POUND;
    // A last-digit slack, so that an arrow of just as much passes.
    if mass_per_force < least * (1.0 - 1e-12) {
        found.push(Danger::Light { mass_per_force, least });
    }

    // First: if the energy is wrong, so is the push.
    let own = budget(bow, built.mass.mass()).map_err(launch)?;
    // A speed that is given is all that is known of such a shot.
    let leaves = departure
        .speed
        .map_or(own.stored - own.lost, |speed| kinetic_energy(built.mass.mass(), speed).si());
    let fits = leaves <= own.stored * (1.0 + SLACK);
    if !fits {
        found.push(Danger::OverStored { leaves, stored: own.stored });
    }

    let bend = push_bend(bow, parts, &built, *index, form).map_err(launch)?;
    let times = bend.buckling.peak / bend.buckling.limit;
    if times > MOST_OVER_BUCKLING {
        found.push(Danger::Buckles { times, most: MOST_OVER_BUCKLING });
    } else if fits && times > USUAL_OVER_BUCKLING {
        found.push(Danger::Weak { times, usual: USUAL_OVER_BUCKLING });
    }
    if bend.strain > MOST_STRAIN {
        found.push(Danger::Bends { strain: bend.strain, most: MOST_STRAIN, bow: bend.bow });
    }

    let stroke = power_stroke(bow.draw_length, bow.brace_height).map_err(launch)?;
    let ahead = built.layout.shaft_front.si() - stroke.si() - bow.rest.ahead.si();
    if ahead < LEAST_AHEAD {
        found.push(Danger::NearRest { ahead, least: LEAST_AHEAD });
    }

    let (seat, engaged, least) = seat(parts);
    if engaged < least {
        found.push(Danger::ShortSeat { seat, engaged, least });
    }
    Ok(found)
}

/// What holds the point, how far it reaches, and how far it must, m.
fn seat(parts: &Parts) -> (Seat, f64, f64) {
    let (inside, outside) = (parts.shaft.inside.si(), parts.shaft.outside.si());
    match (&parts.insert, &parts.outsert) {
        (Some(insert), _) => (Seat::Insert, insert.engaged.si(), LEAST_SEAT * inside),
        (None, Some(outsert)) => (Seat::Outsert, outsert.engaged.si(), LEAST_SEAT * outside),
        (None, None) => (Seat::Shank, parts.point.shank.si(), LEAST_SEAT * inside),
    }
}
