use crate::{Dimension, UnitError, parse_si};

/// A quantity: one number in the SI unit of its dimension.
pub trait Quantity: Copy {
    /// What it measures.
    const DIMENSION: Dimension;
    /// From a number in the SI unit.
    fn from_si(si: f64) -> Self;
    /// The number in the SI unit.
    fn si(self) -> f64;
}

/// Reads a quantity such as `"29.5 in"`, `"425 gr"` or `"60lbf"`.
///
/// A ratio may stand without a unit (`"0.5"`, `"12 %"`); everything else needs
/// one.
///
/// # Errors
/// [`UnitError`] names the text and the units that are understood.
pub fn parse<Q: Quantity>(text: &str) -> Result<Q, UnitError> {
    parse_si(Q::DIMENSION, text).map(Q::from_si)
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// Zero.
            pub const ZERO: Self = Self(0.0);
            /// From a number in the SI unit.
            pub const fn from_si(si: f64) -> Self { Self(si) }
            /// The number in the SI unit.
            pub const fn si(self) -> f64 { self.0 }
        }

        impl Quantity for $name {
            const DIMENSION: Dimension = Dimension::$name;
            fn from_si(si: f64) -> Self { Self(si) }
            fn si(self) -> f64 { self.0 }
        }

        impl std::str::FromStr for $name {
            type Err = UnitError;
            fn from_str(text: &str) -> Result<Self, UnitError> { parse(text) }
        }
    )*};
}

quantities! {
    /// A length, m.
    Length
    /// A mass, kg.
    Mass
    /// A mass per length, kg/m.
    LinearDensity
    /// A density, kg/m3.
    Density
    /// A force, N.
    Force
    /// A speed, m/s.
    Speed
    /// An acceleration, m/s2.
    Acceleration
    /// An angle, rad.
    Angle
    /// An angular rate, rad/s.
    AngularRate
    /// A time, s.
    Time
    /// A temperature, K.
    Temperature
    /// A pressure, Pa.
    Pressure
    /// An energy, J.
    Energy
    /// A momentum, kg m/s.
    Momentum
    /// A moment of inertia, kg m2.
    Inertia
    /// A bending stiffness, N m2.
    BendingStiffness
    /// A spring stiffness, N/m.
    Stiffness
    /// A damping coefficient, N s/m.
    Damping
    /// A rate per length, 1/m.
    PerLength
    /// A pure number.
    Ratio
}
