use units::Length;

use crate::Parts;

/// Stations along a built arrow, m from the bottom of the nock groove.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layout {
    /// Rear end face of the shaft.
    pub shaft_rear: Length,
    /// Front end face of the shaft; the trade's arrow length.
    pub shaft_front: Length,
    /// The face on which the point seats.
    pub point_seat: Length,
    /// The tip of the point.
    pub tip: Length,
    /// Front of the vane root; the groove bottom if there are no vanes.
    pub vane_front: Length,
    /// Front of the blade root; the tip if there are no blades.
    pub blade_front: Length,
}

impl Layout {
    /// Where the parts sit; nothing is checked here.
    pub(crate) fn new(parts: &Parts) -> Self {
        let shaft_rear = parts.nock.outside.si() - parts.nock.groove_depth.si();
        let shaft_front = shaft_rear + parts.shaft.length.si();
        let holder = match (&parts.insert, &parts.outsert) {
            (Some(insert), _) => insert.shoulder.si(),
            (None, Some(outsert)) => outsert.outside.si(),
            (None, None) => 0.0,
        };
        let point_seat = shaft_front + holder;
        let tip = point_seat + parts.point.length.si();
        let vane_front = parts.vanes.map_or(0.0, |vanes| vanes.position.si() + vanes.root.si());
        let setback = parts.point.blades.map_or(0.0, |blades| blades.setback.si());
        Self {
            shaft_rear: Length::from_si(shaft_rear),
            shaft_front: Length::from_si(shaft_front),
            point_seat: Length::from_si(point_seat),
            tip: Length::from_si(tip),
            vane_front: Length::from_si(vane_front),
            blade_front: Length::from_si(tip - setback),
        }
    }
}
