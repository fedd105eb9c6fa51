//! A recurve or longbow: two hinged limbs and an elastic string.
//!
//! Upper half; the lower one is its mirror image. x is counted back from the
//! line of the hinges, z up from the arrow:
//!
//! ```text
//!      tip (l sin th, H + l cos th)
//!       /\
//!   l  /  \  d     half string, stretched to d, natural length s0
//!     /    \
//!   (0,H)   \ nock (x, 0)
//! ```
//!
//! Static: the string pulls the nock by F = 2 T dd/dx and turns a limb by
//! -T dd/dth, which its torque tau holds up. Model card: docs/model/bow.md.

use crate::LaunchError;
use crate::hold::Hold;
use crate::pose::{Pose, StringPush, Twine};

/// Difference in angle for a slope, rad.
const STEP: f64 = 1e-7;

/// Hinged limbs with a string between their tips, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limbs {
    /// Hinge above the arrow, m.
    pub hinge: f64,
    /// Hinge to tip, m.
    pub limb: f64,
    /// Nock at brace behind the line of the hinges, m.
    pub brace: f64,
    /// Torque of a limb at brace, N m.
    pub torque: f64,
    /// How it grows with the limb's angle, N m/rad.
    pub stiffness: f64,
    /// Inertia of a limb about its hinge, kg m2.
    pub inertia: f64,
    /// The string; its length is half the string, stretched as at brace.
    pub twine: Twine,
}

/// Tip to nock, and its slopes by nock and limb.
struct Span {
    long: f64,
    back: f64,
    up: f64,
    by_x: f64,
    by_angle: f64,
}

impl Limbs {
    /// Angle of a limb at brace: there the string is straight, its tips as far
    /// back as the nock.
    fn rest_angle(&self) -> f64 {
        (self.brace / self.limb).asin()
    }

    /// Natural length of half the string, m.
    fn natural(&self) -> f64 {
        self.twine.half / (1.0 + self.torque / self.brace / self.twine.stiffness)
    }

    /// Stiffness of half the string, N/m.
    fn spring(&self) -> f64 {
        self.twine.stiffness / self.natural()
    }

    fn span(&self, x: f64, angle: f64) -> Span {
        let (sin, cos) = angle.sin_cos();
        let (back, up) = (x - self.limb * sin, self.hinge + self.limb * cos);
        let long = back.hypot(up);
        let by_angle = -self.limb * (back * cos + up * sin) / long;
        Span { long, back, up, by_x: back / long, by_angle }
    }

    /// Where the tip is: back from the line of the hinges, and up, m.
    pub(crate) fn tip(&self, pose: &Pose) -> [f64; 2] {
        let (sin, cos) = pose.place[1].sin_cos();
        [self.limb * sin, self.hinge + self.limb * cos]
    }

    fn torque_at(&self, angle: f64) -> f64 {
        self.torque + self.stiffness * (angle - self.rest_angle())
    }

    fn tension(&self, span: &Span) -> f64 {
        self.spring() * (span.long - self.natural())
    }

    /// Limb angle at which limb and string balance, with the nock held at x.
    pub(crate) fn balance(&self, x: f64) -> f64 {
        let slope = |angle: f64| {
            let span = self.span(x, angle);
            let t = self.spring() * (span.long - self.natural());
            let bent = self.torque_at(angle) + t * span.by_angle;
            let stiff = self.stiffness
                + self.spring() * span.by_angle.powi(2)
                + t * self.second(&span, angle).2;
            (bent, stiff)
        };
        // Newton from an unstretched string's angle; the limb is stiff and the
        // string stiffer, so it comes down in a few steps.
        let mut angle = self.rest_angle() + 0.5 * (x - self.brace) / self.limb;
        for _ in 0..40 {
            let (bent, stiff) = slope(angle);
            let step = (bent / stiff).clamp(-0.1, 0.1);
            angle -= step;
            if step.abs() < 1e-15 {
                break;
            }
        }
        angle
    }

    /// Pose with everything still and the nock held at x.
    pub(crate) fn still(&self, x: f64) -> Pose {
        Pose { place: [x, self.balance(x), 0.0], rate: [0.0; 3] }
    }

