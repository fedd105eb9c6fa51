//! The linear push of a rigid arrow against the full nonlinear motion of bow and
//! arrow in the bow's own plane.

use arrow::Faults;
use clothyard_tests::push::{arrow, bow, longbow, recurve};
use launch::{Bow, BowString, Cams, Detail, Form, Limbs, Machine, SpeedSource, watch};
use nalgebra::{DMatrix, DVector};
use units::{Acceleration, Angle, Force, Length, Mass, Ratio};

/// A rigid arrow: mass, balance ahead of the groove, inertia, groove above the
/// principal axis.
#[derive(Clone, Copy)]
struct Rod {
    mass: f64,
    lever: f64,
    inertia: f64,
    groove: f64,
}

/// Accelerations from places and rates.
trait Plane {
    fn size(&self) -> usize;
    fn acceleration(&self, q: &[f64], v: &[f64]) -> Vec<f64>;
}

/// Adds a mass that moves by `rows` (x and z of a point over the coordinates)
/// with an acceleration `own` left when the coordinates do not accelerate; two
/// points share it by `weight` each: a bar's consistent mass.
fn bar(
    (m, f): (&mut DMatrix<f64>, &mut DVector<f64>),
    (a, b): (&[[f64; 2]], &[[f64; 2]]),
    own: [f64; 2],
    weight: f64,
) {
    for i in 0..a.len() {
        for k in 0..2 {
            for (j, row) in b.iter().enumerate() {
                m[(i, j)] += weight * a[i][k] * row[k];
            }
            f[i] -= weight * a[i][k] * own[k];
        }
    }
}

/// Coordinates of nock (back, up) and arrow's angle, and then the bow's.
fn rod(rod: &Rod, q: &[f64], v: &[f64], all: usize) -> (Vec<[f64; 2]>, [f64; 2]) {
    // The arrow points forward, that is to -x: u along it, w up across it. The
    // groove is at balance - lever u + groove w.
    let (sin, cos) = q[2].sin_cos();
    let (u, w) = ([-cos, sin], [sin, cos]);
    let mut rows = vec![[0.0; 2]; all];
    rows[0] = [1.0, 0.0];
    rows[1] = [0.0, 1.0];
    rows[2] = [0, 1].map(|k| rod.lever * w[k] + rod.groove * u[k]);
    let turn2 = v[2] * v[2];
    (rows, [0, 1].map(|k| turn2 * (rod.groove * w[k] - rod.lever * u[k])))
}

struct Hinged(Limbs, Rod);

impl Plane for Hinged {
    fn size(&self) -> usize {
        5
    }

    fn acceleration(&self, q: &[f64], v: &[f64]) -> Vec<f64> {
        let (bow, arrow) = (&self.0, &self.1);
        let (mut m, mut f) = (DMatrix::zeros(5, 5), DVector::zeros(5));
        let (rows, own) = rod(arrow, q, v, 5);
        bar((&mut m, &mut f), (&rows, &rows), own, arrow.mass);
        m[(2, 2)] += arrow.inertia;
        let mut nock = vec![[0.0; 2]; 5];
        (nock[0], nock[1]) = ([1.0, 0.0], [0.0, 1.0]);
        bar((&mut m, &mut f), (&nock, &nock), [0.0; 2], bow.twine.nocking);
        let half = 0.5 * bow.twine.mass;
        let rest = (bow.brace / bow.limb).asin();
        let tension = bow.torque / bow.brace;
        let natural = bow.twine.half / (1.0 + tension / bow.twine.stiffness);
        for (index, side) in [(3, 1.0), (4, -1.0)] {
            let (sin, cos) = q[index].sin_cos();
            let tip = [bow.limb * sin, side * (bow.hinge + bow.limb * cos)];
            let mut rows = vec![[0.0; 2]; 5];
            rows[index] = [bow.limb * cos, -side * bow.limb * sin];
            let own = [-bow.limb * sin, -side * bow.limb * cos].map(|a| a * v[index] * v[index]);
            bar((&mut m, &mut f), (&rows, &rows), own, half / 3.0);
            bar((&mut m, &mut f), (&nock, &nock), [0.0; 2], half / 3.0);
            bar((&mut m, &mut f), (&nock, &rows), own, half / 6.0);
            bar((&mut m, &mut f), (&rows, &nock), [0.0; 2], half / 6.0);
            m[(index, index)] += bow.inertia;
            f[index] -= bow.torque + bow.stiffness * (q[index] - rest);
            let to = [tip[0] - q[0], tip[1] - q[1]];
            let long = to[0].hypot(to[1]);
            let pull = bow.twine.stiffness / natural * (long - natural);
            for k in 0..2 {
                f[k] += pull * to[k] / long;
                f[index] -= pull * to[k] / long * rows[index][k];
            }
        }
        m.lu().solve(&f).unwrap().iter().copied().collect()
    }
}

/// Nock, angle, cams above and below, tips above and below.
struct Wheeled(Cams, Rod);

impl Plane for Wheeled {
    fn size(&self) -> usize {
        7
    }

