//! Frame, centring marks and grid reference of ISO 5457:1999, with the title block in its place.

use super::font::text_width;
use super::item::{Align, Group, Item};
use super::line::{Fill, LineClass};
use super::paper::Field;
use super::sheet::{Layer, LayerKind, Paper, View};
use super::title_block::{self, TitleFields};
use crate::diagnostic::Held;
use kurbo::{Point, Rect, Shape, Vec2};

/// Width of the strip of the grid reference, mm (ISO 5457, 4.4).
const STRIP: f64 = 5.0;
/// Height of its characters, mm.
const LETTER: f64 = 3.5;
/// How far a centring mark reaches into the drawing space, mm. The quotes of ISO 5457, 4.3 disagree (5 or 10).
const CENTRING: f64 = 5.0;

/// The frame of a sheet with its title block: a view without scale, in layer `frame`.
#[must_use]
pub fn frame(paper: Paper, fields: &TitleFields) -> View {
    // First what is read first.
    let items = vec![
        group("title-block", "Title block", title_block::items(title_block_place(paper), fields)),
        outline(paper),
        group("grid", "Grid reference", grid(paper)),
        group("centring-marks", "Centring marks", centring_marks(paper)),
    ];
    let layer = Layer { kind: LayerKind::Frame, items };
    View { id: "frame".into(), title: "Frame and title block".into(), scale: None, layers: vec![layer] }
}

/// Where the title block is: bottom right of the drawing space (on A4 portrait, its foot).
#[must_use]
pub fn title_block_place(paper: Paper) -> Rect {
    let space = paper.drawing_space();
    let left = space.x1 - title_block::WIDTH;
    Rect::new(left, space.y0, space.x1, space.y0 + title_block::HEIGHT)
}

fn group(id: &str, title: &str, items: Vec<Item>) -> Item {
    Item::Group(Group { id: id.into(), title: title.into(), items, link: None })
}

fn outline(paper: Paper) -> Item {
    Item::line(paper.drawing_space().to_path(0.1), LineClass::Frame)
}

/// The strip outside the frame that holds the grid.
fn strip(paper: Paper) -> Rect {
    paper.drawing_space().inflate(STRIP, STRIP)
}

fn centring_marks(paper: Paper) -> Vec<Item> {
    let (inner, outer) = (paper.drawing_space().inflate(-CENTRING, -CENTRING), strip(paper));
    let (x, y) = (paper.width / 2.0, paper.height / 2.0);
    let ends = [
        (Point::new(outer.x0, y), Point::new(inner.x0, y)),
        (Point::new(outer.x1, y), Point::new(inner.x1, y)),
        (Point::new(x, outer.y0), Point::new(x, inner.y0)),
        (Point::new(x, outer.y1), Point::new(x, inner.y1)),
    ];
    ends.into_iter().map(|(a, b)| Item::segment(a, b, LineClass::Frame)).collect()
}

/// One side of the grid: where its field names run and which way it lies.
struct Side {
    /// Middle line of the strip.
    middle: f64,
    /// Along the sheet (`x` runs) or up it.
    level: bool,
}

fn grid(paper: Paper) -> Vec<Item> {
    let (space, outer) = (paper.drawing_space(), strip(paper));
    let half = STRIP / 2.0;
    let (columns, rows) = (paper.columns(), paper.rows());
    let mut items = Vec::new();
    let mut add = |middle: f64, level: bool, fields: &[Field]| side(&Side { middle, level }, fields, outer, &mut items);
    add(space.y1 + half, true, &columns);
    add(space.x1 + half, false, &rows);
    if paper.has_grid_all_round() {
        add(space.y0 - half, true, &columns);
        add(space.x0 - half, false, &rows);
        items.push(Item::line(outer.to_path(0.1), LineClass::Visible));
    } else {
        let ends = [(outer.x0, outer.y1), (outer.x1, outer.y1), (outer.x1, outer.y0)].map(Point::from);
        items.push(Item::segment(ends[0], ends[1], LineClass::Visible));
        items.push(Item::segment(ends[1], ends[2], LineClass::Visible));
    }
    items
}

/// Lines between the fields of one side, and their names. The axes have centring marks already.
fn side(side: &Side, fields: &[Field], outer: Rect, items: &mut Vec<Item>) {
    let (least, most) = if side.level { (outer.x0, outer.x1) } else { (outer.y0, outer.y1) };
    let place = |along: f64, across: f64| {
        if side.level { Point::new(along, side.middle + across) } else { Point::new(side.middle + across, along) }
    };
    for field in fields {
        let (from, to) = (field.from.max(least), field.to.min(most));
        if from > least {
            let half = STRIP / 2.0;
            items.push(Item::segment(place(from, -half), place(from, half), LineClass::Visible));
        }
        let at = place(from.midpoint(to), 0.0) - Vec2::new(0.0, LETTER / 2.0);
        items.push(Item::text(at, field.name.clone(), LETTER, Align::Middle));
    }
}

