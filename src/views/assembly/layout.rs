//! Where the pictures and the list of an assembly sheet stand: the arrangement at which the module pulled apart is largest.

use super::scene::Scene;
use crate::views::kit::flexible::{Flexible, HEADING};
use crate::views::room::rows::{CAPTION, arrange};
use kurbo::{Point, Rect, Size};

/// Between pictures and list, mm.
const BETWEEN: f64 = 8.0;
/// Room for numbers around a picture, mm.
pub(super) const AROUND: f64 = 13.0;
/// Scales that are tried. Nobody measures in these pictures, so those between the recommended ones, which ISO 5455 allows where
/// there is a reason, are used to fill the paper.
const SCALES: [f64; 17] =
    [5.0, 7.5, 10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0, 150.0, 200.0, 500.0, 1000.0, 10000.0];
/// Shares of the width that are tried for what stands beside the module pulled apart.
const SHARES: [f64; 6] = [0.28, 0.34, 0.4, 0.47, 0.54, 0.62];
/// Large letters are worth a scale that is so much smaller, as a logarithm.
const LETTERS: f64 = 0.3;

/// A picture's scale and the lower left corner of what it shows, on paper.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub scale: f64,
    pub corner: Point,
}

/// Rooms of the first picture and of the others, and place and letters of the list.
type Offer = ([Rect; 2], Option<(Rect, bool)>);

/// An arrangement.
pub(super) struct Layout {
    /// Of each picture, in order.
    pub spots: Vec<Spot>,
    /// Place and letters of the list; `None` where it takes sheets of its own.
    pub list: Option<(Rect, bool)>,
}

/// The best arrangement of pictures, of which the first is the largest, and a list in an area.
pub(super) fn layout(scenes: &[&Scene], list: &Flexible, area: Rect) -> Option<Layout> {
    let (first, others) = scenes.split_first()?;
    let mut offers: Vec<Offer> = Vec::new();
    let large = list.larger();
    for (table, is_large) in [(&large, true), (list, false)] {
        let under = height(table, area);
        for share in SHARES {
            let (left, right) = split(area, share);
            // The list in the column beside.
            if let Some(height) = height(table, right) {
                let place = Rect { y0: right.y1 - height, ..right };
                offers.push(([left, Rect { y1: place.y0 - BETWEEN, ..right }], Some((place, is_large))));
            }
            // The list under both.
            if let Some(height) = under {
                let place = Rect { y1: area.y0 + height, ..area };
                let over = |room: Rect| Rect { y0: place.y1 + BETWEEN, ..room };
                offers.push(([over(left), over(right)], Some((place, is_large))));
            }
        }
    }
    let alone = SHARES.iter().map(|share| (split(area, *share).into(), None));
    best(first, others, offers).or_else(|| best(first, others, alone.collect()))
}

/// The offer that costs the least of those in which all pictures have room.
fn best(first: &Scene, others: &[&Scene], offers: Vec<Offer>) -> Option<Layout> {
    let mut best: Option<(f64, Layout)> = None;
    for (rooms, list) in offers {
        let Some((cost, spots)) = spots(first, others, rooms) else { continue };
        let cost = cost + if list.is_some_and(|(_, large)| large) { 0.0 } else { LETTERS };
        if best.as_ref().is_none_or(|(least, _)| cost < *least) {
            best = Some((cost, Layout { spots, list }));
        }
    }
    best.map(|(_, layout)| layout)
}

fn split(area: Rect, share: f64) -> (Rect, Rect) {
    let at = area.x1 - area.width() * share;
    (Rect { x1: at - BETWEEN / 2.0, ..area }, Rect { x0: at + BETWEEN / 2.0, ..area })
}

/// The height of a whole list in a room; `None` where it does not fit.
fn height(list: &Flexible, room: Rect) -> Option<f64> {
    (list.fitting_in(room, 0) >= list.rows.len())
        .then(|| HEADING + list.table(room.width(), 0, list.rows.len()).height())
}

/// The pictures as large as two rooms take them, and what their scales cost.
fn spots(first: &Scene, others: &[&Scene], [left, right]: [Rect; 2]) -> Option<(f64, Vec<Spot>)> {
    let (scale, size) = SCALES
        .into_iter()
        .map(|scale| (scale, size(first, scale)))
        .find(|(_, size)| size.width <= left.width() && size.height + CAPTION <= left.height())?;
    let air = Size::new(left.width() - size.width, left.height() - CAPTION - size.height);
    let corner = Point::new(left.x0 + air.width / 2.0, left.y0 + air.height / 2.0);
    let mut spots = vec![Spot { scale, corner }];
    if others.is_empty() {
        return Some((2.0 * scale.ln(), spots));
    }
    // The last is the whole module; what is made up before may be larger.
    let fits = |scale: f64, larger: f64| {
        let of = |at: usize| if at + 1 == others.len() { scale } else { larger };
        let boxes = others.iter().enumerate();
        let boxes: Vec<Rect> =
            boxes.map(|(at, one)| Rect::from_origin_size(Point::ZERO, size_with_caption(one, of(at)))).collect();
        let (placed, sheets, _) = arrange(&boxes, right);
        let spots = placed.iter().zip(&boxes).enumerate().map(|(at, (one, size))| {
            let corner = Point::new(one.corner.x, one.corner.y - CAPTION - size.height());
            Spot { scale: of(at), corner }
        });
        let spots: Vec<Spot> = spots.collect();
        let widest = boxes.iter().map(Rect::width).fold(0.0, f64::max);
        let inside = sheets == 1 && widest <= right.width() && spots.iter().all(|spot| spot.corner.y >= right.y0);
        inside.then_some(spots)
    };
    let small = SCALES.into_iter().find(|scale| fits(*scale, *scale).is_some())?;
    let larger = SCALES.into_iter().filter(|larger| *larger <= small).find_map(|larger| fits(small, larger))?;
    let cost = 2.0 * scale.ln() + larger.iter().map(|spot| 1.3 * spot.scale.ln()).sum::<f64>() / larger.len() as f64;
    spots.extend(larger);
    Some((cost, spots))
}

/// What a picture takes on paper, with its numbers.
fn size(scene: &Scene, scale: f64) -> Size {
    let around = if scene.numbered { 2.0 * AROUND } else { 0.0 };
    scene.bounds.size() / scale + Size::new(around, around)
}

/// The same, no narrower than its words.
fn size_with_caption(scene: &Scene, scale: f64) -> Size {
    let size = size(scene, scale);
    Size::new(size.width.max(scene.words), size.height)
}
