//! Phrases that messages share.

/// Why a file could not be read, in plain words.
pub(crate) fn plain(reason: std::io::ErrorKind) -> String {
    match reason {
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        std::io::ErrorKind::InvalidData => "it is not text (UTF-8)".to_owned(),
        reason => reason.to_string(),
    }
}

/// The build something holds for, if builds are listed.
pub(crate) fn in_build(build: Option<&str>) -> String {
    build.map_or_else(String::new, |name| format!(" in build \"{name}\""))
}
