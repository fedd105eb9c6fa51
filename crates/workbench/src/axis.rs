use std::f64::consts::FRAC_PI_2;

use body::Across;
use units::{Angle, Length, Role};

use crate::error::range;
use crate::sighting::total_seen;
use crate::{Gauged, Sighting, WorkbenchError, harmonic};

/// The trade's span for straightness [ata-arr-203]: 28 in.
pub const FULL_SPAN: Length = Length::from_si(0.7112);

/// Stations nearer than this are one, m. Chosen: no one sets an indicator
/// closer.
const SAME: f64 = 5e-5;
/// Two clock positions are opposite within this, rad. Chosen: 1 degree.
const OPPOSITE: f64 = 0.0175;

/// One indicator reading on a shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Indicator {
    /// Station, from the end that takes the nock.
    pub station: Length,
    /// The clock position under the indicator.
    pub clock: Angle,
    /// What it shows, higher where the shaft stands out toward it.
    pub reading: Length,
}

/// One total reading on a turning shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunOut {
    /// Station, from the end that takes the nock.
    pub station: Length,
    /// Highest less lowest.
    pub total: Length,
    /// The clock position that reads highest.
    pub high: Angle,
}

/// A knot of the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Knot {
    station: f64,
    off: Across,
    /// Standard error of each component for one unit of noise in a reading.
    weight: f64,
}

/// The centre line of a shaft: how far it lies off the line through the two
/// supports, straight between the stations that were read and on beyond them.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// Length of the shaft, m.
    stock: f64,
    knots: Vec<Knot>,
    noise: f64,
    /// First and last station that was read or stood on a support, m.
    reach: (f64, f64),
    /// Largest offset read at a support, m: out-of-round, or dirt.
    at_supports: f64,
    /// Whether only one clock position was read.
    one_side: bool,
    /// What was read, each in its direction.
    sightings: Vec<Sighting>,
}

/// How straight a piece of shaft is by the trade's measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Straight {
    /// Total reading in the middle of the span, carried over to 28 in, m.
    pub total: f64,
    /// Its standard error from the noise of the readings, m.
    pub error: f64,
    /// The span: 28 in, or the piece where that is shorter, m.
    pub span: f64,
    /// Largest total reading anywhere on the piece on that span, not carried
    /// over, m.
    pub worst: f64,
}

