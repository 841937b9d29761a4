//! Assembly sheets: each module pulled apart with the numbers of its pieces, an order in which it goes together, and together.

mod apart;
mod bodies;
mod layout;
mod numbers;
mod scene;
mod words;

use crate::base::number::trimmed;
use crate::drawing::{
    Align, Fill, Item, LayerKind, LineClass, Paper, View, lettering::wrap, scale, scale_bar, text_width,
};
use crate::figures::Figures;
use crate::geometry::Axis;
use crate::joinery::Row;
use crate::joints::{Assembly, assembly};
use crate::model::{Module, PieceAt};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::pages::draw_table;
use crate::views::kit::placement::Placement;
use crate::views::kit::table_layout::PlacedTable;
use crate::views::kit::words::plain;
use crate::views::plan::notes;
use crate::views::room::rows::CAPTION;
use kurbo::{BezPath, Point, Rect, Vec2};
use layout::{AROUND, Spot};
use rayon::prelude::*;
use scene::Scene;

/// From the frame to what stands in it, mm.
const INSET: f64 = 8.0;
/// Height of the row with the scale bar, mm.
const BAR: f64 = 13.0;
/// Letters of captions and of notes, and from line to line of notes, mm.
const WORDS: f64 = 3.5;
const LETTERS: f64 = 2.5;
const PITCH: f64 = 4.2;

/// Sheets of all modules with parts.
pub(in crate::views) fn sheets(paper: Paper, held: bool, figures: &Figures<'_>) -> Vec<Draft> {
    let list = figures.cut_list();
    let built: Vec<(usize, &Module)> =
        figures.model.modules.iter().enumerate().filter(|(_, module)| !module.parts.is_empty()).collect();
    let sheet = |(index, module): &(usize, &Module)| {
        let anchored = figures.joints().anchored.get(*index).map_or(&[][..], Vec::as_slice);
        let fastened = figures.fastened().get(*index).map_or(&[][..], Vec::as_slice);
        let around = words::around(figures.model, anchored, fastened);
        let rows = list.rows_of(*index, module.parts.len());
        let number = |row: Option<&Row>| row.map_or_else(String::new, |row| row.number.clone());
        let numbers = rows.into_iter().map(number).collect();
        AssemblySheet { module, numbers, made: assembly(module), around }.sheets(paper, held)
    };
    let drafts = built.par_iter().map(sheet);
    drafts.collect::<Vec<_>>().into_iter().flatten().collect()
}

struct AssemblySheet<'a> {
    module: &'a Module,
    /// Numbers of its parts in the cut list.
    numbers: Vec<String>,
    made: Assembly,
    /// What it is fixed to around it, in words.
    around: Option<String>,
}

