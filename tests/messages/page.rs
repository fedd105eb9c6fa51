use page::{PageError, Wrong};

#[test]
fn regress_messages_of_the_page() {
    let text = |text: &str| text.to_owned();
    let all = [
        PageError::Host { host: text("clothyard.example:7373") },
        PageError::Origin,
        PageError::TooLong { length: 9000, most: 8192 },
        PageError::NotAForm { reason: text("Expected request with `Content-Type`") },
        PageError::Field { field: text("colour") },
        PageError::Value { field: "units", value: text("cubits"), allowed: "archery or metric" },
        PageError::NoFile { name: text("gone.toml") },
        PageError::Name { name: text("../x.toml") },
        PageError::Taken { name: text("mine.toml"), free: text("mine-2.toml") },
        PageError::Write { name: text("mine.toml"), cause: std::io::ErrorKind::StorageFull },
        PageError::NoPage { path: text("/nowhere") },
        PageError::TooSlow { seconds: 10 },
        PageError::Queue { before: 1 },
        PageError::Queue { before: 3 },
        PageError::Busy,
        PageError::Overtaken,
        PageError::NotHere { reason: "this scenario asks no question" },
        PageError::Wrong(vec![Wrong { field: Some("point"), text: text("no unit") }]),
        PageError::Study(study::StudyError::NoBuild),
        PageError::Report(report::ReportError::NoBuild),
        PageError::Lost,
    ];
    let lines = all.iter().map(|error| format!("{} {error}", error.status().as_u16()));
    insta::assert_snapshot!(lines.collect::<Vec<_>>().join("\n"));
}
