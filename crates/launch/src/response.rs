//! The push of a bow and a kind of arrow, worked out beforehand: a linear map from
//! faults to departure, its entries polynomials of what else differs from shot to
//! shot. Model card: docs/model/push.md.

use arrow::Built;
use solve::{Arch, Polynomial, Simd, WithSimd};
use units::{Angle, Speed};

use crate::check::{self, within};
use crate::contact::{SOFT, contacts};
use crate::crooked::Crooked;
use crate::departing::{Leaving, PushEnd, departure};
use crate::kind::{BowAndArrow, Range};
use crate::lane::LOOKS;
use crate::probe::{ENDS, HEAD, Layout, Probe, probe};
use crate::{Departure, Form, GivenDeparture, LaunchError, Setting};

/// A bow and a kind of arrow, their push reduced to a linear map from faults to
/// departure.
///
/// The map holds as long as no contact opens: then the push is linear in the
/// faults. A launcher carries the shaft by its weight, and the response knows how
/// deep an arrow with faults presses it on the way; an arrow that would lift off
/// it has none here. What else differs from shot to shot (form's speed error, and
/// values of parts or bow that are drawn) moves the entries of the map, which are
/// polynomials of it through pushes at a few points. Tests hold it to the full
/// push.
#[derive(Debug, Clone, PartialEq)]
pub struct LinearResponse {
    centre: BowAndArrow,
    given: GivenDeparture,
    /// Range of form's speed error, m/s, then of each value.
    ranges: Vec<Range>,
    /// Which of these differ at all.
    moving: Vec<usize>,
    set: Polynomial,
    /// What a push gives, one row for each term.
    rows: Vec<Vec<f64>>,
    layout: Layout,
    /// Steps of every push, so that what steps err by is the same in all.
    steps: usize,
}

/// Deeper than this the launcher's damping is whole and the push linear, m: the
/// depth over which damping grows, and a fifth for what happens between looks.
const DEEP: f64 = 1.2 * SOFT;

impl LinearResponse {
    /// Measures the map for a bow and an arrow where nothing but faults and form's
    /// speed error (m/s, in this range) differs; none for a rest whose contacts
    /// open.
    ///
    /// # Errors
    /// As [`crate::depart`].
    pub fn new(
        centre: BowAndArrow,
        speed: Range,
        given: &GivenDeparture,
    ) -> Result<Option<Self>, LaunchError> {
        let Some(mut response) = Self::start(centre, vec![speed], given)? else { return Ok(None) };
        let centre = response.centre.clone();
        while !response.moving.is_empty() && response.degree() < SPEED_DEGREE {
            response.raise(&|_| Some(centre.clone()))?;
        }
        Ok(Some(response))
    }

    /// Measures the map at the centre of these ranges alone: of form's speed error
    /// (m/s), then of values that [`LinearResponse::raise`] is to vary; none for a
    /// rest whose contacts open.
    ///
    /// # Errors
    /// As [`crate::depart`].
    pub fn start(
        centre: BowAndArrow,
        ranges: Vec<Range>,
        given: &GivenDeparture,
    ) -> Result<Option<Self>, LaunchError> {
        if !contacts(&centre.bow)[0].holds() {
            return Ok(None);
        }
        let layout = Layout {
            coupled: centre.parts.shaft.stiff_side.si() != 0.0,
            looks: !contacts(&centre.bow)[1].holds() && centre.bow.rest.share.si() > 0.0,
        };
        let moving: Vec<usize> =
            (0..ranges.len()).filter(|&i| ranges[i].high > ranges[i].low).collect();
        if moving.len() > MOST_VALUES {
            return Ok(None);
        }
        let form = Speed::from_si(ranges.first().map_or(0.0, |range| range.at(0.0)));
        let probe = probe(&centre, form, given.speed, layout, None)?;
        let Some(row) = probe.row(layout) else { return Ok(None) };
        let steps = probe.steps;
        let set = Polynomial::new(&vec![0; moving.len()], 0);
        let given = *given;
        Ok(Some(Self { centre, given, ranges, moving, set, rows: vec![row], layout, steps }))
    }

