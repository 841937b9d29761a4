//! Labels of modules and zones: number and name where they fit, else the number alone, else beside on a leader.

use crate::drawing::{Align, Item, LayerKind, Text, text_box, text_width};
use crate::model::{Module, PoseState, Solid};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{RING, Taken, centred, ring, rings};
use crate::views::kit::leaders::Beside;
use crate::views::kit::raster::{Raster, Sums};
use crate::views::kit::scene::Scene;
use crate::views::plan::furniture::{Level, level, solid_outline};
use kurbo::{Point, Rect, Vec2};

/// Height of module names, mm.
const NAME: f64 = 2.5;
/// Height of zone names, mm.
const ZONE: f64 = 1.8;
/// Between ring and name, mm.
const BETWEEN: f64 = 1.0;
/// Places tried in a direction, at most.
const TRIES: f64 = 40.0;
/// Least step in which places are tried, mm.
const STEP: f64 = 1.0;
/// Rooms for a label, in its own size, the largest first: it stands in the middle of the largest that is clean.
const ROOMS: [f64; 5] = [4.0, 2.5, 1.7, 1.3, 1.0];

/// How a label stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    /// Ring and name in a line.
    Row,
    /// Name under the ring.
    Stack,
    /// In a line, read from the right.
    Turned,
    /// The number alone.
    Ring,
}

const FORMS: [Form; 4] = [Form::Row, Form::Stack, Form::Turned, Form::Ring];

impl Form {
    fn size(self, words: &str) -> (f64, f64) {
        let name = text_width(words, NAME);
        let ring = 2.0 * RING;
        match self {
            Self::Row => (ring + BETWEEN + name, ring),
            Self::Stack => (name.max(ring), ring + BETWEEN + NAME * 1.4),
            Self::Turned => (ring, ring + BETWEEN + name),
            Self::Ring => (ring, ring),
        }
    }

    fn items(self, place: Rect, number: usize, words: &str) -> Vec<Item> {
        let name = text_width(words, NAME);
        let middle = place.center();
        match self {
            Self::Ring => ring(middle, number),
            Self::Row => {
                let text = Point::new(place.x0 + 2.0 * RING + BETWEEN + name / 2.0, middle.y);
                with_name(Point::new(place.x0 + RING, middle.y), number, text, words, false)
            }
            Self::Turned => {
                let text = Point::new(middle.x, place.y0 + 2.0 * RING + BETWEEN + name / 2.0);
                with_name(Point::new(middle.x, place.y0 + RING), number, text, words, true)
            }
            Self::Stack => {
                let text = Point::new(middle.x, place.y0 + NAME * 0.9);
                with_name(Point::new(middle.x, place.y1 - RING), number, text, words, false)
            }
        }
    }
}

fn with_name(at: Point, number: usize, text: Point, words: &str, turned: bool) -> Vec<Item> {
    let mut items = ring(at, number);
    items.push(Item::Text(centred(text, words, NAME, turned)));
    items
}

/// What a label is looked for in.
pub(in crate::views) struct Search<'a> {
    /// Where it may stand.
    pub own: &'a Sums,
    /// Lines that it should not cross.
    pub lines: &'a Sums,
    /// Where nothing may stand.
    pub taken: &'a Taken,
    /// As near to the upper left corner as can be, not to the middle.
    pub corner: bool,
}

impl Search<'_> {
    /// The best place of a size in a rectangle wholly on own cells, with its cost, below a limit; lines under it
    /// cost most.
    pub fn place(&self, bounds: Rect, size: (f64, f64), below: f64) -> Option<(f64, Rect)> {
        let middle = bounds.center();
        let room = Vec2::new(bounds.width() - size.0, bounds.height() - size.1);
        let step = (room.x.max(room.y) / TRIES).max(STEP);
        let tries = |room: f64| (room / step).max(0.0) as usize;
        let (columns, rows) = (tries(room.x), tries(room.y));
        let start = middle - Vec2::new(columns as f64 * step + size.0, rows as f64 * step + size.1) / 2.0;
        let mut best: Option<(f64, Rect)> = None;
        for row in 0..=rows {
            for column in 0..=columns {
                let corner = start + Vec2::new(column as f64, row as f64) * step;
                let place = Rect::from_origin_size(corner, size);
                let wish = if self.corner { Point::new(bounds.x0, bounds.y1) } else { middle };
                let better = |cost: &f64| *cost < best.map_or(below, |(least, _)| least);
                let cost = self.cost(place, wish).filter(better).filter(|_| self.taken.is_free(place));
                best = cost.map_or(best, |cost| Some((cost, place)));
            }
        }
        best
    }

    fn cost(&self, place: Rect, wish: Point) -> Option<f64> {
        let (own, all) = self.own.within(place);
        if own < all {
            return None;
        }
        Some(f64::from(self.lines.within(place.inflate(0.5, 0.5)).0) * 3.0 + (place.center() - wish).hypot() * 0.01)
    }
}

