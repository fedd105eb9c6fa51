use std::f64::consts::PI;

use units::Role::{Angle, Gauge, LinearDensity, Mass, Part};

use super::range::range;
use crate::{ArrowError, Blades, Faults, Layout, Parts, Point, PointShape, Shaft};

/// Sourced [osmium-density]: the densest element, 22 590 kg/m3, rounded up; from
/// memory.
const DENSEST: f64 = 22_600.0;

/// Least mass of a part, kg: a hundredth of a gram.
const LEAST_MASS: f64 = 1e-5;

/// Most clearance of a fit, m.
const LOOSEST: f64 = 0.005;

pub(super) fn shaft(shaft: &Shaft) -> Result<(), ArrowError> {
    let (outside, inside) = (shaft.outside.si(), shaft.inside.si());
    range("shaft's outside diameter", Part, outside, 0.001, 0.05)?;
    range("shaft's inside diameter", Part, inside, 0.0, 0.05)?;
    range("shaft's mass per length", LinearDensity, shaft.density.si(), 1e-4, 1.0)?;
    range("shaft's static spine", Gauge, shaft.spine.si(), 0.0005, 0.25)?;
    range("shaft's length", Part, shaft.length.si(), 0.05, 2.0)?;
    if inside >= outside {
        return Err(ArrowError::NoWall { inside, outside });
    }
    let density = shaft.density.si() / (PI / 4.0 * (outside * outside - inside * inside));
    if density > DENSEST {
        return Err(ArrowError::TooDense { density, limit: DENSEST });
    }
    Ok(())
}

pub(super) fn point(point: &Point) -> Result<(), ArrowError> {
    let (length, shank) = (point.length.si(), point.shank.si());
    range("point's mass", Mass, point.mass.si(), LEAST_MASS, 0.5)?;
    range("point's length", Part, length, 0.001, 0.5)?;
    range("point's shank", Part, shank, 0.0, 0.3)?;
    range("point's balance ahead of its seat", Part, point.balance.si(), -shank, length)?;
    range("point's diameter", Part, point.diameter.si(), 0.001, 0.05)?;
    range("point's clearance", Gauge, point.clearance.si(), 0.0, LOOSEST)?;
    match (point.shape, &point.blades) {
        (PointShape::FixedBlade, Some(set)) => blades(set, length),
        (PointShape::FixedBlade, None) => Err(ArrowError::NoBlades),
        (_, Some(_)) => Err(ArrowError::StrayBlades),
        (_, None) => Ok(()),
    }
}

fn blades(blades: &Blades, point: f64) -> Result<(), ArrowError> {
    count("blades", blades.count)?;
    range("blades' span", Part, blades.span.si(), 0.0005, 0.1)?;
    range("blades' thickness", Gauge, blades.thickness.si(), 5e-5, 0.01)?;
    range("blades' setback", Part, blades.setback.si(), 0.0, 0.5)?;
    let (root, setback) = (blades.root.si(), blades.setback.si());
    range("blades' root chord", Part, root, 0.001, 0.5)?;
    outline("blade", root, blades.tip.si(), blades.sweep.si())?;
    // A micrometre of slack for lengths that were converted between units.
    if setback + root > point + 1e-6 {
        return Err(ArrowError::BladesOffPoint { setback, root, point });
    }
    Ok(())
}

/// Insert, outsert and collar, and whether all parts find room in the shaft.
pub(super) fn front(parts: &Parts) -> Result<(), ArrowError> {
    let shaft = parts.shaft.length.si();
    if let Some(insert) = &parts.insert {
        range("insert's mass", Mass, insert.mass.si(), LEAST_MASS, 0.5)?;
        range("insert's engaged length", Part, insert.engaged.si(), 0.001, 0.3)?;
        range("insert's shoulder", Part, insert.shoulder.si(), 0.0, 0.1)?;
        range("insert's clearance", Gauge, insert.clearance.si(), 0.0, LOOSEST)?;
        if parts.shaft.inside.si() <= 0.0 {
            return Err(ArrowError::NoBore);
        }
        if parts.outsert.is_some() {
            return Err(ArrowError::TwoHolders);
        }
    }
    if let Some(outsert) = &parts.outsert {
        range("outsert's mass", Mass, outsert.mass.si(), LEAST_MASS, 0.5)?;
        range("outsert's engaged length", Part, outsert.engaged.si(), 0.001, 0.3)?;
        range("outsert's outside length", Part, outsert.outside.si(), 0.0, 0.3)?;
        range("outsert's clearance", Gauge, outsert.clearance.si(), 0.0, LOOSEST)?;
    }
    if let Some(collar) = &parts.collar {
        range("collar's mass", Mass, collar.mass.si(), LEAST_MASS, 0.5)?;
        range("collar's length", Part, collar.length.si(), 1e-4, shaft)?;
    }
    let front = match (&parts.insert, &parts.outsert) {
        (Some(insert), _) => insert.engaged.si(),
        (None, Some(outsert)) => outsert.engaged.si(),
        (None, None) => parts.point.shank.si(),
    };
    let rear = parts.nock.engaged.si();
    // Written so that a NaN is refused too.
    if front + rear <= shaft { Ok(()) } else { Err(ArrowError::Engaged { front, rear, shaft }) }
}

