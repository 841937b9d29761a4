//! Short words on rows of the cut list, the same in every file and on every sheet.

use super::cut_list::{Row, StockTotal};
use super::outline_words::{self, at_text};
use super::stands::standing;
use crate::base::number::trimmed;
use crate::base::tolerance::{CHORD, SAME_LENGTH};
use crate::geometry::{Contour, Polygon};
use crate::model::{Bands, Machining};

/// The note of a row: its own, what does not fit, what is left on.
#[must_use]
pub fn row_note(row: &Row) -> String {
    let large = row.too_large.then(|| "too large for every sheet size of its stock".to_owned());
    let scribe = edge_words(&row.scribe).map(|edges| format!("left on for scribing: {edges}"));
    let held = row.held.as_ref().map(|held| format!("on {}s", held.replace('-', " ")));
    row.note.clone().into_iter().chain(held).chain(large).chain(scribe).collect::<Vec<_>>().join("; ")
}

/// The edges that have a figure: `front 1 mm, left 1 mm`.
#[must_use]
pub fn edge_words(edges: &Bands) -> Option<String> {
    let all = [("front", edges.front), ("back", edges.back), ("left", edges.left), ("right", edges.right)];
    let words: Vec<String> =
        all.iter().filter(|(_, mm)| *mm > 0.0).map(|(edge, mm)| format!("{edge} {} mm", trimmed(*mm, 2))).collect();
    (!words.is_empty()).then(|| words.join(", "))
}

/// The banded edges of a row's piece, as its sides are long or short: `1 mm: both long edges, left short edge`,
/// `1 mm: all edges`; empty without bands.
#[must_use]
pub fn band_words(row: &Row) -> String {
    let Bands { front, back, left, right } = row.bands;
    let (along, across) = match row.finished.0 - row.finished.1 {
        by if by > SAME_LENGTH => ("long ", "short "),
        by if by < -SAME_LENGTH => ("short ", "long "),
        _ => ("", ""),
    };
    let mut thicknesses: Vec<f64> = Vec::new();
    for thickness in [front, back, left, right].into_iter().filter(|thickness| *thickness > 0.0) {
        if !thicknesses.contains(&thickness) {
            thicknesses.push(thickness);
        }
    }
    let words = thicknesses.iter().map(|thickness| {
        let of = |one: (&str, f64), other: (&str, f64), side: &str| match (one.1 == *thickness, other.1 == *thickness) {
            (true, true) if side.is_empty() => Some(format!("{} and {} edges", one.0, other.0)),
            (true, true) => Some(format!("both {side}edges")),
            (true, false) => Some(format!("{} {side}edge", one.0)),
            (false, true) => Some(format!("{} {side}edge", other.0)),
            (false, false) => None,
        };
        let all = [front, back, left, right].iter().all(|one| one == thickness);
        let edges = if all {
            "all edges".to_owned()
        } else {
            let pairs = [of(("front", front), ("back", back), along), of(("left", left), ("right", right), across)];
            pairs.into_iter().flatten().collect::<Vec<_>>().join(", ")
        };
        format!("{} mm: {edges}", trimmed(*thickness, 2))
    });
    words.collect::<Vec<_>>().join("; ")
}

/// How many sheets of each size, `times` between length and width: `4 of 2440 x 1220`, `1 of 800 x 500 on hand`.
#[must_use]
pub fn sheets_of_each_size(total: &StockTotal, times: &str) -> Vec<String> {
    let mut sizes: Vec<((f64, f64), bool, u32)> = Vec::new();
    for sheet in &total.plan.sheets {
        match sizes.iter_mut().find(|(size, on_hand, _)| (*size, *on_hand) == (sheet.size, sheet.on_hand)) {
            Some((_, _, count)) => *count += 1,
            None => sizes.push((sheet.size, sheet.on_hand, 1)),
        }
    }
    let words = |((length, width), on_hand, count): &((f64, f64), bool, u32)| {
        let size = format!("{count} of {} {times} {}", trimmed(*length, 1), trimmed(*width, 1));
        if *on_hand { format!("{size} on hand") } else { size }
    };
    sizes.iter().map(words).collect()
}

