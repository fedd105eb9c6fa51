//! How people write units: other spellings of the symbols of the table. What
//! could mean two units is asked, never guessed.

use crate::{Dimension, Unit};

/// What a spelling says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Spelled {
    /// This unit.
    Unit(&'static Unit),
    /// Several units, or none of this dimension though one might think so.
    Asked(&'static str),
}

type Spellings = &'static [(&'static str, &'static str)];

const LENGTH: Spellings = &[
    ("\"", "in"),
    ("''", "in"),
    ("inch", "in"),
    ("inches", "in"),
    ("ins", "in"),
    ("'", "ft"),
    ("foot", "ft"),
    ("feet", "ft"),
    ("y", "yd"),
    ("yds", "yd"),
    ("yard", "yd"),
    ("yards", "yd"),
    ("mil", "thou"),
    ("mils", "thou"),
    ("thousandths", "thou"),
    ("meter", "m"),
    ("meters", "m"),
    ("metre", "m"),
    ("metres", "m"),
    ("centimeters", "cm"),
    ("centimetres", "cm"),
    ("millimeter", "mm"),
    ("millimeters", "mm"),
    ("millimetre", "mm"),
    ("millimetres", "mm"),
    ("\u{b5}m", "um"),
    ("\u{3bc}m", "um"),
];
const MASS: Spellings = &[
    ("grain", "gr"),
    ("grains", "gr"),
    ("grn", "gr"),
    ("grns", "gr"),
    ("grs", "gr"),
    ("gn", "gr"),
    ("gram", "g"),
    ("grams", "g"),
    ("gramme", "g"),
    ("grammes", "g"),
    ("ounce", "oz"),
    ("ounces", "oz"),
    ("lbs", "lb"),
    ("#", "lb"),
    ("pound", "lb"),
    ("pounds", "lb"),
];
const LINEAR_DENSITY: Spellings = &[
    ("gpi", "gr/in"),
    ("gr/inch", "gr/in"),
    ("grain/inch", "gr/in"),
    ("grains/inch", "gr/in"),
    ("grains/in", "gr/in"),
    ("gr/\"", "gr/in"),
    ("grams/meter", "g/m"),
    ("grams/metre", "g/m"),
];
const FORCE: Spellings = &[
    ("lb", "lbf"),
    ("lbs", "lbf"),
    ("#", "lbf"),
    ("pound", "lbf"),
    ("pounds", "lbf"),
    ("lbsf", "lbf"),
    ("newton", "N"),
    ("newtons", "N"),
];
const SPEED: Spellings = &[
    ("fps", "ft/s"),
    ("f/s", "ft/s"),
    ("ft/sec", "ft/s"),
    ("feet/s", "ft/s"),
    ("feet/sec", "ft/s"),
    ("feet/second", "ft/s"),
    ("foot/second", "ft/s"),
    ("mps", "m/s"),
    ("m/sec", "m/s"),
    ("meters/second", "m/s"),
    ("metres/second", "m/s"),
    ("kmh", "km/h"),
    ("kph", "km/h"),
    ("km/hr", "km/h"),
    ("mi/h", "mph"),
    ("miles/hour", "mph"),
    ("miles/h", "mph"),
];
const ACCELERATION: Spellings = &[("g", "gee"), ("gees", "gee"), ("m/s^2", "m/s2")];
const ANGLE: Spellings = &[
    ("deg", "deg"),
    ("degs", "deg"),
    ("degree", "deg"),
    ("degrees", "deg"),
    ("\u{b0}", "deg"),
    ("moa", "arcmin"),
    ("arcminute", "arcmin"),
    ("arcminutes", "arcmin"),
    ("turns", "turn"),
    ("rev", "turn"),
    ("revs", "turn"),
    ("radian", "rad"),
    ("radians", "rad"),
];
const ANGULAR_RATE: Spellings = &[
    ("rps", "turn/s"),
    ("rev/s", "turn/s"),
    ("turns/s", "turn/s"),
    ("degrees/s", "deg/s"),
    ("\u{b0}/s", "deg/s"),
    ("rev/min", "rpm"),
];
const TIME: Spellings = &[
    ("sec", "s"),
    ("secs", "s"),
    ("second", "s"),
    ("seconds", "s"),
    ("msec", "ms"),
    ("milliseconds", "ms"),
    ("mins", "min"),
    ("minute", "min"),
    ("minutes", "min"),
];
const TEMPERATURE: Spellings = &[
    ("c", "degC"),
    ("\u{b0}c", "degC"),
    ("deg c", "degC"),
    ("celsius", "degC"),
    ("f", "degF"),
    ("\u{b0}f", "degF"),
    ("deg f", "degF"),
    ("fahrenheit", "degF"),
    ("kelvin", "K"),
];
const PRESSURE: Spellings = &[("mbar", "hPa"), ("mb", "hPa"), ("millibar", "hPa")];
const ENERGY: Spellings = &[
    ("ft lb", "ft lbf"),
    ("ft lbs", "ft lbf"),
    ("ft-lb", "ft lbf"),
    ("ft-lbs", "ft lbf"),
    ("ftlb", "ft lbf"),
    ("ftlbs", "ft lbf"),
    ("foot pounds", "ft lbf"),
    ("foot-pounds", "ft lbf"),
    ("joule", "J"),
    ("joules", "J"),
];
const MOMENTUM: Spellings =
    &[("ns", "N s"), ("n*s", "N s"), ("newton seconds", "N s"), ("mns", "mN s"), ("mn*s", "mN s")];
const STIFFNESS: Spellings = &[
    ("lb/in", "lbf/in"),
    ("lbs/in", "lbf/in"),
    ("lb/inch", "lbf/in"),
    ("lbs/inch", "lbf/in"),
    ("pounds/inch", "lbf/in"),
];
const RATIO: Spellings = &[("percent", "%"), ("per cent", "%"), ("pct", "%")];
const MASS_PER_FORCE: Spellings =
    &[("gr/lb", "gr/lbf"), ("grains/lb", "gr/lbf"), ("grains/pound", "gr/lbf"), ("gpp", "gr/lbf")];

/// Spellings that are asked about.
const ASKED: &[(Dimension, &str, &str)] = &[
    (Dimension::Mass, "G", "g is grams, gr is grains"),
    (Dimension::Mass, "GS", "g is grams, gr is grains"),
    (Dimension::Mass, "gs", "g is grams, gr is grains"),
    (Dimension::Force, "kg", "kg is a mass; a force is in lbf (lb) or N"),
    (Dimension::Force, "g", "g is a mass; a force is in lbf (lb) or N"),
    (Dimension::Angle, "mil", "a thousandth of a radian is mrad; of other mils there are several"),
    (Dimension::Angle, "mils", "a thousandth of a radian is mrad; of other mils there are several"),
    (Dimension::Angle, "'", "a minute of arc is arcmin"),
    (Dimension::Temperature, "deg", "write degF or degC"),
    (Dimension::Temperature, "degrees", "write degF or degC"),
    (Dimension::Temperature, "\u{b0}", "write degF or degC"),
    (
        Dimension::LinearDensity,
        "gr",
        "mass for each length: gr/in, or the whole shaft's grains over its inches",
    ),
    (Dimension::Speed, "m", "a speed is m/s or mph"),
    (Dimension::Speed, "f", "a speed is ft/s (fps)"),
];

fn spellings(dimension: Dimension) -> Spellings {
    match dimension {
        Dimension::Length => LENGTH,
        Dimension::Mass => MASS,
        Dimension::LinearDensity => LINEAR_DENSITY,
        Dimension::Force => FORCE,
        Dimension::Speed => SPEED,
        Dimension::Acceleration => ACCELERATION,
        Dimension::Angle => ANGLE,
        Dimension::AngularRate => ANGULAR_RATE,
        Dimension::Time => TIME,
        Dimension::Temperature => TEMPERATURE,
        Dimension::Pressure => PRESSURE,
        Dimension::Energy => ENERGY,
        Dimension::Momentum => MOMENTUM,
        Dimension::Stiffness => STIFFNESS,
        Dimension::Ratio => RATIO,
        Dimension::MassPerForce => MASS_PER_FORCE,
        Dimension::Density
        | Dimension::Inertia
        | Dimension::BendingStiffness
        | Dimension::Damping
        | Dimension::Frequency
        | Dimension::PerLength => &[],
    }
}

impl Dimension {
    /// Other spellings that are read, each with the symbol of its unit.
    pub fn spellings(self) -> &'static [(&'static str, &'static str)] {
        spellings(self)
    }

    /// The units as archers write them, the usual one first.
    pub fn written(self) -> Vec<&'static str> {
        let usual = crate::Role::of(self).unit(crate::Style::Archery).0;
        let others = self.units().iter().filter(|unit| unit.symbol != usual.symbol);
        let all = std::iter::once(usual).chain(others).map(Unit::written);
        all.filter(|unit| !unit.is_empty()).collect()
    }

    /// The unit that a text means, if it is one of this dimension: its symbol or
    /// another spelling, capitals, stops and spare blanks aside.
    ///
    /// ```
    /// use units::Dimension;
    ///
    /// let inch = Dimension::Length.spelled("inches").map(|unit| unit.symbol);
    /// assert_eq!((inch, Dimension::Length.spelled("gr")), (Some("in"), None));
    /// ```
    pub fn spelled(self, text: &str) -> Option<&'static Unit> {
        match spelled(self, text) {
            Some(Spelled::Unit(unit)) => Some(unit),
            _ => None,
        }
    }
}