impl AssemblySheet<'_> {
    fn sheets(&self, paper: Paper, held: bool) -> Vec<Draft> {
        let id = plain(&format!("assembly-{}", self.module.name));
        let title = format!("Assembly of {}", self.module.name);
        let table = words::table(self.module, &self.numbers, &self.made, self.around.as_deref());
        let notes = self.notes();
        let lines = |width: f64| notes.iter().flat_map(|note| wrap(note, LETTERS, width)).collect::<Vec<String>>();
        let (beside, foot) = notes::place(paper, held, |width| BAR + PITCH * lines(width).len() as f64);
        let area = Rect { y0: foot + INSET, ..paper.drawing_space().inset(-INSET) };
        let scenes = self.scenes();
        let views: Vec<&Scene> = scenes.iter().map(|(_, scene)| scene).collect();
        let Some(layout) = layout::layout(&views, &table, area) else {
            return crate::views::kit::pages::sheets(paper, held, &id, &title, &[table], 0);
        };
        let scale = layout.spots.first().map(|spot| spot.scale);
        let pictures = scenes.iter().zip(&layout.spots).enumerate();
        let mut views: Vec<View> = pictures.map(|(at, (one, spot))| self.picture(&id, at, one, *spot)).collect();
        let mut canvas = Canvas::default();
        let (bar, _) = scale_bar(Point::new(beside.x0 + 1.5, beside.y1 - 6.0), scale.unwrap_or(1.0));
        canvas.put(LayerKind::Notes, bar);
        let line = |(index, line): (usize, String)| {
            Item::text(Point::new(beside.x0, beside.y1 - BAR - PITCH * index as f64), line, LETTERS, Align::Start)
        };
        let words = lines(beside.width()).into_iter().enumerate().map(line).collect();
        canvas.group(LayerKind::Notes, "notes", "Notes", words);
        views.push(canvas.view("notes", "Notes", None));
        if let Some((place, large)) = layout.list {
            let table = if large { table.larger() } else { table.clone() };
            let placed = PlacedTable {
                heading: table.heading.clone(),
                table: table.table(place.width(), 0, table.rows.len()),
                at: Point::new(place.x0, place.y1),
            };
            let mut canvas = Canvas::default();
            draw_table(&placed, &mut canvas);
            views.push(canvas.view("list", &table.heading, None));
        }
        let supplement = format!("Module {}", self.module.name);
        let list = format!("{id}-list");
        let mut drafts = vec![Draft {
            paper,
            id,
            title: title.clone(),
            document_type: "Assembly".to_owned(),
            supplement,
            scale,
            views,
        }];
        if layout.list.is_none() {
            drafts.extend(crate::views::kit::pages::sheets(
                paper,
                held,
                &list,
                &format!("{title}, steps"),
                &[table],
                0,
            ));
        }
        drafts
    }

    fn notes(&self) -> Vec<String> {
        let mut notes = vec![
            "Isometric (ISO 5456-3), lengths along the three axes to scale. Pieces are pulled apart the way they come in; numbers are \
             those of the list and of the module's sheet, and what is bought is not drawn. Steps are in an order in which nothing has to \
             pass through anything; another may do as well. Furniture joints, never structure."
                .to_owned(),
        ];
        let kits = self.made.kits.iter().flat_map(|kit| &kit.stuck);
        let mut stuck: Vec<usize> = self.made.stuck.iter().chain(kits).map(|piece| piece.part + 1).collect();
        stuck.sort_unstable();
        stuck.dedup();
        if !stuck.is_empty() {
            let numbers: Vec<String> = stuck.iter().map(usize::to_string).collect();
            notes.push(format!(
                "No order was found for {}: brought in straight, one after the other, each is in the way of another. Put them together at \
                 once, or change the module.",
                numbers.join(", ")
            ));
        }
        notes
    }

    /// What is shown: the module pulled apart, what is made up before, the module together.
    fn scenes(&self) -> Vec<(String, Scene)> {
        let standing = bodies::standing(self.module);
        let all = apart::ways(self.module, &self.made.steps);
        let mut scenes = Vec::new();
        let whole = Scene::apart(&standing, &all).labelled(|piece| self.label(piece));
        let eye = whole.eye;
        scenes.push(("Pulled apart".to_owned(), whole));
        for (index, kit) in self.made.kits.iter().enumerate() {
            let Some(first) = kit.copies.first() else { continue };
            let own: Vec<_> = standing.iter().filter(|one| first.contains(&one.piece)).cloned().collect();
            let moves = apart::ways(self.module, &kit.steps);
            let alike = if kit.copies.len() > 1 { format!(", {} alike", kit.copies.len()) } else { String::new() };
            let name = format!("{}: {}{alike}", words::letter(index), words::name(kit));
            scenes.push((name, Scene::of(&own, &moves, eye)));
        }
        let size = |axis: Axis| {
            let whole = standing.iter().map(|one| one.at).reduce(|a, b| a.union(&b)).unwrap_or_default();
            trimmed(whole.range(axis).1 - whole.range(axis).0, 1)
        };
        let together = format!("Together: {} × {} × {}", size(Axis::X), size(Axis::Y), size(Axis::Z));
        scenes.push((together, Scene::together(&standing, eye)));
        scenes.retain(|(_, scene)| !scene.seen.is_empty());
        for (title, scene) in &mut scenes {
            scene.words = text_width(&caption(title, 100.0), WORDS) + 1.0;
        }
        scenes
    }

    /// What a piece is called in the picture of the whole: its part's number, or the letter of what is made up before.
    fn label(&self, piece: PieceAt) -> String {
        let kit = self.made.kits.iter().position(|kit| kit.copies.iter().any(|copy| copy.contains(&piece)));
        kit.map_or_else(|| (piece.part + 1).to_string(), words::letter)
    }

    /// A picture under its caption.
    fn picture(&self, id: &str, at: usize, (title, scene): &(String, Scene), spot: Spot) -> View {
        let mut canvas = Canvas::default();
        let around = if scene.numbered { AROUND } else { 0.0 };
        let corner = spot.corner + Vec2::new(around, around);
        let origin = corner - scene.bounds.origin().to_vec2() / spot.scale;
        self.draw(scene, Placement { scale: spot.scale, origin }, &mut canvas);
        let top = spot.corner.y + scene.bounds.height() / spot.scale + 2.0 * around + CAPTION - WORDS;
        let words = caption(title, spot.scale);
        let at_left = Point::new(spot.corner.x, top);
        canvas.group(LayerKind::Labels, "caption", title, vec![Item::text(at_left, words, WORDS, Align::Start)]);
        canvas.view(&format!("{id}-{}", at + 1), title, Some(spot.scale))
    }

    fn draw(&self, scene: &Scene, place: Placement, canvas: &mut Canvas) {
        let name = |piece: PieceAt| self.module.parts.get(piece.part).map_or("", |part| part.name.as_str());
        for (piece, seen) in scene.pieces() {
            let title = format!("{} {}", piece.part + 1, name(piece));
            let areas = seen.iter().map(|one| {
                let mut path = BezPath::new();
                one.area.contours().for_each(|ring| path.extend(place.closed(&ring)));
                Item::area(path, None, shade(one.facing))
            });
            canvas.group(LayerKind::Furniture, name(piece), &title, areas.collect());
        }
        for (piece, seen) in scene.pieces() {
            let line = |class: LineClass, of: &[(Point, Point)]| {
                let mut path = BezPath::new();
                for (a, b) in of {
                    path.move_to(place.to_paper(*a));
                    path.line_to(place.to_paper(*b));
                }
                (!of.is_empty()).then(|| Item::line(path, class))
            };
            let edges: Vec<_> = seen.iter().flat_map(|one| one.edges.iter().copied()).collect();
            let marks: Vec<_> = seen.iter().flat_map(|one| one.marks.iter().copied()).collect();
            let items = [line(LineClass::Detail, &marks), line(LineClass::Visible, &edges)];
            let title = format!("Edges of {} {}", piece.part + 1, name(piece));
            canvas.group(LayerKind::Furniture, name(piece), &title, items.into_iter().flatten().collect());
        }
        if scene.numbered {
            numbers::draw(scene, place, canvas);
        }
    }
}

fn caption(title: &str, scale: f64) -> String {
    format!("{title} ({})", scale::name(Some(scale)))
}

/// Level faces are white, those to the side darker than those to the front.
fn shade(facing: Axis) -> Fill {
    match facing {
        Axis::Z => Fill::Paper,
        Axis::Y => Fill::Furniture,
        Axis::X => Fill::Cut,
    }
}
