//! What is listed under a piece: its bores and grooves by letter, its shape, what it meets.

use crate::base::number::trimmed;
use crate::figures::{BoreFor, Work, WorkBore};
use crate::joinery::{Row, bore_places, edge_words, machining, radii, row_note};
use crate::joints::BoreSide;
use crate::model::Machining;

/// Bores of one size from one side.
pub(super) struct Bores<'a> {
    pub letter: String,
    pub side: BoreSide,
    pub of: BoreFor,
    pub all: Vec<&'a WorkBore>,
}

/// A, B, ... Z, A1, B1, ...
fn letter(index: usize) -> String {
    let letter = char::from(b'A' + (index % 26) as u8);
    if index < 26 { letter.to_string() } else { format!("{letter}{}", index / 26) }
}

/// A piece's bores by side, use and size, each kind with its letter.
pub(super) fn bores(work: &Work) -> Vec<Bores<'_>> {
    let mut kinds: Vec<Bores<'_>> = Vec::new();
    for bore in &work.bores {
        let same = |kind: &&mut Bores<'_>| {
            let known = kind.all.first();
            kind.side == bore.side
                && kind.of == bore.of
                && known.is_some_and(|known| known.diameter == bore.diameter && known.depth == bore.depth)
        };
        match kinds.iter_mut().find(same) {
            Some(kind) => kind.all.push(bore),
            None => {
                let letter = letter(kinds.len());
                kinds.push(Bores { letter, side: bore.side, of: bore.of, all: vec![bore] });
            }
        }
    }
    kinds
}

/// A side in words.
pub(super) fn side(side: BoreSide) -> &'static str {
    match side {
        BoreSide::Face => "face",
        BoreSide::Reverse => "reverse",
        BoreSide::Front => "front edge",
        BoreSide::Back => "back edge",
        BoreSide::Left => "left edge",
        BoreSide::Right => "right edge",
    }
}

impl Bores<'_> {
    /// `Ø35 x 11.5`.
    pub fn size(&self) -> String {
        let Some(bore) = self.all.first() else { return String::new() };
        let deep = bore.depth.map_or_else(|| " through".to_owned(), |depth| format!(" x {}", trimmed(depth, 1)));
        format!("Ø{}{deep}", trimmed(bore.diameter, 1))
    }

    fn words(&self) -> String {
        let of = match self.of {
            BoreFor::Hardware => "",
            BoreFor::Dowel => ", dowels",
            BoreFor::Screw => ", pilot holes",
        };
        let places: Vec<(f64, f64)> = self.all.iter().map(|bore| bore.at).collect();
        let (count, size) = (self.all.len(), self.size());
        format!("{}: {count} × {size}, {}{of} at {}", self.letter, side(self.side), bore_places(&places))
    }
}

/// The lines under a piece, not yet wrapped.
pub(super) fn lines(work: &Work, row: &Row) -> Vec<String> {
    let mut lines: Vec<String> = bores(work).iter().map(Bores::words).collect();
    let holes = |one: &Machining| matches!(one, Machining::Hole { .. });
    let rest: Vec<Machining> = row.machining.iter().filter(|one| !holes(one)).cloned().collect();
    let others = Row { machining: rest, ..row.clone() };
    let words = machining(&others);
    lines.extend((!words.is_empty()).then(|| sentence(&words)));
    let round = row.outline.as_ref().and_then(radii).filter(|_| !words.contains(" R"));
    lines.extend(round.map(|radii| format!("Outline: {radii}")));
    lines.extend(meets(work));
    lines.extend(edge_words(&row.bands).map(|bands| format!("Bands: {bands}")));
    let note = row_note(row);
    lines.extend((!note.is_empty()).then(|| sentence(&note)));
    lines
}

fn sentence(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// `Meets: pantry-03 screws, pantry-05 groove`.
fn meets(work: &Work) -> Option<String> {
    let mut all: Vec<String> = Vec::new();
    for mate in &work.mates {
        let words = format!("{} ({}, {})", mate.with.join(" or "), side(mate.side), mate.by.replace('-', " "));
        if !all.contains(&words) {
            all.push(words);
        }
    }
    (!all.is_empty()).then(|| format!("Meets: {}", all.join(", ")))
}
