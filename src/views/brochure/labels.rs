//! Names of modules and zones on a plan of the brochure: in place where they fit, else a number that a list explains.

use super::plan::{is_overhead, is_seen};
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass, Text, text_box, text_width};
use crate::model::{Module, PoseState, Theme};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{Taken, centred, square};
use crate::views::kit::placement::circle;
use crate::views::kit::raster::{Raster, Sums};
use crate::views::kit::scene::Scene;
use crate::views::kit::words::words_of;
use crate::views::plan::labels::{CLEAN, Search, owners};
use kurbo::{Point, Rect, Shape};

/// A cell that a person covers.
const PERSON: u32 = u32::MAX;
/// Air around a name, mm.
const AIR: f64 = 0.8;

/// How modules are named in one arrangement.
#[derive(Debug, Clone, Default)]
pub(super) struct Named {
    /// Numbers on the plan, each a module by index.
    pub numbered: Vec<usize>,
    /// Modules overhead, by index.
    pub overhead: Vec<usize>,
}

/// Puts names on the plan that is drawn on the canvas; says what a list has to explain.
pub(super) fn draw(scene: &Scene<'_>, theme: &Theme, canvas: &mut Canvas) -> Named {
    let states: Vec<(usize, (&Module, &PoseState))> = scene.model.states(scene.arrangement).enumerate().collect();
    let mut owners = owners(scene, &states, |solid| is_seen(solid).then(|| solid.prism.bounds().z.1));
    canvas.items().for_each(|item| cover_people(item, &mut owners));
    let mut lines = Raster::new(scene.outside());
    canvas.items().filter(|item| !is_floor(item)).for_each(|item| lines.trace(item));
    let lines = lines.sums(|cell| cell > 0);
    let mut taken = Taken::default();
    let mut named = Named::default();
    for (index, (module, state)) in states {
        if is_overhead(state) {
            named.overhead.push(index);
            continue;
        }
        let number = mark(index);
        let Some(bounds) = seen_bounds(scene, state).filter(|_| owners.count(number) > 0) else { continue };
        let own = owners.sums_around(bounds, |cell| cell == number);
        let search = Search { own: &own, lines: &lines, taken: &taken, corner: false };
        let item = match name(&search, bounds, &words_of(&module.name), theme.letters.name) {
            Some(text) => vec![Item::Text(text)],
            None => disc(&search, bounds, index + 1, theme),
        };
        let numbered = matches!(item.first(), Some(Item::Path(_)));
        named.numbered.extend(numbered.then_some(index));
        boxes(&item).for_each(|place| taken.add(place));
        canvas.group(LayerKind::Labels, &format!("label-{}", module.name), &module.name, item);
    }
    zones(scene, theme, &owners, &lines, &mut taken, canvas);
    named
}

fn mark(index: usize) -> u32 {
    u32::try_from(index + 1).unwrap_or(PERSON - 1)
}

fn cover_people(item: &Item, owners: &mut Raster) {
    match item {
        Item::Path(path) if path.fill == Some(Fill::People) => owners.fill(&path.shape, PERSON),
        Item::Group(group) => group.items.iter().for_each(|item| cover_people(item, owners)),
        _ => {}
    }
}

fn is_floor(item: &Item) -> bool {
    matches!(item, Item::Group(group) if group.id == "floor")
}

fn seen_bounds(scene: &Scene<'_>, state: &PoseState) -> Option<Rect> {
    let seen = state.solids.iter().filter(|solid| is_seen(solid)).map(|solid| solid.prism.bounds().plan());
    let all = seen.reduce(|a, b| a.union(b))?;
    Some(scene.place.rect(all).intersect(scene.inside())).filter(|rect| rect.area() > 0.0)
}

/// A name in a line, or read from the right, where nothing is under it.
fn name(search: &Search<'_>, bounds: Rect, words: &str, height: f64) -> Option<Text> {
    let (long, high) = (text_width(words, height) + 2.0 * AIR, height * 1.4 + AIR);
    let flat = || search.place(bounds, (long, high), CLEAN);
    let turned = || search.place(bounds, (high, long), CLEAN);
    let text = |place: Rect, turn: bool| centred(place.center(), words, height, turn);
    flat().map(|(_, place)| text(place, false)).or_else(|| turned().map(|(_, place)| text(place, true)))
}

/// A number on a small disc, where the fewest lines are, else in the middle; nothing where others stand.
fn disc(search: &Search<'_>, bounds: Rect, number: usize, theme: &Theme) -> Vec<Item> {
    let radius = theme.letters.note * 0.95;
    let found = search.place(bounds, (2.0 * radius, 2.0 * radius), f64::INFINITY).map(|(_, place)| place);
    let place = found.unwrap_or_else(|| square(bounds.center(), radius));
    if !search.taken.is_free(place) {
        return Vec::new();
    }
    vec![
        Item::area(circle(place.center(), radius), Some(LineClass::Detail), Fill::Paper),
        Item::Text(centred(place.center(), &number.to_string(), theme.letters.note * 0.8, false)),
    ]
}

fn boxes(items: &[Item]) -> impl Iterator<Item = Rect> + '_ {
    items.iter().map(|item| match item {
        Item::Text(text) => text_box(text),
        Item::Path(path) => path.shape.bounding_box(),
        Item::Group(_) => Rect::ZERO,
    })
}

/// Purposes of zones in capitals on their floor; not what a module is called already.
fn zones(scene: &Scene<'_>, theme: &Theme, owners: &Raster, lines: &Sums, taken: &mut Taken, canvas: &mut Canvas) {
    let floor = owners.sums(|cell| cell == 0);
    let plain = |words: &str| words.to_lowercase().replace([' ', '-'], "");
    let height = theme.letters.note;
    for zone in &scene.model.zones {
        let words = zone.purpose.words().to_uppercase();
        if scene.model.modules.iter().any(|module| plain(&module.name) == plain(zone.purpose.name())) {
            continue;
        }
        let bounds = scene.place.rect(zone.rect).intersect(scene.inside()).inflate(-AIR, -AIR);
        let size = (text_width(&words, height) + AIR, height * 1.6);
        let search = Search { own: &floor, lines, taken, corner: false };
        let Some((_, place)) = search.place(bounds, size, CLEAN) else { continue };
        let at = Point::new(place.center().x, place.center().y - height / 2.0);
        let text = Text { at, words, height, align: Align::Middle, turn: 0.0, inverse: false };
        taken.add(text_box(&text));
        canvas.group(LayerKind::Zones, &format!("zone-{}", zone.name), &zone.purpose.words(), vec![Item::Text(text)]);
    }
}
