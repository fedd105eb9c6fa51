use body::Across;

use crate::fit::Seats;
use crate::line::CentreLine;
use crate::mass::{self, PIECES};
use crate::piece::{Piece, PieceOf};
use crate::{ArrowError, Effects, Faults, Layout, Line, Parts, VaneError, Whole, check};

/// The arrow as its faults leave it: every mass and every line that matters,
/// sideways from one straight reference line, SI.
///
/// The reference line carries no meaning: moving or tilting everything
/// together changes no effect.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shape {
    /// The masses.
    pub pieces: [Piece; PIECES],
    /// The shaft's centre line.
    pub centre: CentreLine,
    /// The shaft's centre line averaged over its length.
    pub shaft: Line,
    /// The shaft's centre line at the vanes (at its middle for a bare shaft).
    pub tail: Line,
    /// The point's axis.
    pub point: Line,
    /// Station of the tip, m.
    pub tip: f64,
    /// Centre of the nock groove, at station zero, m.
    pub groove: Across,
}

impl Shape {
    /// Puts parts and faults together.
    ///
    /// # Errors
    /// [`ArrowError`] where a part is impossible or two parts do not fit.
    pub fn new(parts: &Parts, faults: &Faults) -> Result<Self, ArrowError> {
        let layout = Layout::new(parts);
        check::all(parts, faults, &layout)?;
        Ok(Self::unchecked(parts, faults, &layout))
    }

    pub(crate) fn unchecked(parts: &Parts, faults: &Faults, layout: &Layout) -> Self {
        let seats = Seats::new(parts);
        let centre = CentreLine::new(layout, faults.bend.as_ref());
        let mean = centre.mean();

        let mut holder = centre.tangent(layout.shaft_front.si());
        let mut point_lean = faults.point_cant.across();
        let front_lean = seats.front.follow(faults.point_end);
        match seats.point {
            Some(fit) => {
                holder.slope = holder.slope + front_lean;
                point_lean = point_lean + fit.follow(faults.insert_face);
            }
            None => point_lean = point_lean + front_lean,
        }
        let seat = layout.point_seat.si();
        let point = Line {
            station: seat,
            offset: holder.at(seat) + faults.point_offset.across(),
            slope: holder.slope + point_lean,
        };

        // The nock's free end is its rear, so a lean is a slope backward.
        let nock_lean = seats.nock.follow(faults.nock_end) + faults.nock_cant.across();
        let mut nock = centre.tangent(layout.shaft_rear.si());
        nock.slope = nock.slope - nock_lean;
        nock.offset = nock.offset + faults.nock_offset.across();

        let vane_middle = parts.vanes.map(|vanes| vanes.position.si() + vanes.root.si() / 2.0);
        let mut pieces = mass::straight(parts, layout);
        for piece in &mut pieces {
            *piece = match piece.of {
                PieceOf::Shaft => {
                    let mut shaft = piece.on(&mean);
                    shaft.offset = shaft.offset + faults.wall_offset.across();
                    shaft
                }
                PieceOf::Holder => piece.on(&holder),
                PieceOf::Point => piece.on(&point),
                PieceOf::Nock => piece.on(&nock),
                PieceOf::Vanes => {
                    misplace_vane(parts, faults, piece.on(&centre.tangent(piece.station)))
                }
                PieceOf::Collar | PieceOf::Wrap => piece.on(&centre.tangent(piece.station)),
            };
        }
        Self {
            pieces,
            centre,
            shaft: mean,
            tail: centre.tangent(vane_middle.unwrap_or(mean.station)),
            point,
            tip: layout.tip.si(),
            groove: nock.at(0.0) + faults.groove_offset.across(),
        }
    }

    /// The effects of this shape about the principal axis of `whole`; a vane
    /// out of place is not part of the shape.
    pub fn effects(&self, whole: &Whole) -> Effects {
        let axis = &whole.principal;
        Effects {
            groove_offset: self.groove - axis.at(0.0),
            balance_offset: axis.offset - self.shaft.at(axis.station),
            shaft_tilt: self.tail.slope - axis.slope,
            point_tilt: self.point.slope - axis.slope,
            tip_offset: self.point.at(self.tip) - axis.at(self.tip),
            curvature: self.centre.curvature,
            vane: VaneError::default(),
        }
    }
}

/// The mass of one vane turned round the shaft and moved along it. The
/// balance point's move along the shaft is neglected.
fn misplace_vane(parts: &Parts, faults: &Faults, mut piece: Piece) -> Piece {
    if let Some(vanes) = &parts.vanes {
        let radius = parts.shaft.outside.si() / 2.0 + mass::vane_outline(vanes).height;
        let turned = Across::polar(radius, faults.vane.around.si());
        let home = Across::polar(radius, 0.0);
        piece.offset = piece.offset + (turned - home) * (1.0 / f64::from(vanes.count));
        piece.product = piece.product + turned * (vanes.mass.si() * faults.vane.forward.si());
    }
    piece
}
