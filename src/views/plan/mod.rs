//! The general plan of one arrangement.

pub(super) mod aisles;
pub(super) mod chains;
pub(super) mod furniture;
pub(super) mod labels;
pub(super) mod legend;
pub(super) mod marks;
pub(super) mod notes;
pub(super) mod openings;
pub(super) mod sheet_layout;
pub(super) mod shell;
pub(super) mod walkways;

use crate::diagnostic::Finding;
use crate::drawing::{Item, LayerKind, LineClass, Paper};
use crate::model::{Arrangement, Model};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::flexible::Flexible;
use crate::views::kit::ink::Taken;
use crate::views::kit::pages;
use crate::views::kit::placement::outline;
use crate::views::kit::scene::{Extra, Scene};
use crate::views::plan::chains::chains;
use crate::views::plan::sheet_layout::{Request, SheetLayout};
use crate::views::plan::walkways::Narrow;

/// All that the plans of a layout share.
#[derive(Debug, Clone, Copy)]
pub(in crate::views) struct Plans<'a> {
    /// The layout.
    pub model: &'a Model,
    /// Its findings with their numbers.
    pub findings: &'a [(usize, &'a Finding)],
    /// The paper.
    pub paper: Paper,
    /// Sheets get the stamp.
    pub held: bool,
}

impl Plans<'_> {
    /// The plan of an arrangement, and sheets with what of its modules found no place on it.
    pub fn sheets(&self, arrangement: &Arrangement, ways: &[Narrow]) -> Vec<Draft> {
        let unplaced = crate::views::kit::placement::Placement { scale: 1.0, origin: kurbo::Point::ZERO };
        let scene = Scene { model: self.model, arrangement, place: unplaced, chains: Extra::NONE };
        let (modules, findings) = (legend::modules(&scene), legend::findings(&scene, self.findings));
        let request = Request {
            model: self.model,
            arrangement,
            paper: self.paper,
            modules: &modules,
            compact: &legend::compact_modules(&scene),
            findings: &findings,
            openings: &legend::openings(self.model),
            held: self.held,
        };
        let layout = request.layout();
        let scene = Scene { place: layout.place, chains: layout.chains, ..scene };
        let mut sheets = vec![self.plan(&scene, &layout, ways)];
        sheets.extend(self.rest(arrangement, &modules, layout.modules));
        sheets
    }

    fn plan(&self, scene: &Scene<'_>, layout: &SheetLayout, ways: &[Narrow]) -> Draft {
        let name = &scene.arrangement.name;
        let scale = Some(scene.place.scale);
        let plan = self.picture(scene, layout.dimensioned, ways).view("plan", &format!("Plan, {name}"), scale);
        let mut beside = Canvas::default();
        notes::draw(layout.notes, scene.place.scale, (self.model, &layout.remarks), &mut beside);
        for table in &layout.tables {
            pages::draw_table(table, &mut beside);
        }
        Draft {
            paper: layout.paper,
            id: id(scene.arrangement),
            title: format!("General plan, {name}"),
            document_type: "General plan".to_owned(),
            supplement: format!("Arrangement: {name}"),
            scale,
            views: vec![plan, beside.view("notes", "Notes and tables", None)],
        }
    }

    /// The plan alone, with dimension chains or without.
    pub fn picture(&self, scene: &Scene<'_>, dimensioned: bool, ways: &[Narrow]) -> Canvas {
        let mut canvas = Canvas::default();
        let mut taken = Taken::default();
        shell::draw(scene, &mut canvas);
        furniture::draw(scene, &mut canvas);
        openings::draw(scene, &mut canvas);
        zones(scene, &mut canvas);
        canvas.clip(openings::window(scene));
        marks::places(scene, self.findings, &mut canvas);
        let anchors = marks::anchors(scene, self.findings);
        walkways::draw(scene, ways, (&mut taken, &anchors), &mut canvas);
        let chains = if dimensioned { chains(scene) } else { Vec::new() };
        for (side, laid) in chains {
            laid.boxes.iter().for_each(|text| taken.add(*text));
            let title = format!("Dimensions, {}", side_name(side));
            canvas.group(LayerKind::Dimensions, &format!("chains-{}", side_name(side)), &title, laid.items);
        }
        marks::numbers(scene, self.findings, &mut taken, &mut canvas);
        labels::draw(scene, &mut taken, &mut canvas);
        canvas
    }

    fn rest(&self, arrangement: &Arrangement, modules: &Flexible, from: usize) -> Vec<Draft> {
        let id = format!("modules-{}", crate::views::kit::words::plain(&arrangement.name));
        let title = format!("Modules, {}", arrangement.name);
        pages::sheets(self.paper, self.held, &id, &title, std::slice::from_ref(modules), from)
    }
}

/// The id of an arrangement's plan.
pub(super) fn id(arrangement: &Arrangement) -> String {
    format!("plan-{}", crate::views::kit::words::plain(&arrangement.name))
}

fn side_name(side: crate::drawing::dimension::Side) -> &'static str {
    use crate::drawing::dimension::Side;
    match side {
        Side::Above => "above",
        Side::Below => "below",
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// Limits of zones, a little inside so that walls and neighbours do not hide them.
fn zones(scene: &Scene<'_>, canvas: &mut Canvas) {
    for zone in &scene.model.zones {
        let rect = scene.place.rect(zone.rect).intersect(scene.inside());
        if rect.area() <= 0.0 {
            continue;
        }
        let edge = Item::line(outline(rect.inflate(-0.4, -0.4)), LineClass::Zone);
        let title = format!("Zone {}: {}", zone.name, zone.purpose.words());
        canvas.group(LayerKind::Zones, &format!("zone-{}", zone.name), &title, vec![edge]);
    }
}
