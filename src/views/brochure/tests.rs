//! Tests of the brochure: it holds all arrangements at one scale, nothing of the workshop, and stays on its sheet.

use super::*;
use crate::drawing::{Fill, Text, text_box};
use crate::geometry::{Axis, Box3, Prism};
use crate::model::testing::said;
use crate::model::{Module, Need, PaperSize, Person, Space, Wall, Word};
use crate::source::Span;
use crate::views::sample::{add, block, empty, findings, furnished, pose, solid};
use kurbo::Shape;

fn paper(name: &str) -> Paper {
    Paper::landscape(PaperSize::of(name).unwrap())
}

fn made(model: &Model, name: &str) -> Sheet {
    sheet(paper(name), model, &[])
}

/// A box with `count` arrangements, all alike.
fn with_arrangements(model: &Model, count: usize) -> Model {
    let mut model = model.clone();
    let first = model.arrangements[0].clone();
    let named = |index: usize| Arrangement { name: format!("way-{index}"), ..first.clone() };
    model.arrangements = (0..count).map(named).collect();
    model
}

fn far() -> Model {
    let mut far = furnished();
    block(&mut far, "runaway", (-90_000.0, 90_000.0), (500.0, 600.0), (0.0, 500.0));
    add(&mut far, "nothing", "Has no solids", Wall::Left, vec![pose("shut", vec![])]);
    far
}

fn space(name: &str, extent: Box3, need: Need, people: u32) -> Space {
    let (prism, along) = (Prism::from(extent), Some(Axis::Y));
    Space { name: name.into(), prism, need, people, along, carries: None, span: Span::default() }
}

/// A bed for two across the rear, a bench for two at the front, two people; by day and by night.
fn inhabited() -> Model {
    let mut model = empty(4000.0, 2000.0);
    let person =
        |name: &str, stature| Person { name: name.into(), stature, measured: true, mass: 70.0, span: Span::default() };
    model.people = vec![person("ada", 1700.0), person("bo", 1800.0)];
    let bed = Box3 { x: (2600.0, 4000.0), y: (0.0, 2000.0), z: (600.0, 1300.0) };
    let bench = Box3 { x: (0.0, 500.0), y: (0.0, 1200.0), z: (440.0, 1390.0) };
    block(&mut model, "bed", bed.x, bed.y, (0.0, 600.0));
    block(&mut model, "bench", bench.x, bench.y, (0.0, 440.0));
    let mut give = |index: usize, space: Space, tag: &str| {
        let module: &mut Module = &mut model.modules[index];
        module.faces = Wall::Rear;
        module.poses[0].solids[0].tags = vec![said(tag)];
        module.poses[0].spaces.push(space);
    };
    give(0, space("lie", bed, Need::Lying, 2), "mattress");
    give(1, space("sit", bench, Need::Sitting, 2), "seat");
    let first = model.arrangements[0].clone();
    model.arrangements =
        ["day", "night", "travel"].map(|name| Arrangement { name: name.into(), ..first.clone() }).to_vec();
    model
}

fn walk<'a>(items: &'a [Item], visit: &mut dyn FnMut(&'a Item)) {
    for item in items {
        visit(item);
        if let Item::Group(group) = item {
            walk(&group.items, visit);
        }
    }
}

fn items(views: &[View]) -> Vec<&Item> {
    let mut all = Vec::new();
    views.iter().flat_map(|view| &view.layers).for_each(|layer| walk(&layer.items, &mut |item| all.push(item)));
    all
}

fn bounds(item: &Item) -> Option<Rect> {
    match item {
        Item::Path(path) => Some(path.shape.bounding_box()),
        Item::Text(text) => Some(text_box(text)),
        Item::Group(_) => None,
    }
}

fn words(views: &[View]) -> Vec<&str> {
    let text = |item: &&Item| matches!(item, Item::Text(_));
    items(views)
        .into_iter()
        .filter(text)
        .map(|item| if let Item::Text(Text { words, .. }) = item { words } else { "" })
        .collect()
}

/// Names of the people drawn in a view.
fn drawn(view: &View) -> Vec<String> {
    let all = items(std::slice::from_ref(view));
    let person = |item: &&Item| match item {
        Item::Group(group) => group.title.strip_prefix("Person: ").map(str::to_owned),
        _ => None,
    };
    let mut names: Vec<String> = all.iter().filter_map(person).collect();
    names.sort();
    names.dedup();
    names
}

#[test]
fn all_arrangements_stand_at_one_scale_without_dimensions() {
    for count in [1, 2, 3, 4, 5, 7, 12, 32] {
        for size in ["A4", "A3", "A1"] {
            let sheet = made(&with_arrangements(&furnished(), count), size);
            let plans: Vec<&View> = sheet.views.iter().filter(|view| view.id.starts_with("plan-")).collect();
            assert_eq!(plans.len(), count);
            assert!(plans.iter().all(|plan| plan.scale == plans[0].scale));
            let layers = sheet.views.iter().flat_map(|view| &view.layers);
            assert!(layers.into_iter().all(|layer| layer.kind != LayerKind::Dimensions));
            let words = words(&sheet.views);
            assert!((0..count).all(|index| words.contains(&format!("Way {index}").as_str())), "{count} on {size}");
        }
    }
}

