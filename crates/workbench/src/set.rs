use crate::WorkbenchError;

/// Largest distance taken, m. Chosen: far above any use, and its square summed
/// over any batch stays finite.
const LARGEST: f64 = 1e6;

/// Most arrows sorted at once. Chosen: two gross. The time goes as the number's cube, and
/// as many more would take an hour.
const MOST: usize = 288;

/// Where an arrow is expected to hit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Place {
    /// To the left, m.
    pub left: f64,
    /// Up, m.
    pub up: f64,
    /// How far it may lie off that in a direction not known: root mean square,
    /// m.
    pub blur: f64,
}

/// Arrows kept together.
#[derive(Debug, Clone, PartialEq)]
pub struct Set {
    /// Which, rising.
    pub members: Vec<usize>,
    /// Their centre, left and up, m.
    pub centre: [f64; 2],
    /// Root mean square distance from it, blur included, m.
    pub spread: f64,
}

/// Sums over a set.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Sums {
    count: f64,
    left: f64,
    up: f64,
    squares: f64,
}

impl Sums {
    pub(crate) fn add(&mut self, place: &Place, by: f64) {
        self.count += by;
        self.left += by * place.left;
        self.up += by * place.up;
        let Place { left, up, blur } = place;
        self.squares += by * (left * left + up * up + blur * blur);
    }

    pub(crate) fn with(mut self, place: &Place) -> Self {
        self.add(place, 1.0);
        self
    }

    /// Sum of the squared distances from the centre, blur included.
    pub(crate) fn cost(&self) -> f64 {
        if self.count < 0.5 {
            return 0.0;
        }
        (self.squares - (self.left * self.left + self.up * self.up) / self.count).max(0.0)
    }
}

/// Centre and spread of some arrows.
pub fn set_of(places: &[Place], members: &[usize]) -> Set {
    let count = members.len().max(1) as f64;
    let mean =
        |read: fn(&Place) -> f64| members.iter().map(|&at| read(&places[at])).sum::<f64>() / count;
    let centre = [mean(|p| p.left), mean(|p| p.up)];
    let squares: f64 = members.iter().map(|&at| apart(&places[at], centre)).sum();
    let mut members = members.to_vec();
    members.sort_unstable();
    Set { members, centre, spread: (squares / count).sqrt() }
}

/// Squared distance of a place from a centre, blur included.
pub(crate) fn apart(place: &Place, centre: [f64; 2]) -> f64 {
    (place.left - centre[0]).powi(2) + (place.up - centre[1]).powi(2) + place.blur.powi(2)
}

/// The arrows, so many of a batch, whose places spread least.
///
/// Exact. The best set holds the arrows nearest to its own centre, and its
/// centre can be moved, the set unchanged, until one arrow inside and one
/// outside are as near: so the line of such centres of every pair is walked,
/// and every set of the right size met on the way is looked at.
///
/// # Errors
/// [`WorkbenchError::Size`], [`WorkbenchError::NotAPlace`] and [`WorkbenchError::Many`].
pub fn best_set(places: &[Place], wanted: usize) -> Result<Set, WorkbenchError> {
    check(places, wanted)?;
    let n = places.len();
    let all: Vec<usize> = (0..n).collect();
    if wanted == n {
        return Ok(set_of(places, &all));
    }
    // About their middle, sums of squares keep their digits.
    let middle = set_of(places, &all).centre;
    let moved: Vec<Place> = places
        .iter()
        .map(|p| Place { left: p.left - middle[0], up: p.up - middle[1], blur: p.blur })
        .collect();
    let mut best = Best { cost: f64::INFINITY, members: Vec::new() };
    // Arrows that all lie on one spot have no such line: these serve then.
    let mut nearest = all;
    nearest.sort_by(|&a, &b| apart(&moved[a], [0.0; 2]).total_cmp(&apart(&moved[b], [0.0; 2])));
    nearest.truncate(wanted);
    let first = nearest.iter().fold(Sums::default(), |sums, &at| sums.with(&moved[at]));
    best.look(first.cost(), || nearest.clone());
    for i in 0..n {
        for j in i + 1..n {
            walk(&moved, i, j, wanted, &mut best);
        }
    }
    Ok(set_of(places, &best.members))
}

struct Best {
    cost: f64,
    members: Vec<usize>,
}

impl Best {
    fn look(&mut self, cost: f64, members: impl FnOnce() -> Vec<usize>) {
        // A hair's breadth, so that rounding alone does not choose.
        if cost < self.cost * (1.0 - 1e-12) - 1e-30 || self.members.is_empty() {
            self.cost = cost;
            self.members = members();
        }
    }
}

