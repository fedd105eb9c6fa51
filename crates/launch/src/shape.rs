//! The draw force along the stroke. Model card: docs/model/bow-energy.md.

use units::{Energy, Ratio};

use crate::check::{self, within};
use crate::stroke::power_stroke;
use crate::{Bow, BowKind, DrawCurve, LaunchError, Setting};

/// A force along the stroke, on any scale of its own.
pub trait ForceLaw {
    /// Force at travelled share `s`, 0 at full draw to 1 at brace.
    fn force(&self, s: f64) -> f64;
    /// Mean force from full draw to `s`; the force itself at `s` = 0.
    fn mean(&self, s: f64) -> f64;
}

/// Share of the stroke over which a compound's force climbs from its holding
/// force. Chosen: a quarter, as wide as the fall, for lack of a source.
const CLIMB: f64 = 0.25;

/// Share of the stroke travelled when a compound's force begins to fall.
/// Chosen: the last quarter, as wide as the climb. It falls as a parabola,
/// 1 - t^2, level at the peak and steepest at brace: there the string stands
/// straight and its tension is in proportion to the slope. The whole stores
/// 0.817 of force times stroke with a let-off of 0.8, beside the 0.80 to 0.85 of
/// fast cams and 0.72 to 0.78 of mild ones (from memory).
const FALL: f64 = 0.75;

/// Belly of a recurve's force: mid-stroke force is 1/2 + 1/8 of the peak.
/// Chosen: stored energy 0.583 of peak force times stroke, beside the 0.58
/// to 0.60 of Table I in [tuijn-kooi-1992].
const RECURVE_BELLY: f64 = 0.5;

/// Belly of a longbow's force. Chosen: half a recurve's, since straight limbs
/// draw closer to a straight line.
const LONGBOW_BELLY: f64 = 0.25;

/// The force along the stroke relative to its peak.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PushShape(Shape);

#[derive(Debug, Clone, Copy, PartialEq)]
enum Shape {
    /// Holds this share of the peak at full draw.
    Cams { hold: f64 },
    /// Falls from the peak with this belly.
    Limbs { belly: f64 },
}

impl PushShape {
    /// The shape for a kind of bow; `let_off` counts for a compound alone.
    ///
    /// # Errors
    /// [`LaunchError::OutOfRange`] for a let-off outside 0 to 0.95.
    pub fn new(kind: BowKind, let_off: Ratio) -> Result<Self, LaunchError> {
        within(Setting::LetOff, let_off.si(), check::LET_OFF)?;
        Ok(Self(match kind {
            BowKind::Compound => Shape::Cams { hold: 1.0 - let_off.si() },
            BowKind::Recurve => Shape::Limbs { belly: RECURVE_BELLY },
            BowKind::Longbow => Shape::Limbs { belly: LONGBOW_BELLY },
        }))
    }
}

impl ForceLaw for PushShape {
    fn force(&self, s: f64) -> f64 {
        match self.0 {
            Shape::Cams { hold } if s < CLIMB => hold + (1.0 - hold) * smooth(s / CLIMB),
            Shape::Cams { .. } if s > FALL => 1.0 - ((s - FALL) / (1.0 - FALL)).powi(2),
            Shape::Cams { .. } => 1.0,
            Shape::Limbs { belly } => (1.0 - s) * (1.0 + belly * s),
        }
    }

    fn mean(&self, s: f64) -> f64 {
        match self.0 {
            Shape::Cams { hold } if s < CLIMB => hold + (1.0 - hold) * smooth_mean(s / CLIMB),
            Shape::Cams { hold } => {
                // Work up to s as if at the peak throughout, less what the
                // climb and the fall take from it.
                let climb = (1.0 - hold) * CLIMB / 2.0;
                let past = (s - FALL).max(0.0);
                1.0 - (climb + past * (past / (1.0 - FALL)).powi(2) / 3.0) / s
            }
            Shape::Limbs { belly } => 1.0 - s / 2.0 + belly * s * (0.5 - s / 3.0),
        }
    }
}

/// The cubic from 0 to 1 with level ends.
fn smooth(t: f64) -> f64 {
    t * t * (3.0 - 2.0 * t)
}

/// Mean of [`smooth`] from 0 to t.
fn smooth_mean(t: f64) -> f64 {
    t * t * (1.0 - t / 2.0)
}

