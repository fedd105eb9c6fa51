use units::{Angle, Length, LinearDensity, Mass};

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
    /// The bare shaft as it was weighed and measured at an earlier stage, each where it was.
    pub earlier: Bare,
}

/// A bare shaft, weighed and measured.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bare {
    /// Its mass.
    pub mass: Option<Mass>,
    /// The length that it then had.
    pub length: Option<Length>,
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
    /// run-out, and what it weighed for its length. Mass, length, balance and wobbles do not.
    #[must_use]
    pub fn carried_to(self, stage: Stage) -> Self {
        if self.stage.finished() == stage.finished() && self.stage != Stage::Raw {
            return Self { stage, ..self };
        }
        let Self { name, spine, stiff, run_out, mass, length, earlier, .. } = self;
        let earlier = if self.stage.finished() || mass.is_none() && length.is_none() {
            earlier
        } else {
            Bare { mass, length }
        };
        Self { name, stage, spine, stiff, run_out, earlier, ..Self::default() }
    }

    /// Mass for its length of a bare shaft that was weighed over a known length before it was
    /// cut: it is alike all along. Model card: docs/model/pairing.md.
    pub fn density(&self) -> Option<LinearDensity> {
        let Bare { mass, length } = self.earlier;
        let (mass, length) = (mass?.si(), length?.si());
        (!self.stage.finished() && length > 0.0).then(|| LinearDensity::from_si(mass / length))
    }

    /// The same, a bare shaft that was not weighed again standing at what it weighed for its
    /// length.
    #[must_use]
    pub fn weighed(mut self) -> Self {
        if let (None, Some(density), Some(length)) = (self.mass, self.density(), self.length) {
            self.mass = Some(Mass::from_si(density.si() * length.si()));
        }
        self
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
    /// What was remarked, and at which stage, the stages rising.
    pub remarks: Vec<(Stage, String)>,
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

    #[test]
    fn exact_a_cut_shaft_weighs_what_it_weighed_for_its_length() {
        let long = |stage, length| Measured {
            stage,
            length: Some(Length::from_si(length)),
            ..Measured::default()
        };
        let raw = Measured { mass: Some(Mass::from_si(0.02)), ..long(Stage::Raw, 0.8) };
        let now = |stages: Vec<Measured>| {
            Worked { stages, ..Worked::default() }.now().map(Measured::weighed).and_then(|m| m.mass)
        };
        let cut = now(vec![raw.clone(), long(Stage::Cut, 0.72)]).map(Mass::si);
        assert!(cut.is_some_and(|mass| (mass - 0.018).abs() < 1e-12), "{cut:?}");
        // Squared it still is that; weighed again it is what the scale says.
        let squared = [raw.clone(), long(Stage::Cut, 0.72), read(Stage::Squared, None, None)];
        let squared = now(squared.to_vec()).map(Mass::si);
        assert!(squared.is_some_and(|mass| (mass - 0.018).abs() < 1e-12), "{squared:?}");
        let again = Measured { mass: Some(Mass::from_si(0.019)), ..long(Stage::Cut, 0.72) };
        assert_eq!(now(vec![raw.clone(), again]), Some(Mass::from_si(0.019)));
        // Of an arrow it says nothing, nor without a length.
        assert_eq!(now(vec![raw, read(Stage::Built, None, None)]), None);
        let short = read(Stage::Raw, Some(0.02), None);
        assert_eq!(now(vec![short, long(Stage::Cut, 0.72)]), None);
    }
}
