//! Builds side by side: what is stated for them.

use study::MOST_BUILDS;

use super::Reader;
use super::near::nearest_table;
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
