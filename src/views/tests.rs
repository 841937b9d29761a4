//! Tests of whole sheets: true scale, no overlapping texts, all inside the frame.

use super::*;
use crate::drawing::{Align, Item, LayerKind, LineClass, Text, text_box, text_width};
use crate::figures::alone;
use crate::model::{Model, OpeningKind, PaperSize, Wall};
use crate::views::sample::{add, block, empty, findings, furnished, opening, pose, solid};
use kurbo::{BezPath, Point, Rect, Shape};
use std::collections::BTreeSet;
use std::sync::OnceLock;

fn ways(_: &Arrangement) -> Vec<Narrow> {
    let way =
        |name: &str, from: (f64, f64), to: (f64, f64)| Narrow { name: name.into(), from: from.into(), to: to.into() };
    vec![way("entry galley", (1800.0, 580.0), (1800.0, 1480.0)), way("entry table", (3100.0, 1400.0), (3100.0, 2080.0))]
}

fn sheets(model: &Model) -> Vec<Sheet> {
    let figures = alone(model);
    let input = SheetSet { figures: &figures, checks: &[], findings: &findings(), given: &[] };
    sheet_set_with(&input, &Chosen::default(), &ways)
}

/// The sheet set of a layout without findings.
fn clean_set(model: &Model) -> Vec<Sheet> {
    sheet_set(&SheetSet { figures: &alone(model), checks: &[], findings: &[], given: &[] }, &Chosen::default())
}

/// Blocks along the left wall with these gaps between them, and one more wall full of narrow openings.
fn with_gaps(gaps: &[f64]) -> Model {
    let mut model = empty(4200.0, 2100.0);
    let mut x = 150.0;
    for (index, gap) in gaps.iter().enumerate() {
        let name = format!("block-{index}");
        block(&mut model, &name, (x, x + 240.0), (0.0, 500.0), (0.0, 850.0));
        block(&mut model, &format!("{name}-rear"), (3600.0, 4200.0), (x / 2.0, x / 2.0 + 118.0), (0.0, 400.0));
        model.openings.push(opening(&name, OpeningKind::Window, Wall::Right, (x, x + 245.0 - gap), (900.0, 1300.0)));
        x += 240.0 + gap;
    }
    model
}

fn crowded() -> Model {
    let mut model = empty(2000.0, 1500.0);
    for index in 0..60_u32 {
        let (x, y) = (f64::from(index % 10) * 200.0, f64::from(index / 10) * 250.0);
        block(&mut model, &format!("module-with-a-long-name-{index}"), (x, x + 195.0), (y, y + 245.0), (0.0, 700.0));
    }
    model
}

/// Layouts that differ in everything that makes sheets hard.
fn layouts() -> Vec<(&'static str, Model)> {
    let mut asked = furnished();
    asked.sheets.scale = Some(5.0);
    let mut small = furnished();
    small.sheets.paper = PaperSize::A4;
    let mut large = furnished();
    large.sheets.paper = PaperSize::A1;
    let mut far = furnished();
    block(&mut far, "runaway", (-90_000.0, 90_000.0), (500.0, 600.0), (0.0, 500.0));
    block(&mut far, "lost", (50_000.0, 51_000.0), (50_000.0, 51_000.0), (0.0, 500.0));
    let none = add;
    none(&mut far, "nothing", "Has no solids", Wall::Left, vec![pose("shut", vec![])]);
    vec![
        ("furnished", furnished()),
        ("empty", empty(3960.0, 2080.0)),
        ("gaps of 5 to 30", with_gaps(&[5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 5.0, 8.0])),
        ("gaps of 5", with_gaps(&[5.0; 10])),
        ("gaps of 5.5", with_gaps(&[5.5, 30.0, 5.5, 30.0, 5.5, 29.5])),
        ("crowded", crowded()),
        ("asked for 1:5", asked),
        ("A4", small),
        ("A1", large),
        ("far outside", far),
        ("long", empty(11_900.0, 2450.0)),
        ("tiny", empty(300.0, 200.0)),
    ]
}

/// The first general plan.
fn first_plan(sheets: &[Sheet]) -> &Sheet {
    sheets.iter().find(|sheet| sheet.id.starts_with("plan")).unwrap()
}

