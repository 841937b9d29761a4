//! The sheet set of the demos: what is on it, true to scale, with a number for every part.
//!
//! Sizes come from the layouts by hand arithmetic; how walls are seen (who looks at the left wall from inside has the front
//! at the right hand) is plain geometry.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "common/mod.rs"]
mod common;

use boxwright::compile::{Compiled, Options, Outputs, compile, produce};
use boxwright::drawing::{Item, LayerKind, LineClass, Sheet, View};
use boxwright::model::{MoveKind, Opening, SheetKind, Wall};
use boxwright::registry::Registry;
use boxwright::views::Choice;
use common::{directly_in, world, yaml_files};
use kurbo::{Rect, Shape};
use std::collections::BTreeSet;

fn demos() -> Vec<(String, &'static Compiled, Outputs<'static>)> {
    let files = yaml_files("layouts/");
    let world = world(&files);
    let made = |(path, _): &(String, String)| {
        let compiled = compile(&world, path, &Registry::standard(), &Options::default());
        let compiled: &'static Compiled = Box::leak(Box::new(compiled));
        let outputs = produce(compiled).unwrap();
        (path.clone(), compiled, outputs)
    };
    directly_in(&files, "layouts/").map(made).collect()
}

fn sheet<'a>(outputs: &'a Outputs<'_>, id: &str) -> &'a Sheet {
    outputs.sheets.iter().find(|sheet| sheet.id == id).unwrap_or_else(|| panic!("no sheet {id}"))
}

/// The items of a named group of a layer.
fn group<'a>(view: &'a View, kind: LayerKind, id: &str) -> &'a [Item] {
    let layer = view.layers.iter().find(|layer| layer.kind == kind).unwrap();
    let found = layer.items.iter().find_map(|item| match item {
        Item::Group(group) if group.id == id => Some(&group.items[..]),
        _ => None,
    });
    found.unwrap_or_else(|| panic!("no {id} in {}", view.id))
}

/// Bounds of the first path of some items with a line of a class.
fn bounds(items: &[Item], line: LineClass) -> Rect {
    let found = items.iter().find_map(|item| match item {
        Item::Path(path) if path.line == Some(line) => Some(path.shape.bounding_box()),
        _ => None,
    });
    found.unwrap()
}

#[test]
fn the_set_has_every_kind_of_sheet() {
    for (path, compiled, outputs) in demos() {
        let ids: BTreeSet<&str> = outputs.sheets.iter().map(|sheet| sheet.id.as_str()).collect();
        assert_eq!(ids.len(), outputs.sheets.len(), "{path}");
        for panel in ["left", "right", "front", "rear", "roof", "floor"] {
            assert!(ids.contains(format!("panel-{panel}").as_str()), "{path}: {panel}");
        }
        for kind in
            ["index", "plan-", "roof-plan", "elevations", "sections", "checks", "schedules", "cut-list", "cutting-"]
        {
            assert!(ids.iter().any(|id| id.starts_with(kind)), "{path}: {kind} of {ids:?}");
        }
        let model = compiled.model.as_ref().unwrap();
        let built = model.modules.iter().filter(|module| !module.parts.is_empty());
        for module in built {
            assert!(ids.contains(format!("module-{}", module.name).as_str()), "{path}: {}", module.name);
        }
    }
}

/// The index names every other sheet with the number that its title block shows.
#[test]
fn the_index_names_every_sheet() {
    for (path, _, outputs) in demos() {
        let numbered: Vec<&Sheet> = outputs.sheets.iter().filter(|sheet| sheet.id != "brochure").collect();
        let (index, others): (Vec<&Sheet>, Vec<&Sheet>) =
            numbered.iter().partition(|sheet| sheet.id.starts_with("index"));
        let said: BTreeSet<String> = index.iter().flat_map(|sheet| words(&sheet.views)).collect();
        for (at, sheet) in others.iter().enumerate() {
            let number = index.len() + at + 1;
            assert!(said.contains(&number.to_string()), "{path}: {number}");
            let start: String = sheet.title.chars().take(12).collect();
            assert!(said.iter().any(|words| words.starts_with(&start)), "{path}: {}", sheet.title);
            let numbered = format!("{number} / {}", index.len() + others.len());
            assert!(words(&sheet.views).contains(&numbered), "{path}: {} is not {numbered}", sheet.id);
        }
    }
}

