//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing::{block, box3, model, run, solid, space, with, with_space};
use crate::geometry::{Box3, Prism};
use crate::model::testing::said;
use crate::model::{Model, Need, Space};
use crate::source::Span;

fn sitting(extent: Box3, people: u32) -> Space {
    let (name, prism, span) = ("sit".to_owned(), extent.into(), Span::default());
    Space { name, prism, need: Need::Sitting, people, along: None, carries: None, span }
}

fn tagged(name: &str, extent: Box3, tags: &[&str]) -> crate::model::Solid {
    let mut piece = solid(name, Prism::from(extent));
    piece.tags = tags.iter().map(|tag| said(tag)).collect();
    piece
}

/// A bench at the left wall, facing right, from 0 to `depth` across the box.
fn bench(height: f64, depth: f64, run: f64, people: u32) -> Model {
    let seat = box3((1000.0, 1000.0 + run), (0.0, depth), (0.0, height));
    let mut bench = with_space(block("bench", seat), sitting(Box3 { z: (height, height + 950.0), ..seat }, people));
    bench.poses[0].solids = vec![tagged("cushion", seat, &["seat"])];
    with(model(space(4000.0, 2000.0, 2000.0)), bench)
}

fn usual() -> Model {
    bench(440.0, 480.0, 1000.0, 2)
}

fn told(model: &Model) -> Vec<f64> {
    run(&Seat, model).iter().map(|finding| finding.measured.unwrap().value).collect()
}

#[test]
fn height_depth_and_width_of_a_bench() {
    assert_eq!(told(&usual()), [0.0; 0]);
    let heights = [349.0, 350.0, 471.0, 472.0].map(|height| told(&bench(height, 480.0, 1000.0, 2)).len());
    assert_eq!(heights, [1, 0, 0, 1]);
    let depths = [379.0, 380.0, 541.0, 542.0].map(|depth| told(&bench(440.0, depth, 1000.0, 2)).len());
    assert_eq!(depths, [1, 0, 0, 1]);
    assert_eq!((told(&bench(440.0, 480.0, 900.0, 2)), told(&bench(440.0, 480.0, 899.0, 2))), (vec![], vec![449.5]));
    let found = run(&Seat, &bench(349.0, 480.0, 1000.0, 2));
    assert_eq!(found[0].message, "`sit` of `bench`: the seat is at a height of 349 mm, 350 mm is the least");
}

#[test]
fn knees_before_a_wall_of_cupboards() {
    // The cupboard begins 669 from the back.
    let cupboard = |y: f64, x: (f64, f64)| told(&with(usual(), block("cupboard", box3(x, (y, 1500.0), (0.0, 1800.0)))));
    assert_eq!((cupboard(669.0, (900.0, 2100.0)), cupboard(668.0, (900.0, 2100.0))), (vec![], vec![668.0]));
    assert_eq!(cupboard(500.0, (1900.0, 2100.0)), [0.0; 0], "900 of 1,000 stay free for two");
    assert_eq!(cupboard(500.0, (1899.0, 2100.0)), [500.0]);
    assert_eq!(cupboard(500.0, (1450.0, 1549.0)), [0.0; 0], "a post stands between the knees");
}

#[test]
fn knees_before_the_wall_of_the_box() {
    let mut narrow = usual();
    narrow.space.width = 660.0;
    assert_eq!(told(&narrow), [660.0]);
}

fn table(under: f64, top: f64) -> Model {
    let mut table = block("table", box3((1000.0, 2000.0), (500.0, 1100.0), (under, top)));
    table.poses[0].solids = vec![tagged("top", table.extent, &["table"])];
    with(usual(), table)
}

#[test]
fn a_table_over_the_lap() {
    // The seat is at 440: thighs need 180, the top is to be 240 to 330 above it.
    assert_eq!(told(&table(680.0, 700.0)), [0.0; 0]);
    assert_eq!((told(&table(620.0, 680.0)), told(&table(619.0, 680.0))), (vec![], vec![179.0]));
    assert_eq!((told(&table(660.0, 679.0)), told(&table(745.0, 771.0))), (vec![239.0], vec![331.0]));
    assert_eq!((told(&table(745.0, 770.0)), told(&table(655.0, 680.0))), (vec![], vec![]));
}

#[test]
fn a_table_beyond_the_knees_is_somebody_elses() {
    let mut far = table(600.0, 900.0);
    far.modules[1].poses[0].solids[0].prism = box3((1000.0, 2000.0), (669.0, 1100.0), (600.0, 900.0)).into();
    assert_eq!(told(&far), [0.0; 0]);
}

#[test]
fn a_loose_chair_suits_the_table_as_well_as_it_can() {
    // Chairs go from 350 to 471, so tops from 590 to 801 suit; a chair stands before a desk that faces right.
    let desk = |top: f64| {
        let extent = box3((1000.0, 2000.0), (0.0, 550.0), (top - 25.0, top));
        let mut desk =
            with_space(block("desk", extent), sitting(box3((1200.0, 1800.0), (550.0, 1150.0), (0.0, 1400.0)), 1));
        desk.poses[0].solids = vec![tagged("top", extent, &["table"])];
        told(&with(model(space(4000.0, 2000.0, 2000.0)), desk))
    };
    assert_eq!((desk(590.0), desk(740.0), desk(801.0)), (vec![], vec![], vec![]));
    assert_eq!((desk(589.0), desk(802.0)), (vec![239.0], vec![331.0]));
}

#[test]
fn head_under_a_locker() {
    let locker = |z: f64| told(&with(usual(), block("locker", box3((1000.0, 2000.0), (0.0, 320.0), (z, 2000.0)))));
    assert_eq!((locker(1417.0), locker(1416.0)), (vec![], vec![976.0]));
    let mut low = usual();
    low.space = space(4000.0, 2000.0, 1400.0);
    assert_eq!(told(&low), [960.0]);
}

#[test]
fn a_backrest_tells_which_way_one_looks() {
    // A seat at the front wall of a module that faces right: the backrest lies along x = 1,080, so one looks to the rear.
    let seat = box3((1080.0, 1520.0), (0.0, 500.0), (0.0, 440.0));
    let mut bench = with_space(block("bench", seat), sitting(Box3 { z: (440.0, 1390.0), ..seat }, 1));
    bench.poses[0].solids = vec![
        tagged("cushion", box3((1000.0, 1520.0), (0.0, 500.0), (340.0, 440.0)), &["seat"]),
        tagged("back", box3((1000.0, 1080.0), (0.0, 500.0), (440.0, 860.0)), &["backrest"]),
    ];
    let model = with(model(space(4000.0, 2000.0, 2000.0)), bench);
    assert_eq!(told(&model), [0.0; 0]);
    let blocked = with(model, block("cupboard", box3((1700.0, 2000.0), (0.0, 500.0), (0.0, 1800.0))));
    assert_eq!(told(&blocked), [620.0], "from 1,080 to 1,700");
}
