//! A tree of values with units, between an answer and its JSON form. The walk
//! that writes it is the one place where a number is checked to be finite.

use serde_json::{Map, Value, json};
use target::{Estimate, Group, Impact};

use crate::ReportError;

/// A value on its way to JSON.
pub(crate) enum Node {
    /// A number with the symbol of its SI unit; "1" for a pure number.
    Number(f64, &'static str),
    /// A count of things.
    Count(u64, &'static str),
    /// A list of numbers that share a unit.
    Series(Vec<f64>, &'static str),
    /// A text.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// Nothing.
    Null,
    /// A list.
    List(Vec<Node>),
    /// Named values.
    Map(Vec<(&'static str, Node)>),
}

impl Node {
    /// A text.
    pub(crate) fn text(text: &str) -> Self {
        Self::Text(text.to_owned())
    }

    /// A count of things in memory.
    pub(crate) fn size(count: usize, unit: &'static str) -> Self {
        Self::Count(count as u64, unit)
    }

    /// A list from a slice.
    pub(crate) fn list<T>(items: &[T], node: impl Fn(&T) -> Self) -> Self {
        Self::List(items.iter().map(node).collect())
    }

    /// A value with its interval.
    pub(crate) fn estimate(estimate: &Estimate, unit: &'static str) -> Self {
        Self::Map(vec![
            ("value", Self::Number(estimate.value, unit)),
            ("low95", Self::Number(estimate.low, unit)),
            ("high95", Self::Number(estimate.high, unit)),
        ])
    }

    /// A value with its interval, or nothing.
    pub(crate) fn maybe(estimate: Option<&Estimate>, unit: &'static str) -> Self {
        estimate.map_or(Self::Null, |estimate| Self::estimate(estimate, unit))
    }

    /// A band from low to high.
    pub(crate) fn band(band: (f64, f64), unit: &'static str) -> Self {
        Self::Map(vec![("low", Self::Number(band.0, unit)), ("high", Self::Number(band.1, unit))])
    }

    /// Impacts, as one list for each direction.
    pub(crate) fn impacts(impacts: &[Impact]) -> Self {
        Self::Map(vec![
            ("left", Self::Series(impacts.iter().map(|i| i.left).collect(), "m")),
            ("up", Self::Series(impacts.iter().map(|i| i.up).collect(), "m")),
        ])
    }

    /// The statistics of a group.
    pub(crate) fn group(group: &Group) -> Self {
        Self::Map(vec![
            ("count", Self::size(group.count, "impacts")),
            ("centre_left", Self::Number(group.centre.left, "m")),
            ("centre_up", Self::Number(group.centre.up, "m")),
            ("sigma_left", Self::estimate(&group.sigma_left, "m")),
            ("sigma_up", Self::estimate(&group.sigma_up, "m")),
            ("sigma", Self::estimate(&group.sigma, "m")),
            ("mean_radius", Self::estimate(&group.mean_radius, "m")),
            ("r50", Self::estimate(&group.r50, "m")),
            ("r90", Self::estimate(&group.r90, "m")),
            ("spread6", Self::maybe(group.spread6.as_ref(), "m")),
        ])
    }

    /// Writes the tree.
    ///
    /// # Errors
    /// [`ReportError::NotFinite`] names the first bad number by its path.
    pub(crate) fn write(&self) -> Result<Value, ReportError> {
        self.write_at("")
    }

    fn write_at(&self, path: &str) -> Result<Value, ReportError> {
        Ok(match self {
            Self::Number(value, unit) => json!({ "value": finite(*value, path)?, "unit": unit }),
            Self::Count(count, unit) => json!({ "value": count, "unit": unit }),
            Self::Series(values, unit) => {
                for (at, value) in values.iter().enumerate() {
                    finite(*value, &format!("{path}[{at}]"))?;
                }
                json!({ "values": values, "unit": unit })
            }
            Self::Text(text) => json!(text),
            Self::Flag(flag) => json!(flag),
            Self::Null => Value::Null,
            Self::List(nodes) => {
                let each = nodes.iter().enumerate();
                Value::Array(
                    each.map(|(at, node)| node.write_at(&format!("{path}[{at}]")))
                        .collect::<Result<_, _>>()?,
                )
            }
            Self::Map(entries) => {
                let mut map = Map::new();
                for (key, node) in entries {
                    let dot = if path.is_empty() { "" } else { "." };
                    map.insert((*key).to_owned(), node.write_at(&format!("{path}{dot}{key}"))?);
                }
                Value::Object(map)
            }
        })
    }
}

fn finite(value: f64, path: &str) -> Result<f64, ReportError> {
    if value.is_finite() {
        Ok(value)
    } else {
        Err(ReportError::NotFinite { path: path.to_owned(), value })
    }
}