fn words(views: &[View]) -> Vec<String> {
    let mut all = Vec::new();
    let mut open: Vec<&Item> = views.iter().flat_map(|view| &view.layers).flat_map(|layer| &layer.items).collect();
    while let Some(item) = open.pop() {
        match item {
            Item::Text(text) => all.push(text.words.clone()),
            Item::Group(group) => open.extend(&group.items),
            Item::Path(_) => {}
        }
    }
    all
}

/// Fronts of a galley that faces right: their widths on the elevations, hinge sides on the module's sheet. Who looks at the left
/// wall has the front of the box at the right hand, so a hinge that is farther to the rear than its leaf is at the left.
#[test]
fn fronts_tell_their_widths_and_hinge_sides() {
    let mut leaves = 0;
    for (path, compiled, outputs) in demos() {
        let model = compiled.model.as_ref().unwrap();
        let Some(galley) = model.modules.iter().find(|one| one.name == "galley" && one.faces == Wall::Right) else {
            continue;
        };
        let elevations = outputs.sheets.iter().filter(|sheet| sheet.id.starts_with("elevations"));
        let texts: Vec<String> = elevations.flat_map(|sheet| words(&sheet.views)).collect();
        let said = |width: f64| {
            let width = format!("{width:.0}");
            assert!(texts.contains(&width), "{path}: {width} of {texts:?}");
        };
        for part in &galley.poses.first().unwrap().moves {
            match &part.kind {
                MoveKind::Swing(swing) => said(swing.length),
                MoveKind::Slide(slide) => said(slide.body.x.1 - slide.body.x.0),
            }
        }
        let view = sheet(&outputs, "module-galley").views.iter().find(|view| view.id.starts_with("module-")).unwrap();
        for (index, leaf) in galley.together.leaves.iter().enumerate() {
            let id = if index == 0 { "hinge-door".to_owned() } else { format!("hinge-door-{}", index + 1) };
            let [Item::Path(path)] = group(view, LayerKind::Hidden, &id) else { panic!("{id}") };
            let points: Vec<_> = path.shape.elements().iter().filter_map(kurbo::PathEl::end_point).collect();
            let MoveKind::Swing(swing) = &galley.poses.first().unwrap().moves.get(leaf.turns).unwrap().kind else {
                panic!("{id}")
            };
            let rearward = swing.shut.to_radians().cos() < 0.0;
            let at_left = points.get(1).unwrap().x < path.shape.bounding_box().center().x;
            assert_eq!(at_left, rearward, "{id}");
            leaves += 1;
        }
    }
    assert!(leaves >= 2, "{leaves}");
}

/// Each hole lies in its panel where the layout says, true to scale: from outside, the left wall has the front at the left hand.
#[test]
fn openings_lie_in_their_panels_as_the_layout_says() {
    let mut looked_at = 0;
    for (path, compiled, outputs) in demos() {
        let model = compiled.model.as_ref().unwrap();
        for opening in &model.openings {
            let sheet = sheet(&outputs, &format!("panel-{}", opening.wall.name()));
            let view = sheet.views.iter().find(|view| view.id.starts_with("panel-")).unwrap();
            let scale = view.scale.unwrap();
            let panel = bounds(group(view, LayerKind::Shell, "panel"), LineClass::Cut);
            let hole = bounds(group(view, LayerKind::Shell, &format!("opening-{}", opening.name)), LineClass::Visible);
            let wanted = on_panel(opening, panel, scale);
            let off = [hole.x0 - wanted.x0, hole.y0 - wanted.y0, hole.x1 - wanted.x1, hole.y1 - wanted.y1];
            assert!(off.iter().all(|off| off.abs() < 0.01), "{path}: {}: {hole:?} {wanted:?}", opening.name);
            looked_at += 1;
        }
    }
    assert!(looked_at > 15, "{looked_at}");
}

fn on_panel(opening: &Opening, panel: Rect, scale: f64) -> Rect {
    let (low, high) = (opening.along.0 / scale, opening.along.1 / scale);
    let from_the_right = matches!(opening.wall, Wall::Right | Wall::Front);
    let (x0, x1) = if from_the_right { (panel.x1 - high, panel.x1 - low) } else { (panel.x0 + low, panel.x0 + high) };
    Rect::new(x0, panel.y0 + opening.up.0 / scale, x1, panel.y0 + opening.up.1 / scale)
}

