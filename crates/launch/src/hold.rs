//! How a bow holds a nock that leaves its line: stiffness and mass.

/// Hold of the nock in a pose of the bow, SI.
///
/// Sideways a spring and a mass. Up and down the nock and up to two motions of
/// the bow that the nock's brings about: limbs or cams that turn against each
/// other, tips that move together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// Stiffness sideways, N/m.
    pub side: f64,
    /// Mass that moves with the nock, kg.
    pub mass: f64,
    /// Stiffness up and down: nock, nock with first, nock with second, first,
    /// first with second, second.
    pub up: [f64; 6],
    /// The part of it that string, cables and limbs give by their springs alone;
    /// the remainder is their tension's.
    pub elastic: [f64; 6],
    /// Mass between nock and first.
    pub across: f64,
    /// Masses of the two.
    pub inside: [f64; 2],
}

impl Hold {
    /// Every stiffness times a factor.
    pub(crate) fn times(self, factor: f64) -> Self {
        let times = |k: f64| k * factor;
        Self {
            side: times(self.side),
            up: self.up.map(times),
            elastic: self.elastic.map(times),
            ..self
        }
    }

    /// The hold with restraints. Up and down, less than one lessens all of it; more
    /// than one makes the springs firmer, with which the nock comes to be pinned,
    /// and leaves the tension's part, which can push it off.
    pub(crate) fn scaled(self, side: f64, up: f64) -> Self {
        let (all, more) = (up.min(1.0), (up - 1.0).max(0.0));
        let firm = |i: usize| all * self.up[i] + more * self.elastic[i];
        Self { side: self.side * side, up: std::array::from_fn(firm), ..self }
    }

    /// Stiffness up and down with the motions inside following, none of them
    /// with mass, N/m: `K_zz` less `K_zb` K_bb^-1 `K_bz`.
    pub fn still(&self) -> f64 {
        let [zz, z0, z1, a, b, c] = self.up;
        let det = a * c - b * b;
        zz - (z0 * (z0 * c - z1 * b) + z1 * (z1 * a - z0 * b)) / det
    }
}
