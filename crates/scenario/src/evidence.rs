//! What was measured, as the file has it, and as the study takes it.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::sync::Arc;

use study::{Against, Evidence, Measured, MeasuredShift, Moved, Recipe};
use units::{Length, Quantity};

use crate::entry::Layer;
use crate::recipe::BuildRecipe;
use crate::schema::{
    EVIDENCE_AGAINST, EVIDENCE_AT, EVIDENCE_BUILD, EVIDENCE_KEY, EVIDENCE_KIND, EVIDENCE_NAME,
    EVIDENCE_OWN, Id, Named, find,
};
use crate::settle::{AS_GIVEN, Settled};
use crate::source::Place;
use crate::written::quoted;

/// The kind of two builds shot against each other.
pub(crate) const BUILDS_APART: &str = "builds-apart";

/// One measured thing as the file has it.
#[derive(Debug, Clone)]
pub(crate) struct Clue {
    pub(crate) place: Place,
    /// Its texts, checked.
    pub(crate) texts: BTreeMap<&'static str, String>,
    /// Its numbers, SI, and as written.
    pub(crate) numbers: BTreeMap<&'static str, (f64, String)>,
    /// What the arrow or the bow it was measured with has otherwise.
    pub(crate) layer: Layer,
}

impl Clue {
    fn text(&self, key: &str) -> &str {
        self.texts.get(key).map_or("", String::as_str)
    }

    fn number(&self, key: &str) -> Option<f64> {
        self.numbers.get(key).map(|(si, _)| *si)
    }

    fn at<Q: Quantity>(&self, key: &str) -> Q {
        Q::from_si(self.number(key).unwrap_or_default())
    }

    /// What it is called.
    pub(crate) fn name(&self, at: usize) -> String {
        match self.text(EVIDENCE_NAME) {
            "" => format!("{} ({})", self.text(EVIDENCE_KIND), at + 1),
            name => name.to_owned(),
        }
    }

    /// The build it was measured with.
    pub(crate) fn build<'a>(&self, builds: &'a [Settled]) -> Option<&'a Settled> {
        match self.text(EVIDENCE_BUILD) {
            "" => builds.first(),
            name => named(name, builds).map(|place| &builds[place]),
        }
    }

    /// That build as it was when it was measured.
    pub(crate) fn settled(&self, build: &Settled) -> Settled {
        Settled::of(build.name.clone(), build.layer.clone().under(self.layer.clone()))
    }

    /// What it measured; `against` makes a recipe of the build it was shot against.
    fn what(&self, against: impl Fn(&str) -> Option<Arc<dyn Recipe>>) -> Option<Measured> {
        let sides = ["left", "up"].map(|side| self.number(side).unwrap_or_default());
        let distance: Length = self.at("distance");
        let shift =
            |how| Measured::Shift(MeasuredShift { distance, shift: sides, how, error: None });
        Some(match self.text(EVIDENCE_KIND) {
            "nock-turned" => shift(Moved::NockTurn(self.number("nock_turn")?)),
            "bare-shaft" => shift(Moved::Bare),
            BUILDS_APART => {
                let against = Against(against(self.text(EVIDENCE_AGAINST))?);
                Measured::Apart { distance, shift: sides, against }
            }
            "push" => Measured::Push {
                force: self.at("force"),
                give: sides,
                drawn: self.text(EVIDENCE_AT) == "full-draw",
            },
            "chronograph" => Measured::Speed { distance, speed: self.at("speed") },
            "drop" => Measured::Drop { near: distance, far: self.at("far"), drop: self.at("drop") },
            "spin" => Measured::Spin { distance, rate: self.at("rate") },
            "tear" => Measured::Tear { distance, tear: sides },
            _ => {
                let Some(Named::Key(id)) = find(self.text(EVIDENCE_KEY)) else { return None };
                Measured::Value {
                    key: id.path().to_owned(),
                    dimension: id.number()?.dimension,
                    value: self.number("value")?,
                }
            }
        })
    }

    /// How far the bow was drawn when its nock was pushed; none for anything else.
    pub(crate) fn pushed(&self) -> Option<f64> {
        let drawn = f64::from(u8::from(self.text(EVIDENCE_AT) == "full-draw"));
        (self.text(EVIDENCE_KIND) == "push").then_some(drawn)
    }

    fn sides(&self) -> [bool; 2] {
        ["left", "up"].map(|side| self.numbers.contains_key(side))
    }

    /// As TOML.
    pub(crate) fn write(&self, out: &mut String) {
        out.push_str("\n[[evidence]]\n");
        for name in EVIDENCE_OWN {
            let text = self.texts.get(name).map(|text| quoted(text));
            let written =
                text.or_else(|| self.numbers.get(name).map(|(_, as_said)| as_said.clone()));
            if let Some(written) = written {
                let _ = writeln!(out, "{name} = {written}");
            }
        }
        // A mass is said by its own key.
        let own = |id: &Id| *id == Id::GivenMass && self.numbers.contains_key("mass");
        for (id, entry) in self.layer.entries.iter().filter(|(id, _)| !own(id)) {
            let _ = writeln!(out, "{} = {}", id.path(), entry.written);
        }
    }
}

/// Place of a build by its name.
pub(crate) fn named(name: &str, builds: &[Settled]) -> Option<usize> {
    builds.iter().position(|build| build.name.as_deref().unwrap_or(AS_GIVEN) == name)
}

/// What was measured, ready for the study.
pub(crate) fn evidence(
    clues: &[Clue],
    builds: &[Settled],
    recipes: &[BuildRecipe],
) -> Vec<Evidence> {
    // Things measured with a build as it stands share its recipe.
    let own: Vec<Arc<dyn Recipe>> =
        recipes.iter().map(|of| Arc::new(of.clone()) as Arc<dyn Recipe>).collect();
    let one = |(at, clue): (usize, &Clue)| {
        let build = clue.build(builds)?;
        let recipe = if clue.layer.entries.is_empty() && clue.layer.tables.is_empty() {
            let place = builds.iter().position(|other| std::ptr::eq(other, build))?;
            Arc::clone(&own[place])
        } else {
            Arc::new(BuildRecipe::new(&clue.settled(build), None)) as Arc<dyn Recipe>
        };
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked")]
        let shots = clue.number("shots").unwrap_or(1.0) as u32;
        let against = |name: &str| named(name, builds).map(|place| Arc::clone(&own[place]));
        let (name, what) = (clue.name(at), clue.what(against)?);
        let (sides, error) = (clue.sides(), clue.number("error"));
        Some(Evidence { name, recipe, what, sides, shots, error })
    };
    clues.iter().enumerate().filter_map(one).collect()
}
