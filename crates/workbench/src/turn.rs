use body::Across;
use units::Angle;

use crate::set::{apart, check};
use crate::{Harmonic, Place, WorkbenchError, harmonic};

/// Nocks turned so that a set hits closest together.
#[derive(Debug, Clone, PartialEq)]
pub struct Turned {
    /// For each arrow, which of its positions to use.
    pub choice: Vec<usize>,
    /// The set's centre then, left and up, m.
    pub centre: [f64; 2],
    /// Root mean square distance from it, m.
    pub spread: f64,
}

/// For each arrow the position, of those it may take, at which the whole set
/// spreads least about its centre.
///
/// The nearest position to a centre is taken for every arrow, and the centre of
/// those positions next, until nothing changes; every position of every arrow
/// serves as a first centre. The first position is kept where another is no
/// nearer.
///
/// # Errors
/// [`WorkbenchError::Size`] for an arrow without positions,
/// [`WorkbenchError::NotAPlace`].
pub fn best_turns(arrows: &[Vec<Place>]) -> Result<Turned, WorkbenchError> {
    check(&vec![Place::default(); arrows.len()], arrows.len())?;
    for places in arrows {
        check(places, 1)?;
    }
    let mut best: Option<Turned> = None;
    for first in arrows.iter().flatten() {
        let mut centre = [first.left, first.up];
        let mut choice = nearest(arrows, centre);
        loop {
            centre = middle(arrows, &choice);
            let next = nearest(arrows, centre);
            if next == choice {
                break;
            }
            // Each round lowers the sum of squares, so this ends.
            if cost(arrows, &next, middle(arrows, &next)) >= cost(arrows, &choice, centre) {
                break;
            }
            choice = next;
        }
        let spread = (cost(arrows, &choice, centre) / arrows.len() as f64).sqrt();
        if best.as_ref().is_none_or(|best| spread < best.spread * (1.0 - 1e-12)) {
            best = Some(Turned { choice, centre, spread });
        }
    }
    best.ok_or(WorkbenchError::Size { wanted: 1, of: 0 })
}

fn nearest(arrows: &[Vec<Place>], centre: [f64; 2]) -> Vec<usize> {
    let one = |places: &Vec<Place>| {
        let mut best = 0;
        for at in 1..places.len() {
            if apart(&places[at], centre) < apart(&places[best], centre) * (1.0 - 1e-9) {
                best = at;
            }
        }
        best
    };
    arrows.iter().map(one).collect()
}

fn middle(arrows: &[Vec<Place>], choice: &[usize]) -> [f64; 2] {
    let count = arrows.len() as f64;
    let chosen = || arrows.iter().zip(choice).map(|(places, &at)| &places[at]);
    [chosen().map(|p| p.left).sum::<f64>() / count, chosen().map(|p| p.up).sum::<f64>() / count]
}

fn cost(arrows: &[Vec<Place>], choice: &[usize], centre: [f64; 2]) -> f64 {
    arrows.iter().zip(choice).map(|(places, &at)| apart(&places[at], centre)).sum()
}

/// What shots with the nock at several positions say of one arrow: a centre and
/// one wave in each direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurnFit {
    /// Left against the nock's turn, m.
    pub left: Harmonic,
    /// Up against the nock's turn, m.
    pub up: Harmonic,
    /// Scatter of a shot about the fit, one direction, m.
    pub noise: f64,
    /// Degrees of freedom of that scatter.
    pub freedom: usize,
}

/// Fits shots (turn of the nock, left, up in m) with one arrow.
///
/// # Errors
/// [`WorkbenchError::FewShots`] below three positions or without a shot to
/// spare, [`WorkbenchError::Clocks`] for positions in a row.
pub fn fit_turns(shots: &[(Angle, [f64; 2])]) -> Result<TurnFit, WorkbenchError> {
    let mut turns: Vec<i64> = shots.iter().map(|(turn, _)| whole_millirad(turn.si())).collect();
    turns.sort_unstable();
    turns.dedup();
    let positions = turns.len();
    if positions < 3 || shots.len() <= positions {
        return Err(WorkbenchError::FewShots { shots: shots.len(), positions });
    }
    let side = |at: usize| -> Result<Harmonic, WorkbenchError> {
        let pairs: Vec<(f64, f64)> = shots.iter().map(|(turn, hit)| (turn.si(), hit[at])).collect();
        harmonic(&pairs)
    };
    let (left, up) = (side(0)?, side(1)?);
    // Both directions scatter alike.
    let noise = f64::midpoint(left.noise.powi(2), up.noise.powi(2)).sqrt();
    Ok(TurnFit { left, up, noise, freedom: left.freedom + up.freedom })
}

/// The turn in thousandths of a radian, within one turn.
#[expect(clippy::cast_possible_truncation, reason = "within one turn")]
fn whole_millirad(turn: f64) -> i64 {
    (turn.rem_euclid(std::f64::consts::TAU) * 1e3).round() as i64 % 6283
}

impl TurnFit {
    /// Where the arrow hits with the nock turned by so much, left and up, m.
    pub fn at(&self, turn: Angle) -> [f64; 2] {
        let place = |wave: &Harmonic| wave.mean + wave.above(turn.si());
        [place(&self.left), place(&self.up)]
    }

    /// Standard error of how far apart two positions hit, one direction, m.
    pub fn error_between(&self, one: Angle, other: Angle) -> f64 {
        let along = Across::polar(1.0, one.si()) - Across::polar(1.0, other.si());
        self.left.error(self.noise, along)
    }

    /// Radius of the ring on which the arrow hits as its nock turns: root mean
    /// square over the turn, m.
    pub fn ring(&self) -> f64 {
        f64::midpoint(self.left.wave.size().powi(2), self.up.wave.size().powi(2)).sqrt()
    }
}
