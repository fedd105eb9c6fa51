//! Columns of the user's own.

use super::column::{Column, Columns, Value};
use super::names::split_head;
use super::sheet::Sheet;
use crate::source::Place;

impl Sheet {
    /// Heads of the user's own that something makes sense of, which are then no longer
    /// passed over.
    pub(super) fn claim<T>(&mut self, read: impl Fn(&str) -> Option<T>) -> Vec<(usize, T)> {
        let own = self.heads.iter_mut().enumerate();
        let own = own.filter(|(_, head)| head.column.is_none() && !head.wrong);
        own.filter_map(|(at, head)| {
            let found = read(split_head(&head.text).0)?;
            head.filled = false;
            Some((at, found))
        })
        .collect()
    }

    /// Makes a column that this table has no use for one of the user's own.
    pub(super) fn disown<C: Columns>(&mut self, column: C) {
        for at in 0..self.heads.len() {
            if self.heads[at].column == Some(column.at()) {
                let key = format!("column {}", self.key(at));
                self.problems.forget(&key);
                self.heads[at].column = None;
            }
        }
    }

    /// A cell under one of several heads of the user's own, as a column would mean it;
    /// `key` names those heads in a mistake.
    pub(super) fn own_cell(
        &mut self,
        key: &str,
        column: &Column,
        (at, text, place): &(usize, String, Place),
    ) -> Option<f64> {
        let symbol = split_head(&self.heads[*at].text).1.map(str::to_owned);
        let read =
            column.unit(key, symbol.as_deref()).and_then(|unit| column.read(key, unit, text));
        match read {
            Ok(Value::Number(si)) => Some(si),
            Ok(_) => None,
            Err(error) => {
                self.problem(*place, error);
                None
            }
        }
    }

    /// Columns of the user's own with something in them.
    pub(super) fn own(&self) -> Vec<String> {
        let own = |at: &usize| self.heads[*at].column.is_none() && self.heads[*at].filled;
        (0..self.heads.len()).filter(own).map(|at| self.key(at)).collect()
    }
}
