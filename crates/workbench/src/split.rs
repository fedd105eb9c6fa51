use crate::set::{Sums, check};
use crate::{Place, Set, WorkbenchError, best_set, set_of};

/// Most ways to split that are all looked at. Chosen: some tenths of a second;
/// a dozen into two or three sets stays below.
const ALL_WAYS: f64 = 1e6;

/// A batch split into sets.
#[derive(Debug, Clone, PartialEq)]
pub struct Split {
    /// The sets, in the order asked.
    pub sets: Vec<Set>,
    /// Arrows in no set, rising.
    pub left_over: Vec<usize>,
    /// Root mean square distance of the arrows in sets from their own centre, m.
    pub spread: f64,
    /// No split of these sizes has a smaller one, m.
    pub bound: f64,
}

/// The first set as good as it can be, the next from what is left, and so on.
/// Each is exact.
///
/// # Errors
/// As [`best_set`]; [`WorkbenchError::Size`] when the sets need more arrows
/// than there are.
pub fn split_in_turn(places: &[Place], sizes: &[usize]) -> Result<Split, WorkbenchError> {
    check(places, sizes.iter().sum())?;
    let mut left: Vec<usize> = (0..places.len()).collect();
    let mut groups = Vec::with_capacity(sizes.len());
    for &size in sizes {
        let some: Vec<Place> = left.iter().map(|&at| places[at]).collect();
        let set = best_set(&some, size)?;
        let members: Vec<usize> = set.members.iter().map(|&at| left[at]).collect();
        left.retain(|at| !members.contains(at));
        groups.push(members);
    }
    finish(places, sizes, &groups)
}

/// All sets together as good as they can be: every way looked at where there
/// are at most a million, else arrows are swapped until no swap helps.
/// [`Split::bound`] says how much better any split could be.
///
/// # Errors
/// As [`split_in_turn`].
pub fn split_together(places: &[Place], sizes: &[usize]) -> Result<Split, WorkbenchError> {
    let start = split_in_turn(places, sizes)?;
    if ways(places.len(), sizes) <= ALL_WAYS {
        let mut search = All { places, sizes, in_set: vec![None; places.len()], best: None };
        search.place(0, &mut vec![Sums::default(); sizes.len()], &mut sizes.to_vec());
        if let Some((_, in_set)) = search.best {
            let mut split = finish(places, sizes, &groups(&in_set, sizes.len()))?;
            split.bound = split.spread;
            return Ok(split);
        }
    }
    let mut starts = vec![start.sets.into_iter().map(|set| set.members).collect::<Vec<_>>()];
    let orders: [fn(&Place) -> f64; 4] =
        [|p| p.left, |p| p.up, |p| p.left + p.up, |p| p.left - p.up];
    for read in orders {
        let mut order: Vec<usize> = (0..places.len()).collect();
        order.sort_by(|&a, &b| read(&places[a]).total_cmp(&read(&places[b])).then(a.cmp(&b)));
        let mut rest = order.as_slice();
        let mut slices = Vec::new();
        for &size in sizes {
            let (some, more) = rest.split_at(size);
            slices.push(some.to_vec());
            rest = more;
        }
        starts.push(slices);
    }
    let mut best: Option<Split> = None;
    for start in starts {
        let split = finish(places, sizes, &swapped(places, &start))?;
        if best.as_ref().is_none_or(|best| split.spread < best.spread) {
            best = Some(split);
        }
    }
    best.ok_or(WorkbenchError::Size { wanted: 0, of: places.len() })
}

fn finish(
    places: &[Place],
    sizes: &[usize],
    groups: &[Vec<usize>],
) -> Result<Split, WorkbenchError> {
    let sets: Vec<Set> = groups.iter().map(|group| set_of(places, group)).collect();
    let total: usize = sizes.iter().sum();
    let mean = |squares: f64| (squares / total as f64).sqrt();
    let squares = |set: &Set| set.spread * set.spread * set.members.len() as f64;
    // Each set the best of the whole batch, as if arrows could serve twice.
    let mut least = 0.0;
    for &size in sizes {
        least += squares(&best_set(places, size)?);
    }
    let taken = |at: &usize| groups.iter().any(|group| group.contains(at));
    let spread = mean(sets.iter().map(squares).sum());
    Ok(Split {
        left_over: (0..places.len()).filter(|at| !taken(at)).collect(),
        spread,
        bound: mean(least).min(spread),
        sets,
    })
}

/// How many ways there are to split; sets of one size count apart.
fn ways(count: usize, sizes: &[usize]) -> f64 {
    let mut left = count;
    let mut ways = 1.0;
    for &size in sizes {
        for k in 0..size {
            ways *= (left - k) as f64 / (k + 1) as f64;
        }
        left -= size;
    }
    ways
}

fn groups(in_set: &[Option<usize>], sets: usize) -> Vec<Vec<usize>> {
    let members = |set| (0..in_set.len()).filter(|&at| in_set[at] == Some(set)).collect();
    (0..sets).map(members).collect()
}

/// Looks at every way, leaving off where the sets so far cost too much.
struct All<'a> {
    places: &'a [Place],
    sizes: &'a [usize],
    in_set: Vec<Option<usize>>,
    best: Option<(f64, Vec<Option<usize>>)>,
}

impl All<'_> {
    fn place(&mut self, at: usize, sums: &mut Vec<Sums>, room: &mut Vec<usize>) {
        // A further arrow never lowers the cost of a set.
        let cost: f64 = sums.iter().map(Sums::cost).sum();
        if self.best.as_ref().is_some_and(|(best, _)| cost >= *best) {
            return;
        }
        let needed: usize = room.iter().sum();
        if needed == 0 {
            let mut in_set = self.in_set.clone();
            in_set[at..].fill(None);
            self.best = Some((cost, in_set));
            return;
        }
        for set in 0..self.sizes.len() {
            if room[set] > 0 {
                let before = sums[set];
                sums[set] = before.with(&self.places[at]);
                room[set] -= 1;
                self.in_set[at] = Some(set);
                self.place(at + 1, sums, room);
                room[set] += 1;
                sums[set] = before;
            }
        }
        if self.places.len() - at > needed {
            self.in_set[at] = None;
            self.place(at + 1, sums, room);
        }
    }
}

/// Swaps arrows between sets, and with those left over, while that helps.
fn swapped(places: &[Place], start: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let sets = start.len();
    let mut in_set: Vec<Option<usize>> =
        (0..places.len()).map(|at| start.iter().position(|group| group.contains(&at))).collect();
    let mut sums = vec![Sums::default(); sets];
    for (at, set) in in_set.iter().enumerate() {
        if let Some(set) = set {
            sums[*set].add(&places[at], 1.0);
        }
    }
    loop {
        let mut moved = false;
        for a in 0..places.len() {
            for b in a + 1..places.len() {
                let (from, to) = (in_set[a], in_set[b]);
                if from == to {
                    continue;
                }
                let cost = |sums: &[Sums]| {
                    [from, to].into_iter().flatten().map(|s| sums[s].cost()).sum::<f64>()
                };
                let mut after = sums.clone();
                for (set, out, into) in [(from, a, b), (to, b, a)] {
                    if let Some(set) = set {
                        after[set].add(&places[out], -1.0);
                        after[set].add(&places[into], 1.0);
                    }
                }
                if cost(&after) < cost(&sums) * (1.0 - 1e-9) {
                    sums = after;
                    in_set.swap(a, b);
                    moved = true;
                }
            }
        }
        if !moved {
            return groups(&in_set, sets);
        }
    }
}