/// The sheets of all layouts, made once.
fn all_sheets() -> &'static [(&'static str, Vec<Sheet>)] {
    static ALL: OnceLock<Vec<(&'static str, Vec<Sheet>)>> = OnceLock::new();
    ALL.get_or_init(|| layouts().iter().map(|(name, model)| (*name, sheets(model))).collect())
}

/// All but the brochure.
fn is_framed(sheet: &Sheet) -> bool {
    sheet.views.iter().any(|view| view.id == "frame")
}

fn walk<'a>(items: &'a [Item], visit: &mut dyn FnMut(&'a Item)) {
    for item in items {
        visit(item);
        if let Item::Group(group) = item {
            walk(&group.items, visit);
        }
    }
}

fn layer_items(sheet: &Sheet, wanted: impl Fn(&str, LayerKind) -> bool) -> Vec<&Item> {
    let mut all = Vec::new();
    for view in &sheet.views {
        for layer in view.layers.iter().filter(|layer| wanted(&view.id, layer.kind)) {
            walk(&layer.items, &mut |item| all.push(item));
        }
    }
    all
}

fn texts<'a>(items: &[&'a Item]) -> Vec<&'a Text> {
    items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None }).collect()
}

fn touch(a: Rect, b: Rect) -> bool {
    let meet = a.intersect(b);
    meet.width() > 0.02 && meet.height() > 0.02
}

#[test]
fn no_text_lies_on_another() {
    for (name, sheets) in all_sheets() {
        for sheet in sheets {
            let items = layer_items(sheet, |view, _| view != "frame" && view != "held");
            let boxes: Vec<(&str, Rect)> =
                texts(&items).into_iter().map(|text| (text.words.as_str(), text_box(text))).collect();
            for (index, (words, place)) in boxes.iter().enumerate() {
                for (other, rect) in boxes.iter().skip(index + 1) {
                    assert!(!touch(*place, *rect), "{name}, {}: {words} and {other} at {place:?}", sheet.id);
                }
            }
        }
    }
}

/// A figure without the room for descenders, which figures do not have.
fn figure_box(text: &Text) -> Rect {
    let width = text_width(&text.words, text.height);
    let left = match text.align {
        Align::Start => 0.0,
        Align::Middle => -width / 2.0,
        Align::End => -width,
    };
    let flat = Rect::new(left, 0.0, left + width, text.height);
    (kurbo::Affine::translate(text.at.to_vec2()) * kurbo::Affine::rotate(text.turn.to_radians()))
        .transform_rect_bbox(flat)
}

fn crosses(shape: &BezPath, place: Rect) -> bool {
    let place = place.inset(-0.05);
    let outline = place.to_path(0.1);
    shape.segments().any(|segment| {
        place.contains(segment.as_path_segment_start()) || outline.segments().any(|edge| meet(&segment, &edge))
    })
}

trait Start {
    fn as_path_segment_start(&self) -> Point;
}

impl Start for kurbo::PathSeg {
    fn as_path_segment_start(&self) -> Point {
        kurbo::ParamCurve::start(self)
    }
}

fn meet(segment: &kurbo::PathSeg, edge: &kurbo::PathSeg) -> bool {
    match edge {
        kurbo::PathSeg::Line(line) => !segment.intersect_line(*line).is_empty(),
        _ => false,
    }
}

#[test]
fn no_dimension_line_runs_through_a_text_of_the_chains() {
    for (name, sheets) in all_sheets() {
        for sheet in sheets.iter().filter(|sheet| sheet.id.starts_with("plan")) {
            let items = layer_items(sheet, |view, layer| view == "plan" && layer == LayerKind::Dimensions);
            let texts = texts(&items);
            for item in &items {
                let Item::Path(path) = item else { continue };
                if !matches!(path.line, Some(LineClass::Dimension | LineClass::Visible)) {
                    continue;
                }
                for text in &texts {
                    assert!(!crosses(&path.shape, figure_box(text)), "{name}: {} {:?}", text.words, path.shape);
                }
            }
        }
    }
}

