//! Numbers of parts, and letters of what is made up before, on the pieces that are seen best, or beside them on leaders.

use super::layout::AROUND;
use super::scene::{Scene, roomiest, well};
use crate::drawing::{Item, LayerKind, Text};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{RING, Taken, ring, rings, square};
use crate::views::kit::leaders::{Beside, ends};
use crate::views::kit::placement::Placement;
use crate::views::kit::raster::Raster;
use kurbo::Point;

/// How far beside the picture numbers may stand, mm.
const BESIDE: f64 = AROUND - 1.0;
/// Air between a ring and the edges of its piece, mm.
const AIR: f64 = 0.3;
/// So many places of a part are tried for a leader.
const TRIES: usize = 3;

/// The best places for a label, best first: where on paper, with how much room.
struct Shown<'a> {
    label: &'a str,
    places: Vec<(Point, f64)>,
    /// Enough is seen of the pieces with the places.
    well: bool,
}

/// Every label stands on one of its pieces; on others with the same label too where they have room.
pub(super) fn draw(scene: &Scene, place: Placement, canvas: &mut Canvas) {
    let mut taken = Taken::default();
    let inside = place.rect(scene.bounds).inflate(BESIDE, BESIDE);
    let mut lines = Raster::new(inside);
    canvas.items().for_each(|item| lines.trace(item));
    let lines = lines.sums(|cell| cell > 0);
    let mut left = Vec::new();
    for shown in shown(scene, place) {
        let mut on = 0;
        for (at, _) in shown.places.iter().filter(|(_, radius)| *radius >= RING + AIR) {
            if taken.is_free(square(*at, RING)) {
                put(shown.label, ring(*at, 0), &mut taken, canvas);
                on += 1;
            }
        }
        if on == 0 {
            left.push(shown);
        }
    }
    for shown in left {
        let places = shown.places.iter().take(TRIES);
        let found =
            places.filter_map(|(middle, _)| Beside { inside, middle: *middle, number: 0 }.place(&lines, &taken));
        if let Some((_, items)) = found.min_by(|a, b| a.0.total_cmp(&b.0)) {
            put(shown.label, items, &mut taken, canvas);
        }
    }
}

fn put(label: &str, items: Vec<Item>, taken: &mut Taken, canvas: &mut Canvas) {
    ends(&items).for_each(|(from, to)| taken.add_leader(from, to));
    rings(&items).for_each(|place| taken.add(place));
    let lettered = |item: Item| match item {
        Item::Text(text) => {
            let height = if label.len() > 2 { 1.8 } else { text.height };
            Item::Text(Text { words: label.to_owned(), height, ..text })
        }
        other => other,
    };
    let items = items.into_iter().map(lettered).collect();
    canvas.group(LayerKind::Labels, &format!("number-{label}"), &format!("Number {label}"), items);
}

/// The labels of a scene with the best place on each of their pieces.
fn shown(scene: &Scene, place: Placement) -> Vec<Shown<'_>> {
    let mut all: Vec<Shown<'_>> = Vec::new();
    for seen in scene.seen.chunk_by(|a, b| a.body == b.body) {
        let label = seen.first().and_then(|one| scene.labels.get(one.body)).map_or("", String::as_str);
        let spots = seen.iter().filter_map(|one| roomiest(&one.area));
        let Some((at, radius)) = spots.max_by(|a, b| a.1.total_cmp(&b.1)) else { continue };
        let spot = (place.to_paper(at), place.length(radius));
        let well = well(seen);
        match all.iter_mut().find(|one| one.label == label) {
            Some(one) if one.well && !well => {}
            Some(one) if one.well == well => one.places.push(spot),
            Some(one) => (one.places, one.well) = (vec![spot], well),
            None => all.push(Shown { label, places: vec![spot], well }),
        }
    }
    all.iter_mut().for_each(|one| one.places.sort_by(|a, b| b.1.total_cmp(&a.1)));
    all
}
