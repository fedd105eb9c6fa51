use crate::{close, fly, value};

/// NASA/TM-2015-218675 check-case 2, tumbling brick without damping: rates at
/// 10 and 30 s, attitude at 30 s (published series and Jacobi elliptic form;
/// R, C). Half a unit of the last digit, and 1e-8 for the integration.
#[test]
fn published_tumbling_brick_from_a_scenario() {
    let states = fly("tumbling-brick", &[]);
    let degrees = |state: usize, key: &str| value(&states[state], key).to_degrees();
    assert_eq!(states.len(), 3);
    for (state, rates) in [
        (0, [-2.418_902_22, -23.552_569_52, 28.128_592_63]),
        (2, [12.618_390_78, -17.397_474_76, 31.119_588_89]),
    ] {
        for (key, want) in ["roll_rate", "pitch_rate", "yaw_rate"].into_iter().zip(rates) {
            close(key, degrees(state, key), want, 2e-8);
        }
    }
    let attitude = [-56.025_982_13, -3.810_266_74, -4.297_693_50];
    for (key, want) in ["roll", "pitch", "yaw"].into_iter().zip(attitude) {
        close(key, degrees(2, key), want, 2e-8);
    }
}
