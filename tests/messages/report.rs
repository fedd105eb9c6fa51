use clothyard_tests::answers::{self, of};
use clothyard_tests::document;
use insta::assert_snapshot;
use study::Answer;
use units::Style;

fn refused(spoil: impl Fn(&mut Answer)) -> String {
    let mut answer = answers::square_ends();
    spoil(&mut answer);
    document(&answer, Style::Archery).unwrap_err().to_string()
}

/// A plot that cannot be drawn has no message here: writing SVG to memory
/// cannot fail.
#[test]
fn regress_messages_about_answers_that_cannot_be_shown() {
    assert_snapshot!(refused(|a| of(a).builds[0].marks[2].nominal.drop = f64::NAN), @"distances[2].drop is NaN; a report holds finite numbers only");
    assert_snapshot!(refused(|a| of(a).builds.clear()), @"the answer holds no build and no sweep point");
    assert_snapshot!(refused(|a| { of(a).builds[1].marks.pop(); }), @"marks of squared has 4 entries for 5 distances");
    assert_snapshot!(refused(|a| { of(a).builds[0].causes[1].r50.pop(); }), @"cause front end of as sawn has 4 entries for 5 distances");
    assert_snapshot!(refused(|a| of(a).pairs[0].other = 5), @"pairs[0] names build 5, but there are only 2");
}
