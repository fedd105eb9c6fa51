//! From the fields of a form to what a command is run with.

use super::measured;
use super::tool::{FieldKind, KEPT, PREFIX, Tool, ToolField, ToolOrder};
use crate::PageError;

/// Longest text of a field that is no table, in bytes. Chosen: a dozen notes, a line each.
const LONGEST: usize = 2_000;

type Fields = Vec<(String, String)>;

/// The fields of the page's state, and those of a command without their prefix.
pub(crate) fn split(fields: Fields) -> (Fields, Fields) {
    let (own, state): (Fields, Fields) =
        fields.into_iter().partition(|(name, _)| name.starts_with(PREFIX));
    let own = own.into_iter().map(|(name, value)| (name[PREFIX.len()..].to_owned(), value));
    (state, own.collect())
}

/// What a command is run with; `scenario` is that of the page's state, and `kept` reads a
/// table of the folder, which the command then reads where it lies, among its job's others.
pub(crate) fn order(
    tool: &Tool,
    own: &Fields,
    scenario: String,
    kept: &dyn Fn(&str) -> Result<String, PageError>,
) -> Result<ToolOrder, PageError> {
    let mut given = Vec::new();
    for (name, value) in own {
        let unknown = || PageError::Field { field: name.clone() };
        // The second table of a field that takes two has a number behind its name.
        let (id, rest) = name.split_once('.').unwrap_or((name, ""));
        if id == measured::FIELD && measured::asked(tool) {
            continue;
        }
        let field = tool.fields.iter().find(|field| field.id == id).ok_or_else(unknown)?;
        let value = value.replace("\r\n", "\n");
        if field.kind != FieldKind::Table && value.len() > LONGEST {
            return Err(PageError::TooLong { length: value.len(), most: LONGEST });
        }
        if field.kind == FieldKind::Table && rest == KEPT {
            // What was typed or pasted goes first.
            let typed = own.iter().any(|(of, text)| of == id && !text.trim().is_empty());
            if !typed && !value.is_empty() {
                kept(&value)?;
                given.push((name.clone(), value));
            }
            continue;
        }
        if value.trim().is_empty() || field.kind == FieldKind::Scenario {
            continue;
        }
        match field.kind {
            FieldKind::Table => given.push((id.to_owned(), value)),
            _ if field.many => {
                let lines = value.lines().map(str::trim).filter(|line| !line.is_empty());
                given.extend(lines.map(|line| (id.to_owned(), line.to_owned())));
            }
            _ => given.push((id.to_owned(), value.trim().to_owned())),
        }
    }
    if let Some(field) = tool.of_scenario().filter(|field| field.needed || asked(field, own)) {
        given.push((field.id.clone(), measured::with(scenario, own)));
    }
    Ok(ToolOrder { tool: tool.name.clone(), given })
}

/// Whether a scenario that need not be given is.
fn asked(field: &ToolField, own: &Fields) -> bool {
    own.iter().any(|(name, value)| *name == field.id && value == "yes")
}
