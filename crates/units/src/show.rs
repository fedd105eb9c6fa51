use crate::{Dimension, Unit};

/// The family of units a reader asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Style {
    /// Yards, inches, grains, pounds-force, feet per second.
    #[default]
    Archery,
    /// Metres, centimetres, metres per second; pounds of draw and grains of mass
    /// stay, as the trade keeps them the world over (common practice, no source).
    Metric,
}

/// What a number is for. It decides the unit and the decimals on output.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Role {
    /// A shooting distance.
    Range,
    /// A drop, drift or group size at the target.
    Impact,
    /// A length of an arrow part.
    Part,
    /// A fault or a gauge reading.
    Gauge,
    /// How far out a face stands at its rim.
    Rim,
    /// A spine: inches the world over (common practice, no source).
    Spine,
    /// A mass of a part or an arrow.
    Mass,
    /// Mass per length of a shaft.
    LinearDensity,
    /// A draw weight or push.
    Force,
    /// An arrow speed.
    Speed,
    /// A wind speed.
    Wind,
    /// An acceleration.
    Acceleration,
    /// An angle.
    Angle,
    /// A pitch or yaw rate.
    Rate,
    /// A spin rate.
    Spin,
    /// A time.
    Time,
    /// A time within the push.
    Instant,
    /// A frequency.
    Frequency,
    /// An air temperature.
    Temperature,
    /// An air pressure.
    Pressure,
    /// Kinetic energy.
    Energy,
    /// Momentum.
    Momentum,
    /// Moment of inertia.
    Inertia,
    /// Bending stiffness.
    BendingStiffness,
    /// Stiffness of a rest or a spring.
    Stiffness,
    /// Air density.
    Density,
    /// A share, in per cent.
    Percent,
    /// A pure number.
    Number,
    /// A place on a sight; sights are made in millimetres the world over.
    Sight,
    /// The time that work takes.
    Work,
    /// Arrow mass over draw weight.
    MassPerForce,
    /// Points scored.
    Points,
    /// Anything else of a dimension, in SI.
    Other(Dimension),
}

impl Role {
    /// The role that a part of an arrow or a bow gives a dimension.
    pub fn of(dimension: Dimension) -> Self {
        match dimension {
            Dimension::Length => Self::Part,
            Dimension::Mass => Self::Mass,
            Dimension::LinearDensity => Self::LinearDensity,
            Dimension::Force => Self::Force,
            Dimension::Speed => Self::Speed,
            Dimension::Angle => Self::Angle,
            Dimension::AngularRate => Self::Rate,
            Dimension::Temperature => Self::Temperature,
            Dimension::Pressure => Self::Pressure,
            Dimension::Inertia => Self::Inertia,
            Dimension::Stiffness => Self::Stiffness,
            Dimension::Ratio => Self::Number,
            other => Self::Other(other),
        }
    }

    /// What the role measures.
    pub fn dimension(self) -> Dimension {
        self.spelling().0
    }

    /// The unit and the number of decimals for this role.
    pub fn unit(self, style: Style) -> (&'static Unit, usize) {
        let (dimension, archery, metric) = self.spelling();
        let (symbol, decimals) = match style {
            Style::Archery => archery,
            Style::Metric => metric,
        };
        match dimension.unit(symbol) {
            Some(unit) => (unit, decimals),
            None => unreachable!("every role names a unit of its dimension (tested)"),
        }
    }

