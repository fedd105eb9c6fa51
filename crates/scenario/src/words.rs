//! Words of a build as types of other rooms.
//!
//! Each choice has one list of its words and their meanings. A word that is in
//! none is refused by its key: it is never taken for some other choice.

use arrow::{PointShape, Straightness};
use launch::{BowKind, DrawCurve, RestKind, Side};
use study::Refused;
use units::{Force, Length, Mass, Speed};

use crate::entry::Entry;
use crate::fit::middle;
use crate::schema::Id;
use crate::settle::Entries;

const BOWS: &[(&str, BowKind)] = &[
    ("compound", BowKind::Compound),
    ("recurve", BowKind::Recurve),
    ("longbow", BowKind::Longbow),
];
const RESTS: &[(&str, RestKind)] = &[
    ("drop-away", RestKind::DropAway),
    ("containment", RestKind::Containment),
    ("side-point", RestKind::SidePoint),
    ("shelf", RestKind::Shelf),
];
const SIDES: &[(&str, Side)] = &[("left", Side::Left), ("right", Side::Right)];
const SHAPES: &[(&str, PointShape)] = &[
    ("streamlined", PointShape::Streamlined),
    ("field", PointShape::Field),
    ("bullet", PointShape::Bullet),
    ("blunt", PointShape::Blunt),
    ("fixed-blade", PointShape::FixedBlade),
    ("closed-blade", PointShape::ClosedBlade),
];
/// What a bend reading is.
type Measure = fn(Length) -> Straightness;
const MEASURES: &[(&str, Measure)] =
    &[("total", Straightness::Total), ("plus-minus", Straightness::PlusMinus)];
const SPEEDS: &[(&str, ())] = &[("stored", ())];

/// The choices of a build, and what was read of its bow.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Words {
    pub(crate) bow: BowKind,
    pub(crate) rest: RestKind,
    pub(crate) side: Side,
    /// The force-draw curve, if read.
    pub(crate) curve: Option<DrawCurve>,
    /// The reading that stands for all chronograph readings, if several.
    pub(crate) read: Option<(Speed, Mass)>,
    /// Whether the speed comes from the stored energy.
    pub(crate) stored: bool,
    pub(crate) shape: PointShape,
    /// What a bend reading is, if there is one.
    measure: Option<Measure>,
}

impl Words {
    /// # Errors
    /// A word that means nothing, or a choice that is not made.
    pub(crate) fn of(entries: &Entries) -> Result<Self, Refused> {
        let rows = |id: Id| entries.get(&id).and_then(Entry::rows);
        let point = |[draw, force]: &[f64; 2]| (Length::from_si(*draw), Force::from_si(*force));
        // The reader has checked the readings.
        let curve =
            |rows: &[[f64; 2]]| DrawCurve::new(&rows.iter().map(point).collect::<Vec<_>>()).ok();
        Ok(Self {
            bow: chosen(entries, Id::BowKind, BOWS)?,
            rest: chosen(entries, Id::RestKind, RESTS)?,
            side: chosen(entries, Id::RestSide, SIDES)?,
            curve: rows(Id::BowCurve).and_then(curve),
            read: rows(Id::BowReadings).map(middle),
            stored: choice(entries, Id::BowSpeedFrom, SPEEDS)?.is_some(),
            shape: chosen(entries, Id::PointShape, SHAPES)?,
            measure: choice(entries, Id::BendMeasure, MEASURES)?,
        })
    }

    /// A bend as it was read.
    ///
    /// # Errors
    /// Nothing says how it was read.
    pub(crate) fn straightness(&self, reading: Length) -> Result<Straightness, Refused> {
        let measure = self.measure.ok_or_else(|| refused(Id::BendMeasure, "", MEASURES))?;
        Ok(measure(reading))
    }
}

/// What the word of a choice means, if the choice is made.
fn choice<T: Copy>(
    entries: &Entries,
    id: Id,
    meanings: &[(&str, T)],
) -> Result<Option<T>, Refused> {
    let Some(said) = entries.get(&id).and_then(Entry::text) else { return Ok(None) };
    let found = meanings.iter().find(|(word, _)| *word == said);
    found.map(|(_, meaning)| Some(*meaning)).ok_or_else(|| refused(id, said, meanings))
}

/// What the word of a choice means that every build makes.
fn chosen<T: Copy>(entries: &Entries, id: Id, meanings: &[(&str, T)]) -> Result<T, Refused> {
    choice(entries, id, meanings)?.ok_or_else(|| refused(id, "", meanings))
}

fn refused<T>(id: Id, said: &str, meanings: &[(&str, T)]) -> Refused {
    let allowed: Vec<&str> = meanings.iter().map(|(word, _)| *word).collect();
    Refused { key: id.path().to_owned(), value: format!("\"{said}\""), allowed: allowed.join(", ") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Origin, Value};
    use crate::schema::Kind;

    fn entries(changed: Id, word: &str) -> Entries {
        let usual = [
            (Id::BowKind, "recurve"),
            (Id::RestKind, "shelf"),
            (Id::RestSide, "right"),
            (Id::PointShape, "bullet"),
            (Id::BendMeasure, "plus-minus"),
        ];
        let said = usual.into_iter().chain([(changed, word)]);
        let entry = |word: &str| Entry {
            value: Value::Text(word.to_owned()),
            written: String::new(),
            origin: Origin::CommandLine,
        };
        said.map(|(id, word)| (id, entry(word))).collect()
    }

    /// An unknown word once fell to the first variant: a recurve misspelt in the
    /// key table would have been pushed as a compound.
    #[test]
    fn regress_an_unknown_word_is_refused_not_taken_for_another() {
        for id in [Id::BowKind, Id::RestKind, Id::RestSide, Id::PointShape, Id::BendMeasure] {
            let error = Words::of(&entries(id, "recurv")).expect_err("not a word");
            assert_eq!((error.key.as_str(), error.value.as_str()), (id.path(), "\"recurv\""));
            assert!(error.allowed.contains(", "), "{error:?}");
            assert!(Words::of(&entries(id, "")).is_err());
        }
    }

    /// A bend whose reading nothing explains was once taken for a total.
    #[test]
    fn regress_a_bend_without_its_measure_is_refused_not_taken_for_a_total() {
        let mut entries = entries(Id::RestSide, "left");
        let read = |entries: &Entries| Words::of(entries)?.straightness(Length::from_si(1e-3));
        assert_eq!(read(&entries), Ok(Straightness::PlusMinus(Length::from_si(1e-3))));
        entries.remove(&Id::BendMeasure);
        let error = read(&entries).expect_err("nothing says how it was read");
        assert_eq!(error.key, Id::BendMeasure.path());
    }

    /// The key table and the meanings hold the same words.
    #[test]
    fn law_every_word_of_the_key_table_has_its_meaning() {
        fn words<T>(meanings: &[(&'static str, T)]) -> Vec<&'static str> {
            meanings.iter().map(|(word, _)| *word).collect()
        }
        for (id, meant) in [
            (Id::BowKind, words(BOWS)),
            (Id::RestKind, words(RESTS)),
            (Id::RestSide, words(SIDES)),
            (Id::PointShape, words(SHAPES)),
            (Id::BendMeasure, words(MEASURES)),
            (Id::BowSpeedFrom, words(SPEEDS)),
        ] {
            let Kind::Choice(allowed) = id.key().kind else { panic!("{id:?} is no choice") };
            assert_eq!(allowed, meant, "{id:?}");
        }
    }
}
