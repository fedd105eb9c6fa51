//! What is not known of a table's cells: the same tables at every outer point,
//! laid over each other.

use std::collections::HashMap;

use study::{Band, Joint, Shots};
use units::Role;

use super::{Cell, Document, Known, Table, say};

/// Rows of a document's tables by what they are about.
type Rows<'a> = HashMap<String, (&'a Table, &'a [Cell])>;

impl Document {
    /// The same, every cell with what is not known of it: `centre` and `points`
    /// are the same document at the outer points of an answer.
    pub(crate) fn known<T>(mut self, joint: &Joint<T>, centre: &Self, points: &[Self]) -> Self {
        let centre = rows(&centre.every_table());
        let points: Vec<Rows> = points.iter().map(|point| rows(&point.every_table())).collect();
        let (mut seen, mut marked) = (HashMap::new(), false);
        self.each_table(&mut |table| {
            let mut known = Vec::with_capacity(table.all_rows().len());
            for (number, row) in table.all_rows().iter().enumerate() {
                let key = row_key(table, number, &mut seen);
                let at: Vec<_> = points.iter().map(|rows| rows.get(&key).copied()).collect();
                let of = |column: usize| {
                    if table.all_columns()[column].over_all {
                        return Known::Certain;
                    }
                    let same = |&(other, row): &(&Table, &'_ [Cell])| {
                        let found = (other.all_columns().get(column)?, row.get(column)?);
                        (found.0.head == table.all_columns()[column].head).then(|| found.1.clone())
                    };
                    let centre = centre.get(&key).and_then(same);
                    let cells: Vec<Option<Cell>> =
                        at.iter().map(|found| found.as_ref().and_then(same)).collect();
                    of_cell(joint, &row[column], centre.as_ref(), &cells)
                };
                known.push((0..row.len()).map(of).collect());
            }
            marked |= known.iter().flatten().any(|of: &Known| matches!(of, Known::Usual(..)));
            table.know(known);
        });
        if marked { self.and(say(USUAL)) } else { self }
    }
}

/// What is known of one cell, by the same cell at the outer points.
fn of_cell<T>(joint: &Joint<T>, own: &Cell, centre: Option<&Cell>, at: &[Option<Cell>]) -> Known {
    if let Cell::Word(word) = own {
        let weigh = |with: &dyn Fn(&Cell) -> bool| -> f64 {
            let points = joint.points.iter().zip(at);
            points
                .filter(|(_, at)| at.as_ref().is_some_and(with))
                .fold(0.0, |sum, (point, _)| sum + point.weight)
        };
        let (all, same) = (weigh(&|_| true), weigh(&|at| *at == Cell::Word(word.clone())));
        return if all > 0.0 && same < all { Known::Stands(same / all) } else { Known::Unasked };
    }
    let ends = |pick: usize| {
        let read = |cell: &Cell| numbers(cell).map(|numbers| numbers[pick]);
        let values: Vec<Option<f64>> = at.iter().map(|at| at.as_ref().and_then(read)).collect();
        let (own, centre) = (read(own)?, read(centre?)?);
        values.iter().flatten().next()?;
        let still = values.iter().flatten().all(|value| value.to_bits() == centre.to_bits());
        let mut spread = joint.spread_of(own, centre, &values);
        // A share stays one, whatever chance adds to it.
        let share = |value: f64| (0.0..=1.0).contains(&value);
        if role(own_role(at)) == Some(Role::Percent)
            && share(own)
            && values.iter().flatten().all(|value| share(*value))
        {
            for of in &mut spread {
                of.0 = of.0.clamp(0.0, 1.0);
            }
        }
        Band::of(&spread).map(|band| (still, own, band.about(own)))
    };
    match (ends(0), ends(1)) {
        (Some((true, ..)), Some((true, ..))) => Known::Certain,
        (Some((_, own, low)), Some((_, end, high))) if own.to_bits() == end.to_bits() => {
            Known::of(own, Band { low: low.low, high: high.high })
        }
        (Some((.., low)), Some((.., high))) => Known::Band(low.low, high.high),
        _ => Known::Unasked,
    }
}

/// The first cell that is there.
fn own_role(at: &[Option<Cell>]) -> Option<&Cell> {
    at.iter().flatten().next()
}

fn role(cell: Option<&Cell>) -> Option<Role> {
    match cell? {
        Cell::Quantity(role, _) | Cell::Estimate(role, _) | Cell::Banded(role, _) => Some(*role),
        _ => None,
    }
}

/// The number of a cell, or its two ends; counts are of what was done, so they
/// are no answer.
fn numbers(cell: &Cell) -> Option<[f64; 2]> {
    match cell {
        Cell::Quantity(_, si) => Some([*si; 2]),
        Cell::Estimate(_, e) => Some([e.value; 2]),
        Cell::Banded(_, b) => Some([b.value; 2]),
        Cell::Band(_, low, high) => Some([*low, *high]),
        Cell::Shots(Shots::Each(n)) => Some([f64::from(*n); 2]),
        Cell::Shots(Shots::MoreThan(_)) => Some([f64::INFINITY; 2]),
        Cell::Word(_) | Cell::Count(_) | Cell::None(_) => None,
    }
}

fn rows<'a>(tables: &[&'a Table]) -> Rows<'a> {
    let mut seen = HashMap::new();
    let mut found = HashMap::new();
    for table in tables {
        for (number, row) in table.all_rows().iter().enumerate() {
            found.insert(row_key(table, number, &mut seen), (*table, row.as_slice()));
        }
    }
    found
}

/// What a row is about: what its table says, or else the words and distances that
/// begin it; rows alike in all of that are counted.
fn row_key(table: &Table, number: usize, seen: &mut HashMap<String, usize>) -> String {
    let about = table.about(number).map_or_else(
        || {
            let names = table.all_rows()[number].iter().map_while(Cell::named);
            names.take(LABELS).collect::<Vec<_>>().join("|")
        },
        str::to_owned,
    );
    let key = format!("{}|{about}|", table.name());
    let count = seen.entry(key.clone()).or_insert(0);
    *count += 1;
    format!("{key}{count}")
}

/// Cells that may name a row: build, what it is of, distance. Chosen: behind
/// them stand what was found, which differs from point to point.
const LABELS: usize = 4;

/// What the mark at a number says.
const USUAL: &str = "* Computed at the usual value of each thing that is poorly known. Drawn \
    together those values hardly ever give as much, or as little: the band beside it is what they \
    do give. Trust the band.";
