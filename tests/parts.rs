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
