//! Standing texts.

use crate::words::listed;

/// How to read the tables of differences.
pub(crate) const DIFFERENCES: &str = "A difference is called one only where its interval excludes \
    zero. For drop, drift, time, speed, energy and momentum the interval is the band of the poorly \
    known values, moved in both builds at once; for groups and hits it is the 95 % interval of \
    chance, both builds shot with the same chances. Misjudged: the group is moved as a whole.";

/// How to read the tables of misleading groups.
pub(crate) const MISLED: &str = "For round groups, by the F distribution; told.csv also holds the \
    same from groups picked among the flown impacts, whatever their shape.";

/// What the two kinds of doubt are.
pub(crate) const SURE: [&str; 3] = [
    "These are computed numbers, not measured ones. A model of your arrow is as good as what you \
     told it.",
    "Chance: a group of finitely many flights is itself a sample. The 95 % intervals say how far \
     it may be from the truth of the model.",
    "Knowledge: some values are poorly known, whatever the number of flights. All were \
     drawn together from their stated ranges, and a band holds nine tenths of what that gives.",
];

/// Names in a row: "1, 2 and 3".
pub(crate) fn row<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    let names: Vec<String> = names.into_iter().map(str::to_owned).collect();
    if names.is_empty() { "none".to_owned() } else { listed(&names, "and") }
}