#[test]
fn everything_is_inside_the_frame() {
    for (name, sheets) in all_sheets() {
        for sheet in sheets.iter().filter(|sheet| is_framed(sheet)) {
            let space = sheet.paper.drawing_space();
            for item in layer_items(sheet, |view, _| view != "frame") {
                let bounds = match item {
                    Item::Path(path) => path.shape.bounding_box(),
                    Item::Text(text) => text_box(text),
                    Item::Group(_) => continue,
                };
                assert!(space.contains_rect(bounds), "{name}, {}: {bounds:?} {item:?}", sheet.id);
            }
        }
    }
}

#[test]
fn nothing_lies_on_the_title_block_or_the_stamp() {
    for (name, sheets) in all_sheets() {
        for sheet in sheets.iter().filter(|sheet| is_framed(sheet)) {
            let block = crate::drawing::title_block_place(sheet.paper);
            let stamp = layer_items(sheet, |view, _| view == "held");
            let stamp = stamp
                .iter()
                .find_map(|item| if let Item::Path(path) = item { Some(path.shape.bounding_box()) } else { None });
            for item in layer_items(sheet, |view, _| view != "frame" && view != "held") {
                let bounds = match item {
                    Item::Path(path) => path.shape.bounding_box(),
                    Item::Text(text) => text_box(text),
                    Item::Group(_) => continue,
                };
                assert!(!touch(block, bounds), "{name}, {}: {item:?}", sheet.id);
                assert!(!stamp.is_some_and(|stamp| touch(stamp, bounds)), "{name}, {}: {item:?}", sheet.id);
            }
        }
    }
}

fn group_bounds(sheet: &Sheet, id: &str) -> Rect {
    let groups = layer_items(sheet, |view, _| view == "plan");
    let group = groups.iter().find_map(|item| match item {
        Item::Group(group) if group.id == id => Some(group),
        _ => None,
    });
    let mut bounds: Option<Rect> = None;
    walk(&group.unwrap().items, &mut |item| {
        if let Item::Path(path) = item {
            let rect = path.shape.bounding_box();
            bounds = Some(bounds.map_or(rect, |all| all.union(rect)));
        }
    });
    bounds.unwrap()
}

#[test]
fn lengths_are_true_to_scale() {
    let sheets = sheets(&furnished());
    let plan = first_plan(&sheets);
    let scale = plan.views.iter().find(|view| view.id == "plan").unwrap().scale.unwrap();
    assert_eq!(scale, 20.0);
    let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-6, "{a} is not {b}");
    let walls = group_bounds(plan, "walls");
    close(walls.width() * scale, 3960.0 + 2.0 * 62.0);
    close(walls.height() * scale, 2080.0 + 2.0 * 62.0);
    let table = group_bounds(plan, "module-table");
    close(table.width() * scale, 480.0);
    close((table.x0 - walls.x0) * scale - 62.0, 2860.0);
    close((table.y0 - walls.y0) * scale - 62.0, 700.0);
}

/// Figures of the ways with the lengths of their arrows, mm.
fn way_figures(sheet: &Sheet) -> Vec<(String, f64)> {
    let scale = sheet.views.iter().find_map(|view| view.scale).unwrap();
    let items = layer_items(sheet, |view, layer| view == "plan" && layer == LayerKind::Dimensions);
    let groups = items.iter().filter_map(|item| match item {
        Item::Group(group) if group.id.starts_with("width-") => Some(group),
        _ => None,
    });
    let figure = |group: &crate::drawing::Group| {
        let all: Vec<&Item> = group.items.iter().collect();
        let arrow = all.iter().find_map(|item| match item {
            Item::Path(path) if path.line == Some(LineClass::Dimension) => Some(path.shape.segments().next().unwrap()),
            _ => None,
        });
        let arrow = arrow.unwrap();
        let length = (kurbo::ParamCurve::end(&arrow) - kurbo::ParamCurve::start(&arrow)).hypot();
        (texts(&all)[0].words.clone(), length * scale)
    };
    groups.map(figure).collect()
}