    /// The degree of the polynomials.
    pub fn degree(&self) -> usize {
        (0..=HIGHEST)
            .find(|&degree| Self::terms(&self.moving, degree).terms() == self.rows.len())
            .unwrap_or(0)
    }

    fn terms(moving: &[usize], degree: usize) -> Polynomial {
        Polynomial::new(&vec![HIGHEST; moving.len()], degree)
    }

    /// Makes the polynomials a degree higher: `make` gives bow and arrow at some
    /// values. False where there is no higher degree, where there is no such arrow,
    /// or where the launcher does not carry it.
    ///
    /// # Errors
    /// As [`crate::depart`].
    pub fn raise(
        &mut self,
        make: &dyn Fn(&[f64]) -> Option<BowAndArrow>,
    ) -> Result<bool, LaunchError> {
        let degree = self.degree() + 1;
        if self.moving.is_empty() || degree > HIGHEST {
            return Ok(false);
        }
        let set = Self::terms(&self.moving, degree);
        if set.terms() > MOST_TERMS {
            return Ok(false);
        }
        let done = self.rows.len();
        let mut rows = Vec::with_capacity(set.terms() - done);
        for term in done..set.terms() {
            let values = self.values(&set.point(term));
            let Some(nominal) = make(&values[1..]) else { return Ok(false) };
            let form = Speed::from_si(values[0]);
            let (layout, steps) = (self.layout, Some(self.steps));
            let probe = probe(&nominal, form, self.given.speed, layout, steps)?;
            match probe.row(layout) {
                Some(row) => rows.push(row),
                None => return Ok(false),
            }
        }
        self.rows.extend(rows);
        set.fit(&mut self.rows, done);
        self.set = set;
        Ok(true)
    }

    /// Values at a place of those that differ.
    fn values(&self, point: &[f64]) -> Vec<f64> {
        let mut values: Vec<f64> = self.ranges.iter().map(|range| range.at(0.0)).collect();
        for (&index, &place) in self.moving.iter().zip(point) {
            values[index] = self.ranges[index].at(place);
        }
        values
    }

    /// Ranges of form's speed error and of the values.
    pub fn ranges(&self) -> &[Range] {
        &self.ranges
    }

    /// The bow, with the arrow at the centre of the ranges.
    pub fn centre(&self) -> &BowAndArrow {
        &self.centre
    }

    /// Whether an arrow is inside what was measured: `values` as handed to
    /// [`LinearResponse::raise`]. Without a stiff side the map does not know how the
    /// arrow is rolled.
    pub fn fits(&self, index: Angle, form: &Form, given: &GivenDeparture, values: &[f64]) -> bool {
        let all = std::iter::once(form.speed.si()).chain(values.iter().copied());
        let rolled = !self.layout.coupled || self.centre.index == index;
        rolled
            && given.speed == self.given.speed
            && values.len() + 1 == self.ranges.len()
            && self.ranges.iter().zip(all).all(|(range, value)| range.holds(value))
    }

    /// The departure of an arrow with faults, by the map; none where it would
    /// lift off the launcher, which asks for the full push.
    ///
    /// # Errors
    /// As [`depart`](fn@crate::depart).
    pub fn depart(
        &self,
        built: &Built,
        index: Angle,
        form: &Form,
        given: &GivenDeparture,
        values: &[f64],
    ) -> Result<Option<Departure>, LaunchError> {
        check::arrow(&self.centre.parts, built, index)?;
        check::shot(form, given)?;
        let mut place = [0.0; MOST_VALUES];
        let place = &mut place[..self.moving.len()];
        for (place, &of) in place.iter_mut().zip(&self.moving) {
            let value = if of == 0 { form.speed.si() } else { values[of - 1] };
            *place = self.ranges[of].place(value);
        }
        let crooked = Crooked::of(built, index.si());
        let Sum { head, ends, depth } =
            Arch::new().dispatch(Add { response: self, place, crooked: &crooked });
        let mass = built.mass.mass().si();
        // A NaN is not carried: the full push then names it.
        let carried = depth.iter().all(|depth| *depth >= DEEP);
        if !carried || (head[0] - mass).abs() > SAME_MASS * mass {
            return Ok(None);
        }
        let speed = head[1];
        within(Setting::Speed, speed, check::SPEED)?;
        let leaving = Leaving::of(head[2], &head[3..]);
        departure(&PushEnd(ends), &leaving, speed, index, form, given).map(Some)
    }
}