/// What a text says as a unit.
pub(crate) fn spelled(dimension: Dimension, text: &str) -> Option<Spelled> {
    let text = text.trim();
    if let Some(unit) = dimension.unit(text) {
        return Some(Spelled::Unit(unit));
    }
    if let Some((.., ways)) = ASKED.iter().find(|(of, said, _)| *of == dimension && *said == text) {
        return Some(Spelled::Asked(ways));
    }
    // A capital M is mega where milli is a unit.
    if text.starts_with('M') && !matches!(dimension, Dimension::Length | Dimension::Speed) {
        return None;
    }
    let plain = plain(text);
    let known = spellings(dimension).iter().find(|(said, _)| *said == plain);
    let same = |unit: &&Unit| {
        known.map_or_else(|| unit.symbol.to_lowercase() == plain, |(_, of)| unit.symbol == *of)
    };
    dimension.units().iter().find(same).map(Spelled::Unit)
}

/// A unit in small letters, without stops and spare blanks, marks of a word
/// processor as those of a keyboard.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '.' => {}
            '\u{201c}' | '\u{201d}' | '\u{2033}' => plain.push('"'),
            '\u{2018}' | '\u{2019}' | '\u{2032}' => plain.push('\''),
            '\u{b2}' => plain.push('2'),
            '\u{b3}' => plain.push('3'),
            other => plain.extend(other.to_lowercase()),
        }
    }
    let words: Vec<&str> = plain.split_whitespace().collect();
    words.join(" ").replace(" per ", "/").replace(" / ", "/")
}

