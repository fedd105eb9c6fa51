//! Tables of shots.

use std::io;
use std::path::Path;

use scenario::{ImpactsError as S, ScenarioError as E, read_impacts};
use target::Impact;

fn read(text: &str) -> Result<Vec<Impact>, scenario::Report> {
    read_impacts(Path::new("shots.csv"), &|_| Ok(text.to_owned()))
}

const INCH: f64 = 0.0254;

/// However a program or a hand writes a table, it says the same.
#[test]
fn exact_the_same_shots_however_they_are_written() {
    let want = [
        Impact { left: 0.5 * INCH, up: -1.25 * INCH },
        Impact { left: -2.0 * INCH, up: 0.75 * INCH },
    ];
    for text in [
        "left [in],up [in]\n0.5,-1.25\n-2,0.75\n",
        "left [in], up [in]\r\n0.5, -1.25\r\n-2, 0.75\r\n",
        "\u{feff}left [in];up [in]\n0,5;-1,25\n-2;0,75",
        "up (in)\tleft (in)\n-1,25\t0,5\n0.75\t-2\n",
        "shot,Up [in],note,LEFT [in]\n1,-1.25,gusty,0.5\n2,0.75,,-2\n",
        "right [in],down [in]\n-.5,1.25\n+2,-0.75\n",
        "# from the range\n\n\"left [in]\",\"up [in]\"\n\n\"0.5\",\"-1.25\"\n,,\n-2,0.75\n\n",
        "left,up\n0.5 in,-1.25 in\n-2in,0.75 in\n",
        "left [in],up [cm]\n0.5,-3.175\n-2,1.905\n",
        "left [in],up [in]\n0.5,-1.25\n-50.8 mm,0.75\n",
    ] {
        let found = read(text).unwrap();
        assert_eq!(found.len(), 2, "{text:?}");
        for (found, want) in found.iter().zip(want) {
            // Two roundings of a decimal fraction.
            assert!((found.left - want.left).abs() < 1e-16, "{text:?} {found:?}");
            assert!((found.up - want.up).abs() < 1e-16, "{text:?} {found:?}");
        }
    }
}

/// Every bad line is named at once, by its line and column.
#[test]
fn exact_every_bad_line_is_named() {
    let text = "left [in],up [in]\n1,2\nx,3\n4\n5,6,7\n8,\n900,1\n1,inf\n";
    let report = read(text).unwrap_err();
    let places: Vec<(usize, usize)> = report
        .problems()
        .iter()
        .map(|problem| report.position(problem).map(|(_, line, column)| (line, column)).unwrap())
        .collect();
    assert_eq!(places, [(3, 1), (4, 1), (5, 1), (6, 3), (7, 1), (8, 3)]);
    let errors: Vec<&E> = report.problems().iter().map(|problem| &problem.error).collect();
    assert!(matches!(errors[0], E::Impacts(S::Number { name: "left", .. })), "{errors:?}");
    assert!(matches!(errors[1], E::Impacts(S::Empty { name: "up" })), "{errors:?}");
    assert!(matches!(errors[2], E::Impacts(S::Wide { count: 3, columns: 2 })), "{errors:?}");
    assert!(matches!(errors[3], E::Impacts(S::Empty { name: "up" })), "{errors:?}");
    assert!(matches!(errors[4], E::OutOfRange { .. }), "{errors:?}");
    assert!(matches!(errors[5], E::Impacts(S::Number { name: "up", .. })), "{errors:?}");
}

#[test]
fn exact_tables_that_say_nothing_are_refused() {
    let first = |text: &str| read(text).unwrap_err().problems()[0].error.clone();
    assert!(matches!(first(""), E::Impacts(S::Few { count: 0, .. })));
    assert!(matches!(first("left [in],up [in]\n1,2\n"), E::Impacts(S::Few { count: 1, .. })));
    assert!(matches!(
        first("left [in],high [in]\n1,2\n1,2\n"),
        E::Impacts(S::Column { name: "up", .. })
    ));
    assert!(matches!(first("x,y\n1,2\n"), E::Impacts(S::Column { name: "left", .. })));
    assert_eq!(read("x,y\n1,2\n").unwrap_err().problems().len(), 2);
    let twice = first("left [in],right [in],up [in]\n1,2,3\n1,2,3\n");
    assert!(matches!(twice, E::Impacts(S::Twice { name: "right" })));
    assert!(matches!(first("left [inches],up [in]\n1,2\n"), E::Quantity { .. }));
    assert!(matches!(first("left,up\n1,2\n1,2\n"), E::Impacts(S::Bare { name: "left", .. })));
    let gone = read_impacts(Path::new("no.csv"), &|_| Err(io::ErrorKind::NotFound.into()));
    assert!(matches!(gone.unwrap_err().problems()[0].error, E::Unreadable { .. }));
}