    /// Energy in limbs and string over that at brace, J.
    pub(crate) fn energy(&self, pose: &Pose) -> f64 {
        let [x, angle, _] = pose.place;
        let turned = angle - self.rest_angle();
        let span = self.span(x, angle);
        let (now, brace) = (self.tension(&span), self.torque / self.brace);
        2.0 * (self.torque * turned + 0.5 * self.stiffness * turned * turned)
            + (now * now - brace * brace) / self.spring()
    }

    /// The same bow with the torque that asks for this force (N) at full draw
    /// and stores this energy (J) over the stroke (m).
    ///
    /// With a tension at brace assumed, the string's length is known; the limb's
    /// angle at full draw is where the string is as long as the force stretches
    /// it; the limb's torque there balances the string. The energy is the mean
    /// torque times the angle, and what the string holds; it grows with the
    /// tension at brace, which is so found.
    ///
    /// # Errors
    /// [`LaunchError::NoLimbs`] where no such limbs hold the string at brace.
    pub(crate) fn drawing(self, force: f64, energy: f64, stroke: f64) -> Result<Self, LaunchError> {
        let refused = LaunchError::NoLimbs { energy, part: energy / (force * stroke) };
        let x = self.brace + stroke;
        let made = |brace_tension: f64| {
            let mut bow = Self { torque: brace_tension * self.brace, ..self };
            let tension = |span: &Span| 0.5 * force / span.by_x;
            let mut angle = bow.rest_angle() + 0.5 * stroke / bow.limb;
            for _ in 0..60 {
                let lack = |angle: f64| {
                    let span = bow.span(x, angle);
                    span.long - bow.natural() * (1.0 + tension(&span) / bow.twine.stiffness)
                };
                let here = lack(angle);
                let step = here * STEP / (lack(angle + STEP) - here);
                angle -= step.clamp(-0.1, 0.1);
                if step.abs() < 1e-13 {
                    break;
                }
            }
            let span = bow.span(x, angle);
            let (full, turned) = (-tension(&span) * span.by_angle, angle - bow.rest_angle());
            bow.stiffness = (full - bow.torque) / turned;
            let stored = (full + bow.torque) * turned
                + (tension(&span).powi(2) - brace_tension.powi(2)) / bow.spring();
            (bow, stored)
        };
        // The energy is all but a straight line in the tension: a secant.
        let (mut last, mut at) = (0.5 * force, 2.0 * force);
        let mut before = made(last).1 - energy;
        for _ in 0..30 {
            let (bow, stored) = made(at);
            let lack = stored - energy;
            if lack.abs() < 1e-12 * energy {
                return if at > 0.0 && bow.stiffness > 0.0 { Ok(bow) } else { Err(refused) };
            }
            let next = at - lack * (at - last) / (lack - before);
            (last, before, at) = (at, lack, next);
        }
        Err(refused)
    }

    /// Second derivatives of the tip-to-nock length d by z and by the limb's
    /// angle, for a nock that goes up by z: (`d_zz`, `d_z,th`, `d_th,th`), and `d_z`.
    ///
    /// d^2 = (x - l sin th)^2 + (H + l cos th - z)^2; with `d_z` = -up/d the
    /// others follow by the quotient rule: d `d_ab` = half of (d^2)_ab - `d_a` `d_b`.
    fn second(&self, span: &Span, angle: f64) -> (f64, f64, f64, f64) {
        let (sin, cos) = angle.sin_cos();
        let by_z = -span.up / span.long;
        let zz = (1.0 - by_z * by_z) / span.long;
        let zt = (self.limb * sin - by_z * span.by_angle) / span.long;
        let half = self.limb * (self.limb + span.back * sin - span.up * cos);
        let tt = (half - span.by_angle.powi(2)) / span.long;
        (zz, zt, tt, by_z)
    }