/// A stamp that bars a sheet from use: a box with a red edge whose lower right corner is at a point. Items and bounds.
#[must_use]
pub fn held_stamp(lower_right: Point, held: Held) -> (Item, Rect) {
    let words = held.stamp();
    let note = "not for cutting or building";
    let width = text_width(&words, 5.0).max(text_width(note, 2.5)) + 8.0;
    let edge = Rect::new(lower_right.x - width, lower_right.y, lower_right.x, lower_right.y + 15.0);
    let x = edge.center().x;
    let items = vec![
        Item::area(edge.to_path(0.1), Some(LineClass::Mark), Fill::Paper),
        Item::line(edge.inflate(-1.0, -1.0).to_path(0.1), LineClass::Mark),
        Item::text(Point::new(x, edge.y0 + 7.0), words, 5.0, Align::Middle),
        Item::text(Point::new(x, edge.y0 + 3.0), note, 2.5, Align::Middle),
    ];
    (group("held", held.says(), items), edge)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{PaperSize, Word};

    fn items(paper: Paper, id: &str) -> Vec<Item> {
        let view = frame(paper, &TitleFields::default());
        let group = |item: &Item| if let Item::Group(group) = item { Some(group.clone()) } else { None };
        view.layers[0].items.iter().filter_map(group).find(|group| group.id == id).unwrap().items
    }

    fn box_of(item: &Item) -> Rect {
        if let Item::Path(path) = item { path.shape.bounding_box() } else { panic!("a path") }
    }

    // ISO 5457:1999, 4.3: four marks on the axes of symmetry, from the grid's outer edge across the frame.
    #[test]
    fn centring_marks_lie_on_the_axes() {
        let marks: Vec<Rect> = items(Paper::landscape(PaperSize::A3), "centring-marks").iter().map(box_of).collect();
        let wanted = [
            [15.0, 148.5, 25.0, 148.5],
            [405.0, 148.5, 415.0, 148.5],
            [210.0, 5.0, 210.0, 15.0],
            [210.0, 282.0, 210.0, 292.0],
        ];
        assert_eq!(marks, wanted.map(|[x0, y0, x1, y1]| Rect::new(x0, y0, x1, y1)));
    }

    // ISO 5457:1999, 4.4: characters 3.5 mm high in a strip 5 mm wide; A4 at the top and on the right only.
    #[test]
    fn grid_names_stand_in_the_strip() {
        for (name, count) in [("A3", 2 * (8 + 6)), ("A4", 6 + 4)] {
            let paper = Paper::landscape(PaperSize::of(name).unwrap());
            let texts = items(paper, "grid").into_iter();
            let texts: Vec<_> = texts.filter_map(|i| if let Item::Text(t) = i { Some(t) } else { None }).collect();
            assert_eq!(texts.len(), count);
            for text in texts {
                assert_eq!(text.height, LETTER);
                let middle = text.at + Vec2::new(0.0, LETTER / 2.0);
                let away = paper.drawing_space().inflate(STRIP / 2.0, STRIP / 2.0);
                let on_strip = [middle.x - away.x0, middle.x - away.x1, middle.y - away.y0, middle.y - away.y1];
                assert!(on_strip.iter().any(|gap| gap.abs() < 1e-9), "{text:?}");
            }
        }
    }

    #[test]
    fn title_block_is_at_the_foot_of_a4_portrait() {
        let place = title_block_place(Paper::landscape(PaperSize::A4).turned());
        assert_eq!((place.x0, place.y0, place.x1), (20.0, 10.0, 200.0));
        assert_eq!(title_block_place(Paper::landscape(PaperSize::A1)).x1, 831.0);
    }

    #[test]
    fn stamp_counts_what_holds() {
        for (errors, faults, words) in [(0, 1, "HELD: 1 fault"), (2, 12, "DRAFT: 2 errors")] {
            let held = Held { errors, faults };
            let (Item::Group(stamp), bounds) = held_stamp(Point::new(100.0, 50.0), held) else { panic!("a group") };
            assert!(stamp.items.iter().any(|item| matches!(item, Item::Text(text) if text.words == words)));
            assert_eq!((bounds.x1, bounds.y0), (100.0, 50.0));
        }
    }
}
