//! Laminar friction on a long cylinder in axial flow, over that of a flat plate.
//!
//! A boundary layer that wraps a thin rod is thinned by having more room
//! further out, so it rubs harder than the flat-plate formula says.
//! Model card: `docs/model/laminar-friction.md`.

/// Where the table ends. Arrows lie between 0.1 and 0.5.
pub const CURVATURE_END: f64 = 2.0;

/// One row: k, the mean friction over the flat plate's, and its slope by k.
///
/// Computed by `tests/reference/laminar_cylinder.py` from the laminar
/// boundary-layer equations; converged to 1e-6. [laminar-cylinder]
const TABLE: [(f64, f64, f64); 12] = [
    (0.00, 1.000_000_0, 0.522_737_9),
    (0.10, 1.050_763_4, 0.493_750_4),
    (0.20, 1.098_949_8, 0.470_798_1),
    (0.30, 1.145_060_6, 0.451_998_9),
    (0.40, 1.189_449_2, 0.436_202_7),
    (0.50, 1.232_376_2, 0.422_665_2),
    (0.60, 1.274_040_5, 0.410_879_9),
    (0.80, 1.354_175_7, 0.391_226_2),
    (1.00, 1.430_781_3, 0.375_350_6),
    (1.25, 1.522_526_1, 0.359_179_5),
    (1.50, 1.610_611_3, 0.345_907_5),
    (CURVATURE_END, 1.778_112_2, 0.325_155_0),
];

/// Mean laminar friction coefficient of a cylinder in axial flow divided by
/// the flat plate's, `1.328 / sqrt(U L / nu)`. Both have no unit.
///
/// `k = 2 sqrt(nu L / U) / a`, with `nu` the kinematic viscosity in m2/s, `L`
/// the length and `a` the radius in m, and `U` the speed in m/s. `k` is finite
/// and not negative; at 0 the factor is exactly 1.
///
/// Between the rows of the table the curve is a cubic through values and
/// slopes, within 5e-6 of the solution. Above [`CURVATURE_END`] it goes on
/// along the last slope. The true curve bends down, so this overstates: by
/// less than 1 % up to k = 3. The caller reports such a `k` to the user.
pub fn curvature_factor(k: f64) -> f64 {
    let above = TABLE.partition_point(|row| row.0 <= k).max(1);
    let (k0, f0, s0) = TABLE[above - 1];
    let Some(&(k1, f1, s1)) = TABLE.get(above) else {
        return f0 + s0 * (k - k0);
    };
    let width = k1 - k0;
    let t = (k - k0) / width;
    let rise = f1 - f0;
    let bend = t * (1.0 - t) * ((1.0 - t) * (s0 * width - rise) + t * (rise - s1 * width));
    f0 + rise * t + bend
}