/// Where its pieces stand in each module: `galley: left 0, front 15, up 60`.
#[must_use]
pub fn stands(row: &Row) -> String {
    let mut modules: Vec<&str> = Vec::new();
    for stand in &row.stands {
        if !modules.contains(&stand.module.as_str()) {
            modules.push(&stand.module);
        }
    }
    let own = |module: &str| standing(row.stands.iter().filter(|stand| stand.module == module));
    modules.into_iter().map(|module| format!("{module}: {}", own(module))).collect::<Vec<_>>().join("; ")
}

/// Machining in words, positions on the finished piece from its datum corner as (along, across) in mm; holes that follow each
/// other evenly are one run.
#[must_use]
pub fn machining(row: &Row) -> String {
    let shape = |outline| format!("shaped: {}", outline_words::outline(outline, row.curve.as_ref()));
    let mut words: Vec<String> = row.outline.iter().map(shape).collect();
    let mut rest = row.machining.as_slice();
    while let [first, ..] = rest {
        let (what, at) = in_words(first);
        let alike = rest.iter().take_while(|one| in_words(one).0 == what).count();
        let (own, others) = rest.split_at(alike.max(1));
        let places: Vec<(f64, f64)> = own.iter().filter_map(hole_at).collect();
        let at = if places.len() == own.len() { bore_places(&places) } else { places_of(own, &at) };
        words.push(format!("{what} {at}"));
        rest = others;
    }
    words.join("; ")
}

fn places_of(own: &[Machining], first: &str) -> String {
    let later = own.iter().skip(1).map(|one| in_words(one).1);
    std::iter::once(first.to_owned()).chain(later).collect::<Vec<_>>().join(" ")
}

fn hole_at(machining: &Machining) -> Option<(f64, f64)> {
    if let Machining::Hole { at, .. } = machining { Some(*at) } else { None }
}

/// Places one by one, or as runs of at least this many with even steps.
const RUN: usize = 4;

/// Places one by one, four or more that follow each other evenly as a run: `(96 37) to (256 37), 6 every 32`.
#[must_use]
pub fn bore_places(places: &[(f64, f64)]) -> String {
    let mut words = Vec::new();
    let mut rest = places;
    while let [first, ..] = rest {
        let (run, others) = rest.split_at(run_length(rest));
        match run {
            [a, b, .., last] => {
                let step = (b.0 - a.0).hypot(b.1 - a.1);
                words.push(format!("{} to {}, {} every {}", at_text(*a), at_text(*last), run.len(), trimmed(step, 1)));
            }
            _ => words.push(at_text(*first)),
        }
        rest = others;
    }
    words.join(" ")
}

/// How many places from the first on are one run; one that begins none is alone.
#[must_use]
pub fn run_length(places: &[(f64, f64)]) -> usize {
    let count = even(places);
    if count >= RUN { count } else { places.len().min(1) }
}

/// How many places from the first on follow each other with the same step.
fn even(places: &[(f64, f64)]) -> usize {
    let [a, b, ..] = places else { return places.len() };
    let step = (b.0 - a.0, b.1 - a.1);
    let same = |(one, next): (&(f64, f64), &(f64, f64))| {
        (next.0 - one.0 - step.0).abs() < SAME_LENGTH && (next.1 - one.1 - step.1).abs() < SAME_LENGTH
    };
    1 + places.iter().zip(places.iter().skip(1)).take_while(|pair| same(*pair)).count()
}

/// What is done, and where.
fn in_words(machining: &Machining) -> (String, String) {
    let side = |reverse: bool| if reverse { " on the back" } else { "" };
    match machining {
        Machining::Hole { at, diameter, depth, reverse } => {
            let what = format!("hole {} wide {}{} at", trimmed(*diameter, 1), deep(*depth), side(*reverse));
            (what, at_text(*at))
        }
        Machining::Groove { from, to, width, depth, reverse, holds } => {
            let size = format!("{} wide {} deep{}", trimmed(*width, 1), trimmed(*depth, 1), side(*reverse));
            let holds = holds.as_ref().map_or_else(String::new, |holds| format!(" for {holds}"));
            (format!("groove {size}{holds}"), format!("{} to {}", at_text(*from), at_text(*to)))
        }
        Machining::Cutout { name, outline, curve } => {
            (format!("cutout {name}"), outline_words::cutout(outline, curve.as_ref()))
        }
    }
}