/// Cost up to which a place counts as clean: no line under it.
pub(in crate::views) const CLEAN: f64 = 3.0;

/// Labels all modules of the arrangement, then all zones.
pub(in crate::views) fn draw(scene: &Scene<'_>, taken: &mut Taken, canvas: &mut Canvas) {
    let bounds = scene.outside();
    let mut lines = Raster::new(bounds.inflate(1.0, 1.0));
    canvas.items().for_each(|item| lines.trace(item));
    let lines = lines.sums(|cell| cell > 0);
    let states: Vec<(usize, (&Module, &PoseState))> = scene.model.states(scene.arrangement).enumerate().collect();
    let below = |solid: &Solid| {
        (level(solid) != Level::Above).then(|| solid.prism.bounds().z.1.min(crate::views::kit::scene::CUT))
    };
    let owners = owners(scene, &states, below);
    let mut labels: Vec<Label<'_>> = states
        .iter()
        .map(|(index, (module, state))| Label {
            scene,
            module,
            state,
            number: index + 1,
            seen: seen(scene, &owners, *index, state),
        })
        .collect();
    labels.sort_by_key(|label| label.seen);
    let mut crowded = Vec::new();
    for label in &labels {
        let own = label.own(&owners, bounds);
        let clean = label.clean(&Search { own: &own, lines: &lines, taken, corner: false });
        match clean {
            Some(items) => label.put(items, taken, canvas),
            None => crowded.push((label, own)),
        }
    }
    for (label, own) in crowded {
        let items = label.crowded(&Search { own: &own, lines: &lines, taken, corner: false }, taken);
        label.put(items, taken, canvas);
    }
    zones(scene, &owners, &lines, taken, canvas);
}

fn seen(scene: &Scene<'_>, owners: &Raster, index: usize, state: &PoseState) -> Seen {
    let areas = |above: bool| -> f64 {
        let solids = state.solids.iter().filter(|solid| (level(solid) == Level::Above) == above);
        solids.map(|solid| scene.place.rect(solid.prism.bounds().plan()).area()).fold(0.0, f64::max)
    };
    let number = u32::try_from(index + 1).unwrap_or(u32::MAX);
    let (above, visible) = (areas(true), owners.count(number));
    if above > 2.0 * areas(false) {
        Seen::Above
    } else if visible == 0 {
        Seen::Hidden
    } else {
        Seen::Standing
    }
}

/// Which module is seen in each cell: its index and one; 0 where the floor is.
/// What `seen` gives no height is not seen.
pub(in crate::views) fn owners(
    scene: &Scene<'_>,
    states: &[(usize, (&Module, &PoseState))],
    seen: impl Fn(&Solid) -> Option<f64>,
) -> Raster {
    let solids = states.iter().flat_map(|(index, (_, state))| state.solids.iter().map(move |solid| (*index, solid)));
    let mut painted: Vec<(f64, usize, &Solid)> =
        solids.filter_map(|(index, solid)| Some((seen(solid)?, index, solid))).collect();
    painted.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut owners = Raster::new(scene.outside());
    for (_, index, solid) in painted {
        owners.fill(&solid_outline(&scene.place, solid), u32::try_from(index + 1).unwrap_or(u32::MAX));
    }
    owners
}

struct Label<'a> {
    scene: &'a Scene<'a>,
    module: &'a Module,
    state: &'a PoseState,
    number: usize,
    seen: Seen,
}

/// How a module is seen in plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Seen {
    /// Most of it is below or cut by the plane.
    Standing,
    /// Under others, or space only.
    Hidden,
    /// Most of it is above the plane.
    Above,
}