/// Walks the line of centres to which arrows `i` and `j` are equally near.
fn walk(places: &[Place], i: usize, j: usize, wanted: usize, best: &mut Best) {
    let (a, b) = (&places[i], &places[j]);
    let (dx, dy) = (b.left - a.left, b.up - a.up);
    let gap = dx.hypot(dy);
    if gap <= 0.0 {
        return;
    }
    let weight = |p: &Place| p.blur * p.blur;
    let (ux, uy) = (-dy / gap, dx / gap);
    let foot = (gap * gap + weight(b) - weight(a)) / (2.0 * gap);
    // From arrow i, the foot of the line.
    let (fx, fy) = (foot * dx / gap, foot * dy / gap);
    let mut inside = vec![false; places.len()];
    let (mut sums, mut count) = (Sums::default(), 0);
    let mut crossings = Vec::with_capacity(places.len());
    // Arrows on the very spot of one of the two are as near as that one.
    let (mut with_i, mut with_j) = (Vec::new(), Vec::new());
    for (at, p) in places.iter().enumerate() {
        if p == a || p == b {
            if p == a {
                with_i.push(at);
            } else {
                with_j.push(at);
            }
            continue;
        }
        let (x, y) = (p.left - a.left, p.up - a.up);
        // How much farther than arrow i it is at a step t along the line.
        let constant = x * x + y * y + weight(p) - weight(a) - 2.0 * (fx * x + fy * y);
        let slope = -2.0 * (ux * x + uy * y);
        if slope > 0.0 || (slope == 0.0 && constant < 0.0) {
            inside[at] = true;
            count += 1;
            sums.add(p, 1.0);
        }
        if slope != 0.0 {
            crossings.push((-constant / slope, at));
        }
    }
    crossings.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let ties = [[with_i.as_slice(), &with_j].concat(), [with_j.as_slice(), &with_i].concat()];
    let mut look = |inside: &[bool], sums: &Sums, count: usize| {
        if count >= wanted || wanted > count + ties[0].len() {
            return;
        }
        for ties in &ties {
            let more = &ties[..wanted - count];
            let sums = more.iter().fold(*sums, |sums, &at| sums.with(&places[at]));
            best.look(sums.cost(), || {
                (0..places.len()).filter(|at| inside[*at] || more.contains(at)).collect()
            });
        }
    };
    look(&inside, &sums, count);
    for (_, at) in crossings {
        let by = if inside[at] { -1.0 } else { 1.0 };
        count = if inside[at] { count - 1 } else { count + 1 };
        inside[at] = !inside[at];
        sums.add(&places[at], by);
        look(&inside, &sums, count);
    }
}

/// The arrows, so many of a batch, whose values (such as masses) spread least:
/// neighbours in order of value.
///
/// # Errors
/// As [`best_set`].
pub fn best_by_value(values: &[f64], wanted: usize) -> Result<Vec<usize>, WorkbenchError> {
    if let Some(at) = values.iter().position(|v| !v.is_finite() || v.abs() > LARGEST) {
        return Err(WorkbenchError::NotAPlace { index: at + 1, value: values[at] });
    }
    if wanted == 0 || wanted > values.len() {
        return Err(WorkbenchError::Size { wanted, of: values.len() });
    }
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|&a, &b| values[a].total_cmp(&values[b]).then(a.cmp(&b)));
    let spread = |window: &[usize]| {
        let mean = window.iter().map(|&at| values[at]).sum::<f64>() / window.len() as f64;
        window.iter().map(|&at| (values[at] - mean).powi(2)).sum::<f64>()
    };
    let mut best = &order[..wanted];
    for window in order.windows(wanted) {
        if spread(window) < spread(best) * (1.0 - 1e-12) {
            best = window;
        }
    }
    let mut members = best.to_vec();
    members.sort_unstable();
    Ok(members)
}

/// Whether so many arrows are sorted at once.
///
/// # Errors
/// [`WorkbenchError::Many`].
pub fn sortable(count: usize) -> Result<(), WorkbenchError> {
    if count > MOST { Err(WorkbenchError::Many { count, most: MOST }) } else { Ok(()) }
}

pub(crate) fn check(places: &[Place], wanted: usize) -> Result<(), WorkbenchError> {
    sortable(places.len())?;
    for (at, place) in places.iter().enumerate() {
        for value in [place.left, place.up, place.blur] {
            if !value.is_finite() || value.abs() > LARGEST {
                return Err(WorkbenchError::NotAPlace { index: at + 1, value });
            }
        }
    }
    if wanted == 0 || wanted > places.len() {
        return Err(WorkbenchError::Size { wanted, of: places.len() });
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::{Place, best_set, set_of};
    use crate::WorkbenchError;

    fn places() -> Vec<Place> {
        let at = |left: f64, up: f64| Place { left, up, blur: 0.0 };
        vec![at(5.0, 5.0), at(0.0, 0.1), at(0.1, 0.0), at(-4.0, 0.0), at(0.0, 0.0)]
    }

    #[test]
    fn exact_the_three_that_lie_together_are_kept() -> Result<(), WorkbenchError> {
        assert_eq!(best_set(&places(), 3)?.members, [1, 2, 4]);
        Ok(())
    }

    /// Against every set there is.
    #[test]
    fn law_no_pair_is_closer_than_the_best() -> Result<(), WorkbenchError> {
        let best = best_set(&places(), 2)?.spread;
        for i in 0..5 {
            for j in i + 1..5 {
                assert!(best <= set_of(&places(), &[i, j]).spread + 1e-15, "{i} {j}");
            }
        }
        Ok(())
    }
}
