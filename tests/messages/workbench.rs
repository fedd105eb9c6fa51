use arrow::ArrowError;
use units::Role;
use workbench::{Gauged, WorkbenchError as E};

#[test]
fn regress_every_message_of_the_workbench() {
    let all = [
        E::OutOfRange { what: "run-out", role: Role::Gauge, value: 0.5, low: 0.0, high: 0.01 },
        E::Arrow(ArrowError::TwoHolders),
        E::Clocks { count: 2 },
        E::StationClocks { station: 0.1, count: 2 },
        E::FewStations { count: 0, needed: 1 },
        E::StationTwice { station: 0.1 },
        E::NoHighSide,
        E::Unsound { of: Gauged::Middle, reading: 0.001_524 },
        E::Unsound { of: Gauged::Face, reading: 0.001_524 },
        E::NoLength,
        E::Unsolved,
        E::Supports { rear: 0.7, front: 0.1, stock: 0.8 },
        E::TooShort { stock: 0.7, wanted: 0.73 },
        E::NoRoom { nock: 0.02, front: 0.05, wanted: 0.06 },
        E::NoCut { waste: 5e-4, least: 1e-3, most_rear: 5e-4, most_front: 5e-4 },
        E::Size { wanted: 13, of: 12 },
        E::Many { count: 3000, most: 288 },
        E::NotAPlace { index: 3, value: f64::INFINITY },
        E::FewShots { shots: 4, positions: 2 },
    ];
    let text: Vec<String> = all.iter().map(ToString::to_string).collect();
    insta::assert_snapshot!(text.join("\n"));
}
