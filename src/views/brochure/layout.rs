//! How the plans of all arrangements share the brochure with its title and key figures: rows and columns at one scale.

use crate::drawing::Paper;
use crate::model::Theme;
use kurbo::{Point, Rect, Size};

/// Margin as a share of the sheet's longer side.
const MARGIN: f64 = 0.046;
/// Between two plans: least, and most when there is room to spare, mm.
const GAP: (f64, f64) = (12.0, 24.0);
/// Plans that are narrower together than this share of the room do not set the width of the title.
const NARROW: f64 = 0.6;
/// Between caption and plan, mm.
const CAPTION: f64 = 3.0;

/// Where everything stands on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Layout {
    /// 23 for 1:23.
    pub scale: f64,
    /// Outside of the shell of each plan.
    pub plans: Vec<Rect>,
    /// Base line of each caption, left end.
    pub captions: Vec<Point>,
    /// Room for the key figures.
    pub info: Rect,
    /// Left and right end of everything.
    pub sides: (f64, f64),
    /// Base line of the title.
    pub title: f64,
    /// Base line of the line at the foot.
    pub foot: f64,
}

/// A way to share the room: columns, rows, and whether the figures stand in a cell of their own or in a band below.
#[derive(Debug, Clone, Copy)]
struct Split {
    columns: usize,
    rows: usize,
    in_cell: bool,
    scale: f64,
    band: f64,
}

/// What is laid out.
pub(super) struct Request<'a> {
    /// The sheet.
    pub paper: Paper,
    /// How large letters are.
    pub theme: &'a Theme,
    /// How many plans.
    pub count: usize,
    /// Outside of the shell, mm of the box.
    pub outside: Size,
    /// Captions stand under their plans, not over them, since people come in from above.
    pub caption_below: bool,
    /// Height of the key figures in a width.
    pub info: &'a dyn Fn(f64) -> f64,
}

impl Request<'_> {
    /// The layout with the largest plans.
    pub fn layout(&self) -> Layout {
        let splits = (1..=self.count + 1).flat_map(|columns| [true, false].map(|in_cell| self.split(columns, in_cell)));
        let best = splits.flatten().reduce(|best, next| if next.scale < best.scale { next } else { best });
        let scale = 1000.0;
        let fallback =
            Split { columns: 1, rows: self.count, in_cell: false, scale, band: (self.info)(self.room().width()) };
        self.place(best.unwrap_or(fallback))
    }

    fn margin(&self) -> f64 {
        self.paper.width.max(self.paper.height) * MARGIN
    }

    /// Between title and foot.
    fn room(&self) -> Rect {
        let (margin, letters) = (self.margin(), self.theme.letters);
        let sheet = Rect::new(0.0, 0.0, self.paper.width, self.paper.height).inflate(-margin, -margin);
        Rect { y0: sheet.y0 + letters.note + 8.0, y1: sheet.y1 - letters.title - 16.0, ..sheet }
    }

    fn caption(&self) -> f64 {
        self.theme.letters.caption + CAPTION
    }

    /// A plan with its caption, on paper.
    fn cell(&self, scale: f64) -> Size {
        Size::new(self.outside.width / scale, self.outside.height / scale + self.caption())
    }

    /// The largest whole scale at which a number of columns fits.
    fn split(&self, columns: usize, in_cell: bool) -> Option<Split> {
        let cells = self.count + usize::from(in_cell);
        let rows = cells.div_ceil(columns);
        let room = self.room();
        let band = if in_cell { 0.0 } else { (self.info)(room.width()) + GAP.0 };
        let share = |room: f64, count: usize| (room - GAP.0 * (count - 1) as f64) / count as f64;
        let (width, height) = (share(room.width(), columns), share(room.height() - band, rows) - self.caption());
        if width <= 5.0 || height <= 5.0 {
            return None;
        }
        let scale = (self.outside.width / width).max(self.outside.height / height).ceil().max(1.0);
        let cell = self.cell(scale);
        let beside = (columns * rows - self.count) as f64;
        let info = cell.width * beside + GAP.0 * (beside - 1.0);
        let high = if self.caption_below { cell.height } else { cell.height - self.caption() };
        let fits = !in_cell || (info > 0.0 && (self.info)(info) <= high);
        fits.then_some(Split { columns, rows, in_cell, scale, band })
    }

    /// The middle of the room, with gaps as wide as there is room for.
    fn place(&self, split: Split) -> Layout {
        let (room, cell) = (self.room(), self.cell(split.scale));
        let gap = |room: f64, size: f64, count: usize| {
            if count < 2 { 0.0 } else { ((room - size * count as f64) / (count - 1) as f64).clamp(GAP.0, GAP.1) }
        };
        let across = gap(room.width(), cell.width, split.columns);
        let down = gap(room.height() - split.band, cell.height, split.rows);
        let whole = |size: f64, gap: f64, count: usize| size * count as f64 + gap * (count - 1) as f64;
        let (wide, high) = (whole(cell.width, across, split.columns), whole(cell.height, down, split.rows));
        let left = room.center().x - wide / 2.0;
        let spare = (room.height() - split.band - high).max(0.0);
        let top = room.y1 - spare / 2.0;
        let corner = |index: usize| {
            let (row, column) = (index / split.columns, index % split.columns);
            Point::new(left + (cell.width + across) * column as f64, top - (cell.height + down) * row as f64)
        };
        let plan = |index: usize| self.plan(corner(index), split.scale);
        let plans: Vec<Rect> = (0..self.count).map(plan).collect();
        let captions = plans.iter().map(|plan| self.caption_at(*plan)).collect();
        // Title and foot are as wide as the plans, unless these stand in a narrow column or the figures need more.
        let narrow = wide < room.width() * NARROW || (!split.in_cell && (self.info)(wide) > split.band - GAP.0);
        let sides = if narrow { (room.x0, room.x1) } else { (left, left + wide) };
        let info = if split.in_cell {
            let like = self.plan(corner(self.count), split.scale);
            Rect { x1: left + wide, y0: corner(self.count).y - cell.height, ..like }
        } else {
            let low = room.y0 + spare / 4.0;
            Rect::new(sides.0, low, sides.1, low + split.band - GAP.0)
        };
        let margin = self.margin();
        let title = self.paper.height - margin - self.theme.letters.title;
        Layout { scale: split.scale, plans, captions, info, sides, title, foot: margin }
    }

    /// The shell's outside in a cell by the cell's upper left corner.
    fn plan(&self, corner: Point, scale: f64) -> Rect {
        let top = corner.y - if self.caption_below { 0.0 } else { self.caption() };
        let size = self.outside / scale;
        Rect::new(corner.x, top - size.height, corner.x + size.width, top)
    }

    fn caption_at(&self, plan: Rect) -> Point {
        let y = if self.caption_below { plan.y0 - self.caption() } else { plan.y1 + CAPTION };
        Point::new(plan.x0, y)
    }
}
