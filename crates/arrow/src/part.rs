use units::{Angle, Inertia, Length, LinearDensity, Mass, Ratio};

/// The shape of a point, as far as the air and the fit care.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PointShape {
    /// A long, smooth ogive flush with the shaft.
    Streamlined,
    /// A field point with a shoulder or parallel body.
    Field,
    /// A bullet nose.
    Bullet,
    /// A blunt or flat head.
    Blunt,
    /// A broadhead with fixed blades.
    FixedBlade,
    /// A broadhead whose blades are closed in flight.
    ClosedBlade,
}

/// A shaft, cut to length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shaft {
    /// Outside diameter.
    pub outside: Length,
    /// Inside diameter; zero for a solid shaft.
    pub inside: Length,
    /// Mass per length.
    pub density: LinearDensity,
    /// Static spine: deflection in the middle of a 28 in span under 1.94 lb.
    pub spine: Length,
    /// Cut length, end face to end face.
    pub length: Length,
    /// Stiffness of the stiff side over the mean of both, less one; zero for a
    /// shaft that bends alike in all directions.
    pub stiff_side: Ratio,
    /// Clock position of the stiff side.
    pub stiff_clock: Angle,
    /// Damping of its bending, as a share of critical.
    pub damping: Ratio,
}

/// A point or broadhead, measured from the face it seats on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Its shape.
    pub shape: PointShape,
    /// Mass, shank included.
    pub mass: Mass,
    /// Seat to tip.
    pub length: Length,
    /// Seat to the point's own balance, forward positive; a heavy shank makes
    /// it negative.
    pub balance: Length,
    /// Largest body diameter, blades left out.
    pub diameter: Length,
    /// Length of shank that engages the insert or the shaft.
    pub shank: Length,
    /// Diametral clearance of the shank in its bore.
    pub clearance: Length,
    /// Fixed blades.
    pub blades: Option<Blades>,
}

/// Fixed blades, each a trapezoid on the ferrule.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blades {
    /// How many.
    pub count: u8,
    /// Ferrule surface to blade edge, across the shaft.
    pub span: Length,
    /// Chord along the ferrule.
    pub root: Length,
    /// Chord at the outer edge; zero for a pointed blade.
    pub tip: Length,
    /// How far the outer edge's front lies behind the root's front.
    pub sweep: Length,
    /// Blade thickness.
    pub thickness: Length,
    /// Tip of the point to the front of the blade root, backward positive.
    pub setback: Length,
    /// Clock position of the first blade, against the index vane; it matters to
    /// the flight with two blades only.
    pub clock: Angle,
}

/// An insert glued into the shaft, its shoulder on the shaft's end face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Insert {
    /// Mass.
    pub mass: Mass,
    /// Length inside the shaft.
    pub engaged: Length,
    /// Thickness of the shoulder outside the shaft.
    pub shoulder: Length,
    /// Diametral clearance in the shaft.
    pub clearance: Length,
}

/// An outsert: a sleeve over or ahead of the shaft end that holds the point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outsert {
    /// Mass.
    pub mass: Mass,
    /// Length engaged with the shaft.
    pub engaged: Length,
    /// Length ahead of the shaft's end.
    pub outside: Length,
    /// Diametral clearance on the shaft.
    pub clearance: Length,
}

/// A ring around the shaft's front end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Collar {
    /// Mass.
    pub mass: Mass,
    /// Length along the shaft.
    pub length: Length,
}

/// A nock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nock {
    /// Mass.
    pub mass: Mass,
    /// Length behind the shaft's end face.
    pub outside: Length,
    /// Depth of the groove, rear lip to bottom.
    pub groove_depth: Length,
    /// Length inside the shaft.
    pub engaged: Length,
    /// Diametral clearance in the shaft.
    pub clearance: Length,
}

/// A set of like vanes, evenly spaced, the first at clock position zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vanes {
    /// How many.
    pub count: u8,
    /// Mass of one, glue included.
    pub mass: Mass,
    /// Height above the shaft.
    pub span: Length,
    /// Chord along the shaft.
    pub root: Length,
    /// Chord at the outer edge.
    pub tip: Length,
    /// How far the outer edge's front lies behind the root's front.
    pub sweep: Length,
    /// Mean thickness.
    pub thickness: Length,
    /// Bottom of the nock groove to the rear of the vane's root.
    pub position: Length,
    /// Mean angle to the shaft (offset, or mean helical); positive turns the
    /// arrow clockwise seen from the nock.
    pub angle: Angle,
}

/// A wrap around the rear of the shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wrap {
    /// Mass.
    pub mass: Mass,
    /// Length, from the shaft's rear end forward.
    pub length: Length,
}

/// Whole-arrow values that the user gives directly; each replaces the value
/// built up from the parts.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Given {
    /// Total mass.
    pub mass: Option<Mass>,
    /// Balance point from the bottom of the nock groove.
    pub balance: Option<Length>,
    /// Inertia across the shaft about the balance point.
    pub transverse: Option<Inertia>,
    /// Inertia about the shaft.
    pub axial: Option<Inertia>,
}

/// Everything an arrow is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// The shaft.
    pub shaft: Shaft,
    /// The point.
    pub point: Point,
    /// An insert, if any.
    pub insert: Option<Insert>,
    /// An outsert, if any.
    pub outsert: Option<Outsert>,
    /// A collar, if any.
    pub collar: Option<Collar>,
    /// The nock.
    pub nock: Nock,
    /// The vanes; none for a bare shaft.
    pub vanes: Option<Vanes>,
    /// A wrap, if any.
    pub wrap: Option<Wrap>,
    /// Values given directly.
    pub given: Given,
}
