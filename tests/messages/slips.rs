//! What a first user reads, whose six lines in ordinary words hold one slip.

use std::path::Path;

use scenario::read;

/// The scenario of the front page.
const FIRST: &str = r#"bow = "compound"
draw_weight = "62 lb"
draw_length = "29 in"
speed = "272 fps"
arrow_length = "28 1/2 in"
spine = 340
point = "125 grains"
"#;

fn told(text: &str) -> String {
    match read(Path::new("my.toml"), &|_| Ok(text.to_owned())) {
        Ok(_) => panic!("it should be refused: {text}"),
        Err(report) => report.render(false),
    }
}

/// The scenario with these lines in place of those with their keys.
fn with(lines: &str) -> String {
    // Blanks and underscores are one here.
    let key =
        |line: &str| line.split(['=', ':']).next().unwrap_or_default().trim().replace('_', " ");
    let keys: Vec<String> = lines.lines().map(key).collect();
    let others: Vec<&str> = FIRST.lines().filter(|line| !keys.contains(&key(line))).collect();
    format!("{lines}\n{}\n", others.join("\n"))
}

/// What is told of each of these lines in turn.
fn each(lines: &[&str]) -> String {
    lines.iter().map(|line| told(&with(line))).collect::<Vec<_>>().join("\n\n")
}

shows! {
    // The help said arrow_arrow_length, and no unit.
    regress_message_slip_no_quotes: each(&[
        "arrow_length = 28 1/2",
        "arrow_length = 28 1/2 # cut\r",
        "draw_weight = 65 lb",
        "bow = compound",
        "wind = 10 mph from the left",
        "distances = 20, 30, 40",
        "distances = [20, 30 yd]",
        "title = My elk arrow",
    ]);
    // It said that string values must be quoted.
    regress_message_slip_curly_quotes: each(&[
        "draw_weight = \u{201c}65 lb\u{201d}",
        "draw_weight = \u{2018}65 lb\u{2019}",
        "arrow_length = \u{201c}28 1/2\u{2033}\u{201d}",
        "distances = [\u{201c}20 yd\u{201d}, \u{201c}40 yd\u{201d}]",
    ]);
    regress_message_slip_one_quote: each(&[
        "speed = 28.5\"",
        "speed = \"280 fps",
        "draw_length = 28 1/2\"",
        "spine = 340\"",
        "point = \"125\" grains",
    ]);
    regress_message_slip_blank_in_a_key: each(&[
        "arrow speed = \"280 fps\"",
        "draw weight = 65 lb",
    ]);
    regress_message_slip_no_equals: each(&[
        "bow : \"compound\"",
        "speed: 280 fps",
        "draw weight 65 lb",
        "spine 340",
    ]);
    regress_message_slip_below_a_table: told(&format!(
        "{FIRST}[arrow.insert]\nmass = 25 grains\n[wind]\nspeed : \"5 mph\"\n[[build]]\nname = squared\n[build.arrow.nock]\nmass = \"9 gr\n"
    ));
    // What is not known stays as the parser says it.
    regress_message_slip_unknown: each(&["== 3", "speed = {", "point = \"\"\"", "?"]);
    // It asked for flight.
    regress_message_slip_half_a_key: each(&[
        "weight = \"65 lb\"",
        "weight = \"420 gr\"",
        "weight = 65",
        "length = \"28.5 in\"",
        "type = \"recurve\"",
    ]);
    regress_message_slip_a_part_at_the_top: each(&[
        "insert = \"25 grains\"",
        "nock = \"9 gr\"",
        "humidity = \"40 %\"",
    ]);
    // Three lines of keys.
    regress_message_slip_no_such_key: each(&[
        "broadhead = \"100 gr\"",
        "foc = \"12 %\"",
        "wind_sped = \"5 mph\"",
        "zzz = 1",
    ]);
    regress_message_slip_several_in_one_text: each(&[
        "distances = \"20, 30, 40\"",
        "distance = \"20 m; 30; 50 and 70\"",
        "distances = 40",
    ]);
    regress_message_slip_wind: each(&[
        "wind = 10",
        "wind = [\"10 mph\"]",
        "wind = \"10 mph left\"",
        "wind = \"10 mph crosswind\"",
        "wind = \"10 mph NW\"",
        "wind = \"10 mph from the left to 4 o'clock\"",
    ]);
    // Ends such as 1.09361 yd and 0.393701 in.
    regress_message_slip_ranges: each(&[
        "distances = [\"400 yd\"]",
        "zone = \"90 in\"",
        "point = \"100 g\"",
        "draw_weight = \"200 lbs\"",
        "draw_weight = 62",
    ]);
}

/// A wind from one side to the other says one thing.
#[test]
fn regress_a_wind_from_left_to_right_is_read() {
    for wind in ["10 mph from the left to right", "10 mph from left to right"] {
        let text = format!("wind = \"{wind}\"\n{FIRST}");
        let scenario = read(Path::new("my.toml"), &|_| Ok(text.clone())).unwrap();
        assert!(scenario.resolved().contains("from = \"270 deg\""), "{wind}");
    }
}

/// A hint that is a line of its own is one that is read.
#[test]
fn law_a_line_as_it_is_shown_is_read() {
    for line in [
        "arrow_length = 28 1/2",
        "bow = compound",
        "wind = 10 mph from the left",
        "distances = \u{201c}20, 30, 40\u{201d}",
        "distances = \"20, 30 and 40 m\"",
        "distance = 40 yd",
        "draw_length = 29\"",
        "draw_length = 2' 5\"",
        "spine = .340\"",
        "point = \u{201c}125 grains\u{201d}",
        "draw weight = 65 lb",
        "let_off: 80 %",
        "group = 5 arrows at 40 yd span 6 in",
    ] {
        let told = told(&with(line));
        let like = told.split("help: write ").nth(1).unwrap_or_else(|| panic!("{told}"));
        let like = like.lines().next().unwrap_or_default();
        let like = like.split(", with the straight").next().unwrap_or_default();
        let text = with(like);
        let read = read(Path::new("my.toml"), &|_| Ok(text.clone()));
        assert!(read.is_ok(), "{line}: {text}\n{}", read.err().unwrap());
    }
    let blades = format!(
        "{FIRST}[arrow.point]\nshape = \"fixed-blade\"\n[arrow.insert]\nmass = \"25 gr\"\n"
    );
    assert!(read(Path::new("my.toml"), &|_| Ok(blades.clone())).is_ok());
}
