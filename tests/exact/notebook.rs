//! Notebooks however a spreadsheet writes them.

use scenario::notebook::{NotebookMistake, batch, profiles, turn_shots};

/// Column order, units in heads or cells, decimal commas, separators, blank
/// cells and lines, comments, a byte-order mark and line ends make no
/// difference.
#[test]
fn exact_a_notebook_reads_alike_however_it_is_written() {
    let plain = "arrow,mass [g],spine [mm],run-out [mm],run-out high [deg]\n\
                 1,27.5,8.6,0.05,90\n2,27.75,,0.025,\n";
    let want = batch("plain", plain.as_bytes()).unwrap();
    assert_eq!((want.len(), want[1].spine), (2, None));
    let others = [
        "\u{feff}# made up\r\n\r\nrun-out high [deg];SPINE (mm);Weight [g];no.;TIR [mm]\r\n\
         90;8,6;27,5;1;0,05\r\n;;;;\r\n;;27,75;2;0,025\r\n",
        "Name\tmass\tspine\tRun_Out [um]\trun-out  clock\n\
         1\t27.5 g\t0.86 cm\t50\t0.25 turn\n\n2\t0.02775 kg\t\t25\t\n",
        "arrow,mass [g],spine [mm],run-out [mm],run-out high [deg]\n\
         1,\"27,5\",\"8,6\",\"0,05\",90\n2,\"27,75\",,\"0,025\",\n",
    ];
    for text in others {
        let got = batch("other", text.as_bytes()).unwrap();
        assert_eq!(got.len(), 2, "{text}");
        for (a, b) in got.iter().zip(&want) {
            assert_eq!(a.name, b.name);
            let near = |a: Option<f64>, b: Option<f64>| match (a, b) {
                (Some(a), Some(b)) => (a - b).abs() <= 1e-12,
                (a, b) => a == b,
            };
            assert!(near(a.mass.map(units::Mass::si), b.mass.map(units::Mass::si)), "{text}");
            assert!(near(a.spine.map(units::Length::si), b.spine.map(units::Length::si)));
            let total = |m: &workbench::Measured| m.run_out.map(|r| r.total.si());
            let high =
                |m: &workbench::Measured| m.run_out.and_then(|r| r.high).map(units::Angle::si);
            assert!(near(total(a), total(b)) && near(high(a), high(b)), "{text}");
        }
    }
}

/// A run-out read over a shorter span is carried over to 28 in.
#[test]
fn exact_a_run_out_over_a_shorter_span_is_carried_over() {
    let text = "arrow,run-out [in],span [in]\n1,0.002,14\n";
    let got = batch("span", text.as_bytes()).unwrap()[0].run_out.unwrap().total.si();
    assert!((got - 0.008 * 0.0254).abs() < 1e-12, "{got}");
}

/// Each kind of mistake, with its line and column.
#[test]
fn regress_every_mistake_is_told_with_line_and_column() {
    let text = "arrow,mass [gr],mass [g],spine [lb],length,color\n\
                1,425,1,0.34,28,x\n\
                # a comment\n\
                1,4.2.5,,0.34,28.5 in,,extra\n\
                ,900000,,,30 furlong,\n";
    let report = batch("bad.csv", text.as_bytes()).unwrap_err();
    let places: Vec<(usize, Option<usize>)> =
        report.mistakes.iter().map(|m| (m.line, m.column.as_ref().map(|c| c.0))).collect();
    let want = [
        (1, Some(3)),
        (1, Some(4)),
        (1, Some(6)),
        (2, Some(4)),
        (2, Some(5)),
        (4, Some(1)),
        (4, Some(2)),
        (4, Some(4)),
        (4, Some(7)),
        (5, Some(1)),
        (5, Some(2)),
        (5, Some(5)),
    ];
    assert_eq!(places, want.map(|(line, column)| (line, column)), "{report}");
    insta::assert_snapshot!(report.to_string());
}

/// Files that are no notebooks.
#[test]
fn exact_files_that_are_no_notebooks_are_refused() {
    let only = |bytes: &[u8]| {
        let report = turn_shots("x", bytes).unwrap_err();
        report.mistakes.into_iter().map(|m| m.what).collect::<Vec<_>>()
    };
    assert!(matches!(only(b"")[..], [NotebookMistake::NoHead { .. }]));
    assert!(matches!(only(b"\xff\xfea\0r\0")[..], [NotebookMistake::NotUtf8]));
    assert_eq!(only(b"arrow,turn,left,up\n"), [NotebookMistake::NoRows]);
    let missing = only(b"arrow,turn\n1,0 deg\n");
    assert!(missing.iter().all(|m| matches!(m, NotebookMistake::MissingColumn { .. })));
    assert_eq!(missing.len(), 2);
    let both =
        profiles("x", b"shaft,station [in],reading [in],run-out [in]\n1,2,0,0\n").unwrap_err();
    assert!(matches!(both.mistakes[0].what, NotebookMistake::OneOf { .. }));
}