#[test]
fn everything_stays_on_the_sheet_and_apart() {
    let models = [
        furnished(),
        inhabited(),
        far(),
        empty(300.0, 200.0),
        empty(11_900.0, 2450.0),
        empty(99_000.0, 500.0),
        empty(500.0, 99_000.0),
    ];
    for (index, model) in models.iter().enumerate() {
        for (count, size) in [(1, "A4"), (3, "A3"), (4, "A1"), (7, "A4"), (32, "A3")] {
            let sheet = made(&with_arrangements(model, count), size);
            let inside = Rect::new(0.0, 0.0, sheet.paper.width, sheet.paper.height).inset(-4.0);
            for item in items(&sheet.views) {
                let within = bounds(item).is_none_or(|bounds| inside.contains_rect(bounds));
                assert!(within, "model {index}, {count} on {size}: {item:?}");
            }
            let texts: Vec<&Item> =
                items(&sheet.views).into_iter().filter(|item| matches!(item, Item::Text(_))).collect();
            for (at, text) in texts.iter().enumerate() {
                for other in texts.iter().skip(at + 1) {
                    let meet = bounds(text).unwrap().intersect(bounds(other).unwrap());
                    let apart = meet.width() < 0.02 || meet.height() < 0.02;
                    assert!(apart, "model {index}, {count} on {size}: {text:?} and {other:?}");
                }
            }
        }
    }
}

#[test]
fn plans_are_true_to_scale() {
    let model = empty(4000.0, 2000.0);
    let sheet = made(&model, "A3");
    let scale = sheet.views[0].scale.unwrap();
    let floor = items(&sheet.views[..1]).into_iter().find_map(|item| match item {
        Item::Path(path) if path.fill == Some(Fill::Floor) => Some(path.shape.bounding_box()),
        _ => None,
    });
    let floor = floor.unwrap();
    assert!((floor.width() * scale - 4000.0).abs() < 0.1 && (floor.height() * scale - 2000.0).abs() < 0.1);
}

#[test]
fn people_sit_by_day_sleep_by_night_and_ride_in_front() {
    let sheet = made(&inhabited(), "A3");
    let people: Vec<Vec<String>> = sheet.views.iter().take(3).map(drawn).collect();
    assert_eq!(people, [vec!["ada", "bo"], vec!["ada", "bo"], vec![]]);
    let person = |view: usize| {
        let all = items(&sheet.views[view..=view]);
        let own = all.into_iter().filter(|item| matches!(item, Item::Path(path) if path.fill == Some(Fill::People)));
        own.filter_map(bounds).reduce(|a, b| a.union(b)).unwrap()
    };
    let middle = |view: usize| sheet.views[view].scale.map(|_| person(view).center().x).unwrap();
    let floor = |view: usize| items(&sheet.views[view..=view]).into_iter().find_map(bounds).unwrap().center().x;
    assert!(middle(0) < floor(0) && middle(1) > floor(1), "on the bench at the front, in the bed at the rear");
}

#[test]
fn key_figures_follow_from_the_model() {
    let model = inhabited();
    let sheet = made(&model, "A3");
    let words = words(&sheet.views);
    // By hand: 4,000 and 2 x 62 of wall; 1,950 with 62 of roof and 80 of floor; 4 x 2 m.
    for wanted in ["4.12 × 2.12 × 2.09 m", "4.00 × 2.00 × 1.95 m", "8.0 m²", "berths", "seats"] {
        assert!(words.contains(&wanted), "{wanted}: {words:?}");
    }
    assert!(words.iter().any(|words| words.ends_with("made by Boxwright")));
    assert!(!words.iter().any(|words| words.contains("water")));
}

#[test]
fn what_has_no_room_for_its_name_is_in_the_list() {
    let mut model = empty(4000.0, 2000.0);
    block(&mut model, "small-thing", (100.0, 160.0), (100.0, 160.0), (0.0, 500.0));
    let raised = pose("up", vec![solid((1000.0, 2000.0), (0.0, 400.0), (1500.0, 1800.0))]);
    add(&mut model, "top-locker", "A locker", Wall::Left, vec![raised]);
    let sheet = made(&model, "A3");
    let words = words(&sheet.views);
    assert!(words.contains(&"1 Small thing") && words.contains(&"1"), "{words:?}");
    assert!(words.contains(&"Dashed, overhead: top locker"), "{words:?}");
}

#[test]
fn with_faults_the_stamp_stands_clear_of_the_title() {
    let mut model = furnished();
    model.title.title = "A long title that goes on and on ".repeat(6);
    for size in ["A4", "A3"] {
        let sheet = sheet(paper(size), &model, &findings());
        let (held, rest) = sheet.views.split_last().unwrap();
        let stamp = items(std::slice::from_ref(held)).into_iter().find_map(bounds).unwrap();
        assert!(words(std::slice::from_ref(held))[0].starts_with("HELD"));
        assert!(items(rest).into_iter().filter_map(bounds).all(|one| {
            let meet = one.intersect(stamp);
            meet.width() < 0.02 || meet.height() < 0.02
        }));
    }
}
