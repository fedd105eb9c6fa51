//! A compound: twin cams, straight-moving limb tips, elastic string and cables.
//!
//! Upper half; the lower one is its mirror image. x is counted back from the
//! line of the axles, z up from the arrow:
//!
//! ```text
//!        axle (0, z_a - d), cam of radius r turned by phi
//!       ( )
//!      /    free length L, leaving the cam at a from the upright
//!   nock (x, 0)
//! ```
//!
//! Drawn, the cam pays out r phi of string and takes up q(phi) of a cable that
//! ends at the other axle and so draws the axles together. The path of half a
//! string is L - r a - r phi and a constant (the tangent point wanders round
//! the cam by a); the cable's is q - 2 d and a constant. Strings that would go
//! slack are let push: just after release a light cam may ask for that, by some
//! newtons for some tenths of a millisecond, and what bends there stays smooth.
//! Model card: docs/model/bow.md.

use crate::hold::Hold;
use crate::pose::{Pose, StringPush, Twine};
use crate::search::{between, halved, newton};
use crate::{ForceLaw, LaunchError};

/// Places at which the take-up is worked out. Chosen: with twice as many, no
/// departure speed moves by 1e-5 (tested).
const PLACES: usize = 96;

/// Rows of it even in the cam's turn. Chosen: near brace the take-up changes
/// quickly with the turn.
const ROWS: usize = 4 * PLACES;

/// What a compound is made of, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CamParts {
    /// Axle above the arrow at brace, m.
    pub axle: f64,
    /// Radius of the string's track, m; so far behind the axles the string
    /// stands at brace.
    pub radius: f64,
    /// Force on a limb tip at brace, N.
    pub preload: f64,
    /// How it grows with the tip's way, N/m.
    pub stiffness: f64,
    /// Inertia of a cam, kg m2.
    pub inertia: f64,
    /// Mass that moves with an axle, kg.
    pub tip: f64,
    /// Stiffness of a cable, N/m.
    pub cable: f64,
    /// The string; its length is half of it, what lies round the cam counted.
    pub twine: Twine,
}

/// A compound with the take-up of its cables worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Cams {
    parts: CamParts,
    /// Natural path of half the string, m.
    natural: f64,
    /// Stretch of a cable at brace, m.
    stretch: f64,
    /// Turn of a cam and way of a limb tip, even along the draw.
    drawn: Vec<[f64; 2]>,
    /// Take-up and its slope, even in the cam's turn from 0 to full draw's.
    rows: Vec<[f64; 2]>,
    /// Turn from row to row, rad.
    even: f64,
}

/// The free string: its length, and sine, cosine and angle from the upright.
struct Span {
    long: f64,
    sin: f64,
    cos: f64,
    angle: f64,
}

/// Cable and its take-up.
struct Cable {
    tension: f64,
    slope: f64,
    bend: f64,
}

impl CamParts {
    /// The tangent from the nock to the track: with D from nock to axle and
    /// L^2 = D^2 - r^2, the string leaves at the angle of the axle less that
    /// whose sine is r/D.
    fn span(&self, x: f64, way: f64) -> Span {
        let up = self.axle - way;
        let square = x * x + up * up;
        let long = (square - self.radius * self.radius).sqrt();
        let sin = (x * long - up * self.radius) / square;
        let cos = (up * long + x * self.radius) / square;
        Span { long, sin, cos, angle: sin.atan2(cos) }
    }

    fn spring(&self) -> f64 {
        self.twine.stiffness / self.twine.half
    }

    /// Tension of the string at brace from how steeply the force-draw curve
    /// starts (N/m): near it F = 2 T a and a grows by 1/L.
    fn at_brace(&self, steep: f64) -> f64 {
        0.5 * steep * self.axle
    }
}

