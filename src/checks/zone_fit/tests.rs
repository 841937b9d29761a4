//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing;
use crate::checks::testing::{block, box3, model, space, with};
use crate::model::Purpose;

fn zone(name: &str, level: i64, rect: Rect) -> Zone {
    Zone { name: name.to_owned(), purpose: Purpose::Living.into(), rect, level, span: Span::default() }
}

fn run(zones: Vec<Zone>) -> Vec<Finding> {
    let mut table = block("table", box3((1000.0, 1800.0), (600.0, 1200.0), (0.0, 700.0)));
    table.zone = Some(0);
    let mut model = with(model(space(4000.0, 2000.0, 2000.0)), table);
    model.zones = zones;
    testing::run(&ZoneFit, &model)
}

#[test]
fn module_zone_and_box_may_share_edges() {
    assert!(run(vec![zone("lounge", 0, Rect::new(1000.0, 600.0, 4000.0, 2000.0))]).is_empty());
}

#[test]
fn a_module_out_of_its_zone() {
    let found = run(vec![zone("lounge", 0, Rect::new(1000.0, 625.0, 1800.0, 2000.0))]);
    let [finding] = &found[..] else { panic!() };
    assert_eq!(finding.message, "`table` reaches 25 mm out of its zone `lounge` to the left");
}

#[test]
fn a_zone_out_of_the_box_and_zones_over_each_other() {
    let lounge = zone("lounge", 0, Rect::new(0.0, 0.0, 2000.0, 2000.0));
    let found = run(vec![lounge.clone(), zone("bed", 0, Rect::new(1900.0, 0.0, 4005.0, 2000.0))]);
    assert_eq!(found.len(), 2);
    assert_eq!(found[0].message, "the zone `bed` reaches 5 mm out of the box to the rear");
    assert_eq!(found[1].message, "the zones `lounge` and `bed` of one level overlap by 100 x 2000 mm");
    assert!(run(vec![lounge, zone("bunk", 1, Rect::new(1900.0, 0.0, 4000.0, 2000.0))]).is_empty());
}
