use std::f64::consts::PI;

/// A set of like fins on a cylinder: vanes on the shaft, or blades on a
/// ferrule.
///
/// What any such set has by its shape; what holds for vanes or for blades alone
/// stands beside it. See `docs/model/vanes.md`.
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

    /// Fin edge from the axis, m.
    pub fn edge(&self) -> f64 {
        self.radius + self.span
    }

    /// Body radius over the edge's distance from the axis, x; 0 for fins without
    /// a body, 1 for a body without fins.
    pub fn body_share(&self) -> f64 {
        self.radius / self.edge()
    }

    /// Normal-force area slope of one fin turned against its body, m2 per rad:
    /// 1 + x times the isolated one, with what the body carries. It is Barrowman's
    /// interference, which is the fins' own part when all of it meets the air.
    pub fn lone_slope(&self) -> f64 {
        self.one_slope() * (1.0 + self.body_share())
    }

    /// Normal-force area slope of the whole set and of the body it loads, m2 per
    /// rad, in even air and without what neighbours do to each other:
    /// (1 + x)^2 by slender-body theory \[naca1307\].
    pub fn set_slope(&self) -> f64 {
        0.5 * self.count * self.one_slope() * (1.0 + self.body_share()).powi(2)
    }

    /// Centre of pressure behind the front of the root by the shape alone, m
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

    /// Centroid of a fin's area behind the front of the root, m.
    pub fn centroid(&self) -> f64 {
        let (root, tip) = (self.root, self.tip);
        (root * root + root * tip + tip * tip + self.sweep * (root + 2.0 * tip))
            / (3.0 * (root + tip))
    }

    /// Roll moment area per rad of common fin angle if no fin knew of another,
    /// m3.
    pub fn strip_forcing(&self) -> f64 {
        self.count * self.arm() * self.one_slope()
    }

    /// Sum of area times distance from the axis squared of one fin, m4.
    pub fn second_moment(&self) -> f64 {
        let (s, r) = (self.span, self.radius);
        s / 12.0
            * ((self.root + 3.0 * self.tip) * s * s
                + 4.0 * (self.root + 2.0 * self.tip) * s * r
                + 6.0 * (self.root + self.tip) * r * r)
    }

    /// Roll moment over (dynamic pressure times p/V) if no fin knew of another,
    /// m4, positive against the spin; with the same finite-span slope as the
    /// forcing.
    pub fn strip_damping(&self) -> f64 {
        self.count * self.one_slope() / self.area() * self.second_moment()
    }

    /// Roll damping interference Kd of a fin in its body's flow \[barrowman1967\].
    pub fn damping_factor(&self) -> f64 {
        let t = self.edge() / self.radius;
        let taper = self.tip / self.root;
        let above = (t - taper) / t - (1.0 - taper) / (t - 1.0) * t.ln();
        let below =
            (t + 1.0) * (t - taper) / 2.0 - (1.0 - taper) * (t.powi(3) - 1.0) / (3.0 * (t - 1.0));
        1.0 + above / below
    }
}