impl Unit {
    /// How archers write the unit: pounds of draw are lb to them.
    ///
    /// ```
    /// use units::Dimension;
    ///
    /// assert_eq!(Dimension::Force.unit("lbf").map(|unit| unit.written()), Some("lb"));
    /// ```
    pub fn written(&self) -> &'static str {
        if self.symbol == "lbf" { "lb" } else { self.symbol }
    }

    /// The unit that the other half of the world would write in place of this one.
    pub fn counterpart(&self) -> Option<&'static str> {
        counterpart(self.symbol)
    }
}

fn counterpart(symbol: &str) -> Option<&'static str> {
    let pairs = [
        ("in", "mm"),
        ("thou", "mm"),
        ("mm", "in"),
        ("cm", "in"),
        ("ft", "m"),
        ("yd", "m"),
        ("m", "yd"),
        ("gr", "g"),
        ("g", "gr"),
        ("lb", "kg"),
        ("kg", "lb"),
        ("gr/in", "g/m"),
        ("g/m", "gr/in"),
        ("lbf", "N"),
        ("N", "lbf"),
        ("ft/s", "m/s"),
        ("mph", "m/s"),
        ("m/s", "ft/s"),
        ("degC", "degF"),
        ("degF", "degC"),
        ("K", "degC"),
        ("lbf/in", "N/m"),
        ("N/m", "lbf/in"),
    ];
    pairs.iter().find(|(one, _)| *one == symbol).map(|(_, other)| *other)
}
