//! One arrow of a build, pushed and flown.

use body::{Attitude, State};
use study::{OneFlight, Reel, Setup, film_push, fly_one};

use crate::PageError;
use crate::scene::Scene;

/// Instants of the flight, evenly spread over its way. Chosen: some ten to the shortest
/// swing of the nose at the longest distances, so that straight lines between them do
/// not show.
const INSTANTS: u32 = 160;

/// Factors to choose from; 1 is no exaggeration.
const FACTORS: [f64; 21] = [
    1000.0, 700.0, 500.0, 300.0, 200.0, 150.0, 100.0, 70.0, 50.0, 30.0, 20.0, 15.0, 10.0, 7.0, 5.0,
    4.0, 3.0, 2.0, 1.0, 0.5, 0.2,
];
/// Farthest that bend or lean alone draws anything off its line, over the arrow's length.
/// Chosen: a bend is seen at once and is not yet a hoop.
const FARTHEST: f64 = 0.09;
/// Steps of the push. Chosen: at the usual slowness one to each picture of a screen.
const MOST_STEPS: usize = 360;

/// Push and flight of one build's typical arrow.
pub(super) struct Shot {
    pub(super) name: String,
    /// Place among all builds.
    pub(super) at: usize,
    pub(super) setup: Setup,
    pub(super) reel: Reel,
    pub(super) flown: OneFlight,
    /// Distance of the target, m.
    pub(super) distance: f64,
}

impl Shot {
    pub(super) fn of(
        scene: &Scene,
        name: &str,
        at: usize,
        distance: f64,
    ) -> Result<Self, PageError> {
        let gone = |_| PageError::NotHere { reason: "this scenario holds no arrow" };
        let recipe = scene.scenario.typical(Some(name)).map_err(gone)?;
        let setup = recipe.setup(&[]).map_err(|_| PageError::NotHere {
            reason: "the arrow of this scenario cannot be put together",
        })?;
        let reel = film_push(recipe.as_ref())?;
        let built = &reel.story.built;
        // The point meets the face when the balance point is its lead short of it.
        let way = distance - (built.layout.tip.si() - built.mass.balance().si());
        if way <= 0.0 {
            let reason = "the target is nearer than the arrow is long";
            return Err(PageError::NotHere { reason });
        }
        let step = way / f64::from(INSTANTS);
        let marks: Vec<f64> = (1..=INSTANTS).map(|mark| f64::from(mark) * step).collect();
        let flown = fly_one(recipe.as_ref(), &marks, false)?;
        Ok(Self { name: name.to_owned(), at, setup, reel, flown, distance })
    }

    /// Nock groove to tip, m.
    pub(super) fn long(&self) -> f64 {
        self.reel.story.built.layout.tip.si()
    }

    pub(super) fn balance(&self) -> f64 {
        self.reel.story.built.mass.balance().si()
    }

    /// The steps of the push that are shown: all, or so few of them that it stays a film.
    pub(super) fn kept(&self) -> impl Iterator<Item = usize> + Clone {
        let last = self.reel.steps.len().saturating_sub(1);
        let step = last / MOST_STEPS + 1;
        (0..last).step_by(step).chain([last])
    }

    /// The states of the flight, departure first.
    pub(super) fn states(&self) -> impl Iterator<Item = &State> {
        core::iter::once(&self.flown.start).chain(&self.flown.states)
    }

    /// Nose from its path, left and up, rad.
    pub(super) fn lean(state: &State) -> [f64; 2] {
        let (nose, path) = (state.attitude(), Attitude::of(&state.velocity));
        [nose.yaw - path.yaw, nose.pitch - path.pitch]
    }

    /// Places of the arrow off its own axis at an instant of the flight, left and up, m:
    /// its swing, and its crookedness, which rolls with it.
    pub(super) fn bends(&self, state: &State) -> impl Iterator<Item = [f64; 2]> {
        let swing = self.flown.departure.flex.swing(state.time);
        let (sin, cos) = (state.roll - self.flown.start.roll).sin_cos();
        self.reel.swings.iter().zip(&self.reel.crooked).map(move |(shape, [left, up])| {
            // Clockwise from behind: what was up comes to the right.
            let crooked = [left * cos - up * sin, left * sin + up * cos];
            [0, 1].map(|p| {
                let bent: f64 = shape.iter().zip(&swing[p]).map(|(w, q)| w * q).sum();
                bent + crooked[p]
            })
        })
    }

    /// How the path leaves the line of the push, left and up, rad.
    pub(super) fn leaves(&self) -> [f64; 2] {
        let departure = &self.flown.departure;
        [departure.velocity_left, departure.velocity_up].map(|v| v / departure.speed)
    }

    /// The last shape of the push less the first of the flight, m: what a rest that still
    /// touches after the string does until the shaft has passed it. See `launch` for a
    /// departure that is carried back to the string.
    pub(super) fn gap(&self) -> Vec<[f64; 2]> {
        let (start, departure) = (&self.flown.start, &self.flown.departure);
        let (lean, path, place) =
            (Self::lean(start), self.leaves(), [departure.left, departure.up]);
        let last = self.reel.steps.last().into_iter().flatten();
        let both = last.zip(self.bends(start)).zip(&self.reel.stations);
        both.map(|((last, bend), station)| {
            let ahead = station - self.balance();
            [0, 1].map(|p| last[p] - (place[p] + ahead * (path[p] + lean[p]) + bend[p]))
        })
        .collect()
    }

    /// When the shaft has passed the rest, s after departure.
    pub(super) fn passes(&self) -> f64 {
        let story = &self.reel.story;
        let gone = story.moments.last().map_or(0.0, |moment| moment.travel);
        let rear = gone + story.built.layout.shaft_rear.si();
        ((story.rest_place - rear) / story.departure.speed).max(0.0)
    }

    /// Farthest that any place comes off the line of the push, or off the axis in flight, m.
    pub(super) fn bent(&self) -> f64 {
        let push = self.reel.steps.iter().flatten().flatten().copied();
        let flight = self.states().flat_map(|state| self.bends(state)).flatten();
        push.chain(flight).fold(0.0, |most, off| most.max(off.abs()))
    }

    /// Farthest that the lean takes an end off the path, m.
    pub(super) fn leant(&self) -> f64 {
        let lever = self.balance().max(self.long() - self.balance());
        let angles = self.states().flat_map(Self::lean);
        lever * angles.fold(0.0_f64, |most, angle| most.max(angle.abs()))
    }
}

/// How many times as large things are drawn sideways.
pub(super) struct Factors {
    /// All of the push, and in flight what the shaft bends.
    pub(super) bend: f64,
    /// The lean in flight.
    pub(super) lean: f64,
}

impl Factors {
    /// The largest that keep everything near its line.
    pub(super) fn of(shots: &[Shot]) -> Self {
        let fits = |farthest: fn(&Shot) -> f64| {
            let most = shots.iter().map(|shot| farthest(shot) / shot.long()).fold(0.0, f64::max);
            FACTORS.into_iter().find(|factor| factor * most <= FARTHEST).unwrap_or(0.1)
        };
        Self { bend: fits(Shot::bent), lean: fits(Shot::leant) }
    }
}
