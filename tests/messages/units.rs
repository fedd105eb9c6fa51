use insta::assert_snapshot;
use units::{Dimension, Length, Mass, Ratio, Speed, parse_si};

#[test]
fn regress_messages_about_quantities() {
    let length = |text: &str| text.parse::<Length>().unwrap_err();
    assert_snapshot!(length("long"), @r#""long" does not start with a number"#);
    assert_snapshot!(length(""), @r#""" does not start with a number"#);
    assert_snapshot!(length("29.5"), @r#""29.5" has no unit; write "29.5 in" or "29.5 mm""#);
    assert_snapshot!(length("1e999 in"), @r#""1e999 in" is not a finite number"#);
    assert_snapshot!(length("29.5 lbf"), @r#""lbf" is not a unit of length; use one of in, m, cm, mm, um, km, thou, ft, yd"#);
    assert_snapshot!("9 grain weights".parse::<Mass>().unwrap_err(), @r#""grain weights" is not a unit of mass; use one of gr, kg, g, mg, oz, lb"#);
    assert_snapshot!("285".parse::<Speed>().unwrap_err(), @r#""285" has no unit; write "285 ft/s" or "285 m/s""#);
    assert_snapshot!("12 per mille".parse::<Ratio>().unwrap_err(), @r#""per mille" is not a unit of ratio; use one of %"#);
    assert_snapshot!(parse_si(Dimension::Inertia, "3 g").unwrap_err(), @r#""g" is not a unit of moment of inertia; use one of kg mm2, kg m2, g m2, gr in2, slug ft2"#);
}
