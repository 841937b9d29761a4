//! The cuts of a sheet: a list with fence settings, and numbers on the diagram.

use super::job::CuttingJob;
use crate::base::number::trimmed;
use crate::drawing::{Align, Fill, Item, Text, text_width};
use crate::joinery::nesting::{Cut, CutSheet, Division, Panel};
use crate::views::kit::flexible::Flexible;
use crate::views::kit::ink::Taken;
use crate::views::kit::placement::{Placement, outline};
use kurbo::{Point, Rect};

/// Height of the figures, and air around them, mm.
const FIGURES: f64 = 1.8;
const AIR: f64 = 0.5;
/// Where along its cut a number may stand, best first.
const PLACES: [f64; 15] = [0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86, 0.44, 0.56, 0.32, 0.68, 0.2, 0.8, 0.07, 0.93];

/// Words over the list.
const HEADING: &str = "Cuts in order, fence settings in mm";

/// The list of cuts.
pub(super) fn table(job: &CuttingJob<'_>, sheet: &CutSheet) -> Flexible {
    let row = |(index, cut): (usize, &Cut)| {
        let way = match cut.division {
            Division::Length => "across",
            Division::Width => "along",
        };
        let stage = if cut.stage == 0 { "trim".to_owned() } else { cut.stage.to_string() };
        vec![
            (index + 1).to_string(),
            stage,
            size(&cut.panel),
            way.to_owned(),
            trimmed(cut.fence, 1),
            frees(job, sheet, cut),
        ]
    };
    let columns = [
        ("no.", 8.0, true),
        ("stage", 11.0, true),
        ("panel", 27.0, false),
        ("cut", 14.0, false),
        ("fence", 15.0, true),
        ("frees", -1.0, false),
    ];
    let rows = sheet.cuts.iter().enumerate().map(row).collect();
    Flexible::new(HEADING, &columns, rows)
}

/// What is left of the list for another place.
pub(super) fn continued(mut table: Flexible) -> Flexible {
    table.heading = format!("{HEADING}, continued");
    table
}

pub(super) fn size(panel: &Panel) -> String {
    format!("{} × {}", trimmed(panel.length, 1), trimmed(panel.width, 1))
}

/// What a cut sets free: parts, and offcuts worth keeping.
fn frees(job: &CuttingJob<'_>, sheet: &CutSheet, cut: &Cut) -> String {
    if cut.stage == 0 {
        let words = if cut.from_far { "near edge off" } else { "far edge off" };
        return words.to_owned();
    }
    let freed = sheet.pieces.iter().filter(|piece| cut.frees(&piece.panel(), job.kerf));
    let parts = freed.filter_map(|piece| job.parts.get(piece.piece));
    let offcuts = sheet.offcuts.iter().filter(|offcut| offcut.useful && cut.is_far_part(&offcut.panel, job.kerf));
    let parts = parts.map(|part| part.number.clone());
    parts.chain(offcuts.map(|offcut| format!("offcut {}", size(&offcut.panel)))).collect::<Vec<_>>().join(", ")
}

/// The numbers of the cuts, each on its cut; and those for which there is no room.
pub(super) fn numbers(sheet: &CutSheet, kerf: f64, place: Placement, taken: &mut Taken) -> (Vec<Item>, Vec<usize>) {
    let (mut items, mut left_out) = (Vec::new(), Vec::new());
    for (index, cut) in sheet.cuts.iter().enumerate() {
        let words = (index + 1).to_string();
        let half = (text_width(&words, FIGURES) / 2.0 + AIR, FIGURES / 2.0 + AIR);
        let free = spots(cut, kerf, place).map(|at| (at, Rect::from_center_size(at, (2.0 * half.0, 2.0 * half.1))));
        let mut free = free.into_iter().filter(|(_, plate)| taken.is_free(*plate));
        match free.next() {
            Some((at, plate)) => {
                taken.add(plate);
                let at = Point::new(at.x, at.y - FIGURES / 2.0);
                let text = Text { at, words, height: FIGURES, align: Align::Middle, turn: 0.0, inverse: true };
                items.extend([Item::area(outline(plate), None, Fill::Mark), Item::Text(text)]);
            }
            None => left_out.push(index + 1),
        }
    }
    (items, left_out)
}

/// Points of the paper along the middle of a cut.
fn spots(cut: &Cut, kerf: f64, place: Placement) -> [Point; 15] {
    let ((x0, y0), (x1, y1)) = cut.line();
    let middle = if cut.from_far { -kerf / 2.0 } else { kerf / 2.0 };
    let (dx, dy) = match cut.division {
        Division::Length => (middle, 0.0),
        Division::Width => (0.0, middle),
    };
    PLACES.map(|share| place.to_paper(Point::new(x0 + (x1 - x0) * share + dx, y0 + (y1 - y0) * share + dy)))
}
