use crate::outline::Outline;
use crate::piece::{Piece, PieceOf};
use crate::{Blades, Layout, Parts, Vanes};

/// Density of blade steel, kg/m3. Sourced [steel-density]: carbon steel, from memory.
/// It only shares the point's mass out between ferrule and blades.
const BLADE_DENSITY: f64 = 7850.0;

/// How many pieces an arrow has.
pub const PIECES: usize = 7;

/// Every part as a mass element on a straight shaft.
pub(crate) fn straight(parts: &Parts, layout: &Layout) -> [Piece; PIECES] {
    let shaft_radius = parts.shaft.outside.si() / 2.0;
    [
        shaft(parts, layout),
        holder(parts, layout),
        parts.collar.map_or(Piece::absent(PieceOf::Collar), |collar| {
            let front = layout.shaft_front.si();
            let ends = (front - collar.length.si(), front);
            Piece::rod(PieceOf::Collar, collar.mass.si(), ends, shaft_radius * shaft_radius)
        }),
        point(parts, layout),
        nock(parts, layout),
        parts.vanes.map_or(Piece::absent(PieceOf::Vanes), |set| vanes(&set, shaft_radius, layout)),
        parts.wrap.map_or(Piece::absent(PieceOf::Wrap), |wrap| {
            let rear = layout.shaft_rear.si();
            let ends = (rear, rear + wrap.length.si());
            Piece::rod(PieceOf::Wrap, wrap.mass.si(), ends, shaft_radius * shaft_radius)
        }),
    ]
}

/// An even tube: mean square radius (ro^2 + ri^2) / 2.
fn shaft(parts: &Parts, layout: &Layout) -> Piece {
    let (outer, inner) = (parts.shaft.outside.si() / 2.0, parts.shaft.inside.si() / 2.0);
    let mass = parts.shaft.density.si() * parts.shaft.length.si();
    let ends = (layout.shaft_rear.si(), layout.shaft_front.si());
    Piece::rod(PieceOf::Shaft, mass, ends, f64::midpoint(outer * outer, inner * inner))
}

/// An insert is an even solid rod that fills the bore; an outsert a thin
/// sleeve at the shaft's outside.
fn holder(parts: &Parts, layout: &Layout) -> Piece {
    let front = layout.shaft_front.si();
    match (&parts.insert, &parts.outsert) {
        (Some(insert), _) => {
            let radius = parts.shaft.inside.si() / 2.0;
            let ends = (front - insert.engaged.si(), front + insert.shoulder.si());
            Piece::rod(PieceOf::Holder, insert.mass.si(), ends, radius * radius / 2.0)
        }
        (None, Some(outsert)) => {
            let radius = parts.shaft.outside.si() / 2.0;
            let ends = (front - outsert.engaged.si(), front + outsert.outside.si());
            Piece::rod(PieceOf::Holder, outsert.mass.si(), ends, radius * radius)
        }
        (None, None) => Piece::absent(PieceOf::Holder),
    }
}

/// The point weighs at its own balance. Its own inertia is that of an even
/// solid rod from the end of the shank to the tip; blades take their share of
/// the mass out to their own radius.
fn point(parts: &Parts, layout: &Layout) -> Piece {
    let point = &parts.point;
    let (seat, mass) = (layout.point_seat.si(), point.mass.si());
    let radius = point.diameter.si() / 2.0;
    let mut radius_square = radius * radius / 2.0;
    if let Some(blades) = &point.blades {
        let share = (blade_mass(blades) / mass).min(1.0);
        let out = blade_outline(blades).radius_square(radius);
        radius_square += share * (out - radius_square);
    }
    let ends = (seat - point.shank.si(), layout.tip.si());
    let mut piece = Piece::rod(PieceOf::Point, mass, ends, radius_square);
    piece.station = seat + point.balance.si();
    piece
}

/// An even solid rod of the shaft's outside diameter, lip to inner end.
fn nock(parts: &Parts, layout: &Layout) -> Piece {
    let nock = &parts.nock;
    let radius = parts.shaft.outside.si() / 2.0;
    let ends = (-nock.groove_depth.si(), layout.shaft_rear.si() + nock.engaged.si());
    Piece::rod(PieceOf::Nock, nock.mass.si(), ends, radius * radius / 2.0)
}

/// Even flat plates; the two inertias across the shaft are averaged (they
/// differ only for two vanes).
fn vanes(vanes: &Vanes, shaft_radius: f64, layout: &Layout) -> Piece {
    let outline = vane_outline(vanes);
    let mass = f64::from(vanes.count) * vanes.mass.si();
    let radius_square = outline.radius_square(shaft_radius);
    let station = layout.vane_front.si() - outline.back;
    let mut piece = Piece::rod(PieceOf::Vanes, mass, (station, station), radius_square);
    piece.transverse += mass * outline.along_square;
    piece
}

pub(crate) fn vane_outline(vanes: &Vanes) -> Outline {
    Outline::new(vanes.root.si(), vanes.tip.si(), vanes.sweep.si(), vanes.span.si())
}

fn blade_outline(blades: &Blades) -> Outline {
    Outline::new(blades.root.si(), blades.tip.si(), blades.sweep.si(), blades.span.si())
}

/// Mass of all blades as solid steel, kg.
pub(crate) fn blade_mass(blades: &Blades) -> f64 {
    let one = blade_outline(blades).area * blades.thickness.si() * BLADE_DENSITY;
    f64::from(blades.count) * one
}
