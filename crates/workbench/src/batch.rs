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

/// An arrow through its stages.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Worked {
    /// Its name or number.
    pub name: String,
    /// What was read at each stage, corrections in place, the stages rising.
    pub stages: Vec<Measured>,
    /// Why it was taken out, if it was.
    pub out: Option<String>,
    /// The stage at which that was noted.
    pub out_at: Option<Stage>,
    /// Entries that a correction supersedes or voids.
    pub superseded: usize,
}

impl Worked {
    /// How far along it is; none before anything was read.
    pub fn stage(&self) -> Option<Stage> {
        self.stages.last().map(|latest| latest.stage)
    }

    /// Its latest stage, with what still holds of those before.
    pub fn now(&self) -> Option<Measured> {
        self.stages.iter().cloned().reduce(|before, now| {
            let mut held = before.carried_to(now.stage);
            held.over(&now);
            held
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(stage: Stage, mass: Option<f64>, spine: Option<f64>) -> Measured {
        let (mass, spine) = (mass.map(Mass::from_si), spine.map(Length::from_si));
        Measured { stage, mass, spine, ..Measured::default() }
    }

    /// The mass of a bare shaft was once taken for that of the arrow.
    #[test]
    fn law_a_later_stage_keeps_the_spine_and_not_the_mass() {
        let raw = read(Stage::Raw, Some(0.02), Some(0.0086));
        let worked =
            Worked { stages: vec![raw, read(Stage::Built, None, None)], ..Worked::default() };
        let now = worked.now();
        assert_eq!(now.as_ref().and_then(|now| now.spine), Some(Length::from_si(0.0086)));
        assert_eq!(now.map(|now| (now.mass, now.stage)), Some((None, Stage::Built)));
        assert_eq!((Worked::default().now(), worked.stage()), (None, Some(Stage::Built)));
    }
}
