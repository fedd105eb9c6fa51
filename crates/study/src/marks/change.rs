//! Change tables: the same sight, one value of the scenario changed.

use rayon::prelude::*;

use super::tables::MarkTables;
use super::{ChangeValue, MarkChange, SightedArrow};
use crate::first::all_or_first;
use crate::{StudyError, Sweep};

impl MarkTables<'_> {
    pub(super) fn changes(&self) -> Result<Vec<MarkChange>, StudyError> {
        self.plan.changes.iter().map(|sweep| self.change(sweep)).collect()
    }

    fn change(&self, sweep: &Sweep) -> Result<MarkChange, StudyError> {
        let both: Vec<_> = sweep.values.iter().zip(&sweep.labels).collect();
        let values = all_or_first(both.into_par_iter().map(|(&value, label)| {
            let changed = [(sweep.slot, value)];
            let marker = SightedArrow::new(self.variant.recipe, &changed, &self.plan.build)?;
            self.changed(&marker, value, label)
        }))?;
        Ok(MarkChange { key: sweep.key.clone(), dimension: sweep.dimension, values })
    }

    fn changed(
        &self,
        marker: &SightedArrow,
        value: f64,
        label: &str,
    ) -> Result<ChangeValue, StudyError> {
        let geometry = self.marker.geometry();
        let down = |launch: f64, then: f64, distance: f64| {
            let pin = |launch| geometry.pin(geometry.depression(launch, distance));
            pin(launch) - pin(then)
        };
        let at_zero = down(self.zero_launch, marker.launch(self.zero)?, self.zero);
        let (mut shifts, mut moves) = (Vec::new(), Vec::new());
        for &(distance, launch) in &self.places {
            shifts.push(marker.impact(launch, distance)?.up);
            moves.push(down(launch, marker.launch(distance)?, distance));
        }
        Ok(ChangeValue {
            value,
            label: label.to_owned(),
            speed: marker.departure().speed,
            rezeroed: moves.iter().map(|down| down - at_zero).collect(),
            shifts,
            moves,
        })
    }
}
