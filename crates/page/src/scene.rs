//! From a state to a scenario file, and from that to a plan.

use std::collections::BTreeMap;
use std::path::Path;

use scenario::Scenario;
use units::{Dimension, Role, Style};

use crate::base::Base;
use crate::control::{CONTROLS, DISTANCE, ZONE, control};
use crate::state::{State, Values};
use crate::{PageError, Settings, Wrong};

/// Flights of the quick answer, of the better and of the sharp one. Chosen:
/// the first shows within a blink, the last is what a scenario asks for when
/// it does not say.
pub(crate) const STAGES: [u64; 3] = [200, 2_000, 10_000];

/// The names of the two builds when one is pinned.
pub(crate) const PINNED: &str = "pinned";
pub(crate) const NOW: &str = "now";

/// Keys and values of one build.
type Keys = BTreeMap<String, String>;

/// A scenario made from a state.
pub(crate) struct Scene {
    pub(crate) scenario: Scenario,
    /// The scenario as a file.
    pub(crate) text: String,
    pub(crate) style: Style,
    /// Index of the chosen distance.
    pub(crate) at: usize,
    /// Whether the quick answer is wanted.
    pub(crate) quick: bool,
}

impl Scene {
    /// Puts a state on its scenario; `flights` for each group.
    pub(crate) fn of(state: &State, settings: &Settings, flights: u64) -> Result<Self, PageError> {
        let base = Base::open(state, settings)?;
        let style = state.units.unwrap_or(base.style);
        let (distances, at) = distances(&base, state)?;
        let mut top: Vec<(String, String)> = ["title", "note", "seed", "units"]
            .into_iter()
            .filter_map(|key| Some((key.to_owned(), said(&base, key)?)))
            .collect();
        if let Some(style) = state.units {
            let word = if style == Style::Metric { "\"metric\"" } else { "\"archery\"" };
            top.retain(|(key, _)| key != "units");
            top.push(("units".to_owned(), word.to_owned()));
        }
        let question = question(&base, state, &distances, flights);
        let now = build(&base, &state.now);
        let mut writer = Writer::default();
        writer.line("# Written by the live page of Clothyard.", None);
        for (key, value) in top {
            writer.line(&format!("{key} = {value}"), None);
        }
        writer.tables("", &question);
        match &state.pinned {
            None => writer.tables("", &now),
            Some(values) => {
                let pinned = build(&base, values);
                let shared = |(key, value): &(&String, &String)| now.get(*key) == Some(*value);
                let clone = |(key, value): (&String, &String)| (key.clone(), value.clone());
                let common: Keys = pinned.iter().filter(shared).map(clone).collect();
                writer.tables("", &common);
                for (name, keys) in [(PINNED, &pinned), (NOW, &now)] {
                    let own = keys.iter().filter(|(key, _)| !common.contains_key(*key));
                    writer.line("", None);
                    writer.line("[[build]]", None);
                    writer.line(&format!("name = \"{name}\""), None);
                    writer.tables("build.", &own.map(clone).collect());
                }
            }
        }
        let scenario = read(&writer)?;
        Ok(Self { scenario, text: writer.text, style, at, quick: flights == STAGES[0] })
    }
}

fn said(base: &Base, key: &str) -> Option<String> {
    base.said.iter().find(|said| said.needed && said.key == key).map(|said| said.value.clone())
}

/// All keys of a build: the scenario's own, then what was changed.
fn build(base: &Base, values: &Values) -> Keys {
    let other = ["question", "flight", "measured", "rigid_body"];
    let mut keys: Keys = base
        .said
        .iter()
        .filter(|said| said.needed && said.key.contains('.'))
        .filter(|said| !other.iter().any(|table| inside(said.key, table)))
        .map(|said| (said.key.to_owned(), said.value.clone()))
        .collect();
    for (id, text) in values {
        let Some(control) = control(id).filter(|control| control.id != ZONE) else { continue };
        keys.retain(|key, _| !control.rivals.iter().any(|rival| inside(key, rival)));
        for key in control.keys {
            keys.insert((*key).to_owned(), control.toml(text));
        }
    }
    keys
}

