use std::path::{Path, PathBuf};

/// A stretch of bytes in one of the files read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Place {
    /// Which file, in the order of reading.
    pub(crate) file: usize,
    pub(crate) start: usize,
    pub(crate) end: usize,
}

/// A file that was read, or could not be.
#[derive(Debug, Clone)]
pub(crate) struct Source {
    pub(crate) path: PathBuf,
    pub(crate) text: String,
    /// Where another file names this one.
    pub(crate) named_at: Option<Place>,
}

/// Every file of a scenario; and which of them are no files, but what a key
/// was set to.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sources(pub(crate) Vec<Source>, pub(crate) Vec<(usize, &'static str)>);

impl Sources {
    pub(crate) fn find(&self, path: &Path) -> Option<usize> {
        self.0.iter().position(|source| source.path == path)
    }

    pub(crate) fn add(&mut self, source: Source) -> usize {
        self.0.push(source);
        self.0.len() - 1
    }

    /// The file's name as given.
    pub(crate) fn name(&self, place: Place) -> String {
        self.0[place.file].path.display().to_string()
    }

    /// Line and column, both from 1; columns count characters.
    pub(crate) fn line_column(&self, place: Place) -> (usize, usize) {
        let before = &self.0[place.file].text[..place.start];
        let line = before.bytes().filter(|&byte| byte == b'\n').count() + 1;
        let column = before.rsplit('\n').next().map_or(0, |rest| rest.chars().count()) + 1;
        (line, column)
    }

    /// `file:line`, for comments.
    pub(crate) fn file_line(&self, place: Place) -> String {
        format!("{}:{}", self.name(place), self.line_column(place).0)
    }

    /// A place from a byte range, kept inside the text and on characters.
    pub(crate) fn place(&self, file: usize, span: std::ops::Range<usize>) -> Place {
        let text = &self.0[file].text;
        let start = text.floor_char_boundary(span.start.min(text.len()));
        let end = text.ceil_char_boundary(span.end.clamp(start, text.len()));
        Place { file, start, end }
    }
}
