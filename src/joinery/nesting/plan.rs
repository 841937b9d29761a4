//! What comes out: sheets with their pieces, cuts and offcuts, in millimetres from the corner of the whole sheet.

use super::bound::Bound;
use super::extent::{Extent, Join};
use super::packing::Packing;
use super::request::Request;
use super::saw::{self, Sawn};
use super::sheet::Sheet;
use super::task::{LeftOut, Task, whole};
use crate::base::tolerance::SAME_LENGTH;

/// A placed piece, cut size without kerf, mm from the sheet's lower left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// Index of the piece's kind in the request.
    pub piece: usize,
    /// Left edge.
    pub x: f64,
    /// Lower edge.
    pub y: f64,
    /// Size along the sheet's length.
    pub length: f64,
    /// Size along the sheet's width.
    pub width: f64,
    /// Turned by a right angle.
    pub turned: bool,
}

impl Placed {
    /// Where it lies.
    #[must_use]
    pub fn panel(&self) -> Panel {
        Panel { x: self.x, y: self.y, length: self.length, width: self.width }
    }
}

/// A rectangle of a sheet, mm from the sheet's lower left corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Panel {
    /// Left edge.
    pub x: f64,
    /// Lower edge.
    pub y: f64,
    /// Size along the sheet's length.
    pub length: f64,
    /// Size along the sheet's width.
    pub width: f64,
}

/// What a cut divides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Division {
    /// The panel's length: the saw runs along the sheet's width.
    Length,
    /// The panel's width: the saw runs along the sheet's length.
    Width,
}

/// One cut from edge to edge of a panel. Its number is its place in the list, from 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cut {
    /// What is cut.
    pub panel: Panel,
    /// Which of its sides is divided.
    pub division: Division,
    /// Fence setting: from the reference edge of the panel to the saw cut.
    pub fence: f64,
    /// The reference edge is the far one (upper or right), not the near one; so for the second of two trimming cuts.
    pub from_far: bool,
    /// Cut stage from 1; 0 for trimming the sheet's edges.
    pub stage: u8,
}

impl Cut {
    /// Ends of the cut's edge at the reference side, mm from the sheet's lower left corner.
    #[must_use]
    pub fn line(&self) -> ((f64, f64), (f64, f64)) {
        let Panel { x, y, length, width } = self.panel;
        let at = |low: f64, size: f64| if self.from_far { low + size - self.fence } else { low + self.fence };
        match self.division {
            Division::Length => ((at(x, length), y), (at(x, length), y + width)),
            Division::Width => ((x, at(y, width)), (x + length, at(y, width))),
        }
    }
}

impl Cut {
    /// Whether the cut makes this panel, at the fence or beyond the saw cut; trimming makes none.
    #[must_use]
    pub fn frees(&self, panel: &Panel, kerf: f64) -> bool {
        self.stage > 0 && (*panel == self.near_part() || self.is_far_part(panel, kerf))
    }

    /// The part of the panel that lies at the fence.
    fn near_part(&self) -> Panel {
        match self.division {
            Division::Length => Panel { length: self.fence, ..self.panel },
            Division::Width => Panel { width: self.fence, ..self.panel },
        }
    }

    /// Whether a panel is the part beyond the cut.
    #[must_use]
    pub fn is_far_part(&self, own: &Panel, kerf: f64) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() <= 2.0 * SAME_LENGTH;
        let Panel { x, y, length, width } = self.panel;
        let far = match self.division {
            Division::Length => Panel { x: x + self.fence + kerf, length: length - self.fence - kerf, ..self.panel },
            Division::Width => Panel { y: y + self.fence + kerf, width: width - self.fence - kerf, ..self.panel },
        };
        near(own.x, far.x) && near(own.y, far.y) && near(own.length, far.length) && near(own.width, far.width)
    }
}

/// What is left of a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offcut {
    /// Where it lies.
    pub panel: Panel,
    /// Large enough to keep.
    pub useful: bool,
}

/// One sheet with its pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct CutSheet {
    /// Index of its kind in the request.
    pub kind: usize,
    /// Sheet size, length x width, mm.
    pub size: (f64, f64),
    /// Of a kind with a limited count.
    pub on_hand: bool,
    /// Pieces on it, in the order in which they are cut free.
    pub pieces: Vec<Placed>,
    /// Cuts in order.
    pub cuts: Vec<Cut>,
    /// What is left, largest first.
    pub offcuts: Vec<Offcut>,
}

