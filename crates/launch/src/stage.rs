//! What is the same for every state at an instant of a push.

use solve::Number;

use crate::beam::ELEMENTS;
use crate::course::{BowAt, Course};
use crate::elastic::MOTIONS;
use crate::flex::MODES;
use crate::track::Track;

/// What is the same for every state at an instant.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stage<N> {
    pub(crate) at: BowAt<N>,
    /// Nock's path and its acceleration.
    pub(crate) path: [N; 2],
    pub(crate) drift: [N; 2],
    pub(crate) over: Over<N>,
    /// What a newton of the rest gives the groove, m/s2.
    pub(crate) eased: N,
    /// Whether the rest can touch.
    pub(crate) held: bool,
    /// The string on the nock; without it nothing pulls there.
    pub(crate) string: Strung<N>,
    pub(crate) strung: bool,
}

/// How the string's parts answer at an instant.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Strung<N> {
    /// Over 1 + `c_0` M, sideways, and over 1 + `c_0` M*, up and down.
    pub(crate) soft: [N; 2],
    /// M sideways, and M* up and down.
    pub(crate) mass: [N; 2],
    /// `M_zc/M_cc`.
    pub(crate) share: N,
}

/// The arrow where it passes over the rest.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Over<N> {
    pub(crate) value: [N; MOTIONS],
    pub(crate) slope: [N; MOTIONS],
    /// The unbent shaft there, left and up, and its lean.
    pub(crate) line: [(N, N); 2],
}

impl<N: Number> Track<N> {
    /// The bow while the string pushes.
    #[inline(always)]
    pub(crate) fn pushed(
        &self,
        course: &Course,
        masses: &[N; 3],
        part: usize,
        instant: usize,
    ) -> Stage<N> {
        let at = course.at(part, instant, &self.weights);
        let none = self.mass.same(0.0);
        let (mut path, mut drift) = ([none; 2], [none; 2]);
        if self.bent {
            // Nock's path, a half sine of the share travelled, and what its bends
            // ask of a nock at this speed.
            let pi = none.same(std::f64::consts::PI);
            let angle = pi * (none.same(1.0) - at.left / self.stroke);
            let (sin, cos) = angle.sin_cos();
            let (rate, gain) = (at.speed / self.stroke, at.acceleration / self.stroke);
            let turn = pi * (cos * gain - pi * sin * rate * rate);
            for plane in 0..2 {
                path[plane] = self.path[plane] * sin;
                drift[plane] = self.path[plane] * turn;
            }
        }
        let held = part == 0;
        let over = if held { self.over(self.ahead + at.left) } else { self.nowhere() };
        let one = none.same(1.0);
        let share = at.across * masses[1];
        let mass = [masses[0], masses[0] - at.across * share];
        let soft = [one / self.ease.mul_add(mass[0], one), one / self.ease.mul_add(mass[1], one)];
        let string = Strung { soft, mass, share };
        Stage { at, path, drift, eased: self.eased(&over), over, held, string, strung: true }
    }

    /// What a newton of the rest gives the groove, m/s2.
    #[inline(always)]
    fn eased(&self, over: &Over<N>) -> N {
        let mut eased = self.weighed[0] * over.value[0];
        for i in 1..MOTIONS {
            eased = self.weighed[i].mul_add(over.value[i], eased);
        }
        eased
    }

    /// A time after the string has let go.
    #[inline(always)]
    pub(crate) fn free(&self, last: &BowAt<N>, after: N) -> Stage<N> {
        let none = after.same(0.0);
        let left = last.left - last.speed * after;
        let over = self.over(self.ahead + left);
        let at = BowAt { left, acceleration: none, ..*last };
        let string = Strung { soft: [none; 2], mass: [none; 2], share: none };
        let (path, drift, eased) = ([none; 2], [none; 2], self.eased(&over));
        Stage { at, path, drift, eased, over, held: true, string, strung: false }
    }

    /// Every motion at a station: displacement and slope, beyond the shaft's ends
    /// straight on, by the cubics of its element.
    #[inline(always)]
    pub(crate) fn over(&self, station: N) -> Over<N> {
        let (one, two, three) = (station.same(1.0), station.same(2.0), station.same(3.0));
        let none = station.same(0.0);
        let on = station.max(self.rear).min(self.front);
        let beyond = station - on;
        let at = (on - self.rear) * self.per_length;
        let (element, places) = (at - at.same(0.5)).nearest_whole(ELEMENTS - 1);
        let places = places.times(2);
        let x = at - element;
        let (x2, l) = (x * x, one / self.per_length);
        let x3 = x2 * x;
        let value = [
            two * x3 - three * x2 + one,
            l * (x - two * x2 + x3),
            three * x2 - two * x3,
            l * (x3 - x2),
        ];
        let six = station.same(6.0);
        let steep = six * (x2 - x) * self.per_length;
        let slope = [steep, three * x2 - station.same(4.0) * x + one, -steep, three * x2 - two * x];
        let mut out =
            Over { value: [one; MOTIONS], slope: [none; MOTIONS], line: [(none, none); 2] };
        out.value[1] = station - self.lever;
        out.slope[1] = one;
        for k in 0..MODES {
            let (mut place, mut lean) = (none, none);
            for j in 0..4 {
                let nodal = N::look_up(&self.nodal[k], &places, j);
                place = value[j].mul_add(nodal, place);
                lean = slope[j].mul_add(nodal, lean);
            }
            out.value[2 + k] = beyond.mul_add(lean, place);
            out.slope[2 + k] = lean;
        }
        for plane in 0..2 {
            out.line[plane] = self.forcings[plane].shaft(station);
        }
        out
    }

    #[inline(always)]
    fn nowhere(&self) -> Over<N> {
        let none = self.mass.same(0.0);
        Over { value: [none; MOTIONS], slope: [none; MOTIONS], line: [(none, none); 2] }
    }
}