/// The law of a bow's push: its own force-draw readings, or the shape of its
/// kind.
#[derive(Debug, Clone, PartialEq)]
pub enum BowLaw {
    /// The shape of its kind.
    Shape(PushShape),
    /// Readings: travelled share, force over the greatest read, work up to there.
    Readings(Vec<[f64; 3]>),
}

impl BowLaw {
    /// The law of a bow.
    ///
    /// # Errors
    /// [`LaunchError`] where a value is outside its range, or readings do not
    /// reach full draw with a force above zero.
    pub fn new(bow: &Bow) -> Result<Self, LaunchError> {
        let Some(curve) = &bow.curve else {
            return PushShape::new(bow.kind, bow.let_off).map(Self::Shape);
        };
        let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
        let full = bow.draw_length.si();
        let points = curve.points();
        let last = points[points.len() - 1].0;
        if points[0].0 >= full || last < full - CURVE_GAP {
            return Err(LaunchError::CurveShort { from: points[0].0, to: last, full });
        }
        // From full draw to brace; readings beyond either end only lend their
        // slope to full draw, and where they end just short of it the last holds.
        let inside = points.iter().rev().map(|&(draw, force)| (full - draw, force));
        let mut rows = vec![[0.0, force_at(points, full), 0.0]];
        rows.extend(
            inside
                // A drawn bow pulls: readings of nothing say where brace is.
                .filter(|(moved, force)| *moved > 0.0 && *moved < stroke && *force > 0.0)
                .map(|(moved, force)| [moved / stroke, force, 0.0]),
        );
        // The force is zero at brace, whatever the readings end with.
        rows.push([1.0, 0.0, 0.0]);
        if rows[0][1] <= 0.0 {
            return Err(LaunchError::CurveShort { from: points[0].0, to: last, full });
        }
        let peak = curve.peak();
        for i in 0..rows.len() {
            rows[i][1] /= peak;
            if i > 0 {
                let [s, f, work] = rows[i - 1];
                rows[i][2] = work + 0.5 * (f + rows[i][1]) * (rows[i][0] - s);
            }
        }
        Ok(Self::Readings(rows))
    }
}

/// Force at a draw beyond the first reading; past the last, the last.
fn force_at(points: &[(f64, f64)], draw: f64) -> f64 {
    let next = points.partition_point(|point| point.0 < draw);
    let last = points.len() - 1;
    if next > last {
        return points[last].1;
    }
    let ((d0, f0), (d1, f1)) = (points[next - 1], points[next]);
    f0 + (f1 - f0) * (draw - d0) / (d1 - d0)
}

/// Readings may end this far short of full draw, m. Chosen: a quarter inch.
const CURVE_GAP: f64 = 0.00635;

impl ForceLaw for BowLaw {
    fn force(&self, s: f64) -> f64 {
        match self {
            Self::Shape(shape) => shape.force(s),
            Self::Readings(rows) => between(rows, s).0,
        }
    }

    fn mean(&self, s: f64) -> f64 {
        match self {
            Self::Shape(shape) => shape.mean(s),
            Self::Readings(rows) if s > 0.0 => between(rows, s).1 / s,
            Self::Readings(rows) => rows[0][1],
        }
    }
}

/// Force and work at a travelled share.
fn between(rows: &[[f64; 3]], s: f64) -> (f64, f64) {
    let next = rows.partition_point(|row| row[0] < s).clamp(1, rows.len() - 1);
    let ([s0, f0, work], [s1, f1, _]) = (rows[next - 1], rows[next]);
    let share = if s1 > s0 { (s - s0) / (s1 - s0) } else { 1.0 };
    let force = f0 + share * (f1 - f0);
    (force, work + 0.5 * (f0 + force) * (s - s0))
}

/// The energy that drawing the bow stores: the force-draw curve from brace to
/// full draw, at its draw weight where it is built and as read where it is.
///
/// # Errors
/// [`LaunchError`] where a value is outside its allowed range.
pub fn stored_energy(bow: &Bow) -> Result<Energy, LaunchError> {
    check::stroke(bow)?;
    within(Setting::DrawWeight, bow.draw_weight.si(), check::DRAW_WEIGHT)?;
    within(Setting::Hysteresis, bow.hysteresis.si(), check::HYSTERESIS)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let peak = bow.curve.as_ref().map_or(bow.draw_weight.si(), DrawCurve::peak);
    Ok(Energy::from_si(peak * stroke * BowLaw::new(bow)?.mean(1.0)))
}
