//! Hits and scores of a group.

use target::{Estimate, Face, Impact, TargetError, Zone, hit_share, mean_estimate};
use units::Length;

use crate::TargetChoice;

/// What is shot at, ready to judge impacts.
pub(crate) enum Judge {
    Zone(Zone),
    Face(Face),
}

impl Judge {
    pub(crate) fn new(choice: &TargetChoice) -> Result<Self, TargetError> {
        Ok(match *choice {
            TargetChoice::Zone { diameter } => Self::Zone(Zone::round(diameter)?),
            TargetChoice::Ellipse { width, height } => Self::Zone(Zone::elliptical(width, height)?),
            TargetChoice::Face { diameter, inner_ten } => {
                Self::Face(Face::ten_ring(diameter, inner_ten)?)
            }
        })
    }

    /// Whether an impact is a hit (a ten on a face).
    pub(crate) fn hit(&self, impact: &Impact, shaft: Length) -> bool {
        match self {
            Self::Zone(zone) => zone.hit(impact),
            Self::Face(face) => face.score(impact, shaft) >= 10,
        }
    }

    /// The scores on a face; none for a zone.
    pub(crate) fn scores(&self, impacts: &[Impact], shaft: Length) -> Option<Vec<u8>> {
        match self {
            Self::Zone(_) => None,
            Self::Face(face) => {
                Some(impacts.iter().map(|impact| face.score(impact, shaft)).collect())
            }
        }
    }

    /// Share of hits (of tens on a face) and the mean score on a face.
    pub(crate) fn judge(
        &self,
        impacts: &[Impact],
        shaft: Length,
    ) -> Result<(Estimate, Option<Estimate>), TargetError> {
        match self {
            Self::Zone(zone) => {
                let hits = impacts.iter().filter(|impact| zone.hit(impact)).count();
                Ok((hit_share(hits, impacts.len())?, None))
            }
            Self::Face(face) => {
                let scores: Vec<f64> =
                    impacts.iter().map(|impact| f64::from(face.score(impact, shaft))).collect();
                let tens = scores.iter().filter(|&&score| score >= 10.0).count();
                let mut mean = mean_estimate(&scores)?;
                mean.low = mean.low.max(0.0);
                mean.high = mean.high.min(10.0);
                Ok((hit_share(tens, impacts.len())?, Some(mean)))
            }
        }
    }
}
