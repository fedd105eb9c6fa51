//! A chronograph reading that does not say of which arrow: the scenario's own.

use std::sync::Arc;

use crate::entry::{Entry, Layer, Origin, Value};
use crate::recipe::BuildRecipe;
use crate::schema::Id;
use crate::settle::Settled;
use crate::text::{own_unit, quantity};
use crate::written::quoted;

/// Puts the mass of the first build's arrow behind every reading without a mass.
pub(super) fn of_own_arrow(builds: &mut [Settled]) {
    let lacks = |build: &Settled| {
        let given = |id: Id| build.layer.entries.contains_key(&id);
        given(Id::BowSpeed) && !given(Id::BowSpeedMass)
    };
    let Some(first) = builds.first().filter(|_| builds.iter().any(lacks)) else { return };
    // What the push takes is of no matter for the mass of the arrow.
    let own = with_mass(&first.arrows_alone(), 0.02, None);
    let Some(mass) = own_mass(&own) else { return };
    let own = Arc::new(own.layer);
    for build in builds.iter_mut().filter(|build| lacks(build)) {
        *build = with_mass(build, mass, Some(Arc::clone(&own)));
    }
}

fn with_mass(build: &Settled, mass: f64, own: Option<Arc<Layer>>) -> Settled {
    let mut layer = build.layer.clone();
    layer.own_arrow = own;
    let entry = Entry {
        value: Value::Fixed(mass),
        written: quoted(&quantity(mass, own_unit(Id::BowSpeedMass))),
        origin: Origin::Derived("the first build's own arrow; chosen: it was the one read"),
    };
    layer.entries.insert(Id::BowSpeedMass, entry);
    Settled::of(build.name.clone(), layer)
}

fn own_mass(build: &Settled) -> Option<f64> {
    BuildRecipe::new(build, None).mass(&[])
}
