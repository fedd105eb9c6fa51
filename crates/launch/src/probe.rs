//! One push measured: how it ends, and how every flaw moves that.

use units::Speed;

use crate::course::Course;
use crate::crooked::{CROOKED, Crooked};
use crate::departing::{Leaving, PushEnd};
use crate::elastic::{Elastic, FLAWS, FaultForcing, MOTIONS};
use crate::flex::MODES;
use crate::kind::BowAndArrow;
use crate::lane::{LOOKS, Pushed, run_all};
use crate::push::{checked, nominal};
use crate::stroke::power_stroke;
use crate::track::{STEPS, Track};
use crate::{Form, GivenDeparture, LaunchError};

/// Numbers of an end in a plane: motions and rates.
pub(crate) const ENDS: usize = 2 * MOTIONS;

/// Size of the flaws with which the map is measured: 10 um, or 10 urad, or the
/// like. Chosen: small against any contact, large against rounding.
const SIZE: f64 = 1e-5;

/// What the numbers of a row are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Layout {
    /// Whether the planes are coupled by a stiff side.
    pub(crate) coupled: bool,
    /// Whether a launcher is looked at.
    pub(crate) looks: bool,
}

/// Numbers before the ends: mass, speed, slowing, then five of each of the shapes:
/// frequency, decay, tip, nock, slope at the nock, slope at the tip.
pub(crate) const HEAD: usize = 3 + Leaving::NUMBERS;

impl Layout {
    /// Depths in a block.
    pub(crate) fn depths(self) -> usize {
        if self.looks { LOOKS } else { 0 }
    }

    /// Numbers of a flaw in a plane: ends, and depths where it moves up and down.
    pub(crate) fn block(self, plane: usize) -> (usize, usize) {
        let ends = if self.coupled { 2 * ENDS } else { ENDS };
        (ends, if self.coupled || plane == 1 { self.depths() } else { 0 })
    }

    /// Numbers in all.
    pub(crate) fn size(self) -> usize {
        let flaws: usize = (0..2)
            .map(|plane| {
                let (ends, depths) = self.block(plane);
                CROOKED * (ends + depths)
            })
            .sum();
        HEAD + 2 * ENDS + self.depths() + flaws
    }
}

/// A push and what each flaw adds to it.
pub(crate) struct Probe {
    /// Steps it took until the string let go.
    pub(crate) steps: usize,
    pub(crate) mass: f64,
    pub(crate) speed: f64,
    pub(crate) leaving: Leaving,
    pub(crate) ends: [[f64; ENDS]; 2],
    pub(crate) depth: [f64; LOOKS],
    /// For one of each number that says how crooked an arrow is, left and up.
    pub(crate) flaws: [[Change; CROOKED]; 2],
}

/// What one flaw changes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Change {
    pub(crate) ends: [[f64; ENDS]; 2],
    pub(crate) depth: [f64; LOOKS],
}

const NO_CHANGE: Change = Change { ends: [[0.0; ENDS]; 2], depth: [0.0; LOOKS] };

impl Change {
    fn add(&mut self, by: &Self, weight: f64) {
        let ends = self.ends.iter_mut().flatten().zip(by.ends.iter().flatten());
        for (sum, value) in ends.chain(self.depth.iter_mut().zip(&by.depth)) {
            *sum += weight * value;
        }
    }

    fn between(pushed: &Pushed, base: &Pushed) -> Self {
        let (with, without) = (PushEnd::of(&pushed.state).0, PushEnd::of(&base.state).0);
        Self {
            ends: std::array::from_fn(|p| {
                std::array::from_fn(|i| (with[p][i] - without[p][i]) / SIZE)
            }),
            depth: std::array::from_fn(|i| (pushed.depth[i] - base.depth[i]) / SIZE),
        }
    }
}

/// Pushes an arrow without faults, and with each kind of fault, side by side, in so
/// many steps or in as many as it asks for.
///
/// What a fault does to the equations are a few numbers ([`FaultForcing`]) that
/// depend on how the arrow bends; their effects are measured, and added up to what
/// each number of [`Crooked`] does, which does not.
pub(crate) fn probe(
    arrow: &BowAndArrow,
    speed: Speed,
    given: Option<Speed>,
    layout: Layout,
    steps: Option<usize>,
) -> Result<Probe, LaunchError> {
    let BowAndArrow { bow, parts, built, index } = arrow;
    checked(bow, parts, built, *index)?;
    let form = Form { speed, ..Form::default() };
    let given = GivenDeparture { speed: given, ..GivenDeparture::default() };
    let push = nominal(bow, built, &form, &given)?;
    let elastic = Elastic::new(parts, built)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let at = (index.si(), stroke);
    let none = FaultForcing::unit(0, 0.0, elastic.middle);
    let plain = Track::new(bow, &elastic, [none; 2], at, MODES);
    let steps = match steps {
        Some(steps) => steps,
        None => plain.needed(&push, bow)?.max(STEPS),
    };
    let course = Course::of(&push, bow, steps, plain.rear);
    // The first number, thrust on the balance point, moves nothing.
    let mut tracks = vec![plain.along(&course, &[])];
    let planes: &[[bool; 2]] = if layout.coupled {
        &[[true, false], [false, true]]
    } else {
        // Planes that know nothing of each other are probed at once.
        &[[true, true]]
    };
    for probed in planes {
        for number in 1..FLAWS {
            let unit = FaultForcing::unit(number, SIZE, elastic.middle);
            let forcings = probed.map(|probed| if probed { unit } else { none });
            tracks.push(Track::new(bow, &elastic, forcings, at, MODES).along(&course, &[]));
        }
    }
    let tracks: Vec<&Track<f64>> = tracks.iter().collect();
    let pushed = run_all(&tracks, &course);
    let (base, pushed) = (&pushed[0], &pushed[1..]);
    let changes: Vec<Change> = pushed.iter().map(|pushed| Change::between(pushed, base)).collect();
    let mut flaws = [[NO_CHANGE; CROOKED]; 2];
    for (plane, flaws) in flaws.iter_mut().enumerate() {
        // Probes of this plane, one for each number but the first.
        let own = &changes[if layout.coupled { plane * (FLAWS - 1) } else { 0 }..];
        for (index, flaw) in flaws.iter_mut().enumerate() {
            let numbers = elastic.forcing(&Crooked::unit(index)).numbers();
            for (change, number) in own.iter().zip(&numbers[1..]) {
                if *number != 0.0 {
                    flaw.add(change, *number);
                }
            }
        }
    }
    Ok(Probe {
        steps,
        mass: built.mass.mass().si(),
        speed: push.speed(),
        leaving: Leaving::new(&elastic, push.speed()),
        ends: PushEnd::of(&base.state).0,
        depth: base.depth,
        flaws,
    })
}
