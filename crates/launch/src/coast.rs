//! The arrow just after the string.

use crate::elastic::MOTIONS;
use crate::push::History;

impl History {
    /// Left and up displacement of the shaft's centre line at a station (m
    /// from the groove) some time (s) after the nock left the string, m, from
    /// the line of the push.
    ///
    /// The arrow flies straight, turns evenly and swings with damping. Weight
    /// and air are left out: over the 0.2 m to the rest the arrow falls less
    /// than 0.1 mm.
    pub fn coasting(&self, time: f64, station: f64) -> [f64; 2] {
        let (value, _) = self.arrow.at(station);
        let flex = &self.departure.flex;
        std::array::from_fn(|plane| {
            let (motion, rate) = self.end.0[plane].split_at(MOTIONS);
            let rigid: f64 = (0..2).map(|i| value[i] * (motion[i] + rate[i] * time)).sum();
            let swing = flex.swing(time)[plane];
            let bent: f64 = swing.iter().zip(&value[2..]).map(|(q, w)| q * w).sum();
            rigid + bent + self.forcings[plane].shaft(station).0
        })
    }
}