impl Cams {
    /// The cams that give a bow of peak force `peak` (N) and power stroke
    /// `stroke` (m) this force-draw curve.
    ///
    /// At each draw the string's tension follows from the force, T = F/(2 sin
    /// a), the cable's from the limb tip's balance, P0 + k d = T cos a + 2 Tc,
    /// and the way d of the tip from the energy: what string, cables and limbs
    /// hold over brace is the area under the curve so far. Turn and take-up are
    /// then known, and the cam's balance, Tc q' = T r, gives the slope.
    ///
    /// # Errors
    /// [`LaunchError::NoCams`] where the curve makes no such cams.
    pub fn new(
        parts: CamParts,
        law: &impl ForceLaw,
        peak: f64,
        stroke: f64,
    ) -> Result<Self, LaunchError> {
        /// Share of the stroke over which the first slope is taken. Chosen.
        const FIRST: f64 = 1e-4;
        let whole = law.mean(1.0);
        let steep = peak * law.force(1.0 - FIRST) / (FIRST * stroke);
        let brace = parts.at_brace(steep);
        let slack = 0.5 * (parts.preload - brace);
        let (ks, kc) = (parts.spring(), parts.cable);
        let held = |t: f64, c: f64, d: f64| {
            t * t / ks + c * c / kc + 2.0 * d * (parts.preload + 0.5 * parts.stiffness * d)
        };
        let natural = parts.axle - brace / ks;
        let stretch = slack / kc;
        let mut taken: Vec<[f64; 3]> = Vec::with_capacity(PLACES + 1);
        let (mut ways, mut way) = (Vec::with_capacity(PLACES + 1), 0.0);
        for place in 0..=PLACES {
            let drawn = place as f64 / PLACES as f64;
            let s = 1.0 - drawn;
            let x = parts.radius + stroke * drawn;
            let force = peak * law.force(s);
            let stored = peak * stroke * (whole - s * law.mean(s));
            let tensions = |d: f64| {
                let span = parts.span(x, d);
                let t = if place == 0 { brace } else { 0.5 * force / span.sin };
                (t, 0.5 * (parts.preload + parts.stiffness * d - t * span.cos), span)
            };
            let lack = |d: f64| {
                let (t, c, _) = tensions(d);
                held(t, c, d) - held(brace, slack, 0.0) - stored
            };
            if place > 0 {
                way = newton(lack, way).ok_or(LaunchError::NoCams { drawn })?;
            }
            let (t, c, span) = tensions(way);
            let turn = (span.long - parts.radius * span.angle - t / ks - natural) / parts.radius;
            let row = [turn, c / kc + 2.0 * way - stretch, t * parts.radius / c];
            let rises = taken.last().is_none_or(|last| row[0] > last[0]);
            if !(rises && c > 0.0 && row.iter().all(|v| v.is_finite())) {
                return Err(LaunchError::NoCams { drawn });
            }
            taken.push(row);
            ways.push([turn, way]);
        }
        let even = taken[PLACES][0] / ROWS as f64;
        let rows = (0..=ROWS).map(|i| between(&taken, even * i as f64)).collect();
        Ok(Self { parts, natural, stretch, drawn: ways, rows, even })
    }

    /// What it is made of.
    pub fn parts(&self) -> &CamParts {
        &self.parts
    }

    /// Natural path of half the string, m: its length L - r a - r phi unstretched.
    pub fn natural(&self) -> f64 {
        self.natural
    }

    /// Stretch of a cable at brace, m.
    pub fn stretch(&self) -> f64 {
        self.stretch
    }

    /// Turn of a cam, rad, and way of a limb tip, m, at full draw.
    pub fn drawn(&self) -> [f64; 2] {
        self.drawn[self.drawn.len() - 1]
    }

    /// The same with another mass at the axles.
    pub(crate) fn with_tip(mut self, tip: f64) -> Self {
        self.parts.tip = tip;
        self
    }

