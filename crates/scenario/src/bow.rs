//! The bow of one shot, and where its speed comes from.

use launch::{Bow, BowString, NockPath, Release, Rest, Restraint, SpeedSource};
use units::{Force, Length, Mass, Momentum, Speed};

use crate::numbers::Numbers;
use crate::schema::Id;
use crate::words::Words;

/// 5 gr per lbf, kg/N: a pound is 7000 gr, so 5/7000 over free fall.
/// Sourced: [astm-f1544].
const RATED_MASS_PER_FORCE: f64 = 5.0 / 7000.0 / units::STANDARD_GRAVITY;

/// A reading by a chronograph belongs to the bow as it stands in the file. A
/// draw weight or length that is drawn or swept away from there carries it
/// over as a rating is.
fn read(n: &Numbers<'_>, speed: Speed, mass: Mass) -> SpeedSource {
    let ids = [Id::BowDrawWeight, Id::BowDrawLength].map(|id| id as usize);
    let [draw_weight, draw_length] = ids.map(|id| n.unchanged[id]);
    if ids.iter().all(|id| n.values[*id].to_bits() == n.unchanged[*id].to_bits()) {
        return SpeedSource::Chronograph { speed, mass };
    }
    SpeedSource::Rating {
        speed,
        mass,
        draw_weight: Force::from_si(draw_weight),
        draw_length: Length::from_si(draw_length),
    }
}

fn speed(n: &Numbers<'_>, words: &Words) -> SpeedSource {
    if let Some(speed) = n.maybe(Id::RatingSpeed) {
        SpeedSource::Rating {
            speed,
            mass: n.at(Id::RatingMass),
            draw_weight: n.at(Id::RatingDrawWeight),
            draw_length: n.at(Id::RatingDrawLength),
        }
    } else if let Some(speed) = n.maybe(Id::BowSpeed) {
        read(n, speed, n.at(Id::BowSpeedMass))
    } else if let Some((speed, mass)) = words.read {
        read(n, speed, mass)
    } else if words.stored {
        SpeedSource::Stored
    } else {
        // The departure speed is given, so only the mass is still to say:
        // 5 gr per lb of draw, as ratings do.
        let mass = RATED_MASS_PER_FORCE * n.values[Id::BowDrawWeight as usize];
        let speed = n.at(Id::DepartureSpeed);
        SpeedSource::Chronograph { speed, mass: Mass::from_si(mass) }
    }
}

/// The bow of one shot.
pub(crate) fn bow(n: &Numbers<'_>, words: &Words) -> Bow {
    let usual: Momentum = n.at(Id::ImpulseLeft);
    let beyond: Momentum = n.at(Id::LooseLeft);
    let impulse = Momentum::from_si(usual.si() + beyond.si());
    Bow {
        kind: words.bow,
        draw_weight: n.at(Id::BowDrawWeight),
        draw_length: n.at(Id::BowDrawLength),
        brace_height: n.at(Id::BowBraceHeight),
        let_off: n.or_zero(Id::BowLetOff),
        curve: words.curve,
        hysteresis: n.at(Id::BowHysteresis),
        speed: speed(n, words),
        virtual_mass: n.maybe(Id::BowVirtualMass),
        limb_mass: n.at(Id::BowLimbMass),
        string: BowString {
            mass: n.at(Id::StringMass),
            nocking: n.at(Id::StringNocking),
            stiffness: n.at(Id::StringStiffness),
            grip: n.at(Id::StringGrip),
        },
        restraint: Restraint { left: n.at(Id::RestraintLeft), up: n.at(Id::RestraintUp) },
        // Of a compound alone.
        tip_line: n.maybe(Id::BowTipLine).unwrap_or(Length::from_si(0.055)),
        half_string: n.at(Id::BowHalfString),
        gravity: n.at(Id::Gravity),
        release: Release { left: impulse, up: n.at(Id::ImpulseUp) },
        path: NockPath { left: n.at(Id::PathLeft), up: n.at(Id::PathUp) },
        rest: Rest {
            kind: words.rest,
            side: words.side,
            stiffness: n.at(Id::RestStiffness),
            damping: n.at(Id::RestDamping),
            preload: n.or_zero(Id::RestPreload),
            share: n.at(Id::RestShare),
            delay: n.at(Id::RestDelay),
            ahead: n.at(Id::RestAhead),
            riser_gap: n.at(Id::RestRiserGap),
            drop: n.at(Id::RestDrop),
        },
    }
}
