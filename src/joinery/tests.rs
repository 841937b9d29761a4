//! Cut sizes, masses and merging against hand sums.

use super::cut_list;
use super::fixture::{bought, model, module, part, stock};
use crate::geometry::Polygon;
use crate::model::{Bands, Grain, Hand, Machining};
use kurbo::{Point, Rect};

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

/// Left and right bands sit on the short edges and shorten the piece; front and back bands make it narrower.
#[test]
fn bands_come_off_the_direction_they_sit_across() {
    let mut door = part("door", 1, 716.0, 396.0);
    door.bands = Bands { front: 2.0, back: 2.0, left: 1.0, right: 0.4 };
    assert_eq!(door.cut_size(), (714.6, 392.0)); // 716 - 1 - 0.4; 396 - 2 - 2
    let mut shelf = part("shelf", 1, 570.0, 540.0);
    shelf.bands.front = 1.0;
    assert_eq!(shelf.cut_size(), (570.0, 539.0));
}

/// A side banded at the front and scribed at the back and at its upper end: 800 - 1 + 10 by 560 - 1 + 5.
#[test]
fn scribe_is_left_on_at_the_edges_that_have_it() {
    let mut side = part("side", 1, 800.0, 560.0);
    side.scribe = Bands { back: 5.0, right: 10.0, ..Bands::default() };
    side.bands = Bands { front: 1.0, left: 1.0, ..Bands::default() };
    assert_eq!(side.cut_size(), (809.0, 564.0));
}

/// Trade data sheet of birch plywood: 12 mm at 695 kg/m3, 1220 x 2440 mm, 24.8 kg.
#[test]
fn a_full_sheet_weighs_what_the_data_sheet_says() {
    let mass = part("sheet", 1, 2440.0, 1220.0).mass(&stock());
    assert!((mass - 24.8).abs() < 0.05, "{mass}");
}

/// Hand sum: (1000 x 500 triangle half, less a 100 x 200 cutout) x 12 mm x 695 kg/m3.
#[test]
fn mass_is_that_of_the_true_shape() {
    let mut shaped = part("cheek", 1, 1000.0, 500.0);
    let corners = [(0.0, 0.0), (1000.0, 0.0), (0.0, 500.0)].map(Point::from).to_vec();
    shaped.outline = Some(Polygon::new(corners));
    let outline = Polygon::rect(Rect::new(100.0, 100.0, 200.0, 300.0));
    shaped.machining = vec![Machining::Cutout { name: "flue".to_owned(), outline, curve: None }];
    let expected = (0.25 - 0.02) * 0.012 * 695.0;
    assert!(near(shaped.mass(&stock()), expected));
}

#[test]
fn equal_parts_merge_over_modules_and_keep_their_places() {
    let other = part("back", 1, 700.0, 300.0);
    let galley = module("galley", vec![other.clone(), part("side", 2, 800.0, 500.0), part("shelf 1", 1, 500.0, 400.0)]);
    let robe = module("robe", vec![part("end", 3, 800.0, 500.0), part("shelf 2", 1, 500.0, 400.0)]);
    let list = cut_list(&model(vec![galley, robe]));
    let rows: Vec<_> = list.rows.iter().map(|row| (row.number.as_str(), row.name.as_str(), row.count)).collect();
    assert_eq!(rows, [("galley-02", "side / end", 5), ("galley-01", "back", 1), ("galley-03", "shelf", 2)]);
    assert_eq!(list.rows[0].modules, [("galley".to_owned(), 2), ("robe".to_owned(), 3)]);
}

#[test]
fn parts_that_differ_in_anything_stay_apart() {
    let plain = part("a", 1, 800.0, 500.0);
    let mut others = vec![plain.clone(); 8];
    others[1].bands.front = 1.0;
    others[2].grain = Grain::Width;
    others[3].note = Some("sand".to_owned());
    others[4].scribe.back = 5.0;
    others[5].machining = vec![Machining::Hole { at: (37.0, 37.0), diameter: 5.0, depth: None, reverse: false }];
    others[6].hand = Some(Hand::Left);
    others[7].hand = Some(Hand::Right);
    assert_eq!(cut_list(&model(vec![module("m", others)])).rows.len(), 8);
    assert_eq!(cut_list(&model(vec![module("m", vec![plain.clone(), plain])])).rows.len(), 1);
}

/// Hand sum: four 1200 x 600 in 2420 x 1200 with 3.2 mm cuts. With the grain: two side by side (2403.2), one high (two
/// would be 1203.2), so two sheets. Turned: four side by side (4 x 600 + 3 x 3.2 = 2409.6), one high, so one sheet.
#[test]
fn grain_decides_how_many_sheets() {
    let count = |grain| {
        let mut panel = part("panel", 4, 1200.0, 600.0);
        panel.grain = grain;
        let list = cut_list(&model(vec![module("m", vec![panel])]));
        (list.totals[0].plan.sheets.len(), list.totals[0].plan.bound)
    };
    assert_eq!(count(Grain::Length), (2, 2));
    assert_eq!(count(Grain::Width), (1, 1));
    assert_eq!(count(Grain::Free), (1, 1));
}

