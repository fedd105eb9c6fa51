//! A virtual mass from chronograph readings.

use launch::{EnergyFit, LaunchError};
use units::{Mass, Quantity, Speed};

use crate::entry::{Entry, Origin, Value};
use crate::schema::{Id, limits};
use crate::text::{own_unit, quantity};
use crate::written::quoted;

/// The fit to readings of mass and speed, SI.
pub(crate) fn fit(rows: &[[f64; 2]]) -> Result<EnergyFit, LaunchError> {
    let readings: Vec<(Mass, Speed)> =
        rows.iter().map(|[m, v]| (Quantity::from_si(*m), Quantity::from_si(*v))).collect();
    launch::fit_virtual_mass(&readings)
}

/// The one reading that stands for all: at the mean mass the fitted line gives
/// the mean of 1/v^2, whatever its slope, so a doubt about the virtual mass
/// turns the line about that point.
pub(crate) fn middle(rows: &[[f64; 2]]) -> (Speed, Mass) {
    let count = rows.len() as f64;
    let mass = rows.iter().map(|[m, _]| m).sum::<f64>() / count;
    let slowness = rows.iter().map(|[_, v]| v.powi(-2)).sum::<f64>() / count;
    (Speed::from_si(slowness.powf(-0.5)), Mass::from_si(mass))
}

/// The fitted virtual mass; in doubt by its 95 % interval, as far as the key's
/// range goes, when there are three readings or more.
pub(crate) fn virtual_mass(rows: &[[f64; 2]]) -> Option<Entry> {
    let fit = fit(rows).ok()?;
    let value = fit.virtual_mass;
    let (least, most) = limits(Id::BowVirtualMass);
    let text = |si: f64| quoted(&quantity(si, own_unit(Id::BowVirtualMass)));
    let half = fit.error.zip(target::t_factor(rows.len() - 2).ok()).map(|(error, t)| t * error);
    let (value, written, how) = match half {
        Some(half) => {
            let (low, high) = ((value - half).max(least), (value + half).min(most));
            let (v, l, h) = (text(value), text(low), text(high));
            let written = format!("{{ value = {v}, low = {l}, high = {h} }}");
            let how = "fitted to bow.readings, with its 95 % interval";
            (Value::Doubtful { value, low, high }, written, how)
        }
        None => (Value::Fixed(value), text(value), "fitted to bow.readings, through both"),
    };
    Some(Entry { value, written, origin: Origin::Derived(how) })
}