    /// Take-up at a turn, its slope and curvature: a cubic through values and
    /// slopes; past brace the first one's parabola goes on.
    pub fn take_up(&self, turn: f64) -> [f64; 3] {
        let h = self.even;
        let at = turn / h;
        // At least zero, and capped at the last interval.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let index = (at.max(0.0) as usize).min(self.rows.len() - 2);
        let ([q0, m0], [q1, m1]) = (self.rows[index], self.rows[index + 1]);
        let (m0, m1) = (m0 * h, m1 * h);
        let (square, cube) = (3.0 * (q1 - q0) - 2.0 * m0 - m1, 2.0 * (q0 - q1) + m0 + m1);
        let t = at - index as f64;
        let cube = if t < 0.0 { 0.0 } else { cube };
        [
            q0 + t * (m0 + t * (square + t * cube)),
            (m0 + t * (2.0 * square + 3.0 * t * cube)) / h,
            (2.0 * square + 6.0 * t * cube) / (h * h),
        ]
    }

    fn tension(&self, span: &Span, turn: f64) -> f64 {
        let p = &self.parts;
        p.spring() * (span.long - p.radius * (span.angle + turn) - self.natural)
    }

    fn cable(&self, turn: f64, way: f64) -> Cable {
        let [taken, slope, bend] = self.take_up(turn);
        let tension = self.parts.cable * (taken - 2.0 * way + self.stretch);
        Cable { tension, slope, bend }
    }

    /// Pose with the nock held a share of the draw behind brace: cam and tip
    /// where both balance, by halving.
    pub(crate) fn still(&self, drawn: f64, stroke: f64) -> Pose {
        let p = &self.parts;
        let x = p.radius + drawn * stroke;
        let at = |turn: f64, way: f64| Pose { place: [x, turn, way], rate: [0.0; 3] };
        // The further the tip has come, the less drives it on; the further the
        // cam has turned, the less.
        let way = |turn: f64| {
            let on = |way: f64| self.push(1.0, &at(turn, way)).acceleration[2];
            halved(on, -0.05 * p.axle, 0.5 * p.axle)
        };
        let most = self.drawn()[0];
        let turn = halved(
            |turn| self.push(1.0, &at(turn, way(turn))).acceleration[1],
            -0.1 * most,
            1.1 * most,
        );
        at(turn, way(turn))
    }

    /// Where axle and free end of the string are: back from the line of the axles, and
    /// up, m. The string touches its track where the radius stands across it.
    pub(crate) fn axle_and_string(&self, pose: &Pose) -> [[f64; 2]; 2] {
        let [x, _, way] = pose.place;
        let (span, up) = (self.parts.span(x, way), self.parts.axle - way);
        let radius = self.parts.radius;
        [[0.0, up], [radius * span.cos, up + radius * span.sin]]
    }

    /// Pose at full draw, everything still.
    pub(crate) fn full_draw(&self, stroke: f64) -> Pose {
        let [turn, way] = self.drawn[self.drawn.len() - 1];
        Pose { place: [self.parts.radius + stroke, turn, way], rate: [0.0; 3] }
    }

    /// Accelerations of nock, cam and limb tip with an arrow of this mass.
    ///
    /// From the energy ks e^2 + kc c^2 + 2 (P0 d + k d^2/2), e the stretch of
    /// half a string and c of a cable: -2 T sin a on the nock, 2 (T r - Tc q')
    /// on both cams, 2 T cos a + 4 Tc - 2 (P0 + k d) on both tips. Half a string
    /// has a third of its mass at either end.
    pub(crate) fn push(&self, mass: f64, pose: &Pose) -> StringPush {
        let p = &self.parts;
        let [x, turn, way] = pose.place;
        let span = p.span(x, way);
        let tension = self.tension(&span, turn);
        let cable = self.cable(turn, way);
        let third = p.twine.mass / 6.0;
        let pull = 2.0 * tension * span.sin;
        StringPush {
            acceleration: [
                -pull / (mass + p.twine.at_nock()),
                (tension * p.radius - cable.tension * cable.slope)
                    / (p.inertia + third * p.radius * p.radius),
                (tension * span.cos + 2.0 * cable.tension - p.preload - p.stiffness * way) / p.tip,
            ],
            tension,
        }
    }