impl Label<'_> {
    /// Where the label may stand: what is seen of the module, and what it covers above the plane where the floor is
    /// seen; anywhere it covers if that is nothing.
    fn own(&self, owners: &Raster, bounds: Rect) -> Sums {
        let number = u32::try_from(self.number).unwrap_or(u32::MAX);
        let seen = owners.sums_around(self.bounds(), |cell| cell == number);
        match self.seen {
            Seen::Standing => seen,
            Seen::Above => {
                let mut mask = Raster::new(bounds);
                self.state.solids.iter().for_each(|solid| mask.fill(&solid_outline(&self.scene.place, solid), 1));
                mask.sums(|cell| cell == 1)
            }
            Seen::Hidden => owners.sums_around(self.bounds(), |_| true),
        }
    }

    fn bounds(&self) -> Rect {
        let boxes = self.state.solids.iter().map(|solid| solid.prism.bounds().plan());
        let all = boxes.reduce(|a, b| a.union(b)).unwrap_or_else(|| self.module.extent.plan());
        self.scene.place.rect(all)
    }

    fn words(&self) -> String {
        match self.seen {
            Seen::Standing => self.module.name.clone(),
            Seen::Above => format!("{}, above", self.module.name),
            Seen::Hidden => format!("{}, below", self.module.name),
        }
    }

    /// Ring and name in the middle of the largest box that no line runs through.
    fn clean(&self, search: &Search<'_>) -> Option<Vec<Item>> {
        let (bounds, words) = (self.bounds(), self.words());
        let largest = |size: (f64, f64)| {
            ROOMS.into_iter().find_map(|room| search.place(bounds, (size.0 * room, size.1 * room), CLEAN))
        };
        let find = |form: Form| {
            let size = form.size(&words);
            largest(size).map(|(_, place)| (form, Rect::from_center_size(place.center(), size)))
        };
        let (form, place) = FORMS.into_iter().find_map(find)?;
        Some(form.items(place, self.number, &words))
    }

    /// The ring alone: over lines, or beside on a leader, whichever disturbs less.
    fn crowded(&self, search: &Search<'_>, taken: &Taken) -> Vec<Item> {
        let bounds = self.bounds();
        let over = search.place(bounds, Form::Ring.size(""), f64::INFINITY);
        let beside = Beside { inside: self.scene.inside(), middle: bounds.center(), number: self.number };
        match (over, beside.place(search.lines, taken)) {
            (Some((cost, place)), Some((other, _))) if cost <= other => ring(place.center(), self.number),
            (_, Some((_, items))) => items,
            (Some((_, place)), None) => ring(place.center(), self.number),
            (None, None) => Vec::new(),
        }
    }

    /// Draws the label and keeps others off it.
    fn put(&self, items: Vec<Item>, taken: &mut Taken, canvas: &mut Canvas) {
        crate::views::kit::ink::text_boxes(&items).into_iter().for_each(|place| taken.add(place));
        rings(&items).for_each(|place| taken.add(place));
        crate::views::kit::leaders::ends(&items).for_each(|(a, b)| taken.add_leader(a, b));
        let name = &self.module.name;
        let id = format!("label-{name}");
        canvas.linked(LayerKind::Labels, (&id, name), items, &format!("listed-{name}"));
    }
}

/// Names of zones in small letters where nothing is under them, the floor first.
fn zones(scene: &Scene<'_>, owners: &Raster, lines: &Sums, taken: &mut Taken, canvas: &mut Canvas) {
    let floor = owners.sums(|cell| cell == 0);
    let anywhere = owners.sums(|_| true);
    for zone in &scene.model.zones {
        let bounds = scene.place.rect(zone.rect).intersect(scene.inside()).inflate(-0.6, -0.6);
        let size = (text_width(&zone.name, ZONE), ZONE * 1.5);
        let on = |own| Search { own, lines, taken, corner: true }.place(bounds, size, CLEAN * 2.0);
        let Some((_, place)) = on(&floor).or_else(|| on(&anywhere)) else { continue };
        let at = Point::new(place.x0, place.y0 + ZONE * 0.36);
        let text = Text { at, words: zone.name.clone(), height: ZONE, align: Align::Start, turn: 0.0, inverse: false };
        taken.add(text_box(&text));
        canvas.group(LayerKind::Zones, &format!("name-{}", zone.name), &zone.purpose.words(), vec![Item::Text(text)]);
    }
}
