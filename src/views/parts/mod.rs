//! Part sheets: every worked piece with its dimensions, bores, grooves and joints, several to a sheet.

mod block;
mod labels;
mod legend;
mod marks;
mod pack;
mod picture;
mod tiles;

use crate::drawing::{Align, Item, LayerKind, Paper, lettering::wrap};
use crate::figures::Figures;
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::plan::notes::{self, INSET};
use block::{Block, block};
use kurbo::{Point, Rect};
use labels::{LETTERS, PITCH};
use pack::pack;
use rayon::prelude::*;
pub use tiles::part_tiles;

/// More sheets than this are not drawn.
const MOST: usize = 400;

const SAYS: &str = "Each piece lies with its face up and its length to the right, the dot at its datum corner; the reverse is \
                    shown turned over about the length. Sizes are finished sizes, places are (along the length, across it) from the datum corner, on an edge \
                    (along it, below the face). Letters: bores and grooves as listed under the piece; dashed: bores in an edge, and where the piece named there stands. Thick \
                    edges are banded. Dimensions in mm, the scale is at each piece. Pilot holes may be drilled in place.";

/// Sheets of all worked pieces.
pub(super) fn sheets(paper: Paper, held: bool, figures: &Figures<'_>) -> Vec<Draft> {
    let rows = &figures.cut_list().rows;
    let says = |width: f64| wrap(SAYS, LETTERS, width);
    let (place, foot) = notes::place(paper, held, |width| PITCH * says(width).len() as f64);
    let says = says(place.width());
    let room = Rect { y0: foot + INSET, ..paper.drawing_space().inset(-INSET) };
    let worked = figures.works().iter().filter_map(|work| Some((work, rows.get(work.row)?)));
    let worked: Vec<_> = worked.filter(|(work, row)| work.is_worked(row)).collect();
    let blocks: Vec<Block> =
        worked.par_iter().map(|(work, row)| block(figures.model, work, row, room.size())).collect();
    let sizes: Vec<_> = blocks.iter().map(|block| block.bounds.size()).collect();
    let (sheets, places) = pack(&sizes, room.size());
    let mut pages: Vec<Vec<Block>> = (0..sheets.min(MOST)).map(|_| Vec::new()).collect();
    for (mut block, (sheet, at)) in blocks.into_iter().zip(places) {
        let corner = Point::new(room.x0 + at.x, room.y1 - at.y - block.bounds.height());
        let by = corner - block.bounds.origin();
        block.canvas.move_by(by);
        block.bounds = block.bounds + by;
        pages.get_mut(sheet).into_iter().for_each(|page| page.push(std::mem::take(&mut block)));
    }
    let several = pages.len() > 1;
    let numbered = pages.into_iter().enumerate();
    numbered.map(|(index, blocks)| page(paper, (index, several), blocks, (place, &says))).collect()
}

fn page(paper: Paper, (index, several): (usize, bool), blocks: Vec<Block>, (place, says): (Rect, &[String])) -> Draft {
    let number = index + 1;
    let id = if number == 1 { "parts".to_owned() } else { format!("parts-{number}") };
    let scale =
        blocks.first().map(|block| block.scale).filter(|first| blocks.iter().all(|block| block.scale == *first));
    let mut numbers: Vec<&str> = blocks.iter().map(|block| block.number.as_str()).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let numbers = numbers.join(", ");
    let mut notes = Canvas::default();
    let line = |(at, words): (usize, &String)| {
        let from = Point::new(place.x0, place.y1 - LETTERS - PITCH * at as f64);
        Item::text(from, words.clone(), LETTERS, Align::Start)
    };
    notes.group(LayerKind::Notes, "notes", "Notes", says.iter().enumerate().map(line).collect());
    let own = blocks.into_iter().map(|block| block.canvas.view(&block.id, &block.title, Some(block.scale)));
    let views = own.chain([notes.view("notes", "Notes", None)]).collect();
    let title = if several { format!("Parts, page {number}") } else { "Parts".to_owned() };
    Draft {
        paper,
        id,
        title,
        document_type: "Part sheet".to_owned(),
        supplement: format!("Parts {numbers}"),
        scale,
        views,
    }
}