    /// Hold of the nock in small motions about a pose: z up and, inside, psi by
    /// which the upper cam pays out and the lower one takes in, and w by which
    /// both tips go up.
    ///
    /// Half strings stretch by -+(g z + r psi - g w), g = cos a: with v = (g, r,
    /// -g) 2 ks v v'. The tension turns with p = (1, 0, -1) across the string:
    /// 2 T (sin^2 a/L) p p'. Each cable is taken up by q' psi while the axles
    /// keep their distance: 2 (kc q'^2 + Tc q''); each limb gives 2 k.
    pub(crate) fn hold(&self, pose: &Pose) -> Hold {
        let p = &self.parts;
        let [x, turn, way] = pose.place;
        let span = p.span(x, way);
        let t = self.tension(&span, turn);
        let cable = self.cable(turn, way);
        let (ks, g, r) = (p.spring(), span.cos, p.radius);
        let swing = 2.0 * t * span.sin * span.sin / span.long;
        let third = p.twine.mass / 6.0;
        Hold {
            side: 2.0 * t / span.long,
            mass: p.twine.at_nock(),
            up: [
                2.0 * ks * g * g + swing,
                2.0 * ks * g * r,
                -2.0 * ks * g * g - swing,
                2.0 * (ks * r * r
                    + p.cable * cable.slope * cable.slope
                    + cable.tension * cable.bend),
                -2.0 * ks * g * r,
                2.0 * (ks * g * g + p.stiffness) + swing,
            ],
            elastic: [
                2.0 * ks * g * g,
                2.0 * ks * g * r,
                -2.0 * ks * g * g,
                2.0 * (ks * r * r + p.cable * cable.slope * cable.slope),
                -2.0 * ks * g * r,
                2.0 * (ks * g * g + p.stiffness),
            ],
            across: 0.0,
            inside: [2.0 * (p.inertia + third * r * r), 2.0 * p.tip],
        }
    }

    /// A bound on the fastest motion of the bow with an arrow of this mass, rad/s:
    /// no square of a frequency is above the sum of stiffness over mass.
    pub(crate) fn fastest(&self, mass: f64, stroke: f64) -> f64 {
        let p = &self.parts;
        let brace = Pose { place: [p.radius, 0.0, 0.0], rate: [0.0; 3] };
        let at = |pose: Pose| {
            let [x, _, way] = pose.place;
            let (span, hold) = (p.span(x, way), self.hold(&pose));
            let tips = 2.0 * (p.spring() * span.cos.powi(2) + p.stiffness) + 8.0 * p.cable;
            2.0 * p.spring() * span.sin.powi(2) / (mass + p.twine.at_nock())
                + hold.up[3].max(0.0) / hold.inside[0]
                + tips / hold.inside[1]
        };
        at(brace).max(at(self.full_draw(stroke))).sqrt()
    }

    /// Kinetic energy of the string, and of cams and limbs, J.
    pub(crate) fn moving(&self, pose: &Pose) -> [f64; 2] {
        let p = &self.parts;
        let [v, turn, way] = pose.rate;
        let third = p.twine.mass / 6.0;
        let string = 0.5 * p.twine.at_nock() * v * v + third * (p.radius * turn).powi(2);
        [string, p.inertia * turn * turn + p.tip * way * way]
    }

    /// Energy held in string, cables and limbs in a pose over that at brace, J.
    pub(crate) fn energy(&self, pose: &Pose) -> f64 {
        let p = &self.parts;
        let [x, turn, way] = pose.place;
        let span = p.span(x, way);
        let (ks, kc) = (p.spring(), p.cable);
        let t = self.tension(&span, turn);
        let c = self.cable(turn, way).tension;
        let (brace, slack) = (ks * (p.axle - self.natural), kc * self.stretch);
        (t * t - brace * brace) / ks
            + (c * c - slack * slack) / kc
            + 2.0 * way * (p.preload + 0.5 * p.stiffness * way)
    }
}
