//! Builds side by side: what is stated for them.

use study::{MOST_BUILDS, Stated};
use target::PowerTest;
use units::{Length, Ratio, Speed};

use super::Reader;
use super::build::nearest_table;
use crate::ScenarioError as E;
use crate::entry::Value;
use crate::schema::Id;
use crate::settle::{Entries, Settled};
use crate::source::Place;

impl Reader<'_> {
    /// Refuses more builds than fit side by side, and an error of the distance
    /// that the nearest one does not bear.
    pub(super) fn compared(&mut self, top: &Entries, builds: &[Settled], start: Place) {
        if let Some(extra) = builds.get(MOST_BUILDS) {
            // Its own first table, not one that it shares with the first build.
            let shared =
                |place: &Place| builds[0].layer.tables.values().any(|mark| mark.place == *place);
            let tables = extra.layer.tables.values().map(|mark| mark.place);
            let place = tables.filter(|place| !shared(place)).min();
            let (count, most) = (builds.len(), MOST_BUILDS);
            let place = place.unwrap_or_else(|| nearest_table(&extra.layer, "arrow", start));
            self.problem(Some(place), E::ManyBuilds { count, most });
        }
        let Some(entry) = top.get(&Id::RangeError) else { return };
        if let (Value::Fixed(error), Some(Value::Lengths(distances))) =
            (&entry.value, top.get(&Id::Distances).map(|entry| &entry.value))
            && distances.first().is_some_and(|nearest| *error >= 0.5 * nearest)
        {
            let (key, value) = (Id::RangeError.path().to_owned(), entry.written.clone());
            let value = value.trim_matches('"').to_owned();
            let allowed = "less than half the nearest of question.distances".to_owned();
            self.problem(entry.place(), E::OutOfRange { key, value, allowed });
        }
    }
}

/// What is stated for builds side by side.
pub(crate) fn stated(top: &Entries) -> Stated {
    let fixed = |id: Id| match top.get(&id).map(|entry| &entry.value) {
        Some(Value::Fixed(value)) => Some(*value),
        _ => None,
    };
    let power_test = fixed(Id::Confidence).zip(fixed(Id::Power));
    let round = match top.get(&Id::Round).map(|entry| &entry.value) {
        Some(Value::Whole(arrows)) => u32::try_from(*arrows).ok(),
        _ => None,
    };
    Stated {
        // Both were checked against their ranges as they were read.
        power_test: power_test.and_then(|(c, p)| PowerTest::new(c, p).ok()).unwrap_or_default(),
        range_error: fixed(Id::RangeError).map(Length::from_si),
        wind_error: fixed(Id::WindError).map(Speed::from_si),
        hit_share: fixed(Id::HitShare).map(Ratio::from_si),
        round,
    }
}
