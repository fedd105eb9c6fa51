use std::f64::consts::PI;

/// A set of like fins on a cylinder: vanes on the shaft, or blades on a
/// ferrule.
///
/// Slopes follow Barrowman \[barrowman1967\]; damping in roll uses the same
/// finite-span slope as forcing. See `docs/model/vanes.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinSet {
    /// Number of fins.
    pub count: f64,
    /// Body surface to fin edge, m.
    pub span: f64,
    /// Root chord, m.
    pub root: f64,
    /// Tip chord, m.
    pub tip: f64,
    /// How far the tip's front lies behind the root's front, m.
    pub sweep: f64,
    /// Body radius, m.
    pub radius: f64,
}

impl FinSet {
    /// Area of one fin, m2.
    pub fn area(&self) -> f64 {
        0.5 * (self.root + self.tip) * self.span
    }

    /// Mean chord, m.
    pub fn chord(&self) -> f64 {
        0.5 * (self.root + self.tip)
    }

    /// Normal-force area slope of one isolated fin across its own plane,
    /// m2 per rad: the coefficient slope times any reference area
    /// \[barrowman1967\].
    pub fn one_slope(&self) -> f64 {
        let middle = (self.sweep + 0.5 * (self.tip - self.root)).hypot(self.span);
        let ratio = 2.0 * middle / (self.root + self.tip);
        2.0 * PI * self.span.powi(2) / (1.0 + (1.0 + ratio * ratio).sqrt())
    }

    /// Body-fin interference, 1 + r/(s + r), not squared
    /// \[barrowman1967\].
    pub fn interference(&self) -> f64 {
        1.0 + self.radius / (self.span + self.radius)
    }

    /// Normal-force area slope of the whole set on its body, m2 per rad.
    pub fn set_slope(&self) -> f64 {
        0.5 * self.count * self.one_slope() * self.interference()
    }

    /// Centre of pressure behind the front of the root, m
    /// \[barrowman1967\].
    pub fn centre(&self) -> f64 {
        let sum = self.root + self.tip;
        self.sweep / 3.0 * (self.root + 2.0 * self.tip) / sum
            + (sum - self.root * self.tip / sum) / 6.0
    }

    /// Distance of a fin's mean aerodynamic chord from the axis, m.
    pub fn arm(&self) -> f64 {
        self.radius + self.span / 3.0 * (self.root + 2.0 * self.tip) / (self.root + self.tip)
    }

    /// Roll moment over dynamic pressure per rad of common fin angle, m3,
    /// interference included.
    pub fn roll_forcing(&self) -> f64 {
        self.count * self.arm() * self.one_slope() * self.forcing_factor()
    }

    /// Roll moment over (dynamic pressure times p/V), m4, positive against the
    /// spin; finite-span slope, interference included.
    pub fn roll_damping(&self) -> f64 {
        let (s, r) = (self.span, self.radius);
        let second_moment = s / 12.0
            * ((self.root + 3.0 * self.tip) * s * s
                + 4.0 * (self.root + 2.0 * self.tip) * s * r
                + 6.0 * (self.root + self.tip) * r * r);
        self.count * self.one_slope() / self.area() * second_moment * self.damping_factor()
    }

    /// Roll forcing interference Kf \[barrowman1967\].
    pub fn forcing_factor(&self) -> f64 {
        let t = (self.span + self.radius) / self.radius;
        let plus = t * t + 1.0;
        let minus = t - 1.0;
        let angle = ((t * t - 1.0) / plus).asin();
        let ratio = plus * plus / (t * t * minus * minus);
        (PI * PI / 4.0 * (t + 1.0).powi(2) / (t * t) + PI * ratio * angle
            - 2.0 * PI * (t + 1.0) / (t * minus)
            + ratio * angle * angle
            - 4.0 * (t + 1.0) / (t * minus) * angle
            + 8.0 / (minus * minus) * (plus / (2.0 * t)).ln())
            / (PI * PI)
    }

    /// Roll damping interference Kd \[barrowman1967\].
    pub fn damping_factor(&self) -> f64 {
        let t = (self.span + self.radius) / self.radius;
        let taper = self.tip / self.root;
        let above = (t - taper) / t - (1.0 - taper) / (t - 1.0) * t.ln();
        let below =
            (t + 1.0) * (t - taper) / 2.0 - (1.0 - taper) * (t.powi(3) - 1.0) / (3.0 * (t - 1.0));
        1.0 + above / below
    }
}
