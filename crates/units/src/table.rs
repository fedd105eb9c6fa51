//! The one table of conversion factors. Exact definitions only: the
//! international yard and pound (1959), the standard acceleration of free
//! fall (1901), and powers of ten.

use std::f64::consts::PI;

/// A unit: `si = (value + offset) * factor`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// How the unit is written.
    pub symbol: &'static str,
    /// SI units in one of this unit.
    pub factor: f64,
    /// Added before scaling; zero for all but temperatures.
    pub offset: f64,
}

impl Unit {
    const fn new(symbol: &'static str, factor: f64) -> Self {
        Self { symbol, factor, offset: 0.0 }
    }

    /// A value in this unit, in SI.
    pub fn to_si(&self, value: f64) -> f64 {
        (value + self.offset) * self.factor
    }

    /// A value in SI, in this unit.
    pub fn of_si(&self, si: f64) -> f64 {
        si / self.factor - self.offset
    }
}

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const YARD: f64 = 0.9144;
const MILE: f64 = 1609.344;
const POUND: f64 = 0.453_592_37;
const GRAIN: f64 = POUND / 7000.0;
const OUNCE: f64 = POUND / 16.0;
const POUND_FORCE: f64 = POUND * crate::STANDARD_GRAVITY;
const DEGREE: f64 = PI / 180.0;

/// The kind of a quantity. The first unit of each list is the SI unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Dimension {
    /// Metre.
    Length,
    /// Kilogram.
    Mass,
    /// Kilogram per metre.
    LinearDensity,
    /// Kilogram per cubic metre.
    Density,
    /// Newton.
    Force,
    /// Metre per second.
    Speed,
    /// Metre per second squared.
    Acceleration,
    /// Radian.
    Angle,
    /// Radian per second.
    AngularRate,
    /// Second.
    Time,
    /// Kelvin.
    Temperature,
    /// Pascal.
    Pressure,
    /// Joule.
    Energy,
    /// Kilogram metre per second, which is a newton second.
    Momentum,
    /// Kilogram square metre.
    Inertia,
    /// Newton square metre.
    BendingStiffness,
    /// Newton per metre.
    Stiffness,
    /// Newton second per metre.
    Damping,
    /// Hertz.
    Frequency,
    /// One over metre.
    PerLength,
    /// A pure number, or per cent.
    Ratio,
    /// Kilogram per newton of draw weight.
    MassPerForce,
}