/// From inside it is the other way round than from outside; the sizes are the same.
#[test]
fn elevations_show_openings_from_inside() {
    let mut looked_at = 0;
    for (path, compiled, outputs) in demos() {
        let model = compiled.model.as_ref().unwrap();
        let views: Vec<&View> = outputs.sheets.iter().flat_map(|sheet| &sheet.views).collect();
        for opening in model.openings.iter().filter(|opening| !opening.lies_flat()) {
            let id = format!("elevation-{}", opening.wall.name());
            let view = views.iter().find(|view| view.id == id).unwrap();
            let scale = view.scale.unwrap();
            let room = bounds(group(view, LayerKind::Shell, "room"), LineClass::Cut);
            let hole = bounds(group(view, LayerKind::Shell, &format!("opening-{}", opening.name)), LineClass::Visible);
            let (low, high) = (opening.along.0 / scale, opening.along.1 / scale);
            let from_the_right = matches!(opening.wall, Wall::Left | Wall::Rear);
            let x0 = if from_the_right { room.x1 - high } else { room.x0 + low };
            assert!((hole.x0 - x0).abs() < 0.01, "{path}: {}: {} {x0}", opening.name, hole.x0);
            assert!((hole.width() - (high - low)).abs() < 0.01);
            looked_at += 1;
        }
    }
    assert!(looked_at > 10, "{looked_at}");
}

/// Each part that has a place gets its number once on the sheet of its module.
#[test]
fn every_part_has_its_number_on_the_sheet_of_its_module() {
    let mut numbered = 0;
    for (path, compiled, outputs) in demos() {
        for module in compiled.model.as_ref().unwrap().modules.iter().filter(|module| !module.parts.is_empty()) {
            let sheet = sheet(&outputs, &format!("module-{}", module.name));
            let views: Vec<View> = sheet.views.iter().filter(|view| view.id.starts_with("module-")).cloned().collect();
            let said = words(&views);
            for (index, part) in module.parts.iter().enumerate().filter(|(_, part)| !part.places.is_empty()) {
                let number = (index + 1).to_string();
                let count = said.iter().filter(|words| **words == number).count();
                assert_eq!(count, 1, "{path}: {number} ({}) of {}", part.name, module.name);
                numbered += 1;
            }
        }
    }
    assert!(numbered > 60, "{numbered}");
}

/// Sizes on paper, times the scale, are those of the cutting plan; sheets that are not drawn equal one before them.
#[test]
fn cutting_diagrams_show_every_sheet_true_to_scale() {
    let mut drawn = 0;
    for (path, compiled, outputs) in demos() {
        let stocks = &compiled.model.as_ref().unwrap().stocks;
        for total in &outputs.cut_list().totals {
            for (index, cut) in total.plan.sheets.iter().enumerate() {
                let id = format!("cutting-{}-{}", stocks[total.stocks[0]].name, index + 1);
                let Some(sheet) = outputs.sheets.iter().find(|sheet| sheet.id == id) else {
                    assert!(total.plan.sheets[..index].contains(cut), "{path}: no {id}");
                    continue;
                };
                let view = sheet.views.iter().find(|view| view.id == "cutting").unwrap();
                let scale = view.scale.unwrap();
                let size = |rect: Rect| [rect.width(), rect.height()].map(|side| (side * scale * 100.0).round() as i64);
                let whole = bounds(group(view, LayerKind::Furniture, "sheet"), LineClass::Cut);
                assert_eq!(size(whole), size(Rect::new(0.0, 0.0, cut.size.0 / scale, cut.size.1 / scale)));
                let layer = view.layers.iter().find(|layer| layer.kind == LayerKind::Furniture).unwrap();
                let parts = layer.items.iter().filter_map(|item| match item {
                    Item::Group(group) if group.id.starts_with("part-") => {
                        Some(bounds(&group.items, LineClass::Visible))
                    }
                    _ => None,
                });
                let placed =
                    |piece: &boxwright::joinery::Placed| Rect::new(0.0, 0.0, piece.length / scale, piece.width / scale);
                let (mut seen, mut wanted): (Vec<_>, Vec<_>) =
                    (parts.map(size).collect(), cut.pieces.iter().map(|piece| size(placed(piece))).collect());
                seen.sort_unstable();
                wanted.sort_unstable();
                let near = |(a, b): (&[i64; 2], &[i64; 2])| a[0].abs_diff(b[0]) <= 1 && a[1].abs_diff(b[1]) <= 1;
                let same = seen.len() == wanted.len() && seen.iter().zip(&wanted).all(near);
                assert!(same, "{path}: {id}: {seen:?} {wanted:?}");
                drawn += 1;
            }
        }
    }
    assert!(drawn > 15, "{drawn}");
}