fn deep(depth: Option<f64>) -> String {
    depth.map_or_else(|| "through".to_owned(), |depth| format!("{} deep", trimmed(depth, 1)))
}

/// The radii of an outline: `2 x R60, R12.5`.
#[must_use]
pub fn radii(outline: &Polygon) -> Option<String> {
    let radii = Contour::of_polygon(outline, CHORD).radii();
    let words = radii.iter().map(|(radius, count)| {
        let times = if *count > 1 { format!("{count} x ") } else { String::new() };
        format!("{times}R{}", trimmed(*radius, 1))
    });
    (!radii.is_empty()).then(|| words.collect::<Vec<_>>().join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Polygon;
    use crate::model::{Bands, Grain};
    use kurbo::Rect;

    fn row() -> Row {
        let hole = Machining::Hole { at: (10.0, 20.0), diameter: 5.0, depth: None, reverse: false };
        let groove = Machining::Groove {
            from: (0.0, 5.0),
            to: (400.0, 5.0),
            width: 4.0,
            depth: 6.0,
            reverse: false,
            holds: None,
        };
        let outline = Polygon::rect(Rect::new(50.0, 50.0, 90.0, 90.0));
        Row {
            number: "galley-01".into(),
            name: "worktop".into(),
            modules: vec![("galley".into(), 1)],
            parts: vec![],
            stands: vec![],
            count: 1,
            finished: (400.0, 300.0, 15.0),
            cut: (410.0, 300.0),
            scribe: Bands { right: 10.0, ..Bands::default() },
            stock: 0,
            grain: Grain::Length,
            bands: Bands { front: 0.0, back: 0.0, left: 0.0, right: 0.0 },
            outline: Some(outline.clone()),
            curve: None,
            faced: false,
            hand: None,
            held: None,
            machining: vec![
                hole.clone(),
                groove,
                hole,
                Machining::Cutout { name: "sink".into(), outline, curve: None },
            ],
            note: Some("oil it".into()),
            mass: 1.0,
            too_large: false,
            spans: vec![],
        }
    }

    /// A row of shelf pins is said in one breath; two holes are not.
    #[test]
    fn even_holes_are_a_run() {
        let places: Vec<(f64, f64)> =
            (0..6).map(|at| (96.0 + 32.0 * f64::from(at), 37.0)).chain([(400.0, 37.0)]).collect();
        assert_eq!(bore_places(&places), "(96 37) to (256 37), 6 every 32 (400 37)");
        assert_eq!(bore_places(&places[..2]), "(96 37) (128 37)");
    }

    #[test]
    fn bands_are_told_by_long_and_short_edges() {
        let words = |(length, width): (f64, f64), [front, back, left, right]: [f64; 4]| {
            band_words(&Row { finished: (length, width, 15.0), bands: Bands { front, back, left, right }, ..row() })
        };
        assert_eq!(words((400.0, 300.0), [0.0; 4]), "");
        assert_eq!(words((400.0, 300.0), [1.0; 4]), "1 mm: all edges");
        assert_eq!(words((400.0, 300.0), [1.0, 1.0, 1.0, 0.0]), "1 mm: both long edges, left short edge");
        assert_eq!(words((300.0, 400.0), [2.0, 0.0, 0.8, 0.8]), "2 mm: front short edge; 0.8 mm: both long edges");
        assert_eq!(words((300.0, 300.0), [1.0, 1.0, 0.0, 1.0]), "1 mm: front and back edges, right edge");
    }

    #[test]
    fn a_row_in_words() {
        assert_eq!(row_note(&row()), "oil it; left on for scribing: right 10 mm");
        assert_eq!(
            machining(&row()),
            "shaped: (50 50) (90 50) (90 90) (50 90); hole 5 wide through at (10 20); groove 4 wide 6 deep (0 5) to (400 5); hole 5 wide through at (10 20); cutout sink 40 x 40 at (50 50)"
        );
        let plain = Row { machining: vec![], outline: None, scribe: Bands::default(), note: None, ..row() };
        assert_eq!((row_note(&plain), machining(&plain)), (String::new(), String::new()));
    }
}
