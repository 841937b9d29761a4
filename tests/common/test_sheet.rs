//! A sheet that holds one of everything: lines of all classes, curves, fills, texts in all positions.

use boxwright::diagnostic::Held;
use boxwright::drawing::{
    self, Align, Column, Fill, Group, Item, Layer, LayerKind, LineClass, Look, Paper, Sheet, Table, Text, TitleFields,
    View,
};
use kurbo::{Arc, BezPath, Circle, Ellipse, Point, Rect, Shape, Vec2};

/// Title block texts.
pub fn fields() -> TitleFields {
    TitleFields {
        legal_owner: "North Strand Surveys".into(),
        number: "NSS-2041-P1".into(),
        date: "2026-11-25".into(),
        sheet: 1,
        sheets: 3,
        title: "Box for two surveyors".into(),
        supplement: "Arrangement: day".into(),
        approved: "M. Žáková".into(),
        creator: "Ø. Łukasz".into(),
        document_type: "General plan".into(),
        revision: "B".into(),
        scale: "1:20".into(),
        paper: "A3".into(),
        projection: boxwright::model::Projection::First,
    }
}

/// The sheet on a paper.
pub fn sheet(id: &str, title: &str, paper: Paper) -> Sheet {
    let layers = LayerKind::ALL.into_iter().skip(1).map(|kind| Layer { kind, items: items(kind) }).collect();
    let plan = View { id: "plan".into(), title: "Plan".into(), scale: Some(20.0), layers };
    let frame = drawing::frame(paper, &TitleFields { paper: paper.name.into(), ..fields() });
    Sheet { id: id.into(), title: title.into(), paper, views: vec![frame, plan], look: Look::default() }
}

fn items(kind: LayerKind) -> Vec<Item> {
    match kind {
        LayerKind::Shell => shell(),
        LayerKind::Furniture => {
            vec![Item::Group(Group { id: "bed".into(), title: "Bed".into(), items: curves(), link: None })]
        }
        LayerKind::Zones => line_classes(),
        LayerKind::Labels => texts(),
        LayerKind::Findings => vec![drawing::held_stamp(Point::new(195.0, 60.0), Held { errors: 0, faults: 2 }).0],
        LayerKind::Notes => notes(),
        LayerKind::Frame | LayerKind::Hidden | LayerKind::Dimensions => vec![],
    }
}

/// A ring: an outer edge with a hole in it.
fn shell() -> Vec<Item> {
    let mut shape = Rect::new(30.0, 200.0, 130.0, 260.0).to_path(0.01);
    shape.extend(Rect::new(34.0, 204.0, 126.0, 256.0).to_path(0.01));
    vec![Item::area(shape, Some(LineClass::Cut), Fill::Shell)]
}

fn curves() -> Vec<Item> {
    let mut quads = BezPath::new();
    quads.move_to((40.0, 210.0));
    quads.quad_to((50.0, 230.0), (60.0, 210.0));
    quads.line_to((60.0, 206.0));
    quads.close_path();
    quads.line_to((45.0, 207.5));
    let swing = Arc::new((80.0, 210.0), (30.0, 30.0), 0.0, std::f64::consts::FRAC_PI_2, 0.0);
    vec![
        Item::area(Circle::new((75.0, 240.0), 9.0).to_path(0.001), Some(LineClass::Visible), Fill::Furniture),
        Item::area(Ellipse::new((100.0, 240.0), (12.0, 6.0), 0.4).to_path(0.001), None, Fill::Cut),
        Item::line(quads, LineClass::Detail),
        Item::line(swing.to_path(0.001), LineClass::Moving),
    ]
}

fn line_classes() -> Vec<Item> {
    let row = |(i, line): (u8, LineClass)| {
        let y = 190.0 - f64::from(i) * 6.0;
        let name = Item::text(Point::new(32.0, y - 1.0), line.name(), 2.5, Align::Start);
        [name, Item::segment(Point::new(60.0, y), Point::new(130.0, y + 0.1234), line)]
    };
    (0..).zip(LineClass::ALL).flat_map(row).collect()
}

fn texts() -> Vec<Item> {
    let mut items = vec![];
    for (i, align) in [(0.0, Align::Start), (1.0, Align::Middle), (2.0, Align::End)] {
        for (j, turn) in [(0.0, 0.0), (1.0, 90.0), (2.0, 33.0)] {
            let at = Point::new(155.0 + j * 20.0, 180.0 + i * 28.0);
            items.push(Item::line(Circle::new(at, 0.5).to_path(0.001), LineClass::Mark));
            let words = "Galley 1,250 × 600".into();
            items.push(Item::Text(Text { at, words, height: 2.5, align, turn, inverse: false }));
        }
    }
    let badge = Circle::new((140.0, 250.0), 4.0);
    items.push(Item::area(badge.to_path(0.001), Some(LineClass::Mark), Fill::Mark));
    let at = badge.center - Vec2::new(0.0, 1.25);
    items.push(Item::Text(Text {
        at,
        words: "12".into(),
        height: 2.5,
        align: Align::Middle,
        turn: 0.0,
        inverse: true,
    }));
    items
}

fn notes() -> Vec<Item> {
    let rows = [
        ["1", "Lift bed with guard rails on both sides and a ladder", "1,400 × 2,000"],
        ["2", "Galley", "1,250 × 600"],
        ["10", "Žlutý kůň, “Łódź” ± 0.5 mm ≤ Ø 12 → ½", ""],
    ];
    let table = Table {
        columns: vec![Column::figures("No.", 12.0), Column::words("Module", 55.0), Column::words("Size, mm", 30.0)],
        rows: rows.iter().map(|row| row.iter().map(ToString::to_string).collect()).collect(),
        letters: 2.5,
        links: vec![],
    };
    let (mut items, _) = table.draw(Point::new(32.0, 120.0));
    items.push(drawing::scale_bar(Point::new(32.0, 60.0), 20.0).0);
    items
}
