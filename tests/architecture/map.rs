use crate::text;

/// One row of the table of rooms.
pub(crate) struct Room {
    /// Name of the crate.
    pub(crate) name: String,
    /// Rooms it may name.
    pub(crate) ours: Vec<String>,
    /// Libraries that only this and other listed rooms may name.
    pub(crate) theirs: Vec<String>,
}

/// The table of rooms in `DEVELOPERS.md`.
pub(crate) fn rooms() -> Vec<Room> {
    let text = text("DEVELOPERS.md");
    let rooms: Vec<Room> = text
        .lines()
        .skip_while(|line| !line.starts_with("| room | owns |"))
        .skip(2)
        .take_while(|line| line.starts_with('|'))
        .map(|line| {
            let cells: Vec<&str> = line.split('|').collect();
            assert_eq!(cells.len(), 6, "four cells expected in the row: {line}");
            Room {
                name: quoted(cells[1]).concat(),
                ours: quoted(cells[3]),
                theirs: quoted(cells[4]),
            }
        })
        .collect();
    assert!(!rooms.is_empty(), "DEVELOPERS.md has no table that starts with | room | owns |");
    rooms
}

/// Libraries that every room may name, from the sentence below the table.
pub(crate) fn free() -> Vec<String> {
    let text = text("DEVELOPERS.md");
    let line = text.lines().find(|line| line.starts_with("Every room may name "));
    quoted(line.expect("DEVELOPERS.md says what 'Every room may name'"))
}

/// The words between backticks.
pub(crate) fn quoted(text: &str) -> Vec<String> {
    text.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}
