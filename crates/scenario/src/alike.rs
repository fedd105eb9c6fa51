//! Which mistakes in cells of a table are one mistake made again.

use std::mem::{Discriminant, discriminant};

use crate::ScenarioError as E;
use crate::measured::TableMistake as Mistake;

/// What two mistakes share that are told as one: their kind, and their column.
pub(crate) type Kind<'a> = (Discriminant<E>, Option<Discriminant<Mistake>>, &'a str);

/// The kind of a mistake in a cell; none for what is told one by one.
pub(crate) fn kind(error: &E) -> Option<Kind<'_>> {
    let of = discriminant(error);
    match error {
        E::Table { at: Some(at), mistake } => {
            let repeats = matches!(
                mistake,
                Mistake::NoUnit(..)
                    | Mistake::NoHour(..)
                    | Mistake::NotANumber(..)
                    | Mistake::Blank(_)
                    | Mistake::Idle(_)
            );
            repeats.then(|| (of, Some(discriminant(mistake)), at.as_str()))
        }
        E::Quantity { key, .. } | E::OutOfRange { key, .. } | E::UnknownChoice { key, .. }
            if key.starts_with("column") =>
        {
            Some((of, None, key))
        }
        _ => None,
    }
}