/// Highest degree. Chosen: more points than arrows to be pushed gain nothing.
const HIGHEST: usize = 3;
/// Degree in form's speed error alone. Chosen: two per cent of speed are then met
/// within 0.01 mm at 60 yd (tested).
const SPEED_DEGREE: usize = 2;
/// Most values that may differ, and most terms of a polynomial. Chosen: beyond,
/// arrows are pushed one by one in less time.
const MOST_VALUES: usize = 12;
const MOST_TERMS: usize = 120;
/// Mass of an arrow over that of the response, less one, from which on it is
/// another arrow. Chosen: far below a speck of dust, far above rounding.
const SAME_MASS: f64 = 1e-6;

/// What a response gives for an arrow.
struct Sum {
    head: [f64; HEAD],
    ends: [[f64; ENDS]; 2],
    depth: [f64; LOOKS],
}

struct Add<'a> {
    response: &'a LinearResponse,
    place: &'a [f64],
    crooked: &'a [Crooked; 2],
}

impl WithSimd for Add<'_> {
    type Output = Sum;

    #[inline(always)]
    fn with_simd<S: Simd>(self, _simd: S) -> Sum {
        let Self { response, place, crooked } = self;
        let layout = response.layout;
        let mut weights = vec![1.0; response.rows.len()];
        response.set.at(1.0, place, &mut weights);
        let mut values = vec![0.0; layout.size()];
        for (row, &weight) in response.rows.iter().zip(&weights) {
            add(&mut values, row, weight);
        }
        let (head, rest) = values.split_at(HEAD);
        let (ends, rest) = rest.split_at(2 * ENDS);
        let (depth, mut rest) = rest.split_at(layout.depths());
        let mut sum = Sum {
            head: std::array::from_fn(|i| head[i]),
            ends: std::array::from_fn(|p| std::array::from_fn(|i| ends[p * ENDS + i])),
            depth: std::array::from_fn(|i| depth.get(i).copied().unwrap_or(f64::MAX)),
        };
        for (plane, crooked) in crooked.iter().enumerate() {
            let (ends, depths) = layout.block(plane);
            for &number in &crooked.0 {
                let (block, more) = rest.split_at(ends + depths);
                rest = more;
                if number == 0.0 {
                    continue;
                }
                if layout.coupled {
                    add(&mut sum.ends[0], &block[..ENDS], number);
                    add(&mut sum.ends[1], &block[ENDS..ends], number);
                } else {
                    add(&mut sum.ends[plane], &block[..ENDS], number);
                }
                add(&mut sum.depth[..depths], &block[ends..], number);
            }
        }
        sum
    }
}

#[inline(always)]
fn add(sum: &mut [f64], row: &[f64], weight: f64) {
    for (sum, value) in sum.iter_mut().zip(row) {
        *sum = weight.mul_add(*value, *sum);
    }
}

impl Probe {
    /// A row of it; none where the launcher does not carry the arrow even without
    /// faults.
    fn row(&self, layout: Layout) -> Option<Vec<f64>> {
        if layout.looks && !self.depth.iter().all(|depth| *depth >= DEEP) {
            return None;
        }
        let mut row = Vec::with_capacity(layout.size());
        row.extend([self.mass, self.speed]);
        row.push(self.leaving.slowing);
        self.leaving.write(&mut row);
        row.extend(self.ends.iter().flatten());
        if layout.looks {
            row.extend(self.depth);
        }
        for plane in 0..2 {
            let (_, depths) = layout.block(plane);
            for flaw in &self.flaws[plane] {
                if layout.coupled {
                    row.extend(flaw.ends.iter().flatten());
                } else {
                    row.extend(flaw.ends[plane]);
                }
                row.extend(&flaw.depth[..depths]);
            }
        }
        Some(row)
    }
}