    /// Dimension, and unit and decimals in each style.
    fn spelling(self) -> (Dimension, (&'static str, usize), (&'static str, usize)) {
        use Dimension as D;
        match self {
            Self::Range => (D::Length, ("yd", 0), ("m", 0)),
            Self::Impact => (D::Length, ("in", 2), ("cm", 1)),
            Self::Part => (D::Length, ("in", 3), ("mm", 1)),
            Self::Gauge => (D::Length, ("in", 4), ("mm", 3)),
            Self::Rim => (D::Length, ("thou", 1), ("mm", 3)),
            Self::Spine => (D::Length, ("in", 3), ("in", 3)),
            Self::Mass => (D::Mass, ("gr", 1), ("gr", 1)),
            Self::LinearDensity => (D::LinearDensity, ("gr/in", 2), ("gr/in", 2)),
            Self::Force => (D::Force, ("lbf", 1), ("lbf", 1)),
            Self::Speed => (D::Speed, ("ft/s", 1), ("m/s", 1)),
            Self::Wind => (D::Speed, ("mph", 1), ("m/s", 1)),
            Self::Acceleration => (D::Acceleration, ("gee", 0), ("gee", 0)),
            Self::Angle => (D::Angle, ("deg", 3), ("deg", 3)),
            Self::Rate => (D::AngularRate, ("deg/s", 1), ("deg/s", 1)),
            Self::Spin => (D::AngularRate, ("turn/s", 1), ("turn/s", 1)),
            Self::Time => (D::Time, ("s", 3), ("s", 3)),
            Self::Instant => (D::Time, ("ms", 2), ("ms", 2)),
            Self::Frequency => (D::Frequency, ("Hz", 1), ("Hz", 1)),
            Self::Temperature => (D::Temperature, ("degF", 0), ("degC", 0)),
            Self::Pressure => (D::Pressure, ("hPa", 0), ("hPa", 0)),
            Self::Energy => (D::Energy, ("ft lbf", 1), ("J", 1)),
            Self::Momentum => (D::Momentum, ("slug ft/s", 3), ("kg m/s", 3)),
            Self::Inertia => (D::Inertia, ("kg mm2", 1), ("kg mm2", 1)),
            Self::BendingStiffness => (D::BendingStiffness, ("N m2", 3), ("N m2", 3)),
            Self::Stiffness => (D::Stiffness, ("lbf/in", 2), ("N/m", 0)),
            Self::Density => (D::Density, ("kg/m3", 4), ("kg/m3", 4)),
            Self::Percent => (D::Ratio, ("%", 1), ("%", 1)),
            Self::Number => (D::Ratio, ("", 3), ("", 3)),
            Self::Sight => (D::Length, ("mm", 2), ("mm", 2)),
            Self::Work => (D::Time, ("min", 0), ("min", 0)),
            Self::MassPerForce => (D::MassPerForce, ("gr/lbf", 2), ("gr/lbf", 2)),
            Self::Points => (D::Ratio, ("", 1), ("", 1)),
            Self::Other(dimension) => {
                let si = (dimension.units()[0].symbol, 3);
                (dimension, si, si)
            }
        }
    }

    /// The unit's symbol, for axis labels and column heads.
    pub fn symbol(self, style: Style) -> &'static str {
        self.unit(style).0.symbol
    }

    /// The value in the role's unit.
    pub fn value(self, si: f64, style: Style) -> f64 {
        self.unit(style).0.of_si(si)
    }

    /// Decimals that show this value: those of [`Role::unit`]. Impacts and
    /// inertias span decades, so a small one gets up to two more, until two
    /// figures show.
    pub fn decimals(self, si: f64, style: Style) -> usize {
        let (unit, decimals) = self.unit(style);
        if !matches!(self, Self::Impact | Self::Inertia) {
            return decimals;
        }
        let places = (0..decimals).fold(unit.of_si(si).abs(), |value, _| 10.0 * value);
        let more = match places {
            // 9.5 rounds to 10.
            9.5.. => 0,
            0.95..9.5 => 1,
            0.005..0.95 => 2,
            // It rounds to nothing however written.
            _ => 0,
        };
        decimals + more
    }

    /// The number alone, rounded for reading.
    pub fn number(self, si: f64, style: Style) -> String {
        self.rounded(si, self.decimals(si, style), style)
    }

    /// The number alone with this many decimals, for numbers shown together.
    pub fn rounded(self, si: f64, decimals: usize, style: Style) -> String {
        let text = format!("{:.decimals$}", self.value(si, style));
        // A rounded negative zero reads as a mistake.
        if text.starts_with('-') && text.bytes().all(|b| matches!(b, b'-' | b'0' | b'.')) {
            text[1..].to_owned()
        } else {
            text
        }
    }

    /// The number in archery units and, where that differs, in metric ones: for messages
    /// that do not know who reads them.
    pub fn both(self, si: f64) -> String {
        if si.is_nan() {
            return "not a number".to_owned();
        }
        if si.is_infinite() {
            return if si > 0.0 { "infinite" } else { "minus infinite" }.to_owned();
        }
        let [archery, metric] = [Style::Archery, Style::Metric].map(|style| self.text(si, style));
        if metric == archery { archery } else { format!("{archery} ({metric})") }
    }

    /// The number with its unit, rounded for reading.
    pub fn text(self, si: f64, style: Style) -> String {
        let (unit, _) = self.unit(style);
        let number = self.number(si, style);
        match unit.symbol {
            "" => number,
            "%" => format!("{number} %"),
            symbol => format!("{number} {symbol}"),
        }
    }
}
