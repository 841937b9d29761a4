//! What the joiner gets, read back by other libraries: spreadsheet, labels with their codes, pieces in true size.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use boxwright::backends::{OutputFile, Reads};
use boxwright::compile::{Compiled, Options, Outputs, Session, Wanted, compile, produce};
use boxwright::diagnostic::Held;
use boxwright::drawing::{Fill, Item, text_box};
use boxwright::joinery::Row;
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use boxwright::views::part_labels;
use calamine::{Data, DataType, Reader, Xlsx};
use kurbo::{Point, Rect, Shape};
use std::io::Cursor;

fn demo(name: &str) -> (&'static Compiled, Outputs<'static>) {
    let world = common::world(&common::yaml_files("layouts"));
    let path = format!("layouts/{name}.yaml");
    let compiled = compile(&world, &path, &Registry::standard(), &Options::default());
    let compiled: &'static Compiled = Box::leak(Box::new(compiled));
    let outputs = produce(compiled).unwrap();
    (compiled, outputs)
}

fn files(backend: &str, compiled: &Compiled, outputs: &Outputs) -> Vec<OutputFile> {
    let registry = Registry::standard();
    let backend = registry.backends.iter().find(|one| one.name() == backend).unwrap();
    backend.files(&outputs.product(compiled)).unwrap()
}

/// The cells of a sheet under a head, as figures; the last row has the sums.
fn column(sheet: &calamine::Range<Data>, head: &str) -> Vec<f64> {
    let at = sheet.headers().unwrap().iter().position(|name| name == head).unwrap();
    sheet.rows().skip(1).filter_map(|row| row[at].as_f64()).collect()
}

#[test]
fn the_spreadsheet_has_every_row_of_the_cut_list() {
    for name in ["marram", "teasel", "skua"] {
        let (compiled, outputs) = demo(name);
        let made = files("cut-list-xlsx", compiled, &outputs);
        assert_eq!(made, files("cut-list-xlsx", compiled, &outputs), "{name}: other bytes the second time");
        let mut book: Xlsx<_> = Xlsx::new(Cursor::new(made[0].bytes.clone())).unwrap();
        let names = book.sheet_names();
        assert_eq!(names.len(), outputs.cut_list().totals.len() + 4, "{name}: {names:?}");
        for (total, sheet) in outputs.cut_list().totals.iter().zip(&names) {
            let sheet = book.worksheet_range(sheet).unwrap();
            let rows = &outputs.cut_list().rows[total.rows.clone()];
            assert_eq!(sheet.rows().count(), rows.len() + 2);
            let mut masses = column(&sheet, "mass total kg");
            let sum = masses.pop().unwrap();
            assert!((sum - total.mass).abs() <= 0.001);
            assert!((masses.iter().sum::<f64>() - total.mass).abs() <= 0.001 * rows.len() as f64);
            let lengths: Vec<f64> = rows.iter().map(|row| (row.cut.0 * 10.0).round() / 10.0).collect();
            assert_eq!(column(&sheet, "cut length mm"), lengths);
        }
        let count = |book: &mut Xlsx<_>, sheet: &str| book.worksheet_range(sheet).unwrap().rows().count();
        let figures = compiled.figures().unwrap();
        let bought = figures.purchases();
        assert_eq!(count(&mut book, "Hardware"), bought.hardware.len() + 1);
        assert_eq!(count(&mut book, "Edge bands"), bought.bands.len() + 1);
        assert_eq!(count(&mut book, "Work"), outputs.cut_list().rows.len() + 1);
        for sheet in &names {
            let width = book.worksheet_range(sheet).unwrap().width();
            assert!(width <= 12, "{sheet} has {width} columns");
        }
        assert!(book.worksheet_range("Summary").unwrap().rows().count() > outputs.cut_list().totals.len());
    }
}