impl Dimension {
    /// The units understood for this dimension, the SI unit first.
    #[expect(clippy::too_many_lines, reason = "one table, read as a whole")]
    pub const fn units(self) -> &'static [Unit] {
        const LENGTH: &[Unit] = &[
            Unit::new("m", 1.0),
            Unit::new("cm", 0.01),
            Unit::new("mm", 0.001),
            Unit::new("um", 1e-6),
            Unit::new("km", 1000.0),
            Unit::new("in", INCH),
            Unit::new("thou", INCH / 1000.0),
            Unit::new("ft", FOOT),
            Unit::new("yd", YARD),
        ];
        const MASS: &[Unit] = &[
            Unit::new("kg", 1.0),
            Unit::new("g", 0.001),
            Unit::new("mg", 1e-6),
            Unit::new("gr", GRAIN),
            Unit::new("oz", OUNCE),
            Unit::new("lb", POUND),
        ];
        const LINEAR_DENSITY: &[Unit] = &[
            Unit::new("kg/m", 1.0),
            Unit::new("g/m", 0.001),
            Unit::new("g/cm", 0.1),
            Unit::new("gr/in", GRAIN / INCH),
        ];
        const DENSITY: &[Unit] = &[Unit::new("kg/m3", 1.0), Unit::new("g/cm3", 1000.0)];
        const FORCE: &[Unit] =
            &[Unit::new("N", 1.0), Unit::new("kN", 1000.0), Unit::new("lbf", POUND_FORCE)];
        const SPEED: &[Unit] = &[
            Unit::new("m/s", 1.0),
            Unit::new("km/h", 1.0 / 3.6),
            Unit::new("ft/s", FOOT),
            Unit::new("mph", MILE / 3600.0),
        ];
        const ACCELERATION: &[Unit] = &[
            Unit::new("m/s2", 1.0),
            Unit::new("ft/s2", FOOT),
            Unit::new("gee", crate::STANDARD_GRAVITY),
        ];
        const ANGLE: &[Unit] = &[
            Unit::new("rad", 1.0),
            Unit::new("mrad", 0.001),
            Unit::new("deg", DEGREE),
            Unit::new("arcmin", DEGREE / 60.0),
            Unit::new("turn", 2.0 * PI),
        ];
        const ANGULAR_RATE: &[Unit] = &[
            Unit::new("rad/s", 1.0),
            Unit::new("deg/s", DEGREE),
            Unit::new("turn/s", 2.0 * PI),
            Unit::new("rpm", 2.0 * PI / 60.0),
        ];
        const TIME: &[Unit] =
            &[Unit::new("s", 1.0), Unit::new("ms", 0.001), Unit::new("min", 60.0)];
        const TEMPERATURE: &[Unit] = &[
            Unit::new("K", 1.0),
            Unit { symbol: "degC", factor: 1.0, offset: 273.15 },
            Unit { symbol: "degF", factor: 5.0 / 9.0, offset: 459.67 },
        ];
        const PRESSURE: &[Unit] = &[
            Unit::new("Pa", 1.0),
            Unit::new("hPa", 100.0),
            Unit::new("kPa", 1000.0),
            Unit::new("bar", 1e5),
            Unit::new("atm", 101_325.0),
        ];
        const ENERGY: &[Unit] = &[Unit::new("J", 1.0), Unit::new("ft lbf", FOOT * POUND_FORCE)];
        const MOMENTUM: &[Unit] = &[
            Unit::new("kg m/s", 1.0),
            Unit::new("N s", 1.0),
            Unit::new("mN s", 0.001),
            Unit::new("slug ft/s", POUND_FORCE),
        ];
        const INERTIA: &[Unit] = &[
            Unit::new("kg m2", 1.0),
            Unit::new("g m2", 0.001),
            Unit::new("kg mm2", 1e-6),
            Unit::new("gr in2", GRAIN * INCH * INCH),
            Unit::new("slug ft2", POUND_FORCE * FOOT),
        ];
        const BENDING: &[Unit] =
            &[Unit::new("N m2", 1.0), Unit::new("lbf in2", POUND_FORCE * INCH * INCH)];
        const STIFFNESS: &[Unit] = &[
            Unit::new("N/m", 1.0),
            Unit::new("N/mm", 1000.0),
            Unit::new("lbf/in", POUND_FORCE / INCH),
        ];
        const DAMPING: &[Unit] = &[Unit::new("N s/m", 1.0)];
        const FREQUENCY: &[Unit] = &[Unit::new("Hz", 1.0)];
        const PER_LENGTH: &[Unit] = &[Unit::new("1/m", 1.0), Unit::new("1/ft", 1.0 / FOOT)];
        const RATIO: &[Unit] = &[Unit::new("", 1.0), Unit::new("%", 0.01)];
        const MASS_PER_FORCE: &[Unit] = &[
            Unit::new("kg/N", 1.0),
            Unit::new("g/N", 0.001),
            Unit::new("gr/lbf", GRAIN / POUND_FORCE),
        ];
        match self {
            Self::Length => LENGTH,
            Self::Mass => MASS,
            Self::LinearDensity => LINEAR_DENSITY,
            Self::Density => DENSITY,
            Self::Force => FORCE,
            Self::Speed => SPEED,
            Self::Acceleration => ACCELERATION,
            Self::Angle => ANGLE,
            Self::AngularRate => ANGULAR_RATE,
            Self::Time => TIME,
            Self::Temperature => TEMPERATURE,
            Self::Pressure => PRESSURE,
            Self::Energy => ENERGY,
            Self::Momentum => MOMENTUM,
            Self::Inertia => INERTIA,
            Self::BendingStiffness => BENDING,
            Self::Stiffness => STIFFNESS,
            Self::Damping => DAMPING,
            Self::Frequency => FREQUENCY,
            Self::PerLength => PER_LENGTH,
            Self::Ratio => RATIO,
            Self::MassPerForce => MASS_PER_FORCE,
        }
    }

    /// The unit with this symbol, if it is one of this dimension.
    pub fn unit(self, symbol: &str) -> Option<&'static Unit> {
        self.units().iter().find(|unit| unit.symbol == symbol)
    }

    /// The name in plain words, as messages use it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Mass => "mass",
            Self::LinearDensity => "mass per length",
            Self::Density => "density",
            Self::Force => "force",
            Self::Speed => "speed",
            Self::Acceleration => "acceleration",
            Self::Angle => "angle",
            Self::AngularRate => "angular rate",
            Self::Time => "time",
            Self::Temperature => "temperature",
            Self::Pressure => "pressure",
            Self::Energy => "energy",
            Self::Momentum => "momentum",
            Self::Inertia => "moment of inertia",
            Self::BendingStiffness => "bending stiffness",
            Self::Stiffness => "stiffness",
            Self::Damping => "damping",
            Self::Frequency => "frequency",
            Self::PerLength => "rate per length",
            Self::Ratio => "ratio",
            Self::MassPerForce => "mass per force",
        }
    }
}

impl std::fmt::Display for Dimension {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.name())
    }
}