fn question(base: &Base, state: &State, distances: &[String], flights: u64) -> Keys {
    let mut keys = Keys::new();
    keys.insert("question.distances".to_owned(), format!("[{}]", distances.join(", ")));
    keys.insert("question.flights".to_owned(), flights.to_string());
    for key in ["question.zone", "question.face", "question.inner_ten", "question.arrows"] {
        keys.extend(said(base, key).map(|value| (key.to_owned(), value)));
    }
    if let (Some(text), Some(zone)) = (state.now.get(ZONE), control(ZONE)) {
        keys.retain(|key, _| !zone.rivals.contains(&key.as_str()));
        keys.insert("question.zone".to_owned(), zone.toml(text));
    }
    keys
}

/// The scenario's distances and the chosen one, rising, as TOML, and which of
/// them is the chosen one.
fn distances(base: &Base, state: &State) -> Result<(Vec<String>, usize), PageError> {
    let written = said_distances(base);
    let Some(text) = state.now.get(DISTANCE) else {
        return Ok((written, base.distances.len() / 2));
    };
    let chosen = units::parse_si(Dimension::Length, text).map_err(|error| {
        PageError::Wrong(vec![Wrong { field: Some(DISTANCE), text: error.to_string() }])
    })?;
    // A thousandth of a millimetre apart is the same mark.
    let same = base.distances.iter().position(|other| (other - chosen).abs() < 1e-6);
    if let Some(at) = same {
        return Ok((written, at));
    }
    let at = base.distances.iter().filter(|other| **other < chosen).count();
    let mut all = written;
    all.insert(at, format!("\"{text}\""));
    Ok((all, at))
}

fn said_distances(base: &Base) -> Vec<String> {
    let list = base.said.iter().find(|said| said.key == "question.distances");
    let list = list.map_or("", |said| said.value.trim_matches(['[', ']']));
    list.split(',').map(|text| text.trim().to_owned()).filter(|text| !text.is_empty()).collect()
}

/// What the page shows for the distance of a scenario that nobody changed.
pub(crate) fn usual_distance(base: &Base) -> String {
    let written = said_distances(base);
    let middle = written.get(base.distances.len() / 2);
    middle.map_or_else(
        || Role::Range.text(base.distances.first().copied().unwrap_or(0.0), base.style),
        |text| text.trim_matches('"').to_owned(),
    )
}

fn inside(key: &str, table: &str) -> bool {
    key.strip_prefix(table).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
}

/// A file in the making; it remembers which control is to blame for a line.
#[derive(Default)]
struct Writer {
    text: String,
    blame: Vec<Option<&'static str>>,
}

impl Writer {
    fn line(&mut self, line: &str, blame: Option<&'static str>) {
        self.text.push_str(line);
        self.text.push('\n');
        self.blame.push(blame);
    }

    fn tables(&mut self, prefix: &str, keys: &Keys) {
        let mut tables: BTreeMap<&str, Vec<(&str, &str)>> = BTreeMap::new();
        for (key, value) in keys {
            let (table, name) = key.rsplit_once('.').unwrap_or(("", key));
            tables.entry(table).or_default().push((name, value));
        }
        for (table, lines) in tables {
            self.line("", None);
            self.line(&format!("[{prefix}{table}]"), None);
            for (name, value) in lines {
                let key = format!("{table}.{name}");
                let blame = CONTROLS.iter().find(|control| {
                    control.keys.contains(&key.as_str())
                        || (control.id == DISTANCE && key == "question.distances")
                });
                self.line(&format!("{name} = {value}"), blame.map(|control| control.id));
            }
        }
    }
}

fn read(writer: &Writer) -> Result<Scenario, PageError> {
    let name = Path::new("page.toml");
    scenario::read(name, &|_| Ok(writer.text.clone())).map_err(|report| {
        let wrong = report.problems().iter().map(|problem| {
            let line = report.position(problem).map_or(0, |(_, line, _)| line);
            let field = writer.blame.get(line.saturating_sub(1)).copied().flatten();
            let label = problem.error.label();
            let mut text = problem.error.to_string();
            for more in std::iter::once(label).chain(problem.error.helps()) {
                if !more.is_empty() && !text.contains(&more) {
                    text = format!("{text}; {more}");
                }
            }
            Wrong { field, text }
        });
        PageError::Wrong(wrong.collect())
    })
}
