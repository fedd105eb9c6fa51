use units::{Ratio, Role, Style};

use crate::fit::{Fit, Seats};
use crate::mass::blade_mass;
use crate::{Faults, Lean, Parts, VaneFault, Whole};

/// Something odd that a builder should know; never an error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Note {
    /// FOC outside 5 % to 30 %.
    UnusualFoc {
        /// FOC as a fraction.
        foc: f64,
    },
    /// No vanes: unstable unless the push is clean.
    BareShaft,
    /// A face is further out of square than the part on it can lean, so the
    /// part stands on the high side alone.
    FitLimited {
        /// Which face.
        what: &'static str,
        /// The face's error, rad.
        angle: f64,
        /// The most the part can lean, rad.
        limit: f64,
    },
    /// A fault of a part that this arrow does not have; it does nothing.
    IdleFault {
        /// Which fault.
        what: &'static str,
    },
    /// Solid steel blades of these sizes would outweigh the whole point; its
    /// axial inertia is taken as if all its mass were in the blades.
    BladesOutweighPoint {
        /// Mass of the blades, kg.
        blades: f64,
        /// Mass of the point, kg.
        point: f64,
    },
    /// The mass given directly is far from the sum of the parts.
    GivenMassDiffers {
        /// Mass given, kg.
        given: f64,
        /// Sum of the parts, kg.
        parts: f64,
    },
}

/// FOC outside these is unusual. Chosen: a little wider than the common
/// habits of 7 to 20 % (common practice, no source).
const FOC: std::ops::RangeInclusive<f64> = 0.05..=0.30;

/// A given mass further than this share from the parts' sum is pointed out.
/// Chosen: 2 %, well beyond scales and glue.
const MASS_GAP: f64 = 0.02;

/// All notes that parts and faults call for.
pub(crate) fn all(parts: &Parts, faults: &Faults, whole: &Whole, foc: Ratio) -> Vec<Note> {
    let mut notes = Vec::new();
    if !FOC.contains(&foc.si()) {
        notes.push(Note::UnusualFoc { foc: foc.si() });
    }
    if parts.vanes.is_none() {
        notes.push(Note::BareShaft);
        if faults.vane != VaneFault::default() {
            notes.push(Note::IdleFault { what: "vane" });
        }
    }
    let seats = Seats::new(parts);
    notes.extend(limited_note("the shaft's front end", faults.point_end, seats.front));
    match seats.point {
        Some(fit) => notes.extend(limited_note("the insert's face", faults.insert_face, fit)),
        None if faults.insert_face.angle.si() != 0.0 => {
            notes.push(Note::IdleFault { what: "insert face" });
        }
        None => {}
    }
    notes.extend(limited_note("the shaft's rear end", faults.nock_end, seats.nock));
    if let Some(blades) = &parts.point.blades {
        let (blades, point) = (blade_mass(blades), parts.point.mass.si());
        if blades > point {
            notes.push(Note::BladesOutweighPoint { blades, point });
        }
    }
    if let Some(given) = parts.given.mass
        && (given.si() - whole.mass).abs() > MASS_GAP * whole.mass
    {
        notes.push(Note::GivenMassDiffers { given: given.si(), parts: whole.mass });
    }
    notes
}

/// The note on a face that the part seating on it cannot lie flat on.
fn limited_note(what: &'static str, face: Lean, fit: Fit) -> Option<Note> {
    let (angle, limit) = (face.angle.si().abs(), fit.limit());
    (angle > limit).then_some(Note::FitLimited { what, angle, limit })
}

impl Note {
    /// The note in plain words.
    pub fn text(self, style: Style) -> String {
        let mass = |kg: f64| Role::Mass.text(kg, style);
        let angle = |rad: f64| Role::Angle.text(rad, style);
        match self {
            Self::UnusualFoc { foc } => {
                format!("an FOC of {} is unusual for an arrow", Role::Percent.text(foc, style))
            }
            Self::BareShaft => "no vanes: nothing steadies the flight".to_owned(),
            Self::FitLimited { what, angle: face, limit } => format!(
                "{what} is {} out of square, but its fit lets the part on it lean only {}; \
                 the part stands on the high side",
                angle(face),
                angle(limit)
            ),
            Self::IdleFault { what } => {
                format!("the {what} fault does nothing: this arrow has no such part")
            }
            Self::BladesOutweighPoint { blades, point } => format!(
                "solid steel blades of these sizes would weigh {}, more than the whole point \
                 with {}; the inertia about the shaft counts all its mass as blade",
                mass(blades),
                mass(point)
            ),
            Self::GivenMassDiffers { given, parts } => format!(
                "the arrow's mass is given as {}, but its parts add up to {}",
                mass(given),
                mass(parts)
            ),
        }
    }
}