/// All sheets of one stock.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CuttingPlan {
    /// The sheets, fullest first.
    pub sheets: Vec<CutSheet>,
    /// No plan can use fewer sheets than this.
    pub bound: usize,
    /// Sum of the costs of the sheets.
    pub cost: f64,
    /// No plan can cost less than this.
    pub least_cost: f64,
    /// Pieces (kind indices, once each) that fit on no sheet; none of them is in the plan.
    pub too_large: Vec<usize>,
    /// Pieces left out because there are more than [`super::MOST_PIECES`], or because the sheets on hand don't suffice.
    pub unplaced: usize,
}

pub(super) fn plan(request: &Request, task: &Task, left: LeftOut, bound: &Bound, packing: Packing) -> CuttingPlan {
    let (cost, unplaced) = (packing.cost(task), left.unplaced + packing.loose.len());
    let mut sheets = packing.sheets;
    sheets.sort_by_key(|sheet| sheet.free());
    let frame = Frame { request, task, kerf: whole(request.kerf.max(0.0)), trim: whole(request.trim.max(0.0)) };
    CuttingPlan {
        sheets: sheets.iter().filter_map(|sheet| frame.sheet(sheet)).collect(),
        bound: bound.sheets,
        cost,
        least_cost: bound.cost,
        too_large: left.too_large,
        unplaced,
    }
}

fn mm(micrometres: i32) -> f64 {
    f64::from(micrometres) / 1000.0
}

/// From the trimmed sheet with kerf to the sheet as it is.
struct Frame<'a> {
    request: &'a Request,
    task: &'a Task,
    kerf: i32,
    trim: i32,
}

impl Frame<'_> {
    fn sheet(&self, sheet: &Sheet) -> Option<CutSheet> {
        let kind = self.request.sheets.get(sheet.kind)?;
        let size = kind.size;
        let Sawn { cuts, pieces, offcuts } = saw::sawn(sheet, self.task.stages);
        let placed = |(index, turned, panel): &(u32, bool, saw::Panel)| {
            let (item, Panel { x, y, length, width }) = (self.task.items.get(*index as usize)?, self.panel(*panel));
            Some(Placed { piece: item.piece, x, y, length, width, turned: item.turned != *turned })
        };
        let mut offcuts: Vec<Offcut> = offcuts.iter().filter_map(|panel| self.offcut(*panel)).collect();
        let area = |offcut: &Offcut| offcut.panel.length * offcut.panel.width;
        offcuts.sort_by(|a, b| area(b).total_cmp(&area(a)));
        Some(CutSheet {
            kind: sheet.kind,
            size,
            on_hand: kind.stock.is_some(),
            pieces: pieces.iter().filter_map(placed).collect(),
            cuts: self.trimming(size).chain(cuts.iter().map(|cut| self.cut(cut))).collect(),
            offcuts,
        })
    }

    fn panel(&self, panel: saw::Panel) -> Panel {
        Panel {
            x: mm(panel.x + self.trim),
            y: mm(panel.y + self.trim),
            length: mm(panel.size.w - self.kerf),
            width: mm(panel.size.h - self.kerf),
        }
    }

    fn offcut(&self, panel: saw::Panel) -> Option<Offcut> {
        let (least, other) = self.request.useful;
        let least = Extent { w: whole(least), h: whole(other) };
        let size = Extent { w: panel.size.w - self.kerf, h: panel.size.h - self.kerf };
        let useful = size.holds(least) || size.holds(least.turned());
        (size.w > 0 && size.h > 0).then(|| Offcut { panel: self.panel(panel), useful })
    }

    fn cut(&self, cut: &saw::Cut) -> Cut {
        let division = match cut.join {
            Join::Beside => Division::Length,
            Join::Above => Division::Width,
        };
        let (panel, fence) = (self.panel(cut.panel), mm(cut.keeps - self.kerf));
        Cut { panel, division, fence, from_far: false, stage: cut.stage }
    }

    /// The edges of a whole sheet: each far edge off, then the near one with the fresh edge on the fence.
    fn trimming(&self, (length, width): (f64, f64)) -> impl Iterator<Item = Cut> + use<> {
        let trim = mm(self.trim);
        let cut = |panel, division, fence, from_far| Cut { panel, division, fence, from_far, stage: 0 };
        let (shorter, narrower) = (length - trim, width - trim);
        let panel = Panel { x: 0.0, y: 0.0, length, width };
        let cuts = [
            cut(panel, Division::Length, shorter, false),
            cut(Panel { length: shorter, ..panel }, Division::Length, shorter - trim, true),
            cut(Panel { x: trim, length: shorter - trim, ..panel }, Division::Width, narrower, false),
            cut(
                Panel { x: trim, length: shorter - trim, width: narrower, ..panel },
                Division::Width,
                narrower - trim,
                true,
            ),
        ];
        cuts.into_iter().filter(move |_| trim > 0.0)
    }
}
