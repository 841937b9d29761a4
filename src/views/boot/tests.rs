//! Sheets of a hand-made boot.

use super::*;
use crate::drawing::title_block_place;
use crate::figures::alone;
use crate::geometry::{Axis, Box3, Parcel, Polygon, Prism, Stands};
use crate::model::{Cargo, Cutaway, Need, OpeningKind, PaperSize, Space, Wall};
use crate::source::Span;
use crate::views::sample;
use kurbo::Shape;

/// A boot of 1.4 x 2 x 0.7 m at the rear, with a ramp and a wheel box, and two kinds of cargo.
fn boot(count: usize) -> Model {
    let mut model = sample::empty(4000.0, 2000.0);
    sample::block(&mut model, "boot", (2600.0, 4000.0), (0.0, 2000.0), (700.0, 715.0));
    let room = Box3 { x: (2600.0, 4000.0), y: (0.0, 2000.0), z: (0.0, 700.0) };
    let (name, span) = ("store".to_owned(), Span::default());
    let (need, prism, carries) = (Need::Storage, room.into(), Some(200.0));
    let store = Space { name, prism, need, people: 1, along: None, carries, span };
    model.modules[0].poses[0].spaces.push(store);
    let ramp = [(3500.0, 0.0), (4000.0, 0.0), (4000.0, 300.0)].into_iter().map(Point::from).collect();
    let ramp = Prism { axis: Axis::Y, outline: Polygon::new(ramp), low: 0.0, high: 2000.0 };
    let wheel = Prism::upright(Rect::new(2700.0, 0.0, 3300.0, 250.0), 0.0, 210.0);
    for prism in [ramp, wheel] {
        model.space.cutaways.push(Cutaway { name: "part".to_owned(), prism, kind: crate::model::CutKind::Floor, span });
    }
    model.openings.push(sample::opening("hatch", OpeningKind::Hatch, Wall::Left, (2650.0, 3550.0), (230.0, 650.0)));
    for (name, size, count) in [("crate", [600.0, 400.0, 300.0], count), ("chest", [800.0, 600.0, 400.0], 1)] {
        let parcel = Parcel { size, count, stands: Stands::Any };
        model.cargo.push(Cargo { name: name.to_owned(), parcel, mass: 12.0, module: 0, through: Some(0), span });
    }
    model
}

fn paper() -> Paper {
    Paper::landscape(PaperSize::A3)
}

fn items(draft: &Draft) -> Vec<Item> {
    let all = draft.views.iter().flat_map(|view| &view.layers).flat_map(|layer| &layer.items);
    all.flat_map(flat).collect()
}

fn flat(item: &Item) -> Vec<Item> {
    match item {
        Item::Group(group) => group.items.iter().flat_map(flat).collect(),
        _ => vec![item.clone()],
    }
}

fn words(draft: &Draft) -> Vec<String> {
    let text = |item: Item| if let Item::Text(text) = item { Some(text.words) } else { None };
    items(draft).into_iter().filter_map(text).collect()
}

#[test]
fn every_piece_is_drawn_in_three_views_and_listed() {
    let drafts = sheets(paper(), false, &alone(&boot(4)));
    let [sheet] = &drafts[..] else { panic!("{} sheets", drafts.len()) };
    assert_eq!((sheet.id.as_str(), sheet.scale), ("stowage-boot", Some(20.0)));
    let words = words(sheet);
    for wanted in ["1", "5", "crate", "chest", "600 × 400 × 300", "From above", "From the left", "From the front"] {
        assert!(words.iter().any(|word| word == wanted), "{wanted}: {words:?}");
    }
    assert!(!words.iter().any(|word| word.starts_with("Left over")));
    let pieces = sheet.views[0].layers.iter().filter(|layer| layer.kind == LayerKind::Furniture);
    let drawn = pieces.flat_map(|layer| &layer.items).flat_map(flat).filter(|item| matches!(item, Item::Path(_)));
    assert_eq!(drawn.count(), 3 * 5, "five pieces in three views");
}

#[test]
fn everything_stays_in_the_drawing_space_and_off_the_title_block() {
    for held in [false, true] {
        for draft in sheets(paper(), held, &alone(&boot(30))) {
            let (space, block) = (draft.paper.drawing_space(), title_block_place(draft.paper));
            for item in items(&draft) {
                let bounds = match &item {
                    Item::Path(path) => path.shape.bounding_box(),
                    Item::Text(text) => crate::drawing::text_box(text),
                    Item::Group(_) => continue,
                };
                assert_eq!(space.union(bounds), space, "{item:?}");
                let common = bounds.intersect(block);
                assert!(common.width() <= 0.0 || common.height() <= 0.0, "{item:?}");
            }
        }
    }
}

#[test]
fn what_is_left_over_is_listed() {
    let drafts = sheets(paper(), true, &alone(&boot(60)));
    let all: Vec<String> = drafts.iter().flat_map(words).collect();
    assert!(all.iter().any(|word| word.starts_with("Left over: no place was found for")), "{all:?}");
}

#[test]
fn no_cargo_no_sheet() {
    let mut model = boot(1);
    model.cargo.clear();
    assert!(sheets(paper(), false, &alone(&model)).is_empty());
}
