use units::{Acceleration, Angle, Length, PerLength, Pressure, Ratio, Speed, Temperature};

/// The air as a user knows it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weather {
    /// Air temperature.
    pub temperature: Temperature,
    /// Station pressure (not reduced to sea level).
    pub pressure: Pressure,
    /// Relative humidity, 0 to 1.
    pub humidity: Ratio,
}

/// A log wind profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindProfile {
    /// Height above ground at which the wind speed holds.
    pub height: Length,
    /// Roughness length of the ground.
    pub roughness: Length,
}

/// A steady horizontal wind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wind {
    /// Its speed.
    pub speed: Speed,
    /// Where it comes from, clockwise seen from above: 0 from the target
    /// (headwind), 90 degrees from the archer's right.
    pub from: Angle,
    /// How it grows with height; none for the same wind at every height.
    pub profile: Option<WindProfile>,
}

/// Where the shot takes place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Site {
    /// The air.
    pub weather: Weather,
    /// The wind.
    pub wind: Wind,
    /// Angle of the line to the target above the horizontal.
    pub shot_angle: Angle,
    /// Height of the nock above the ground at departure.
    pub release_height: Length,
    /// Free fall; zero for checks without gravity.
    pub gravity: Acceleration,
}

/// Coefficients that the user gives directly; each replaces the built-up one.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GivenAero {
    /// Drag coefficient on the shaft's frontal area, the same at every speed.
    pub drag: Option<Ratio>,
    /// Drag deceleration over speed squared, 1/m; replaces drag altogether.
    pub deceleration: Option<PerLength>,
    /// Slope of the normal force coefficient, per rad, on the frontal area.
    pub normal_slope: Option<Ratio>,
    /// Centre of pressure from the bottom of the nock groove.
    pub centre_of_pressure: Option<Length>,
    /// Pitch damping coefficient Cmq, per rad of q d / (2 V), usually negative.
    pub pitch_damping: Option<Ratio>,
    /// Roll forcing coefficient of the vane set, on area and diameter.
    pub roll_forcing: Option<Ratio>,
    /// Roll damping coefficient Clp, per rad of p d / (2 V), usually negative.
    pub roll_damping: Option<Ratio>,
}

/// What is chosen about the air's grip on the arrow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AeroChoice {
    /// Share of turbulent friction on the shaft, 0 laminar to 1 turbulent.
    pub turbulence: Ratio,
    /// Drag coefficient of nock and rear end on the frontal area.
    pub nock_drag: Ratio,
    /// Cross-flow drag coefficient of the shaft.
    pub cross_flow: Ratio,
    /// How far from the bow a tripped layer stays turbulent on an arrow that
    /// flies laminar later.
    pub trips_until: Length,
    /// How far the built-up coefficients are off.
    pub factors: AeroFactors,
    /// Directly given coefficients.
    pub given: GivenAero,
}

/// Factors on built-up coefficients; each is 1 where the formula holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AeroFactors {
    /// On the lift slope of the vanes.
    pub vane_slope: Ratio,
    /// On forcing and damping of the vanes in roll alike.
    pub roll_level: Ratio,
    /// On the spin at which they balance.
    pub spin_ratio: Ratio,
    /// On the lift slope of the blades.
    pub head_slope: Ratio,
    /// On what the wake of the blades takes off the vanes.
    pub wake: Ratio,
    /// On the lift of a bent shaft.
    pub bend_lift: Ratio,
    /// On the cross-flow drag of the vanes.
    pub vane_cross_flow: Ratio,
}

impl Default for AeroFactors {
    fn default() -> Self {
        let one = Ratio::from_si(1.0);
        Self {
            vane_slope: one,
            roll_level: one,
            spin_ratio: one,
            head_slope: one,
            wake: one,
            bend_lift: one,
            vane_cross_flow: one,
        }
    }
}