/// The code of every label of a sheet, drawn in pixels and read by a library for such codes, is the piece's own: job,
/// revision, number and copy, as the cutting plan has it.
#[test]
fn codes_of_the_labels_are_read_by_a_scanner() {
    let (compiled, outputs) = demo("marram");
    let sheets = part_labels(&compiled.figures().unwrap(), Held::default());
    let pieces: u32 = outputs.cut_list().rows.iter().map(|row| row.count).sum();
    let labels: Vec<&Item> = sheets.iter().flat_map(|sheet| &sheet.views[0].layers[0].items).collect();
    assert_eq!(labels.len(), pieces as usize);
    let titles: std::collections::BTreeSet<&str> = labels.iter().map(|label| title(label)).collect();
    assert_eq!(titles.len(), labels.len(), "each copy has a code of its own");
    let plan = files("cut-list", compiled, &outputs).remove(1);
    let mut plan = csv::Reader::from_reader(plan.bytes.as_slice());
    let at = plan.headers().unwrap().iter().position(|head| head == "code").unwrap();
    let planned: Vec<String> = plan.records().map(|row| row.unwrap()[at].to_owned()).collect();
    assert!(planned.iter().zip(&labels).all(|(code, label)| code == title(label)), "labels in the order of cutting");
    assert!(titles.iter().all(|title| title.starts_with("MR-104/B/")));
    for label in labels.iter().take(24) {
        let Item::Group(group) = label else { panic!("a label is a group") };
        let codes = group.items.iter().filter_map(|item| match item {
            Item::Path(path) if path.fill == Some(Fill::Ink) && path.line.is_none() => Some(&path.shape),
            _ => None,
        });
        let code = codes.max_by(|a, b| a.area().abs().total_cmp(&b.area().abs())).unwrap();
        assert_eq!(read(code), group.title);
    }
}

fn title(label: &Item) -> &str {
    if let Item::Group(group) = label { &group.title } else { "no group" }
}

fn read(code: &kurbo::BezPath) -> String {
    const PIXELS: usize = 240;
    let bounds = code.bounding_box().inflate(3.0, 3.0);
    let dark = |x: usize, y: usize| {
        let at = |pixel: usize, low: f64, size: f64| low + (pixel as f64 + 0.5) / PIXELS as f64 * size;
        let (x, y) = (at(x, bounds.x0, bounds.width()), at(PIXELS - 1 - y, bounds.y0, bounds.height()));
        code.contains(Point::new(x, y))
    };
    let mut image =
        rqrr::PreparedImage::prepare_from_greyscale(PIXELS, PIXELS, |x, y| if dark(x, y) { 0 } else { 255 });
    let grids = image.detect_grids();
    assert_eq!(grids.len(), 1);
    grids[0].decode().unwrap().1
}

/// No text of a label leaves its label or stands on another text.
#[test]
fn texts_of_the_labels_stay_on_them() {
    let (compiled, _) = demo("teasel");
    let model = compiled.model.as_ref().unwrap();
    let grid = model.labels;
    for sheet in part_labels(&compiled.figures().unwrap(), Held { errors: 0, faults: 3 }) {
        for (at, label) in sheet.views[0].layers[0].items.iter().enumerate() {
            let Item::Group(group) = label else { panic!("a label is a group") };
            let (row, column) = (at / grid.columns, at % grid.columns);
            let left = grid.margin.width + grid.pitch.width * column as f64;
            let top = 297.0 - grid.margin.height - grid.pitch.height * row as f64;
            let rect = Rect::new(left, top - grid.size.height, left + grid.size.width, top);
            let texts: Vec<Rect> = group
                .items
                .iter()
                .filter_map(|item| if let Item::Text(text) = item { Some(text_box(text)) } else { None })
                .collect();
            assert!((6..=11).contains(&texts.len()), "{}: {} texts", group.title, texts.len());
            for (index, text) in texts.iter().enumerate() {
                assert_eq!(rect.union(*text), rect, "{}: a text leaves its label", group.title);
                assert!(
                    texts.iter().skip(index + 1).all(|other| text.intersect(*other).area() <= 0.0),
                    "{}",
                    group.title
                );
            }
        }
    }
}

/// The row that a file in true size is of, and whether it is its reverse.
fn of_file<'a>(outputs: &'a Outputs<'_>, file: &OutputFile) -> (&'a Row, bool) {
    let name = file.name.strip_prefix("part-").unwrap().strip_suffix(".svg").unwrap();
    let own = name.strip_suffix("-reverse").unwrap_or(name);
    let plain = own.rsplit_once('-').filter(|(_, last)| last.len() == 1).map_or(own, |(number, _)| number);
    let row = outputs.cut_list().rows.iter().find(|row| row.number == own || row.number == plain).unwrap();
    (row, name != own)
}

fn paths(node: roxmltree::Node<'_, '_>) -> Vec<kurbo::BezPath> {
    let each = node.descendants().filter_map(|node| node.attribute("d"));
    each.map(|path| kurbo::BezPath::from_svg(path).unwrap()).collect()
}

