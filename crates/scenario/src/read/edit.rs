//! A scenario with some keys set anew.

use std::path::PathBuf;

use super::{Draft, Reader};
use crate::edit::{Edit, Setting};
use crate::entry::{Layer, Mark};
use crate::schema::{Id, Named, find};
use crate::source::{Place, Source};
use crate::{Report, Scenario, ScenarioError as E};

impl Scenario {
    /// This scenario with some keys set, in their order, each read and checked
    /// as its key is in a file. A key set drops those that say the same thing
    /// in another way.
    ///
    /// Unless an edit is for one build, a value that all builds share is set in all of
    /// them; one in which they differ, in the first.
    ///
    /// # Errors
    /// A [`Report`]; [`Report::edited`] tells which of the keys a problem
    /// belongs to.
    pub fn edited(&self, edits: &[Edit]) -> Result<Self, Report> {
        let whole: Vec<(usize, Option<String>)> =
            self.builds.iter().enumerate().map(|(at, build)| (at, build.name.clone())).collect();
        self.edited_as(&whole, edits)
    }

    /// The same with other builds: each a copy of one of this scenario's, counted from
    /// 0, under a name; a build that is not among them is left out. Edits count the builds
    /// as they are here.
    ///
    /// # Errors
    /// As [`Scenario::edited`].
    pub fn edited_as(
        &self,
        builds: &[(usize, Option<String>)],
        edits: &[Edit],
    ) -> Result<Self, Report> {
        let nowhere = |_: &std::path::Path| Err(std::io::ErrorKind::NotFound.into());
        let mut reader = Reader::new(&nowhere);
        reader.sources = self.sources.clone();
        let mut common = self.common.clone();
        let copy = |(of, name): &(usize, Option<String>)| {
            let layer = self.builds.get(*of)?.layer.clone();
            Some(Draft { name: name.clone(), layer })
        };
        let mut drafts: Vec<Draft> = builds.iter().filter_map(copy).collect();
        for edit in edits {
            let place = reader.source(edit);
            match find(edit.key) {
                Some(Named::Key(id)) if id.built() => {
                    reader.in_builds(id, edit, place, &mut drafts);
                }
                Some(Named::Key(id)) => {
                    let layer = std::mem::take(&mut common);
                    common = reader.over(id, &edit.to, place, layer);
                }
                Some(Named::Table(table)) => {
                    let mut change = Layer::default();
                    let none = edit.to == Setting::NoTable;
                    change.tables.insert(table.path, Mark { place, none });
                    let layers = drafts.iter_mut().enumerate().filter(|(at, _)| {
                        table.in_build && edit.build.is_none_or(|build| build == *at)
                    });
                    for layer in layers.map(|(_, draft)| &mut draft.layer).chain([&mut common]) {
                        *layer = std::mem::take(layer).under(change.clone());
                    }
                }
                None => {
                    let key = edit.key.to_owned();
                    let (near, elsewhere, allowed) = (None, Vec::new(), Vec::new());
                    reader.problem(Some(place), E::UnknownKey { key, near, elsewhere, allowed });
                }
            }
        }
        let start = Place { file: 0, start: 0, end: 0 };
        let more = (self.steps.clone(), self.clues.clone());
        let scenario = reader.settle((common, drafts), more, start);
        reader.end(scenario)
    }
}

impl Reader<'_> {
    /// The text of an edit as a source of its own.
    fn source(&mut self, edit: &Edit) -> Place {
        let text = edit.to.text().to_owned();
        let end = text.len();
        let path = PathBuf::from(edit.key);
        let file = self.sources.add(Source { path, text, named_at: None });
        self.sources.1.push((file, edit.key));
        Place { file, start: 0, end }
    }

    /// Sets a key of builds: in the one that is meant; else in all that say the same, or
    /// in the first.
    fn in_builds(&mut self, id: Id, edit: &Edit, place: Place, drafts: &mut [Draft]) {
        let said = |draft: &Draft| draft.layer.entries.get(&id).map(|entry| entry.written.clone());
        let shared = drafts.windows(2).all(|pair| said(&pair[0]) == said(&pair[1]));
        for (at, draft) in drafts.iter_mut().enumerate() {
            if edit.build.map_or(shared || at == 0, |build| build == at) {
                draft.layer = self.over(id, &edit.to, place, std::mem::take(&mut draft.layer));
            }
        }
    }
}