    fn acceleration(&self, q: &[f64], v: &[f64]) -> Vec<f64> {
        let (bow, p, arrow) = (&self.0, self.0.parts(), &self.1);
        let (mut m, mut f) = (DMatrix::zeros(7, 7), DVector::zeros(7));
        let (rows, own) = rod(arrow, q, v, 7);
        bar((&mut m, &mut f), (&rows, &rows), own, arrow.mass);
        m[(2, 2)] += arrow.inertia;
        let third = p.twine.mass / 6.0;
        for k in 0..2 {
            m[(k, k)] += p.twine.nocking + 2.0 * third;
        }
        let taken = [3, 4].map(|cam| bow.take_up(q[cam]));
        let cable = taken.map(|t| p.cable * (t[0] - q[5] - q[6] + bow.stretch()));
        for (side, sign) in [(0, 1.0), (1, -1.0)] {
            let (cam, tip) = (3 + side, 5 + side);
            let up = p.axle - q[tip] - sign * q[1];
            let square = q[0] * q[0] + up * up;
            let long = (square - p.radius * p.radius).sqrt();
            let angle = q[0].atan2(up) - (p.radius / square.sqrt()).asin();
            let stretch = long - p.radius * (angle + q[cam]) - bow.natural();
            let pull = p.twine.stiffness / p.twine.half * stretch;
            f[0] -= pull * angle.sin();
            f[1] += sign * pull * angle.cos();
            m[(cam, cam)] += p.inertia + third * p.radius * p.radius;
            f[cam] += pull * p.radius - cable[side] * taken[side][1];
            m[(tip, tip)] += p.tip;
            f[tip] += pull * angle.cos() + cable[0] + cable[1] - p.preload - p.stiffness * q[tip];
        }
        m.lu().solve(&f).unwrap().iter().copied().collect()
    }
}

/// RK4 for a time; angle and turning of the arrow at its end.
fn follow(plane: &dyn Plane, start: &[f64], time: f64, steps: u32) -> [f64; 2] {
    let n = plane.size();
    let slope = |y: &[f64]| {
        let (q, v) = y.split_at(n);
        [v, &plane.acceleration(q, v)].concat()
    };
    let along = |y: &[f64], k: &[f64], h: f64| -> Vec<f64> {
        y.iter().zip(k).map(|(y, k)| y + h * k).collect()
    };
    let mut y = [start, &vec![0.0; n]].concat();
    let h = time / f64::from(steps);
    for _ in 0..steps {
        let k1 = slope(&y);
        let k2 = slope(&along(&y, &k1, 0.5 * h));
        let k3 = slope(&along(&y, &k2, 0.5 * h));
        let k4 = slope(&along(&y, &k3, h));
        for i in 0..2 * n {
            y[i] += h / 6.0 * (k1[i] + 2.0 * (k2[i] + k3[i]) + k4[i]);
        }
    }
    [y[2], y[n + 2]]
}

fn corners() -> Vec<(Bow, &'static str)> {
    let heavy = |bow: Bow, by: f64| {
        let string = BowString { mass: Mass::from_si(by * bow.string.mass.si()), ..bow.string };
        Bow { limb_mass: Mass::from_si(by * bow.limb_mass.si()), string, ..bow }
    };
    let soft = |bow: Bow, by: f64| {
        let stiffness = Force::from_si(by * bow.string.stiffness.si());
        Bow { string: BowString { stiffness, ..bow.string }, ..bow }
    };
    let mut all = Vec::new();
    for base in [recurve(), longbow(), bow()] {
        all.push((base, "as it is"));
        all.push((heavy(base, 0.6), "light"));
        all.push((heavy(base, 1.5), "heavy"));
        all.push((soft(base, 0.5), "soft string"));
        all.push((soft(base, 2.0), "hard string"));
    }
    all
}

/// C: the planar motion with everything in it that is not linear, for a groove
/// 0.1 mm above the line, over kinds of bow and their corners: angle and turning
/// as the string lets go within 1 %.
#[test]
fn exact_linear_push_agrees_with_the_nonlinear_bow() {
    let offset = 1e-4;
    let (parts, mut built) = arrow(&Faults::default());
    built.shape.groove.at0 += offset;
    for (base, name) in corners() {
        let mut bow = Bow {
            speed: SpeedSource::Stored,
            hysteresis: Ratio::ZERO,
            gravity: Acceleration::ZERO,
            ..base
        };
        bow.restraint.up = Ratio::from_si(1.0);
        bow.release.left = units::Momentum::ZERO;
        bow.rest.share = Ratio::ZERO;
        bow.rest.ahead = Length::from_si(0.17);
        let detail = Detail { steps: 2000, modes: 0 };
        let history = watch(&bow, &parts, &built, Angle::ZERO, &Form::default(), detail).unwrap();
        let last = history.frames.last().unwrap();
        let machine = Machine::new(&bow).unwrap();
        let rod = Rod {
            mass: built.mass.mass().si(),
            lever: built.mass.balance().si(),
            inertia: built.mass.transverse().si(),
            groove: offset,
        };
        let stroke = machine.stroke();
        // Nock on the line, the arrow's axis through the line at the rest.
        let angle = offset / (0.17 + stroke);
        let end = match &machine {
            Machine::Limbs { bow, .. } => {
                let turn = machine.still(1.0).turn;
                let start = [bow.brace + stroke, 0.0, angle, turn, turn];
                follow(&Hinged(*bow, rod), &start, last.time, 4000)
            }
            Machine::Cams { bow, .. } => {
                let [turn, way] = bow.drawn();
                let start = [bow.parts().radius + stroke, 0.0, angle, turn, turn, way, way];
                follow(&Wheeled(bow.clone(), rod), &start, last.time, 4000)
            }
        };
        let own = [history.departure.pitch, history.departure.pitch_rate];
        for (own, end) in own.into_iter().zip(end) {
            assert!((own / end - 1.0).abs() < 0.01, "{:?} {name}: {own} {end}", bow.kind);
        }
    }
}