/// A nock may weigh nothing: a groove cut into the shaft.
pub(super) fn nock(parts: &Parts) -> Result<(), ArrowError> {
    let nock = &parts.nock;
    range("nock's mass", Mass, nock.mass.si(), 0.0, 0.1)?;
    range("nock's length outside the shaft", Part, nock.outside.si(), 0.0, 0.1)?;
    range("nock's groove depth", Part, nock.groove_depth.si(), 0.0, 0.1)?;
    range("nock's engaged length", Part, nock.engaged.si(), 0.0, 0.2)?;
    range("nock's clearance", Gauge, nock.clearance.si(), 0.0, LOOSEST)?;
    let length = nock.outside.si() + nock.engaged.si();
    if nock.groove_depth.si() > length {
        return Err(ArrowError::Groove { depth: nock.groove_depth.si(), nock: length });
    }
    Ok(())
}

/// Vanes, with one out of place as the faults say, and wrap.
pub(super) fn tail(parts: &Parts, faults: &Faults, layout: &Layout) -> Result<(), ArrowError> {
    if let Some(vanes) = &parts.vanes {
        count("vanes", vanes.count)?;
        range("vane's mass", Mass, vanes.mass.si(), LEAST_MASS, 0.05)?;
        range("vane's height", Part, vanes.span.si(), 0.0005, 0.1)?;
        range("vane's root chord", Part, vanes.root.si(), 0.001, 0.5)?;
        range("vane's thickness", Gauge, vanes.thickness.si(), 1e-5, 0.01)?;
        // Half a radian: beyond it a vane is a brake.
        range("vanes' angle", Angle, vanes.angle.si(), -0.5, 0.5)?;
        outline("vane", vanes.root.si(), vanes.tip.si(), vanes.sweep.si())?;
        let forward = faults.vane.forward.si();
        let rear = vanes.position.si() + forward.min(0.0);
        let front = layout.vane_front.si() + forward.max(0.0);
        let (shaft_rear, shaft_front) = (layout.shaft_rear.si(), layout.shaft_front.si());
        // Written so that a NaN is refused too.
        if !(forward.is_finite() && rear >= shaft_rear && front <= shaft_front) {
            return Err(ArrowError::VanesOffShaft { rear, front, shaft_rear, shaft_front });
        }
    }
    if let Some(wrap) = &parts.wrap {
        range("wrap's mass", Mass, wrap.mass.si(), LEAST_MASS, 0.1)?;
        range("wrap's length", Part, wrap.length.si(), 0.001, parts.shaft.length.si())?;
    }
    Ok(())
}

/// A given mass or inertia is checked where the mass properties are made.
pub(super) fn given(parts: &Parts, layout: &Layout) -> Result<(), ArrowError> {
    parts.given.balance.map_or(Ok(()), |balance| {
        range("balance point given", Part, balance.si(), 0.0, layout.tip.si())
    })
}

fn count(what: &'static str, count: u8) -> Result<(), ArrowError> {
    if (2..=6).contains(&count) { Ok(()) } else { Err(ArrowError::Count { what, count }) }
}

fn outline(what: &'static str, root: f64, tip: f64, sweep: f64) -> Result<(), ArrowError> {
    let (tip_what, sweep_what) = match what {
        "vane" => ("vane's tip chord", "vane's sweep"),
        _ => ("blade's tip chord", "blade's sweep"),
    };
    range(tip_what, Part, tip, 0.0, 1.0)?;
    range(sweep_what, Part, sweep, 0.0, 1.0)?;
    if sweep + tip > 2.0 * root {
        return Err(ArrowError::Outline { what, sweep, tip, root });
    }
    Ok(())
}
