//! Measured tables: the same values however a spreadsheet or a hand writes
//! them, and what each kind makes of its rows.

use std::path::Path;

use clothyard_tests::tables::{SAMPLES, Sample, errors, gone};
use scenario::measured::{Kind, Stations, batch, impacts, profiles, shots, with_row};
use scenario::{ScenarioError as E, TableMistake as M};
use target::Impact;

const INCH: f64 = 0.0254;

fn comma(cell: &str) -> String {
    cell.replace('.', ",")
}

/// `mass [gr]` with other brackets.
fn head(cell: &str, open: &str, close: &str) -> String {
    cell.replace(" [", open).replace(']', close)
}

/// Semicolons with decimal commas, `(yd)` heads and a column of one's own were
/// read by one command and refused by another. One reader now serves all: each
/// kind reads the same bits from every way to write a table.
#[test]
fn exact_every_kind_reads_alike_however_it_is_written() {
    type Way = (&'static str, fn(&Sample) -> String);
    let ways: &[Way] = &[
        ("blanks", |s| s.file(" , ", str::to_owned)),
        ("semicolons", |s| s.file(";", str::to_owned)),
        ("tabs", |s| s.file("\t", str::to_owned)),
        ("semicolons and decimal commas", |s| s.file(";", comma)),
        ("tabs and decimal commas", |s| s.file("\t", comma)),
        ("quoted cells", |s| s.file(",", |cell| format!("\"{cell}\""))),
        ("quoted decimal commas", |s| s.file(",", |cell| format!("\"{}\"", comma(cell)))),
        ("a byte-order mark", |s| format!("\u{feff}{}", s.file(",", str::to_owned))),
        ("line ends", |s| s.file(",", str::to_owned).replace('\n', "\r\n")),
        ("old line ends", |s| s.file(",", str::to_owned).replace('\n', "\r")),
        ("round brackets", |s| s.file(",", |cell| head(cell, " (", ")"))),
        ("units after a comma", |s| s.file(";", |cell| head(cell, ", ", ""))),
        ("quoted units after a comma", |s| {
            s.file(",", |cell| format!("\"{}\"", head(cell, ", ", "")))
        }),
        ("spare cells", |s| s.file(",", str::to_owned).replace('\n', ",,\n")),
        ("blank rows", |s| s.file(",", str::to_owned) + ",,\n\n \n# the end\n"),
    ];
    for sample in SAMPLES {
        let plain = (sample.read)(sample.file(",", str::to_owned).as_bytes()).unwrap();
        assert_eq!(plain.1, Vec::<String>::new());
        for (way, write) in ways {
            let text = write(sample);
            let read = (sample.read)(text.as_bytes());
            let read = read.unwrap_or_else(|e| panic!("{}, {way}:\n{text}{e}", sample.name));
            assert_eq!(read, plain, "{}, {way}:\n{text}", sample.name);
        }
    }
}

/// Columns in any order, and some of one's own, which are named, not dropped
/// without a word.
#[test]
fn exact_own_columns_are_passed_over_and_named() {
    for sample in SAMPLES {
        let plain = (sample.read)(sample.file(",", str::to_owned).as_bytes()).unwrap();
        let turned = |row: &str| row.split('|').rev().collect::<Vec<_>>().join(";");
        let mut rows: Vec<String> = sample.rows.iter().map(|row| turned(row)).collect();
        for (row, own) in rows.iter_mut().zip(["weather (own);;note", "gusty;3;", "fair;;calm"]) {
            *row = format!("{own};{row}");
        }
        let read = (sample.read)(rows.join("\n").as_bytes()).unwrap();
        assert_eq!(read.0, plain.0, "{}", sample.name);
        assert_eq!(read.1, ["A (weather (own))", "B"], "{}", sample.name);
    }
}

/// A mistyped head was once read as column 0 or as the user's own. No kind
/// reads a table with a slip in the name of any of its columns.
#[test]
fn regress_a_slip_in_any_head_is_told() {
    for sample in SAMPLES {
        let heads: Vec<&str> = sample.rows[0].split('|').collect();
        for (at, wrong) in heads.iter().enumerate() {
            let (name, unit) = wrong.split_once(" [").map_or((*wrong, ""), |(n, u)| (n, u));
            // Two letters swapped, one doubled.
            let slips = [
                format!("{}{}{}", &name[1..2], &name[..1], &name[2..]),
                format!("{}{name}", &name[..1]),
            ];
            for slip in slips {
                let mut heads: Vec<String> = heads.iter().map(|head| (*head).to_owned()).collect();
                heads[at] = if unit.is_empty() { slip } else { format!("{slip} [{unit}") };
                let rows = sample.rows[1..].join("\n");
                let text = format!("{}\n{rows}\n", heads.join("|")).replace('|', ",");
                let report = (sample.read)(text.as_bytes());
                let report = report.expect_err(&format!("{}:\n{text}", sample.name));
                // A short name with its letters swapped is near to none.
                let short = name.len() == 2;
                let told = errors(&report).iter().any(|error| match error {
                    E::Table { mistake: M::Unknown(near, _), .. } => near == &Some(name),
                    E::Table { mistake: M::Missing(..), .. } => short,
                    _ => false,
                });
                assert!(told, "{}:\n{text}{report}", sample.name);
            }
        }
    }
}

/// A unit in a cell wins over that of its head; `right` and `down` count the
/// other way.
#[test]
fn exact_the_same_shots_in_other_units_and_from_other_sides() {
    let want = [
        Impact { left: 0.5 * INCH, up: -1.25 * INCH },
        Impact { left: -2.0 * INCH, up: 0.75 * INCH },
    ];
    for text in [
        "right [in],down [in]\n-.5,1.25\n+2,-0.75\n",
        "RIGHT [in],Low [in]\n-.5,1.25\n2,\u{2212}0.75\n",
        "left,up\n0.5 in,\u{2212}1.25 in\n-2in,0.75 in\n",
        "left [in],up [cm]\n0.5,-3.175\n-2,1.905\n",
        "left [in],up [in]\n0.5,-1.25\n-50.8 mm,0.75\n",
    ] {
        let found = impacts(Path::new("x"), Ok(text.into())).unwrap().found;
        assert_eq!(found.len(), 2, "{text:?}");
        for (found, want) in found.iter().zip(want) {
            // Two roundings of a decimal fraction.
            assert!((found.left - want.left).abs() < 1e-16, "{text:?} {found:?}");
            assert!((found.up - want.up).abs() < 1e-16, "{text:?} {found:?}");
        }
    }
}

/// A run-out read over a shorter span is carried over to 28 in.
#[test]
fn exact_a_run_out_over_a_shorter_span_is_carried_over() {
    let text = "arrow,run-out [in],span [in]\n1,0.002,14\n";
    let got = batch(Path::new("x"), Ok(text.into())).unwrap().found[0].run_out.unwrap().total.si();
    assert!((got - 0.008 * 0.0254).abs() < 1e-12, "{got}");
}

/// Readings of shafts in any order come shaft by shaft, dial or run-out.
#[test]
fn exact_a_profile_comes_shaft_by_shaft() {
    let text = "shaft,station [in],clock [deg],reading [in],run-out [in],high [deg],stock [in]\n\
                b,2,0,0.01,,,\na,2,,,0.002,90,32\nb,4,0,0.02,,,31\n";
    let found = profiles(Path::new("x"), Ok(text.into())).unwrap().found;
    assert_eq!(found.iter().map(|shaft| shaft.name.as_str()).collect::<Vec<_>>(), ["b", "a"]);
    assert!(matches!(&found[0].stations, Stations::Dial(list) if list.len() == 2));
    assert!(matches!(&found[1].stations, Stations::RunOut(list) if list.len() == 1));
    assert!((found[0].stock.unwrap().si() - 31.0 * INCH).abs() < 1e-15);
}

/// A shot keeps the line it stands in, past remarks, blank lines and quoted
/// line ends.
#[test]
fn exact_a_shot_keeps_its_line() {
    let text = "# own\n\ndistance [yd],mark [mm],note\n20,12,\n\n# far\n60,31.9,\"a\nb\"\n70,37,\n";
    let found = shots(Path::new("x"), Ok(text.into())).unwrap().found;
    assert_eq!(found.iter().map(|shot| shot.line).collect::<Vec<_>>(), [4, 7, 9]);
}

/// A file that is not there is no table.
#[test]
fn exact_a_file_that_is_not_there_is_told() {
    let report = impacts(Path::new("no.csv"), gone()).unwrap_err();
    assert!(matches!(errors(&report)[..], [E::Unreadable { .. }]));
}

/// A new row reads back as what it said: in the units of its heads, under the
/// side they count to, in a column of one's own too.
#[test]
fn exact_an_added_row_reads_back() {
    let old = "arrow;turn [deg];left [in];down [in];wind\n7;0;-2,1;1,3;calm\n";
    let values = [("arrow", "8"), ("turn", "0.25 turn"), ("right", "2.54 cm"), ("up", "1 in")];
    let mut values: Vec<(String, String)> =
        values.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
    values.push(("wind".to_owned(), "left; then right".to_owned()));
    let style = units::Style::Archery;
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    let add =
        |old, values| text(with_row(Kind::Turns, Path::new("x"), old, values, style).unwrap().text);
    let new = add(Some(old.as_bytes()), &values[..]);
    assert_eq!(new, format!("{old}8;90;-1;-1;\"left; then right\"\n"));
    let fresh = add(None, &values[..4]);
    assert_eq!(fresh, "arrow,turn [deg],left [in],up [in],correction,note\n8,90,-1,1,,\n");
    // A last line without its end gets one first.
    let open = old.trim_end();
    assert_eq!(add(Some(open.as_bytes()), &values[..]), new);
}
