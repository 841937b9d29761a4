//! What a frame that turns under a box leaves free.

use super::*;
use crate::checks::testing::{met, on_wheels, run};
use crate::model::testing::subframe;
use crate::model::{FrameLine, Model, Mounts, Subframe};

/// 6 degrees over the wheelbase of 4,200 mm; fixed 4,780 mm behind the front axle, so the frame under the front wall (at 580 mm) has
/// turned by 6 degrees: rails 850 mm apart close the gap by 425 sin 6 = 44.42 mm.
fn rails(least_gap: f64) -> Model {
    let mut model = on_wheels();
    let vehicle = model.vehicle.as_mut().unwrap();
    vehicle.frame = Some(FrameLine { top: 1000.0, bottom: 800.0, rear: 5000.0, width: 850.0 });
    vehicle.subframe = Some(Subframe {
        twist: 6.0,
        least_gap,
        sleeve_shear: 50.0,
        sleeve_stretch: 50.0,
        ..subframe(Mounts::ThreePoint { fixed: 4780.0, pivot: 700.0 })
    });
    model
}

/// 1,120 mm less the floor's 40 mm and the frame's 1,000 mm are 80 mm at rest: 35.58 mm are left.
#[test]
fn half_the_width_of_the_frame_closes_the_gap() {
    let left = 80.0 - 425.0 * 6.0_f64.to_radians().sin();
    assert!((left - 35.58).abs() < 0.005);
    let (subject, value) = met(&TwistGap, &rails(35.5)).unwrap();
    assert!(subject == "frame" && (value - left).abs() < 1e-9, "{subject} {value}");
    let found = run(&TwistGap, &rails(36.0));
    assert_eq!(
        (found.len(), found[0].key.subject.to_string().as_str(), found[0].severity),
        (1, "frame", Severity::Fault)
    );
}

#[test]
fn a_box_that_is_not_on_three_points_does_not_twist() {
    let mut model = rails(36.0);
    model.vehicle.as_mut().unwrap().subframe = None;
    assert!(run(&TwistGap, &model).is_empty());
}