#[test]
fn figures_of_ways_are_the_lengths_of_their_arrows() {
    let mut count = 0;
    let measured = layouts().into_iter().map(|(name, model)| (name, clean_set(&model)));
    let given = all_sheets().iter().cloned();
    for (name, sheets) in measured.chain(given) {
        for sheet in sheets.iter().filter(|sheet| sheet.id.starts_with("plan")) {
            for (words, length) in way_figures(sheet) {
                assert_eq!(words, format!("{length:.0}"), "{name}, {}", sheet.id);
                count += 1;
            }
        }
    }
    assert!(count > 4, "{count}");
}

#[test]
fn a_disc_held_between_two_corners_and_a_wall_gives_no_figure() {
    let mut model = empty(3300.0, 1780.0);
    model.openings.push(opening("door", OpeningKind::Door, Wall::Right, (160.0, 1060.0), (0.0, 1600.0)));
    block(&mut model, "seat", (0.0, 520.0), (0.0, 1000.0), (0.0, 450.0));
    block(&mut model, "galley", (1040.0, 2080.0), (0.0, 450.0), (0.0, 880.0));
    block(&mut model, "bed", (1340.0, 3300.0), (1080.0, 1780.0), (0.0, 720.0));
    let (prism, need) = (solid((1040.0, 2080.0), (450.0, 1050.0), (0.0, 1800.0)).prism, crate::model::Need::Standing);
    let span = crate::source::Span::default();
    let stand = crate::model::Space { name: "stand".into(), prism, need, people: 1, along: None, carries: None, span };
    model.modules[1].poses[0].spaces.push(stand);
    let arrangement = model.arrangements[0].clone();
    let ways = alone(&model).measured_ways(&arrangement, &[]);
    let held = |way: &&crate::figures::Way| (way.across.1 - way.across.0).hypot() < way.width - 1.0;
    assert!(ways.iter().any(|way| held(&way)), "{ways:?}");
    let drawn = plan::walkways::narrow_places(&alone(&model), &arrangement);
    assert!(ways.iter().filter(held).all(|way| drawn.iter().all(|narrow| narrow.name != way.name)));
}

#[test]
fn each_chain_adds_up() {
    let sheets = sheets(&furnished());
    let sheet = first_plan(&sheets);
    let items = layer_items(sheet, |view, layer| view == "plan" && layer == LayerKind::Dimensions);
    let figures: Vec<(&str, Vec<f64>)> = ["chains-below", "chains-above", "chains-left", "chains-right"]
        .map(|id| {
            let group = items.iter().find_map(|item| match item {
                Item::Group(group) if group.id == id => Some(group),
                _ => None,
            });
            let mut values = Vec::new();
            walk(&group.unwrap().items, &mut |item| {
                if let Item::Text(text) = item {
                    values.extend(text.words.parse::<f64>().ok());
                }
            });
            (id, values)
        })
        .to_vec();
    // Below: modules, above, openings, inside, outside; above the view: modules, above, openings; right: the aisle too.
    let sum = |index: usize| figures[index].1.iter().sum::<f64>();
    assert_eq!(sum(0), 4.0 * 3960.0 + 4084.0);
    assert_eq!(sum(1), 3.0 * 3960.0);
    assert_eq!(sum(2), 2.0 * 2080.0 + 2204.0);
    assert_eq!(sum(3), 3.0 * 2080.0);
}

#[test]
fn ids_are_unique() {
    for (name, sheets) in all_sheets() {
        let ids: BTreeSet<&str> = sheets.iter().map(|sheet| sheet.id.as_str()).collect();
        assert_eq!(ids.len(), sheets.len(), "{name}");
        for sheet in sheets {
            for layer in sheet.views.iter().flat_map(|view| &view.layers) {
                let mut seen = BTreeSet::new();
                walk(&layer.items, &mut |item| {
                    if let Item::Group(group) = item {
                        assert!(seen.insert(&group.id), "{name}: {}", group.id);
                        assert!(group.id.chars().all(|c| c.is_ascii_alphanumeric() || c == '-'), "{}", group.id);
                    }
                });
            }
        }
    }
}

