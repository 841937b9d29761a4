//! Hand-made models; figures follow by hand from the coordinates.

use super::*;
use crate::checks::testing::{block, box3, door, model, run, solid, space, with, with_opening, with_space};
use crate::geometry::{Box3, Parcel, Stands};
use crate::model::{Need, OpeningKind, Space, Wall};
use crate::source::Span;

fn store(room: Box3, carries: Option<f64>) -> Space {
    let (name, span) = ("store".to_owned(), Span::default());
    Space { name, prism: room.into(), need: Need::Storage, people: 1, along: None, carries, span }
}

/// A box 4 x 2 m with a boot 1 m long, 700 high, under a lid at its rear, and a hatch 900 x 400 in its left wall.
fn boot() -> Model {
    let lid = block("boot", box3((3000.0, 4000.0), (0.0, 2000.0), (700.0, 720.0)));
    let lid = with_space(lid, store(box3((3000.0, 4000.0), (0.0, 2000.0), (0.0, 700.0)), Some(100.0)));
    let mut hatch = door("hatch", Wall::Left, (3050.0, 3950.0));
    (hatch.kind, hatch.up) = (OpeningKind::Hatch, (50.0, 450.0));
    with_opening(with(model(space(4000.0, 2000.0, 2000.0)), lid), hatch)
}

fn load(mut model: Model, size: [f64; 3], count: usize, stands: Stands) -> Model {
    let parcel = Parcel { size, count, stands };
    let (name, span) = ("crate".to_owned(), Span::default());
    model.cargo.push(Cargo { name, parcel, mass: 10.0, module: 0, through: Some(0), span });
    model
}

fn messages(model: &Model) -> Vec<(Severity, String)> {
    run(&CargoFits, model).into_iter().map(|one| (one.severity, one.message)).collect()
}

#[test]
fn a_layout_without_cargo_has_no_finding() {
    assert!(messages(&boot()).is_empty());
}

#[test]
fn what_fits_is_told_with_what_is_left() {
    let found = messages(&load(boot(), [500.0, 400.0, 350.0], 2, Stands::Any));
    let [(Severity::Note, words)] = &found[..] else { panic!("{found:?}") };
    // 2 x 70 litres of 1400.
    assert!(
        words.starts_with("`boot` holds all 2 pieces of its cargo, 140 litres, 20 of 100 kg; 1260 litres are left"),
        "{words}"
    );
}

#[test]
fn a_face_too_large_for_the_hatch() {
    let found = run(&CargoFits, &load(boot(), [950.0, 500.0, 401.0], 1, Stands::Any));
    let fault = &found[0];
    let piece = "`crate` of 950 x 500 x 401 mm does not pass `hatch`, 900 x 400 mm clear";
    assert_eq!(fault.message, format!("{piece}; it would if that were 401 mm high"));
    assert_eq!((fault.measured.unwrap().value, fault.severity), (400.0, Severity::Fault));
    assert!(!messages(&load(boot(), [950.0, 500.0, 400.0], 1, Stands::Any)).iter().any(|(s, _)| *s == Severity::Fault));
}

#[test]
fn upright_things_go_through_upright() {
    let faults = |stands| messages(&load(boot(), [300.0, 300.0, 600.0], 1, stands)).len() - 1;
    assert_eq!((faults(Stands::Any), faults(Stands::Upright)), (0, 1));
    let faults = |x, y| messages(&load(boot(), [x, y, 300.0], 1, Stands::Fixed)).len() - 1;
    assert_eq!((faults(880.0, 1200.0), faults(920.0, 500.0)), (0, 1), "through a side wall its first side counts");
}

#[test]
fn what_stands_in_the_hatch_makes_it_smaller() {
    let mut model = load(boot(), [600.0, 500.0, 390.0], 1, Stands::Any);
    assert_eq!(messages(&model).len(), 1);
    let post = box3((3400.0, 3500.0), (100.0, 200.0), (0.0, 700.0));
    model.modules[0].poses[0].solids.push(solid("post", post.into()));
    let found = messages(&model);
    assert!(found[0].1.contains("450 x 400 mm clear"), "{found:?}");
    model.openings[0].along = (100.0, 900.0);
    assert!(messages(&model)[0].1.ends_with("does not pass `hatch`, which does not open to `boot`"));
}

#[test]
fn round_corners_of_another_part_of_the_hatch_take_nothing() {
    // A post leaves the hatch, 900 x 400 with corners of 150, free from x = 3,450 to 3,950: at the post its corners are square.
    let through = |first: f64, third: f64| {
        let mut model = load(boot(), [first, 600.0, third], 1, Stands::Fixed);
        model.openings[0].radius = 150.0;
        let post = box3((3350.0, 3450.0), (100.0, 200.0), (0.0, 700.0));
        model.modules[0].poses[0].solids.push(solid("post", post.into()));
        messages(&model).iter().filter(|(severity, _)| *severity == Severity::Fault).count()
    };
    // As high as the hatch up to where its round corners begin, 150 before its end at 3,950.
    assert_eq!((through(350.0, 400.0), through(351.0, 400.0)), (0, 1));
}

#[test]
fn what_is_left_over_is_named() {
    let found = run(&CargoFits, &load(boot(), [990.0, 650.0, 350.0], 7, Stands::Any));
    let fault = found.iter().find(|one| one.severity == Severity::Fault).unwrap();
    assert!(fault.message.starts_with("`boot` has no place for 1 of 7 `crate`;"), "{}", fault.message);
    assert_eq!((fault.measured.unwrap().value, fault.required.as_ref().unwrap().value()), (6.0, 7.0));
}

#[test]
fn too_heavy_by_a_little() {
    let heavy = |count| messages(&load(boot(), [300.0, 300.0, 300.0], count, Stands::Any));
    assert_eq!(heavy(10).len(), 1);
    assert_eq!(heavy(11)[1].1, "`boot` carries 100 kg and its cargo weighs 110 kg");
}

/// In `night` a bunk hangs into the boot; what lies beside it by night does so by day.
#[test]
fn one_packing_serves_all_arrangements_if_it_can() {
    let mut model = load(boot(), [900.0, 900.0, 350.0], 2, Stands::Any);
    let mut low = model.modules[0].poses[0].clone();
    low.solids.push(solid("bunk", box3((3000.0, 4000.0), (1000.0, 2000.0), (300.0, 700.0)).into()));
    model.modules[0].extent.z = (300.0, 720.0);
    model.modules[0].poses.push(low);
    let mut night = model.arrangements[0].clone();
    (night.name, night.poses) = ("night".to_owned(), vec![1]);
    model.arrangements.push(night);
    assert_eq!(crate::figures::alone(&model).stowage().len(), 1);
    model.cargo[0].parcel.count = 3;
    let found = run(&CargoFits, &model);
    let names: Vec<_> = found.iter().map(|one| (one.severity, one.arrangements.join(" "))).collect();
    assert_eq!(names, [(Severity::Note, "day".to_owned()), (Severity::Fault, "night".to_owned())]);
}
