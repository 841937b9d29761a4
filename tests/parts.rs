//! The work on each kind of piece, and the papers and files that a workshop makes it from.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/mod.rs"]
mod common;

use boxwright::base::memo::Memo;
use boxwright::compile::{Compiled, Options, read};
use boxwright::figures::{BoreFor, Figures, Work};
use boxwright::geometry::Polygon;
use boxwright::joinery::Row;
use boxwright::joints::BoreSide;
use boxwright::registry::Registry;
use kurbo::{BezPath, Point, Rect, Shape};

const DEMOS: [&str; 3] = ["marram", "skua", "teasel"];

fn demo(name: &str) -> Compiled {
    let world = common::world(&common::yaml_files("layouts"));
    read(&world, &format!("layouts/{name}.yaml"), &Registry::standard(), &Options::default())
}

/// What is looked at for each kind of piece of the demos.
fn each(look: impl Fn(&Figures<'_>, &Work, &Row)) {
    for name in DEMOS {
        let compiled = demo(name);
        let memo = Memo::default();
        let figures = Figures::new(compiled.model.as_ref().unwrap(), &memo);
        for work in figures.works() {
            look(&figures, work, &figures.cut_list().rows[work.row]);
        }
    }
}

#[test]
fn every_piece_of_the_cut_list_is_told_once() {
    for name in DEMOS {
        let compiled = demo(name);
        let memo = Memo::default();
        let figures = Figures::new(compiled.model.as_ref().unwrap(), &memo);
        for (index, row) in figures.cut_list().rows.iter().enumerate() {
            let own = figures.works().iter().filter(|work| work.row == index);
            assert_eq!(own.map(|work| work.count).sum::<u32>(), row.count, "{name} {}", row.number);
        }
    }
}

/// Who says that it meets another is named by that one, and by the same fixing.
#[test]
fn what_meets_names_each_other() {
    each(|figures, work, row| {
        let slopes = |(module, part): &(usize, usize)| {
            figures.model.modules[*module].parts[*part].places.iter().any(|place| place.lies.is_none())
        };
        // A sloping board has no directions that a side could be told by.
        let pieces = |number: &String| {
            figures.cut_list().rows.iter().position(|row| row.number == *number && !row.parts.iter().any(slopes))
        };
        for mate in &work.mates {
            for index in mate.with.iter().filter_map(pieces) {
                let of = |other: &&Work| other.row == index;
                let back = figures.works().iter().filter(of).flat_map(|other| &other.mates);
                let named = back.filter(|back| back.by == mate.by && back.with.contains(&row.number)).count();
                assert!(named > 0, "{} and {:?}: {}", row.number, mate.with, mate.by);
            }
        }
    });
}

fn outline(row: &Row) -> BezPath {
    let (length, width, _) = row.finished;
    let whole = Polygon::rect(Rect::new(0.0, 0.0, length, width));
    let mut path = BezPath::new();
    for (index, point) in row.outline.as_ref().unwrap_or(&whole).points().iter().enumerate() {
        if index == 0 { path.move_to(*point) } else { path.line_to(*point) }
    }
    path.close_path();
    path
}

/// Every bore has its middle in the wood, and one that does not go through leaves wood under it.
#[test]
fn bores_are_in_the_board() {
    each(|_, work, row| {
        let (length, width, thickness) = row.finished;
        for bore in &work.bores {
            let (along, deep) = match bore.side {
                BoreSide::Face | BoreSide::Reverse => {
                    assert!(outline(row).contains(Point::from(bore.at)), "{} {bore:?}", row.number);
                    (length, thickness)
                }
                BoreSide::Front | BoreSide::Back => (length, width),
                BoreSide::Left | BoreSide::Right => (width, length),
            };
            let edge = !matches!(bore.side, BoreSide::Face | BoreSide::Reverse);
            assert!(bore.at.0 > 0.0 && bore.at.0 < along, "{} {bore:?}", row.number);
            assert!(!edge || (bore.at.1 > 0.0 && bore.at.1 < thickness), "{} {bore:?}", row.number);
            assert!(bore.depth.is_none_or(|depth| depth > 0.0 && depth < deep), "{} {bore:?}", row.number);
        }
    });
}

/// The places and directions of bores in a board, as whole micrometres from its datum corner: x along the length, y along the
/// width, z up from its reverse, the axis of the bore, its size.
fn bores_in_space(work: &Work, row: &Row) -> Vec<[i64; 6]> {
    let (length, width, thickness) = row.finished;
    let whole = |mm: f64| (mm * 1000.0).round() as i64;
    let place = |bore: &boxwright::figures::WorkBore| {
        let (a, b) = bore.at;
        let (point, axis) = match bore.side {
            BoreSide::Face if bore.depth.is_none() => ([a, b, thickness / 2.0], 3),
            BoreSide::Face => ([a, b, thickness], 3),
            BoreSide::Reverse => ([a, b, 0.0], 3),
            BoreSide::Front => ([a, 0.0, thickness - b], 2),
            BoreSide::Back => ([a, width, thickness - b], 2),
            BoreSide::Left => ([0.0, a, thickness - b], 1),
            BoreSide::Right => ([length, a, thickness - b], 1),
        };
        let [x, y, z] = point.map(whole);
        [x, y, z, axis, whole(bore.diameter), whole(bore.depth.unwrap_or_default())]
    };
    let mut all: Vec<[i64; 6]> = work.bores.iter().map(place).collect();
    all.sort_unstable();
    all
}

/// A piece that is drawn without a hand is its own mirror image: else some that are made from the drawing would be those of
/// the other side. One with a hand is drawn for as many pieces as stand so: a right-hand piece's length, width and face are
/// directions of a right-handed system, so its drawing is turned into its place without a reflection.
#[test]
fn a_piece_as_drawn_is_the_one_that_stands() {
    each(|figures, work, row| {
        let (length, width, thickness) = row.finished;
        let sizes = [length, width, thickness].map(|mm| (mm * 1000.0).round() as i64);
        let bores = bores_in_space(work, row);
        let turned = |flips: [bool; 3]| {
            let mut all = bores.clone();
            for bore in &mut all {
                for axis in (0..3).filter(|axis| flips[*axis]) {
                    bore[axis] = sizes[axis] - bore[axis];
                }
            }
            all.sort_unstable();
            all
        };
        let places = row.parts.iter().flat_map(|(module, part)| &figures.model.modules[*module].parts[*part].places);
        let hand_of = |place: &boxwright::model::Place| place.lies.map(|lies| lies.hand());
        match work.hand {
            None if places.clone().all(|place| place.lies.is_some()) => {
                let mirrors = [[true, false, false], [false, true, false], [false, false, true], [true, true, true]];
                assert!(mirrors.iter().any(|flips| turned(*flips) == bores), "{}", work.number(row));
            }
            None => {}
            hand => {
                let all = figures.works().iter().filter(|other| other.row == work.row && other.hand == hand);
                let standing = places.filter(|place| hand_of(place) == hand).count();
                assert_eq!(all.map(|other| other.count as usize).sum::<usize>(), standing, "{}", work.number(row));
            }
        }
    });
}

/// Three drawers have three left and three right sides; a board that is its own mirror image has no hand.
#[test]
fn the_cut_list_tells_hands_that_bores_give() {
    let compiled = demo("skua");
    let memo = Memo::default();
    let figures = Figures::new(compiled.model.as_ref().unwrap(), &memo);
    let of = |name: &str| figures.cut_list().rows.iter().position(|row| row.name == name).unwrap();
    let told = ["drawer-side", "carcass-back-rail", "carcass-left-side", "drawer-bottom"]
        .map(|name| figures.hands_of(of(name)));
    assert_eq!(told, ["3 left, 3 right", "left", "left", ""]);
}

/// By hand from the rules in `symbols/README.md`: the bottom of the pantry, 15 mm thick and 545 deep, is screwed to the left
/// side from outside, first and last screw 40 mm from the ends, at most 200 apart, pilot holes of 3 mm through the side. The first
/// one keeps 8 mm of wood to the dowel of 6 mm of the plinth at 42.5: it moves in steps of 2 mm to the first place from
/// 42.5 + 3 + 8 + 1.5 = 55 on, which is 56.
#[test]
fn a_bottom_is_screwed_to_its_side() {
    let compiled = demo("marram");
    let memo = Memo::default();
    let figures = Figures::new(compiled.model.as_ref().unwrap(), &memo);
    let side = figures.works().iter().find(|work| figures.cut_list().rows[work.row].name == "carcass-left-side");
    let of = side.unwrap().bores.iter().filter(|bore| bore.of == BoreFor::Screw && bore.at.0 < 15.0);
    let bores: Vec<_> = of.map(|bore| (bore.side, bore.at, bore.diameter, bore.depth)).collect();
    let wanted = [56.0, 195.0, 350.0, 505.0].map(|at| (BoreSide::Face, (7.5, at), 3.0, None));
    assert_eq!(bores, wanted);
}