/// Width and height are those of the finished part and 10 mm around it; a millimetre is a unit of the picture. Each group says
/// tool and depth, and its shapes are as large as it says.
#[test]
fn machined_parts_are_in_true_size() {
    let (compiled, outputs) = demo("marram");
    let made = files("true-size", compiled, &outputs);
    let names: std::collections::BTreeSet<&str> = made.iter().map(|file| file.name.as_str()).collect();
    assert!(made.len() >= 25 && names.len() == made.len(), "{}", made.len());
    let (mut bores, mut grooves) = (0, 0);
    for file in &made {
        let text = String::from_utf8(file.bytes.clone()).unwrap();
        let tree = roxmltree::Document::parse(&text).unwrap();
        let (row, reverse) = of_file(&outputs, file);
        let root = tree.root_element();
        let mm = |name: &str| root.attribute(name).unwrap().strip_suffix("mm").unwrap().parse::<f64>().unwrap();
        assert!(
            (mm("width") - row.finished.0 - 20.0).abs() <= 0.001
                && (mm("height") - row.finished.1 - 20.0).abs() <= 0.001
        );
        let boxed: Vec<f64> = root.attribute("viewBox").unwrap().split(' ').map(|part| part.parse().unwrap()).collect();
        assert!((boxed[2] - mm("width")).abs() < 1e-9 && (boxed[3] - mm("height")).abs() < 1e-9);
        let groups = root.children().filter(|node| node.has_tag_name("g"));
        for (id, group) in groups.map(|group| (group.attribute("id").unwrap(), group)) {
            let shapes = paths(group);
            match id.split('-').collect::<Vec<_>>()[..] {
                ["outline"] => {
                    let area = row
                        .outline
                        .as_ref()
                        .map_or(row.finished.0 * row.finished.1, boxwright::geometry::Polygon::area);
                    assert!((shapes[0].area().abs() - area).abs() <= area * 1e-4, "{}", file.name);
                }
                ["bore" | "pilot", diameter, deep] => {
                    bores += shapes.len();
                    let radius = diameter.parse::<f64>().unwrap() / 2.0;
                    let area = std::f64::consts::PI * radius * radius;
                    assert!(shapes.iter().all(|shape| (shape.area().abs() / area - 1.0).abs() < 0.01), "{id}");
                    let deep = deep.strip_prefix('d').map(|deep| deep.parse::<f64>().unwrap());
                    assert!(deep.is_none_or(|deep| deep > 0.0 && deep < row.finished.2), "{id}");
                }
                ["groove", width, _] => {
                    grooves += shapes.len();
                    let width: f64 = width.parse().unwrap();
                    let narrow = |shape: &kurbo::BezPath| {
                        let bounds = shape.bounding_box();
                        (bounds.width().min(bounds.height()) - width).abs() < 0.002
                    };
                    assert!(shapes.iter().all(narrow), "{id}");
                }
                ["cut", "through"] => assert!(!reverse),
                ["notes"] => assert!(text.contains(if reverse { "reverse up" } else { "face up" })),
                _ => panic!("{id}"),
            }
        }
    }
    assert!(bores > 300 && grooves > 10, "{bores} {grooves}");
}

/// Stood up on the end of its datum corner, face toward you, a left-hand piece has that corner at the lower left, a
/// right-hand one at the lower right: lying with its length to the right, at the upper and at the lower left. Turned over
/// about its length it is the other way about.
#[test]
fn parts_lie_as_their_hand_says() {
    let (compiled, outputs) = demo("marram");
    let made = files("true-size", compiled, &outputs);
    let mut hands = Vec::new();
    for file in &made {
        let (row, reverse) = of_file(&outputs, file);
        let text = String::from_utf8(file.bytes.clone()).unwrap();
        let tree = roxmltree::Document::parse(&text).unwrap();
        let notes = tree.descendants().find(|node| node.attribute("id") == Some("notes")).unwrap();
        let (datum, middle) = (paths(notes)[0].bounding_box().center(), 10.0 + row.finished.1 / 2.0);
        assert!((datum.x - 10.0).abs() < 0.01, "{}", file.name);
        let product = outputs.product(compiled);
        let named = |work: &&boxwright::figures::Work| {
            let row = &outputs.cut_list().rows[work.row];
            format!("part-{}", work.number(row).replace(' ', "-"))
                == file.name.trim_end_matches(".svg").trim_end_matches("-reverse")
        };
        let hand = product.figures.works().iter().find(named).unwrap().hand;
        let upper = (hand == Some(boxwright::model::Hand::Left)) != reverse;
        assert_eq!(datum.y < middle, upper, "{}", file.name);
        hands.push((hand, reverse));
    }
    assert!(hands.iter().any(|(hand, _)| hand.is_some()) && hands.iter().any(|(_, reverse)| *reverse));
}

