//! Short words on rows of the cut list, the same in every file and on every sheet.

use super::cut_list::{Row, StockTotal};
use crate::base::number::trimmed;
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

/// What is done to a piece, without places: `shaped; 2 grooves; cut-out sink; 4 holes`.
#[must_use]
pub fn machining_in_short(row: &Row) -> String {
    let of = |is: fn(&Machining) -> bool| row.machining.iter().filter(|one| is(one)).count();
    let grooves = counted(of(|one| matches!(one, Machining::Groove { .. })), "groove");
    let holes = counted(of(|one| matches!(one, Machining::Hole { .. })), "hole");
    let cutouts = row.machining.iter().filter_map(|one| match one {
        Machining::Cutout { name, .. } => Some(format!("cut-out {name}")),
        Machining::Groove { .. } | Machining::Hole { .. } => None,
    });
    let shaped = row.outline.as_ref().map(|_| "shaped".to_owned());
    shaped.into_iter().chain(grooves).chain(cutouts).chain(holes).collect::<Vec<_>>().join("; ")
}

fn counted(count: usize, one: &str) -> Option<String> {
    match count {
        0 => None,
        1 => Some(format!("1 {one}")),
        _ => Some(format!("{count} {one}s")),
    }
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

    #[test]
    fn a_row_in_words() {
        assert_eq!(row_note(&row()), "oil it; left on for scribing: right 10 mm");
        assert_eq!(machining_in_short(&row()), "shaped; 1 groove; cut-out sink; 2 holes");
        let plain = Row { machining: vec![], outline: None, scribe: Bands::default(), note: None, ..row() };
        assert_eq!((row_note(&plain), machining_in_short(&plain)), (String::new(), String::new()));
    }
}
