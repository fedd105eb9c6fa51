//! A drawn value whose cause is switched off, and clocks that may be anywhere.

use std::f64::consts::{PI, TAU};

use study::Distribution;

use crate::entry::Value;
use crate::schema::{Id, limits};

/// The law of a clock position that may be anywhere.
pub(crate) const ANY: Distribution = Distribution::Uniform { low: 0.0, high: TAU };

/// A clock position that may be anywhere.
pub(crate) fn any_clock(id: Id) -> Value {
    Value::Drawn { law: ANY, per: id.key().chance.per }
}

/// The centre of a law.
pub(crate) fn centre(law: &Distribution) -> f64 {
    match *law {
        Distribution::Normal { mean, .. } | Distribution::NormalWithin { mean, .. } => mean,
        Distribution::Uniform { low, high } => f64::midpoint(low, high),
        Distribution::RayleighUpTo { .. } => law.median(),
        // The mean of a Rayleigh law.
        Distribution::Rayleigh { scale } => scale * (PI / 2.0).sqrt(),
    }
}

/// A drawn value's own when its cause is switched off: zero for what the
/// archer or a fault adds.
pub(crate) fn off(id: Id, law: &Distribution) -> f64 {
    let (low, high) = limits(id);
    if id.key().chance.added && (low..=high).contains(&0.0) { 0.0 } else { centre(law) }
}
