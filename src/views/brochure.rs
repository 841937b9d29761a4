//! The brochure: the furnished plan of every arrangement at one scale, with people and key figures, in a theme.

mod facts;
mod figure;
mod info;
mod labels;
mod layout;
mod look;
mod people;
mod plan;
#[cfg(test)]
mod tests;

use crate::diagnostic::{Finding, Held};
use crate::drawing::{
    Align, Item, Layer, LayerKind, LineClass, Paper, Sheet, View, held_stamp, lettering, scale, text_width,
};
use crate::model::{Arrangement, Model, Opening, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::Placement;
use crate::views::kit::scene::{Extra, Scene};
use crate::views::kit::words::plain;
use crate::views::kit::words::words_of;
use info::Info;
use kurbo::{Point, Rect, Size, Vec2};
use layout::{Layout, Request};

/// Key and file stem of the sheet.
const ID: &str = "brochure";

/// The brochure of a layout, stamped if faults hold it.
pub(super) fn sheet(paper: Paper, model: &Model, findings: &[Finding]) -> Sheet {
    let theme = &model.sheets.theme;
    let mut info = Info::new(model, findings);
    let layout = {
        let height = |width: f64| info.height(width, theme);
        let door = |opening: &Opening| opening.kind.is_door() && opening.wall == Wall::Right;
        let caption_below = model.openings.iter().any(door);
        let (count, wall) = (model.arrangements.len(), model.space.walls.thickness);
        let outside = Size::new(model.space.length + 2.0 * wall, model.space.width + 2.0 * wall);
        Request { paper, theme, count, outside, caption_below, info: &height }.layout()
    };
    let mut views = Vec::new();
    let places = layout.plans.iter().zip(&layout.captions);
    for (arrangement, (outside, caption)) in model.arrangements.iter().zip(places) {
        let scene = scene(model, arrangement, layout.scale, *outside);
        let mut canvas = Canvas::default();
        plan::draw(&scene, theme, &mut canvas);
        info.add(arrangement, &labels::draw(&scene, theme, &mut canvas));
        let words = lettering::cut(&words_of(&arrangement.name), theme.letters.caption, outside.width());
        let text = Item::text(*caption, words.clone(), theme.letters.caption, Align::Start);
        canvas.group(LayerKind::Labels, "caption", &words, vec![text]);
        views.push(canvas.view(&format!("plan-{}", plain(&arrangement.name)), &words, Some(layout.scale)));
    }
    let held = Held::new(model.errors, findings);
    let stamped = held.any().then(|| held_stamp(Point::new(layout.sides.1, layout.title - 3.0), held));
    let title_end = stamped.as_ref().map_or(layout.sides.1, |(_, bounds)| bounds.x0 - 6.0);
    views.push(frame(model, &layout, title_end, &info));
    views.extend(stamped.map(|(item, _)| stamp(item, held)));
    Sheet { id: ID.to_owned(), title: "Brochure".to_owned(), paper, views, look: look::look(theme) }
}

/// A plan whose shell's outside is a rectangle of the sheet.
fn scene<'a>(model: &'a Model, arrangement: &'a Arrangement, scale: f64, outside: Rect) -> Scene<'a> {
    let wall = model.space.walls.thickness / scale;
    let place = Placement { scale, origin: outside.origin() + Vec2::new(wall, wall) };
    Scene { model, arrangement, place, chains: Extra::NONE }
}

/// Title, key figures and the line at the foot.
fn frame(model: &Model, layout: &Layout, title_end: f64, info: &Info) -> View {
    let theme = &model.sheets.theme;
    let (left, right) = layout.sides;
    let mut canvas = Canvas::default();
    let (words, height) = title(&model.title.title, theme.letters.title, title_end - left);
    let rule = layout.title - 4.5;
    let items = vec![
        Item::text(Point::new(left, layout.title), words, height, Align::Start),
        Item::segment(Point::new(left, rule), Point::new(right, rule), LineClass::Detail),
    ];
    canvas.group(LayerKind::Notes, "title", &model.title.title, items);
    canvas.group(LayerKind::Notes, "figures", "Key figures", info.items(layout.info, theme));
    let note = theme.letters.note;
    let ratio = format!("Scale {}", scale::name(Some(layout.scale)));
    let room = right - left - text_width(&ratio, note) - 6.0;
    let parts = [&model.title.title, &model.title.date].into_iter().filter(|part| !part.is_empty());
    let quiet = parts.map(String::as_str).chain(["made by Boxwright"]).collect::<Vec<_>>().join("  ·  ");
    let items = vec![
        Item::text(Point::new(left, layout.foot), lettering::cut(&quiet, note, room), note, Align::Start),
        Item::text(Point::new(right, layout.foot), ratio, note, Align::End),
    ];
    canvas.group(LayerKind::Notes, "foot", "Title, date, maker and scale", items);
    canvas.view("page", "Title and key figures", None)
}

/// The title as large as it fits its width, down to half; longer ones are cut.
fn title(words: &str, height: f64, width: f64) -> (String, f64) {
    let fitting = (height * width / text_width(words, height).max(width)).max(height / 2.0);
    (lettering::cut(words, fitting, width + 0.01), fitting)
}

/// The stamp, at the right end of the title.
fn stamp(item: Item, held: Held) -> View {
    let layer = Layer { kind: LayerKind::Findings, items: vec![item] };
    View { id: "held".to_owned(), title: held.says().to_owned(), scale: None, layers: vec![layer] }
}