/// Tiles laid mark on mark show every piece in true size: each tile is moved by paper less margins less what neighbours share.
#[test]
fn tiles_are_in_true_size_and_meet() {
    let (compiled, _) = demo("marram");
    let wanted = Wanted { reads: vec![Reads::Tiles], ..Wanted::default() };
    let session = Session::new(Registry::standard(), Options::default());
    let outputs = session.draw(compiled, &wanted).unwrap().unwrap();
    let tiles = outputs.tiles.as_ref().unwrap();
    let pdf = files("true-size-pdf", compiled, &outputs);
    let document = lopdf::Document::load_mem(&pdf[0].bytes).unwrap();
    assert_eq!(document.get_pages().len(), tiles.len());
    // A3 lying: 420 - 20 and 297 - 28 mm are shown, 10 of them by both neighbours.
    let step = Point::new(390.0, 259.0);
    let row = outputs.cut_list().rows.iter().find(|row| row.name == "carcass-left-side").unwrap();
    let mut all: Option<Rect> = None;
    let mut count = 0;
    for tile in tiles.iter().filter(|tile| tile.title.starts_with(&format!("{} face", row.number))) {
        let name = tile.title.rsplit(' ').next().unwrap().as_bytes();
        let by = kurbo::Vec2::new(step.x * f64::from(name[0] - b'A'), step.y * f64::from(name[1] - b'1'));
        let piece = tile.views[0].layers.iter().flat_map(|layer| &layer.items).find_map(|item| match item {
            Item::Group(group) if group.id == "piece" => Some(&group.items),
            _ => None,
        });
        for item in piece.unwrap() {
            if let Item::Path(path) = item {
                let bounds = path.shape.bounding_box() + by;
                all = Some(all.map_or(bounds, |all| all.union(bounds)));
            }
        }
        count += 1;
    }
    let all = all.unwrap();
    // The ring at the datum corner reaches 2 mm over the corner; left of it a tile shows 1 mm.
    let near = |a: f64, b: f64| (a - b).abs() < 2.01;
    assert!(near(all.width(), row.finished.0) && near(all.height(), row.finished.1), "{all:?}");
    assert_eq!(count, 5 * 3, "1890 x 545 on tiles that go on by 390 and 259");
}

/// The circle through both ends and the crown of the roof, by its chord and rise: r = (w^2 / 4 + h^2) / (2 h). Boards
/// across the box end 6 mm below it, so their upper edges lie on a circle of the same radius, 6 mm lower.
#[test]
fn the_upper_edge_of_a_board_under_an_arch_is_an_arc_of_the_roofs_radius() {
    let (width, side, rise) = (2100.0_f64, 1700.0, 150.0);
    let radius = (width * width / 4.0 + rise * rise) / (2.0 * rise);
    let text = format!(
        "boxwright: 1\ntitle: Arch\nbox: {{ length: 4000, width: {width}, height: {side}, roof: {{ shape: arch, rise: {rise} }} }}\n\
         modules:\n  wall: {{ symbol: build/partition, faces: rear, place: {{ front: 500, left: 0 }}, size: {{ run: 800 }} }}\n  \
         wash: {{ symbol: wash/wet-room, faces: right, place: {{ front: 1500, left: 0 }} }}\n"
    );
    let world = MemoryWorld::default().with("arch.yaml", &text);
    let compiled = compile(&world, "arch.yaml", &Registry::standard(), &Options::default());
    let outputs = produce(&compiled).unwrap();
    let made = files("true-size", &compiled, &outputs);
    let mut arcs = 0;
    for name in ["left-board", "left-wall", "right-wall"] {
        let row = outputs.cut_list().rows.iter().find(|row| row.name.split(" / ").any(|one| one == name)).unwrap();
        let file = made.iter().find(|file| std::ptr::eq(of_file(&outputs, file).0, row)).unwrap();
        let text = String::from_utf8(file.bytes.clone()).unwrap();
        let tree = roxmltree::Document::parse(&text).unwrap();
        let outline = tree.descendants().find(|node| node.attribute("id") == Some("outline")).unwrap();
        let path = outline.descendants().find_map(|node| node.attribute("d")).unwrap();
        let shape = kurbo::BezPath::from_svg(path).unwrap();
        for segment in shape.segments().filter(|segment| matches!(segment, kurbo::PathSeg::Cubic(_))) {
            let [a, b, c] = [0.0, 0.5, 1.0].map(|t| kurbo::ParamCurve::eval(&segment, t));
            let doubled = (b - a).cross(c - a).abs();
            let through = (b - a).hypot() * (c - b).hypot() * (c - a).hypot() / (2.0 * doubled);
            assert!((through - radius).abs() < radius * 1e-3, "{name}: {through} for {radius}");
            arcs += 1;
        }
    }
    assert!(arcs >= 3, "{arcs}");
}
