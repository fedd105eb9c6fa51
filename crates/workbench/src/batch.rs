use units::{Angle, Length, Mass};

/// A reading while something turns true.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spun {
    /// Highest less lowest.
    pub total: Length,
    /// The clock position that reads highest; none where it was not noted.
    pub high: Option<Angle>,
}

/// How far along a shaft was when it was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Stage {
    /// As sold.
    Raw,
    /// Cut to length.
    Cut,
    /// Its ends squared.
    Squared,
    /// A finished arrow.
    #[default]
    Built,
    /// A finished arrow that has been shot.
    Shot,
}

impl Stage {
    /// Whether it was a finished arrow.
    pub fn finished(self) -> bool {
        self >= Self::Built
    }
}

/// What was measured of one shaft or arrow; none for what was not.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Measured {
    /// Its name or number.
    pub name: String,
    /// How far along it was.
    pub stage: Stage,
    /// Mass of what was weighed: the bare shaft, or the whole arrow.
    pub mass: Option<Mass>,
    /// Balance point from the bottom of the nock groove.
    pub balance: Option<Length>,
    /// Static spine.
    pub spine: Option<Length>,
    /// Clock position of its stiff side.
    pub stiff: Option<Angle>,
    /// Bottom of the nock groove to the end of the shaft; of a bare shaft its own
    /// length.
    pub length: Option<Length>,
    /// Run-out in the middle of a 28 in span, carried over to it if read on a
    /// shorter one.
    pub run_out: Option<Spun>,
    /// Wobble of the tip in a spin test.
    pub tip: Option<Spun>,
    /// Wobble of the nock's groove in a spin test.
    pub groove: Option<Spun>,
}

impl Measured {
    /// The same, with readings of another row of the same arrow where it says
    /// something.
    pub fn over(&mut self, newer: &Self) {
        fn take<T: Copy>(old: &mut Option<T>, new: Option<T>) {
            if new.is_some() {
                *old = new;
            }
        }
        take(&mut self.mass, newer.mass);
        take(&mut self.balance, newer.balance);
        take(&mut self.spine, newer.spine);
        take(&mut self.stiff, newer.stiff);
        take(&mut self.length, newer.length);
        take(&mut self.run_out, newer.run_out);
        take(&mut self.tip, newer.tip);
        take(&mut self.groove, newer.groove);
    }

    /// What still holds of it at a later stage: the shaft's spine, stiff side and
    /// run-out. Mass, length, balance and wobbles do not.
    #[must_use]
    pub fn carried_to(self, stage: Stage) -> Self {
        if self.stage.finished() == stage.finished() && self.stage != Stage::Raw {
            return Self { stage, ..self };
        }
        let Self { name, spine, stiff, run_out, .. } = self;
        Self { name, stage, spine, stiff, run_out, ..Self::default() }
    }
}
