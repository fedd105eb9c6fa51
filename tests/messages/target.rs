use insta::assert_snapshot;
use target::{
    Face, Group, Impact, PowerTest, Scores, Zone, expected_score, hit_share, mean_estimate,
    offset_circle_probability, sigma_ratio,
};
use units::Length;

#[test]
fn regress_messages_about_groups() {
    let one = [Impact { left: 0.1, up: 0.2 }];
    assert_snapshot!(Group::of(&one).unwrap_err(), @"too few impacts: 1 given, at least 2 needed");
    let lost = [one[0], Impact { left: f64::NAN, up: 0.25 }];
    assert_snapshot!(Group::of(&lost).unwrap_err(), @"impact 1 is NaN m left, 0.25 m up; both must be finite, at most 1e100 m");
    let point = Group::of(&[one[0]; 3]).unwrap();
    assert_snapshot!(sigma_ratio(&point, &point).unwrap_err(), @"the second group has no spread, so there is no ratio of spreads");
}

#[test]
fn regress_messages_about_shares_and_means() {
    assert_snapshot!(hit_share(0, 0).unwrap_err(), @"too few shots: 0 given, at least 1 needed");
    assert_snapshot!(hit_share(13, 12).unwrap_err(), @"13 hits out of 12 shots; hits cannot exceed shots");
    assert_snapshot!(mean_estimate(&[9.0]).unwrap_err(), @"too few values: 1 given, at least 2 needed");
    assert_snapshot!(mean_estimate(&[9.0, f64::INFINITY]).unwrap_err(), @"value 1 is inf; it must be finite, at most 1e100");
}

#[test]
fn regress_messages_about_sizes() {
    assert_snapshot!(Face::ten_ring(Length::ZERO, false).unwrap_err(), @"the diameter of the face is 0 m; it must be a finite number above zero");
    assert_snapshot!(Zone::round(Length::from_si(-0.2)).unwrap_err(), @"the diameter of the zone is -0.2 m; it must be a finite number above zero");
    let face = Face::ten_ring(Length::from_si(0.4), false).unwrap();
    assert_snapshot!(expected_score(f64::NAN, &face, Length::ZERO).unwrap_err(), @"sigma is NaN m; it must be a finite number, zero or above");
    assert_snapshot!(expected_score(0.1, &face, Length::from_si(-0.005)).unwrap_err(), @"the diameter of the shaft is -0.005 m; it must be a finite number, zero or above");
    assert_snapshot!(PowerTest::new(0.95, 1.0).unwrap_err(), @"the power is 1; it must lie between 0 and 1");
    assert_snapshot!(Scores::counted(&[10, 12]).unwrap_err(), @"score 1 is 12; an arrow scores 0 to 10");
    assert_snapshot!(offset_circle_probability(0.1, -0.1, 0.1).unwrap_err(), @"the offset is -0.1 m; it must be a finite number, zero or above");
}