const HUT: &str = "boxwright: 1\ntitle: Hut\nbox: { length: 3000, width: 2000, height: 1900 }\n\
                   openings:\n  entry: { kind: door, wall: right, front: 700, run: 600, height: 1800 }\n";

/// A small layout with settings of its sheets.
fn hut(sheets: &str) -> Compiled {
    let text = format!("{HUT}sheets: {sheets}\n");
    let world = boxwright::source::MemoryWorld::default().with("hut.yaml", &text);
    compile(&world, "hut.yaml", &Registry::standard(), &Options::default())
}

fn errors(compiled: &Compiled) -> Vec<&str> {
    compiled.errors.errors().iter().map(|error| error.message.as_str()).collect()
}

/// `only` chooses kinds of sheets; the index comes with them.
#[test]
fn only_the_sheets_that_are_wanted_are_made() {
    let drawn = hut("{ only: [sections, panels] }");
    let outputs = produce(&drawn).unwrap();
    let ids: Vec<&str> = outputs.sheets.iter().map(|sheet| sheet.id.as_str()).collect();
    assert_eq!(ids.first(), Some(&"index"));
    assert!(ids[1..].iter().all(|id| id.starts_with("sections") || id.starts_with("panel-")), "{ids:?}");
    assert!(ids.len() >= 8, "{ids:?}");
    assert_eq!(errors(&hut("{ only: [sectoins] }")), ["`only` can't be `sectoins`"]);
}

/// Every sheet of the demos but the index can be asked for by its id, and a slip is told.
#[test]
fn ids_of_sheets_belong_to_kinds() {
    for (path, _, outputs) in demos() {
        for sheet in outputs.sheets.iter().filter(|sheet| !sheet.id.starts_with("index")) {
            assert!(sheet.id.parse::<Choice>().is_ok(), "{path}: {}", sheet.id);
        }
    }
    assert_eq!("cut-list".parse(), Ok(Choice::Kind(SheetKind::CutList)));
    assert_eq!("plan-day".parse(), Ok(Choice::Id(SheetKind::Plans, "plan-day".to_owned())));
    let told = "elevatoins".parse::<Choice>().unwrap_err();
    assert!(told.starts_with("did you mean `elevations`? write the id of a sheet"), "{told}");
}

/// The pictures of the page in `out` are sheets of the demo.
#[test]
fn the_gallery_shows_sheets_of_the_demo() {
    let page = common::text("out/README.md");
    let (_, _, outputs) = demos().into_iter().find(|(path, ..)| path.ends_with("marram.yaml")).unwrap();
    let shown: Vec<&str> = page.split("](marram/").skip(1).filter_map(|rest| rest.split(".svg)").next()).collect();
    assert!(shown.len() >= 20, "{shown:?}");
    shown.iter().for_each(|id| assert_eq!(sheet(&outputs, id).id, *id));
}

/// Planes of sections are taken from the layout, and have to lie in the box.
#[test]
fn sections_lie_where_the_layout_says() {
    let compiled = hut("{ sections: { along: 400, across: 1234 } }");
    let outputs = produce(&compiled).unwrap();
    let said: Vec<String> = outputs.sheets.iter().flat_map(|sheet| words(&sheet.views)).collect();
    assert!(said.iter().any(|words| words.starts_with("Section along, 400 mm")), "{said:?}");
    assert!(said.iter().any(|words| words.starts_with("Section across, 1234 mm")));
    let outside = hut("{ sections: { across: 3000 } }");
    assert_eq!(errors(&outside), ["the section across the box is 3000 mm from the front wall, outside the box"]);
}