    /// Accelerations of nock and limb with an arrow of this mass.
    ///
    /// Kinetic energy `m_x` x'^2/2 + `m_xt` x' th' + `m_t` th'^2/2 with half a string
    /// as a straight bar (a third of its mass at either end, a sixth across):
    /// `m_x` = m + `m_n` + 2 `m_h/3`, `m_xt` = (`m_h/3`) l cos th, `m_t` = 2J + (2 `m_h/3`) l^2.
    /// Lagrange: `m_x` x'' + `m_xt` th'' = -2 T `d_x` - (`dm_xt/dth`) th'^2, and
    /// `m_xt` x'' + `m_t` th'' = -2 tau - 2 T `d_th`.
    pub(crate) fn push(&self, mass: f64, pose: &Pose) -> StringPush {
        let [x, angle, _] = pose.place;
        let span = self.span(x, angle);
        let tension = self.tension(&span);
        let (sin, cos) = angle.sin_cos();
        let third = self.twine.mass / 6.0;
        let (mx, mxt) = (mass + self.twine.at_nock(), third * self.limb * cos);
        let mt = 2.0 * self.inertia + 2.0 * third * self.limb * self.limb;
        let qx = -2.0 * tension * span.by_x + third * self.limb * sin * pose.rate[1].powi(2);
        let qt = -2.0 * self.torque_at(angle) - 2.0 * tension * span.by_angle;
        let det = mx * mt - mxt * mxt;
        StringPush {
            acceleration: [(qx * mt - qt * mxt) / det, (qt * mx - qx * mxt) / det, 0.0],
            tension,
        }
    }

    /// Hold of the nock in small motions about a pose: z up and, inside, b by
    /// which the upper limb turns back and the lower one forward.
    ///
    /// Energy of second order: both half strings stretch by +-(`d_z` z + `d_th` b),
    /// so 2 ks (`d_z` z + `d_th` b)^2 / 2, the tension works on the second
    /// derivatives, 2 T (`d_zz` z^2 + 2 `d_zth` z b + `d_thth` b^2)/2, and the limbs
    /// give 2 k b^2/2. Sideways both halves swing about their tips: 2 T/d.
    pub(crate) fn hold(&self, pose: &Pose) -> Hold {
        let [x, angle, _] = pose.place;
        let span = self.span(x, angle);
        let t = self.tension(&span);
        let ks = self.spring();
        let (zz, zt, tt, by_z) = self.second(&span, angle);
        let third = self.twine.mass / 6.0;
        Hold {
            side: 2.0 * t / span.long,
            mass: self.twine.at_nock(),
            up: [
                2.0 * (ks * by_z * by_z + t * zz),
                2.0 * (ks * by_z * span.by_angle + t * zt),
                0.0,
                2.0 * (self.stiffness + ks * span.by_angle.powi(2) + t * tt),
                0.0,
                // No second motion inside: one that stands still.
                1.0,
            ],
            elastic: [
                2.0 * ks * by_z * by_z,
                2.0 * ks * by_z * span.by_angle,
                0.0,
                2.0 * (self.stiffness + ks * span.by_angle.powi(2)),
                0.0,
                0.0,
            ],
            across: -third * self.limb * angle.sin(),
            inside: [2.0 * self.inertia + 2.0 * third * self.limb * self.limb, 1.0],
        }
    }

    /// A bound on the fastest motion of the bow with an arrow of this mass, rad/s:
    /// no square of a frequency is above the sum of stiffness over mass.
    pub(crate) fn fastest(&self, mass: f64, stroke: f64) -> f64 {
        let at = |x: f64| {
            let pose = self.still(x);
            let (span, hold) = (self.span(x, pose.place[1]), self.hold(&pose));
            2.0 * self.spring() * span.by_x.powi(2) / (mass + self.twine.at_nock())
                + hold.up[3] / hold.inside[0]
        };
        at(self.brace).max(at(self.brace + stroke)).sqrt()
    }

    /// Kinetic energy of string and limbs, J.
    pub(crate) fn moving(&self, pose: &Pose) -> [f64; 2] {
        let third = self.twine.mass / 6.0;
        let [v, turn, _] = pose.rate;
        let limb = self.limb;
        let string = 0.5 * self.twine.at_nock() * v * v
            + third * limb * pose.place[1].cos() * v * turn
            + third * limb * limb * turn * turn;
        [string, self.inertia * turn * turn]
    }
}