/// Hand sums: 4 pieces of 1200 x 600 are 2.88 m2 and weigh 2.88 x 0.012 x 695 kg; two sheets are 5.9536 m2.
#[test]
fn totals_are_the_sums() {
    let mut layout = model(vec![module("m", vec![part("panel", 4, 1200.0, 600.0)])]);
    layout.stocks[0].sheets = vec![bought((2440.0, 1220.0), Some(80.0))];
    let list = cut_list(&layout);
    let total = &list.totals[0];
    assert_eq!((total.pieces, total.price), (4, Some(160.0)));
    assert!(near(total.area, 2.88) && near(total.mass, 2.88 * 0.012 * 695.0));
    assert!(near(total.waste, 1.0 - 2.88 / 5.9536));
}

#[test]
fn a_part_larger_than_the_trimmed_sheet_is_named() {
    let fits = part("fits", 1, 2420.0, 1200.0);
    let list = cut_list(&model(vec![module("m", vec![fits, part("long", 1, 2420.1, 100.0)])]));
    let large: Vec<_> = list.rows.iter().filter(|row| row.too_large).map(|row| row.number.as_str()).collect();
    assert_eq!(large, ["m-02"]);
    assert_eq!((list.totals[0].plan.sheets.len(), list.totals[0].pieces), (1, 2));
}

/// The cheapest size that takes all is taken.
#[test]
fn the_smaller_sheet_is_taken_where_it_does() {
    let mut layout = model(vec![module("m", vec![part("panel", 1, 1000.0, 700.0)])]);
    layout.stocks[0].sheets = vec![bought((2500.0, 1250.0), Some(100.0)), bought((1250.0, 1250.0), Some(50.0))];
    let list = cut_list(&layout);
    assert_eq!(list.totals[0].plan.sheets[0].size, (1250.0, 1250.0));
    assert_eq!(list.totals[0].price, Some(50.0));
}

/// A layout with these stocks, and a part of 1200 x 600 for each.
fn of_stocks(stocks: Vec<crate::model::Stock>) -> crate::model::Model {
    let parts = (0..stocks.len()).map(|stock| crate::model::Part { stock, ..part("panel", 1, 1200.0, 600.0) });
    let mut layout = model(vec![module("m", parts.collect())]);
    layout.stocks = stocks;
    layout
}

fn role(name: &str) -> crate::model::Stock {
    crate::model::Stock { name: name.to_owned(), ..stock() }
}

/// Hand sum: two pieces of 1200 x 600 lie side by side on one sheet of 2440 x 1220; apart they would need two.
#[test]
fn stocks_of_one_material_share_their_sheets() {
    let list = cut_list(&of_stocks(vec![role("carcass"), role("front")]));
    assert_eq!((list.totals.len(), list.totals[0].stocks.clone(), list.totals[0].pieces), (1, vec![0, 1], 2));
    assert_eq!(list.totals[0].plan.sheets.len(), 1);
    assert_eq!(list.rows.iter().map(|row| row.stock).collect::<Vec<_>>(), [0, 1]);
}

/// Whatever makes it another board, another way of sawing or another bargain keeps stocks apart.
#[test]
fn stocks_that_differ_are_sawn_apart() {
    let apart = |change: &dyn Fn(&mut crate::model::Stock)| {
        let mut front = role("front");
        change(&mut front);
        cut_list(&of_stocks(vec![role("carcass"), front])).totals.len() == 2
    };
    assert!(!apart(&|_| {}));
    assert!(apart(&|stock| stock.material = "poplar-ply-12".to_owned()));
    assert!(apart(&|stock| stock.thickness = 11.6));
    assert!(apart(&|stock| stock.grain = Grain::Width));
    assert!(apart(&|stock| stock.kerf = 4.0));
    assert!(apart(&|stock| stock.sheets[0].size = (2500.0, 1250.0)));
    assert!(!apart(&|stock| stock.grain = Grain::Free));
}

/// A price or an offcut that one role says is that of the material; two prices for one size are two bargains.
#[test]
fn prices_and_offcuts_go_with_the_material() {
    let priced = |price| {
        let mut carcass = role("carcass");
        carcass.sheets = vec![bought((2440.0, 1220.0), Some(80.0))];
        let mut front = role("front");
        front.sheets[0].price = price;
        front.sheets.push(crate::model::SheetSize { size: (1300.0, 700.0), price: Some(0.0), on_hand: Some(1) });
        cut_list(&of_stocks(vec![carcass, front]))
    };
    let list = priced(None);
    assert_eq!((list.totals.len(), list.totals[0].price), (1, Some(80.0)));
    assert_eq!(priced(Some(90.0)).totals.len(), 2);
}
