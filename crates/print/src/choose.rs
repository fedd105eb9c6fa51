//! Which marks are drawn, how long, and which carry a number.

use crate::look::{Finest, Ink};
use crate::tape::TapeMark;

/// Length of a mark, the longest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Rank {
    Ten,
    Fifth,
    Every,
    Half,
}

impl Rank {
    fn of(halves: u32) -> Self {
        match halves {
            h if h % 20 == 0 => Self::Ten,
            h if h % 10 == 0 => Self::Fifth,
            h if h % 2 == 0 => Self::Every,
            _ => Self::Half,
        }
    }

    fn within(self, finest: Finest) -> bool {
        match finest {
            Finest::Fifth => self <= Self::Fifth,
            Finest::Every => self <= Self::Every,
            Finest::Half => true,
        }
    }
}

/// A mark to draw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Drawn {
    pub(crate) halves: u32,
    /// From the first mark of the strip, mm.
    pub(crate) at: f64,
    pub(crate) rank: Rank,
    /// Whether its number stands beside it.
    pub(crate) numbered: bool,
}

/// Nearest that two marks may stand, mm. Chosen: at arm's length, 0.65 m, the
/// gap beside a line stays above one and a half minutes of arc by day, and
/// four in poor light.
fn least_gap(ink: Ink) -> f64 {
    match ink {
        Ink::Day => 0.45,
        Ink::LowLight => 1.0,
    }
}

/// Marks to draw: finer ones only where a whole stretch of them has room
/// between the longer ones beside it.
pub(crate) fn marks(marks: &[TapeMark], finest: Finest, ink: Ink) -> Vec<Drawn> {
    let start = marks.first().map_or(0.0, |mark| mark.travel);
    let all: Vec<Drawn> = marks
        .iter()
        .map(|mark| Drawn {
            halves: mark.halves,
            at: 1e3 * (mark.travel - start),
            rank: Rank::of(mark.halves),
            numbered: false,
        })
        .collect();
    let gap = least_gap(ink);
    let mut drawn: Vec<Drawn> = all.iter().filter(|m| m.rank == Rank::Ten).copied().collect();
    for rank in [Rank::Fifth, Rank::Every, Rank::Half] {
        if !rank.within(finest) {
            break;
        }
        let mut more = Vec::with_capacity(all.len());
        let mut from = None;
        for to in drawn.iter().map(Some).chain([None]) {
            let inside = |m: &&Drawn| {
                m.rank == rank
                    && from.is_none_or(|f: &Drawn| m.halves > f.halves)
                    && to.is_none_or(|t| m.halves < t.halves)
            };
            let new: Vec<Drawn> = all.iter().filter(inside).copied().collect();
            let line: Vec<f64> =
                from.into_iter().chain(&new).chain(to).map(|m: &Drawn| m.at).collect();
            if line.windows(2).all(|pair| pair[1] - pair[0] >= gap) {
                more.extend(new);
            }
            more.extend(to);
            from = to;
        }
        drawn = more;
    }
    drawn
}

/// Air between two numbers, mm. Chosen.
const AIR: f64 = 0.5;

/// Puts numbers beside marks: tall ones at the tens, or at 20s, 50s or 100s
/// where tens would touch, then small ones at the fives that have room.
pub(crate) fn number(drawn: &mut [Drawn], tall: f64, small: f64) {
    let apart = |drawn: &[Drawn], step: u32| {
        let at: Vec<f64> = drawn.iter().filter(|m| m.halves % step == 0).map(|m| m.at).collect();
        at.windows(2).all(|pair| pair[1] - pair[0] >= tall + AIR)
    };
    let steps = [20, 40, 100, 200];
    let step = steps.into_iter().find(|step| apart(drawn, *step)).unwrap_or(400);
    for mark in drawn.iter_mut() {
        mark.numbered = mark.halves % step == 0;
    }
    let tens: Vec<f64> = drawn.iter().filter(|m| m.numbered).map(|m| m.at).collect();
    let room = 0.5 * (tall + small) + AIR;
    let mut last = f64::NEG_INFINITY;
    for mark in drawn.iter_mut().filter(|m| m.rank <= Rank::Fifth && !m.numbered) {
        let clear = tens.iter().all(|ten| (ten - mark.at).abs() >= room);
        if clear && mark.at - last >= small + AIR {
            mark.numbered = true;
            last = mark.at;
        }
    }
}