#[test]
fn files_of_alike_arrangements_have_names_of_their_own() {
    let mut model = empty(3000.0, 2000.0);
    let names = ["Day", "day", "day-2", "früh", "fräh"];
    let arrangement = |name: &str| Arrangement { name: name.into(), ..model.arrangements[0].clone() };
    model.arrangements = names.map(arrangement).to_vec();
    let sheets = clean_set(&model);
    let ids: Vec<&str> = sheets.iter().map(|sheet| sheet.id.as_str()).collect();
    let expected = ["plan-Day", "plan-day-2", "plan-day-2-2", "plan-fr-h", "plan-fr-h-2"];
    assert_eq!(ids.get(1..6), Some(&expected[..]));
}

fn all_words(sheets: &[Sheet]) -> String {
    let items = sheets.iter().flat_map(|sheet| layer_items(sheet, |_, _| true)).collect::<Vec<_>>();
    texts(&items).iter().map(|text| text.words.as_str()).collect::<Vec<_>>().join(" ")
}

#[test]
fn changed_limits_and_the_revision_are_printed() {
    let mut model = furnished();
    model.title.revision_note = "galley moved 60 mm to the rear".into();
    model.limits.push(crate::model::LimitChange {
        check: "walkway".into(),
        name: "least".into(),
        value: 480.0,
        because: "both people are slim".into(),
        span: crate::source::Span::default(),
    });
    let words = all_words(&sheets(&model));
    let wanted = ["Revision B: galley moved 60 mm to the rear", "Changed limits", "480", "Both people are slim"];
    wanted.into_iter().for_each(|wanted| assert!(words.contains(wanted), "{wanted}"));
}

#[test]
fn openings_are_always_listed() {
    for (name, sheets) in all_sheets() {
        let model = layouts().into_iter().find(|(other, _)| other == name).unwrap().1;
        let words = all_words(sheets);
        assert!(model.openings.is_empty() || words.contains("Openings"), "{name}");
    }
}

#[test]
fn same_sheets_twice() {
    assert_eq!(sheets(&furnished()), sheets(&furnished()));
}

#[test]
fn a_scale_that_does_not_fit_is_refused_with_a_remark() {
    let mut model = furnished();
    model.sheets.scale = Some(5.0);
    let asked = sheets(&model);
    let items = layer_items(first_plan(&asked), |_, _| true);
    assert!(texts(&items).iter().any(|text| text.words.contains("Scale 1:5 was asked for but does not fit on A3")));
    model.sheets.scale = Some(50.0);
    let plan = first_plan(&sheets(&model)).views.iter().find(|view| view.id == "plan").unwrap().scale;
    assert_eq!(plan, Some(50.0));
}

#[test]
fn every_module_has_its_number_in_the_plan() {
    let model = furnished();
    for sheet in sheets(&model).iter().filter(|sheet| sheet.id.starts_with("plan")) {
        let items = layer_items(sheet, |_, layer| layer == LayerKind::Labels);
        let words: BTreeSet<&str> = texts(&items).into_iter().map(|text| text.words.as_str()).collect();
        assert!((1..=model.modules.len()).all(|number| words.contains(number.to_string().as_str())));
    }
}

#[test]
fn held_only_with_faults() {
    let clean = clean_set(&furnished());
    assert!(clean.iter().all(|sheet| sheet.views.iter().all(|view| view.id != "held")));
    assert!(sheets(&furnished()).iter().all(|sheet| sheet.views.iter().any(|view| view.id == "held")));
}

#[test]
fn solids_below_are_hidden_by_those_above_them() {
    let mut model = empty(3000.0, 2000.0);
    let upper = solid((0.0, 500.0), (0.0, 500.0), (0.0, 900.0));
    let lower = solid((100.0, 400.0), (100.0, 400.0), (0.0, 300.0));
    add(&mut model, "both", "Two solids", Wall::Left, vec![pose("shut", vec![upper, lower])]);
    let sheets = clean_set(&model);
    let items = layer_items(first_plan(&sheets), |_, layer| layer == LayerKind::Furniture);
    let areas: Vec<f64> = items
        .iter()
        .filter_map(|item| if let Item::Path(path) = item { Some(path.shape.area().abs()) } else { None })
        .collect();
    assert!(areas[0] < areas[1], "{areas:?}");
}