impl Axis {
    /// From readings at clock positions, the shaft on two supports. `step` is
    /// the indicator's smallest step.
    ///
    /// Readings at three clock positions or more at a station, or at two
    /// opposite ones, give the axis itself. One clock position along the whole
    /// shaft gives that side of it alone, with the sag under its own weight.
    ///
    /// # Errors
    /// [`WorkbenchError`] for supports, stations or clock positions that give
    /// no axis.
    pub fn from_dial(
        stock: Length,
        supports: [Length; 2],
        readings: &[Indicator],
        step: Length,
    ) -> Result<Self, WorkbenchError> {
        let mut readings: Vec<(f64, f64, f64)> =
            readings.iter().map(|r| (r.station.si(), r.clock.si(), r.reading.si())).collect();
        for (_, clock, reading) in &readings {
            range("indicator reading", Role::Gauge, *reading, -0.05, 0.05)?;
            range("clock position", Role::Angle, *clock, -100.0, 100.0)?;
        }
        readings.sort_by(|a, b| a.0.total_cmp(&b.0));
        let one_side =
            readings.iter().all(|r| (r.1 - readings[0].1).abs() < OPPOSITE) && !readings.is_empty();
        let (mut knots, mut sightings) = (Vec::new(), Vec::new());
        let turned = |clock: f64, off, weight| (Across::polar(1.0, clock), off, weight);
        let (mut left, mut freedom) = (0.0, 0);
        for group in readings.chunk_by(|a, b| b.0 - a.0 < SAME) {
            let station = group[0].0;
            let (low, high) = group.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |ends, r| {
                (ends.0.min(r.2), ends.1.max(r.2))
            });
            Gauged::End.sound(high - low)?;
            let bad = WorkbenchError::StationClocks { station, count: group.len() };
            let (off, weight) = if one_side {
                if group.len() > 1 {
                    return Err(WorkbenchError::StationTwice { station });
                }
                sightings.push((station, turned(group[0].1, group[0].2, 1.0)));
                (Across::polar(group[0].2, group[0].1), 1.0)
            } else if let [a, b] = group {
                if (a.1 - b.1).cos() > -OPPOSITE.cos() {
                    return Err(bad);
                }
                // The other direction is not seen.
                sightings.push((station, turned(a.1, (a.2 - b.2) / 2.0, 0.5_f64.sqrt())));
                (Across::polar((a.2 - b.2) / 2.0, a.1), 0.5_f64.sqrt())
            } else {
                let pairs: Vec<(f64, f64)> = group.iter().map(|r| (r.1, r.2)).collect();
                let fit = harmonic(&pairs).map_err(|_| bad)?;
                left += fit.noise * fit.noise * fit.freedom as f64;
                freedom += fit.freedom;
                let (at0, at90) = (fit.wave.at0, fit.wave.at90);
                sightings.push((station, turned(0.0, at0, fit.spread[0].sqrt())));
                sightings.push((station, turned(FRAC_PI_2, at90, fit.spread[1].sqrt())));
                (fit.wave, f64::midpoint(fit.spread[0], fit.spread[1]).sqrt())
            };
            knots.push(Knot { station, off, weight });
        }
        // A reading is rounded to a step: evenly spread over its width.
        let rounding =
            range("indicator's step", Role::Gauge, step.si(), 0.0, 0.01)? / 12_f64.sqrt();
        let found = if freedom > 0 { (left / freedom as f64).sqrt() } else { 0.0 };
        let noise = rounding.max(found);
        let seen = sightings.into_iter().map(|(station, (toward, off, weight))| Sighting {
            station,
            supports: supports.map(Length::si),
            toward,
            off,
            noise: noise * weight,
            still: one_side,
        });
        Self::new(stock, supports, (knots, seen.collect()), noise, one_side)
    }

    /// From total readings with the clock position of the highest.
    ///
    /// # Errors
    /// As [`from_dial`](Self::from_dial).
    pub fn from_run_out(
        stock: Length,
        supports: [Length; 2],
        readings: &[RunOut],
        step: Length,
    ) -> Result<Self, WorkbenchError> {
        let (mut knots, mut seen) = (Vec::new(), Vec::new());
        let noise = range("indicator's step", Role::Gauge, step.si(), 0.0, 0.01)? / 12_f64.sqrt();
        for r in readings {
            let total = range("run-out", Role::Gauge, r.total.si(), 0.0, 0.1)?;
            let total = Gauged::End.sound(total)?;
            let clock = range("clock position", Role::Angle, r.high.si(), -100.0, 100.0)?;
            let (station, supports) = (r.station.si(), supports.map(Length::si));
            seen.extend(total_seen(station, supports, total, clock, noise));
            // Half of the difference of two readings.
            let (station, weight) = (r.station.si(), 0.5_f64.sqrt());
            knots.push(Knot { station, off: Across::polar(total / 2.0, clock), weight });
        }
        knots.sort_by(|a, b| a.station.total_cmp(&b.station));
        if let Some(pair) = knots.windows(2).find(|p| p[1].station - p[0].station < SAME) {
            return Err(WorkbenchError::StationTwice { station: pair[0].station });
        }
        Self::new(stock, supports, (knots, seen), noise, false)
    }

    /// An axis through known places, off the line through the ends of the shaft.
    pub(crate) fn drawn(
        stock: f64,
        places: impl Iterator<Item = (f64, Across)>,
    ) -> Result<Self, WorkbenchError> {
        let knots = places.map(|(station, off)| Knot { station, off, weight: 0.0 }).collect();
        let ends = [Length::ZERO, Length::from_si(stock)];
        Self::new(Length::from_si(stock), ends, (knots, Vec::new()), 0.0, false)
    }

    fn new(
        stock: Length,
        supports: [Length; 2],
        (mut knots, sightings): (Vec<Knot>, Vec<Sighting>),
        noise: f64,
        one_side: bool,
    ) -> Result<Self, WorkbenchError> {
        let stock = range("length of the shaft", Role::Part, stock.si(), 0.05, 2.0)?;
        let [rear, front] = supports.map(Length::si);
        if !(rear >= 0.0 && front <= stock && front - rear > 0.01) {
            return Err(WorkbenchError::Supports { rear, front, stock });
        }
        for knot in &knots {
            range("station", Role::Part, knot.station, 0.0, stock)?;
        }
        let mut at_supports = 0.0_f64;
        if one_side {
            // Nothing turned, so the supports are two places like any other.
            if knots.len() < 3 {
                return Err(WorkbenchError::FewStations { count: knots.len(), needed: 3 });
            }
        } else {
            // A turning shaft turns about its centres at the supports.
            knots.retain(|knot| {
                let on = (knot.station - rear).abs() < SAME || (knot.station - front).abs() < SAME;
                at_supports = if on { at_supports.max(knot.off.size()) } else { at_supports };
                !on
            });
            if knots.is_empty() {
                return Err(WorkbenchError::FewStations { count: 0, needed: 1 });
            }
            for station in [rear, front] {
                knots.push(Knot { station, off: Across::ZERO, weight: 0.0 });
            }
            knots.sort_by(|a, b| a.station.total_cmp(&b.station));
        }
        let reach = (knots[0].station, knots[knots.len() - 1].station);
        let mut axis = Self { stock, knots, noise, reach, at_supports, one_side, sightings };
        let (a, b) = (axis.at(rear), axis.at(front));
        for knot in &mut axis.knots {
            let share = (knot.station - rear) / (front - rear);
            knot.off = knot.off - a * (1.0 - share) - b * share;
        }
        Ok(axis)
    }

    /// Length of the shaft, m.
    pub fn stock(&self) -> f64 {
        self.stock
    }

    /// Noise of one reading, m: what its step rounds away, or the scatter about
    /// the fits where that is larger.
    pub fn noise(&self) -> f64 {
        self.noise
    }

    /// First and last station known, m; beyond them the axis goes on straight.
    pub fn reach(&self) -> (f64, f64) {
        self.reach
    }

    /// Largest offset read at a support itself, m. A round shaft reads none.
    pub fn at_supports(&self) -> f64 {
        self.at_supports
    }

    /// Whether one clock position alone was read.
    pub fn one_side(&self) -> bool {
        self.one_side
    }

    /// What was read, each in its direction.
    pub fn sightings(&self) -> &[Sighting] {
        &self.sightings
    }

    /// The stations of the axis, m.
    pub fn stations(&self) -> Vec<f64> {
        self.knots.iter().map(|knot| knot.station).collect()
    }

    /// Where the axis is at a station, m off the line through the supports.
    pub fn at(&self, x: f64) -> Across {
        let (low, high, share) = self.around(x);
        low.off * (1.0 - share) + high.off * share
    }

    /// Total reading at a station of the shaft on two supports, m.
    pub fn total(&self, x: f64, [rear, front]: [f64; 2]) -> f64 {
        let share = (x - rear) / (front - rear);
        2.0 * (self.at(x) - self.at(rear) * (1.0 - share) - self.at(front) * share).size()
    }

    /// Total reading in the middle of the span of a piece, and the rest of
    /// its straightness.
    pub fn straight(&self, rear: f64, length: f64) -> Straight {
        let (span, places) = span(rear, length);
        let carried = carry(span);
        let plain = 2.0 * self.mid(places).size();
        Straight {
            total: plain * carried,
            error: 2.0 * carried * self.mid_error(places),
            span,
            worst: self.worst(rear, length, places),
        }
    }

    /// Standard error of the total reading of the shaft where it lies on its
    /// supports, m, at a station.
    pub fn error_at(&self, x: f64) -> f64 {
        let (low, high, share) = self.around(x);
        2.0 * self.noise * (low.weight * (1.0 - share)).hypot(high.weight * share)
    }

    /// The middle of a span off the line through its ends.
    fn mid(&self, [a, m, b]: [f64; 3]) -> Across {
        self.at(m) - (self.at(a) + self.at(b)) * 0.5
    }

    fn mid_error(&self, [a, m, b]: [f64; 3]) -> f64 {
        // Weights of the knots: a knot may serve more than one place.
        let mut weights = vec![0.0; self.knots.len()];
        for (x, by) in [(m, 1.0), (a, -0.5), (b, -0.5)] {
            let (at, share) = self.place(x);
            weights[at] += by * (1.0 - share);
            weights[at + 1] += by * share;
        }
        let squares =
            weights.iter().zip(&self.knots).map(|(w, knot)| (w * knot.weight).powi(2)).sum::<f64>();
        self.noise * squares.sqrt()
    }

    /// Largest total reading on a piece that lies on its span: at a knot or an
    /// end, since the axis is straight between.
    fn worst(&self, rear: f64, length: f64, [a, _, b]: [f64; 3]) -> f64 {
        let (ya, yb) = (self.at(a), self.at(b));
        let off = |x: f64| {
            let share = (x - a) / (b - a);
            2.0 * (self.at(x) - ya * (1.0 - share) - yb * share).size()
        };
        let inside = |x: &f64| (rear..=rear + length).contains(x);
        let places = self.stations().into_iter().filter(inside).chain([rear, rear + length]);
        places.map(off).fold(0.0, f64::max)
    }

    /// The knots on both sides of a station and how far between them it lies.
    fn around(&self, x: f64) -> (&Knot, &Knot, f64) {
        let (at, share) = self.place(x);
        (&self.knots[at], &self.knots[at + 1], share)
    }

    fn place(&self, x: f64) -> (usize, f64) {
        let above = self.knots.partition_point(|knot| knot.station <= x);
        let at = above.clamp(1, self.knots.len() - 1) - 1;
        let (low, high) = (self.knots[at].station, self.knots[at + 1].station);
        (at, (x - low) / (high - low))
    }
}

/// The span of a piece, in its middle, with its ends and its middle.
pub(crate) fn span(rear: f64, length: f64) -> (f64, [f64; 3]) {
    let span = FULL_SPAN.si().min(length);
    let middle = rear + length / 2.0;
    (span, [middle - span / 2.0, middle, middle + span / 2.0])
}

/// From a reading on a shorter span to one on 28 in, for a constant curve.
pub(crate) fn carry(span: f64) -> f64 {
    (FULL_SPAN.si() / span).powi(2)
}
