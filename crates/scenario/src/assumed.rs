//! What was taken for lack of a word, of what moves an answer and has no range of its own.

use crate::Scenario;
use crate::entry::{Entry, Origin};
use crate::schema::Id;

/// The vanes, which slow an arrow and turn it.
const VANES: [Id; 4] = [Id::VanesCount, Id::VanesMass, Id::VanesRoot, Id::VanesSpan];

impl Scenario {
    /// What was taken of the first build, each as its key and value: the kind of bow, or
    /// how a bow of that kind is shot, vanes that nobody described, and of which arrow a
    /// speed was read.
    pub fn assumed(&self) -> Vec<String> {
        let Some(build) = self.builds.first() else { return Vec::new() };
        let told = |id: &Id, by: fn(&Origin) -> bool| -> Option<String> {
            let entry: &Entry = build.entries.get(id).filter(|entry| by(&entry.origin))?;
            Some(entry.written.trim_matches('"').to_owned())
        };
        let usual = |id: &Id| told(id, |origin| matches!(origin, Origin::Default(_)));
        let vanes: Vec<(Id, String)> =
            VANES.into_iter().filter_map(|id| Some((id, usual(&id)?))).collect();
        let mut out = match vanes.as_slice() {
            [(_, count), (_, mass), (_, root), (_, span)] => {
                vec![format!("arrow.vanes {count} of {mass}, {root} by {span}")]
            }
            some => some.iter().map(|(id, value)| format!("{} {value}", id.path())).collect(),
        };
        // What the kind of bow brought along, or that nobody wrote it.
        let brought = [Id::ReleaseBy, Id::RestKind];
        let kind = usual(&Id::BowKind).map(|kind| vec![format!("taken as a {kind} (bow.kind)")]);
        let said = |id: Id| usual(&id).map(|value| format!("{} {value}", id.path()));
        out.splice(0..0, kind.unwrap_or_else(|| brought.into_iter().filter_map(said).collect()));
        let own = told(&Id::BowSpeedMass, |origin| matches!(origin, Origin::Derived(_)));
        out.extend(own.map(|mass| format!("bow.speed_mass {mass}, this arrow's")));
        out
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    const KIND: &str = "taken as a compound (bow.kind)";

    /// Vanes that nobody wrote were in every number and in no list.
    #[test]
    fn regress_what_nobody_wrote_is_named() {
        let read = |more: &str| {
            let text = format!(
                "draw_weight = \"60 lb\"\ndraw_length = \"29 in\"\nspeed = \"285 fps\"\n\
                 arrow_length = \"28.5 in\"\nspine = 340\npoint = \"100 gr\"\n{more}"
            );
            crate::read(Path::new("my-first.toml"), &|_| Ok(text.clone())).expect("a scenario")
        };
        let first = read("");
        assert_eq!(
            first.assumed(),
            [
                KIND,
                "arrow.vanes 3 of 6 gr, 2 in by 0.5 in",
                "bow.speed_mass 369.25 gr, this arrow's"
            ]
        );
        assert_eq!(
            read("bow.kind = \"recurve\"\n").assumed()[..3],
            [
                "bow.release_by fingers",
                "bow.rest.kind side-point",
                "arrow.vanes 3 of 1.5 gr, 1.75 in by 0.3 in"
            ]
        );
        let compound = read("bow.kind = \"compound\"\narrow.vanes.root = \"2 in\"\n").assumed();
        assert_eq!(compound[0], "bow.release_by aid");
        // Without a title it is called as its file.
        assert_eq!(first.title(), "my-first");
        let more = "bow.speed_mass = \"400 gr\"\n[arrow.vanes]\nmass = \"8 gr\"\nroot = \"3 in\"\n";
        let told = [KIND, "arrow.vanes.count 3", "arrow.vanes.span 0.5 in"];
        assert_eq!(read(more).assumed(), told);
        let bare = read("bow.speed_mass = \"400 gr\"\narrow.vanes = \"none\"\n");
        assert_eq!(bare.assumed(), [KIND]);
        assert_eq!(read("title = \"Mine\"\n").title(), "Mine");
        // What a report writes down reads back so too.
        assert_eq!(read("title = \"untitled\"\n").title(), "my-first");
    }
}
