//! Sheets before they know how many they are: frame, title block and stamp come last.

use crate::diagnostic::Held;
use crate::drawing::{
    Group, Item, Layer, LayerKind, Look, Paper, Sheet, TitleFields, View, frame, held_stamp, scale, title_block_place,
};
use crate::model::{Projection, Title};
use crate::views::kit::words::plain;
use kurbo::Point;
use std::collections::BTreeSet;

/// A sheet without its frame.
#[derive(Debug, Clone)]
pub(in crate::views) struct Draft {
    /// The paper.
    pub paper: Paper,
    /// File stem and key.
    pub id: String,
    /// Name for people.
    pub title: String,
    /// What kind of document it is, for the title block.
    pub document_type: String,
    /// Second line of the title.
    pub supplement: String,
    /// 20 for 1:20.
    pub scale: Option<f64>,
    /// All but the frame.
    pub views: Vec<View>,
}

/// Gives the sheets frames, title blocks with numbers, and the stamp if errors or faults hold them.
pub(in crate::views) fn finish(
    drafts: Vec<Draft>,
    (title, projection): (&Title, Projection),
    held: Held,
) -> Vec<Sheet> {
    let sheets = drafts.len();
    let mut ids = BTreeSet::new();
    let finish = |(index, draft): (usize, Draft)| {
        let paper = draft.paper;
        let fields = TitleFields {
            legal_owner: title.owner.clone(),
            number: title.number.clone(),
            date: title.date.clone(),
            sheet: index + 1,
            sheets,
            title: title.title.clone(),
            supplement: draft.supplement,
            approved: title.approved.clone(),
            creator: title.by.clone(),
            document_type: draft.document_type,
            revision: title.revision.clone(),
            scale: scale::name(draft.scale),
            paper: paper.name.to_owned(),
            projection,
        };
        let id = free_id(&draft.id, &mut ids);
        let mut views = vec![named(frame(paper, &fields), &id, &draft.title)];
        views.extend(draft.views);
        views.extend(held.any().then(|| stamp(paper, held)));
        Sheet { id, title: draft.title, paper, views, look: Look::default() }
    };
    drafts.into_iter().enumerate().map(finish).collect()
}

/// The frame with its title block in a group named after the sheet, where links to the sheet lead.
fn named(mut frame: View, id: &str, title: &str) -> View {
    if let Some(layer) = frame.layers.first_mut()
        && let Some(block) = layer.items.pop()
    {
        let group =
            Group { id: plain(&format!("sheet-{id}")), title: title.to_owned(), items: vec![block], link: None };
        layer.items.push(Item::Group(group));
    }
    frame
}

/// An id that no sheet before has, in whatever case, since it becomes a file's name: with a number if it must be.
fn free_id(wish: &str, ids: &mut BTreeSet<String>) -> String {
    let mut id = wish.to_owned();
    let mut count = 1_u32;
    while !ids.insert(id.to_lowercase()) {
        count += 1;
        id = format!("{wish}-{count}");
    }
    id
}

/// Width that the stamp needs with its air, mm.
pub(in crate::views) const STAMP: f64 = 62.0;
/// Height of a stamp that stands over the title block, with its air, mm.
const STAMP_OVER: f64 = 18.0;

/// Whether there is no room for the stamp left of the title block.
fn stamp_is_over(paper: Paper) -> bool {
    title_block_place(paper).x0 - paper.drawing_space().x0 < STAMP
}

/// What views and tables of a sheet have to stay above: the title block, with the stamp if that stands over it.
pub(in crate::views) fn foot(paper: Paper, held: bool) -> f64 {
    title_block_place(paper).y1 + if held && stamp_is_over(paper) { STAMP_OVER } else { 0.0 }
}

/// The stamp, left of the title block or over it.
fn stamp(paper: Paper, held: Held) -> View {
    let block = title_block_place(paper);
    let corner = if stamp_is_over(paper) {
        Point::new(block.x1 - 3.0, block.y1 + 2.0)
    } else {
        Point::new(block.x0 - 6.0, block.y0 + 4.0)
    };
    let (item, _) = held_stamp(corner, held);
    let layer = Layer { kind: LayerKind::Findings, items: vec![item] };
    View { id: "held".to_owned(), title: held.says().to_owned(), scale: None, layers: vec![layer] }
}
