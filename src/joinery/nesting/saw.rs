//! From a tree of cuts to what the saw does: cuts in order with their fence settings, pieces and offcuts in place.
//!
//! All free length is gathered where it makes the largest single offcut; what is left is cut off as early as the
//! number of stages allows, the larger rest first.

use super::extent::{Extent, Join};
use super::sheet::{Content, Node, Sheet};

/// A rectangle with one kerf to the right and above, micrometres from the corner of the trimmed sheet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Panel {
    pub x: i32,
    pub y: i32,
    pub size: Extent,
}

impl Panel {
    /// The parts below and beyond a cut that keeps `along` in the direction of `join`.
    fn parted(self, join: Join, along: i32) -> (Self, Self) {
        let across = self.size.across(join);
        let low = Self { size: Extent::new(join, along, across), ..self };
        let size = Extent::new(join, self.size.along(join) - along, across);
        let high = match join {
            Join::Beside => Self { x: self.x + along, size, ..self },
            Join::Above => Self { y: self.y + along, size, ..self },
        };
        (low, high)
    }
}

/// One cut through a panel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cut {
    pub panel: Panel,
    /// Direction in which the panel is divided; the saw runs the other way.
    pub join: Join,
    /// What stays below the cut, kerf included.
    pub keeps: i32,
    pub stage: u8,
}

/// A sheet as the saw leaves it.
#[derive(Debug, Default)]
pub(super) struct Sawn {
    pub cuts: Vec<Cut>,
    /// Items with their place and whether they are turned.
    pub pieces: Vec<(u32, bool, Panel)>,
    pub offcuts: Vec<Panel>,
}

/// A panel on the way to its pieces: the node it becomes, the cut stage that it came from and that stage's direction.
#[derive(Clone, Copy)]
struct Work {
    at: usize,
    panel: Panel,
    stage: u8,
    last: Option<Join>,
}

impl Work {
    fn stage_of(self, join: Join) -> u8 {
        self.stage.saturating_add(u8::from(self.last != Some(join)))
    }
}

struct Saw<'a> {
    sheet: &'a Sheet,
    /// The node beside which the largest offcut is cut off, and in which direction.
    target: Option<(usize, Join)>,
    stages: u8,
    sawn: Sawn,
}

/// The cuts of a sheet, with all free length where it makes the largest offcut.
pub(super) fn sawn(sheet: &Sheet, stages: u8) -> Sawn {
    let target = sheet.largest_rest(stages).map(|(at, join, _)| (at, join));
    let mut saw = Saw { sheet, target, stages, sawn: Sawn::default() };
    let panel = Panel { x: 0, y: 0, size: sheet.whole };
    let mut open: Vec<Work> =
        sheet.nodes.len().checked_sub(1).map(|at| Work { at, panel, stage: 0, last: None }).into_iter().collect();
    while let Some(work) = open.pop() {
        saw.free(work, &mut open);
    }
    saw.sawn
}

impl Saw<'_> {
    fn free(&mut self, work: Work, open: &mut Vec<Work>) {
        let Some(node) = self.sheet.nodes.get(work.at).copied() else { return };
        let work = self.without_rests(work, &node);
        match node.content {
            Content::Item(item, turned) => {
                self.sawn.pieces.push((item, turned, Panel { size: node.size, ..work.panel }))
            }
            Content::Joint(join) => {
                let Some((left, right)) = self.sheet.children(work.at) else { return };
                // The largest offcut is to lie at the far edge.
                let (first, last) = if self.leads_to_target(left) { (right, left) } else { (left, right) };
                let keeps = self.sheet.nodes.get(first).map_or(0, |node| node.size.along(join));
                let (low, high) = self.cut(work, join, keeps);
                open.push(Work { at: last, panel: high, ..low });
                open.push(Work { at: first, ..low });
            }
        }
    }

    fn leads_to_target(&self, at: usize) -> bool {
        let start = self.sheet.nodes.get(at).map_or(0, |node| node.start as usize);
        self.target.is_some_and(|(target, _)| (start..=at).contains(&target))
    }

    fn cut(&mut self, work: Work, join: Join, keeps: i32) -> (Work, Panel) {
        let stage = work.stage_of(join);
        self.sawn.cuts.push(Cut { panel: work.panel, join, keeps, stage });
        let (low, high) = work.panel.parted(join, keeps);
        (Work { panel: low, stage, last: Some(join), ..work }, high)
    }

    /// Cuts off what the node does not need, if it may be cut off here.
    fn without_rests(&mut self, mut work: Work, node: &Node) -> Work {
        let rest = |work: &Work, join: Join| {
            let spare = Extent { w: work.panel.size.w - node.size.w, h: work.panel.size.h - node.size.h };
            i64::from(spare.along(join)) * i64::from(work.panel.size.across(join))
        };
        let on_the_way = self.target.is_some_and(|(target, _)| target != work.at) && self.leads_to_target(work.at);
        if on_the_way {
            return work;
        }
        let target = self.target.filter(|(target, _)| *target == work.at).map(|(_, join)| join);
        let beside_first = rest(&work, Join::Beside) >= rest(&work, Join::Above);
        let first = target.unwrap_or(if beside_first { Join::Beside } else { Join::Above });
        let second = if first == Join::Beside { Join::Above } else { Join::Beside };
        for join in [first, second] {
            let alone = matches!(node.content, Content::Item(..));
            let allowed = alone || node.stages_after(work.stage, work.last, join) <= self.stages;
            if rest(&work, join) > 0 && allowed {
                let (low, high) = self.cut(work, join, node.size.along(join));
                self.sawn.offcuts.push(high);
                work = low;
            }
        }
        work
    }
}
