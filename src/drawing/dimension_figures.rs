//! Where the figures of a dimension chain stand so that none touches another, a leader or, if it can be helped, an
//! extension line.

use super::dimension::Stop;
use super::font::text_width;
use crate::base::number::trimmed;
use crate::model::Figures;

/// Height of dimension figures, mm (ISO 3098).
pub(super) const HEIGHT: f64 = 2.5;
/// Height of the inches in brackets, mm.
pub(super) const INCHES: f64 = 1.8;
/// From the dimension line to the figure's base line, and from millimetres to inches, mm.
pub(super) const GAP: f64 = 0.9;
/// From one tier of figures to the next, mm.
pub(super) const ROW: f64 = 4.2;
/// Room kept free between a figure and the ends of its distance, mm.
const PAD: f64 = 1.1;
/// Room kept free between two figures, or a figure and a leader, mm.
const APART: f64 = 0.8;
/// How far a figure may stand out over the end of its chain, mm.
const OVER: f64 = 3.5;
/// More tiers than this do not fit a sheet.
const TIERS: u32 = 30;
/// More splits than this are not tried.
const SPLITS: usize = 60;

/// A figure, placed along its chain; its tier is 0 on the line and grows outward.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Figure {
    /// What it says.
    pub words: String,
    /// The same in inches, in smaller brackets behind it; empty where only millimetres are wanted.
    pub inches: String,
    /// Middle of the text along the chain, paper mm.
    pub middle: f64,
    /// Width of the text, mm.
    pub width: f64,
    /// 0 on the line, else the row outside.
    pub tier: u32,
    /// Middle of the distance it belongs to.
    pub foot: f64,
}

impl Figure {
    pub fn range(&self) -> (f64, f64) {
        (self.middle - self.width / 2.0, self.middle + self.width / 2.0)
    }
}

/// Places the figures of neighbouring stops. `crossing` are places where extension lines of other chains pass.
///
/// Figures that need to stand outside are split in two groups: the first is placed from right to left with texts at
/// the right of their leaders, the second from left to right with texts at the left. The split that costs least wins.
pub(super) fn place(stops: &[Stop], crossing: &[f64], figures: Figures) -> Vec<Figure> {
    let pairs = stops.iter().copied().zip(stops.iter().skip(1).copied());
    let (mut on_line_now, mut short) = (Vec::new(), Vec::new());
    for (a, b) in pairs {
        let figure = above(a, b, figures);
        match on_line(&figure, (a.at, b.at), crossing) {
            Some(figure) => on_line_now.push(figure),
            None => short.push(figure),
        }
    }
    let ends = stops.first().zip(stops.last()).map_or((0.0, 0.0), |(a, b)| (a.at - OVER, b.at + OVER));
    let splits = (0..=short.len().min(SPLITS)).filter_map(|split| {
        let (figures, cost) = outside(&short, split, ends, crossing)?;
        Some((cost, figures))
    });
    let best = splits.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, figures)| figures);
    let unbounded = || outside(&short, 0, (f64::NEG_INFINITY, f64::INFINITY), crossing).map(|(figures, _)| figures);
    on_line_now.extend(best.or_else(unbounded).unwrap_or(short));
    on_line_now
}

/// Inches in brackets to the nearest 1/16, which is how the tapes are divided that they are read for: `[47 1/4"]`.
pub(super) fn inches(millimetres: f64) -> String {
    let sixteenths = (millimetres.abs() / 25.4 * 16.0).round().min(1e9) as u64;
    let sign = if millimetres < 0.0 && sixteenths > 0 { "-" } else { "" };
    let (whole, part) = (sixteenths / 16, sixteenths % 16);
    let shared = [8, 4, 2, 1].into_iter().find(|by| part % by == 0).unwrap_or(1);
    let fraction = format!("{}/{}", part / shared, 16 / shared);
    match (whole, part) {
        (_, 0) => format!("[{sign}{whole}\"]"),
        (0, _) => format!("[{sign}{fraction}\"]"),
        _ => format!("[{sign}{whole} {fraction}\"]"),
    }
}

/// The figure between its extension lines if it fits: in the middle, or where no line crosses it.
fn on_line(figure: &Figure, (low, high): (f64, f64), crossing: &[f64]) -> Option<Figure> {
    if figure.width + 2.0 * PAD > high - low {
        return None;
    }
    let middle = clear_middle(low, high, figure.width, crossing).unwrap_or(figure.foot);
    Some(Figure { middle, tier: 0, ..figure.clone() })
}

/// The middle nearest to the middle of the range at which a text of this width is crossed by nothing.
fn clear_middle(low: f64, high: f64, width: f64, crossing: &[f64]) -> Option<f64> {
    let foot = f64::midpoint(low, high);
    let mut bars: Vec<f64> = crossing.iter().copied().filter(|at| *at > low && *at < high).collect();
    bars.push(low);
    bars.push(high);
    bars.sort_by(f64::total_cmp);
    let need = width / 2.0 + PAD;
    let clear = bars.iter().zip(bars.iter().skip(1)).filter(|(a, b)| *b - *a >= 2.0 * need);
    let middles = clear.map(|(a, b)| foot.clamp(a + need, (b - need).max(a + need)));
    middles.min_by(|a, b| (a - foot).abs().total_cmp(&(b - foot).abs()))
}

/// A figure on the lowest tier outside, in the middle.
fn above(a: Stop, b: Stop, figures: Figures) -> Figure {
    let length = b.value - a.value;
    let words = trimmed(length, 1);
    let inches = if figures == Figures::MmInch { inches(length) } else { String::new() };
    let more = if inches.is_empty() { 0.0 } else { GAP + text_width(&inches, INCHES) };
    let (width, foot) = (text_width(&words, HEIGHT) + more, f64::midpoint(a.at, b.at));
    Figure { words, inches, middle: foot, width, tier: 1, foot }
}

/// All figures outside for one split, with their cost; `None` if one finds no place between the ends.
fn outside(short: &[Figure], split: usize, ends: (f64, f64), crossing: &[f64]) -> Option<(Vec<Figure>, f64)> {
    let foot = |index: usize| short.get(index).map(|figure| figure.foot - APART);
    let middle = foot(split).map_or(ends.1, |next| next.min(ends.1));
    let (first, second) = short.split_at_checked(split)?;
    let mut placed: Vec<Figure> = Vec::new();
    let mut total = 0.0;
    for (index, figure) in first.iter().enumerate().rev() {
        let before = index.checked_sub(1).and_then(|index| short.get(index)).map(|before| before.foot + APART);
        let low = before.map_or(ends.0, |before| before.max(ends.0));
        total += add(figure, (low.min(figure.foot), middle), crossing, &mut placed)?;
    }
    for (index, figure) in second.iter().enumerate() {
        let high = foot(split + index + 1).map_or(ends.1, |next| next.min(ends.1));
        total += add(figure, (ends.0, high.max(figure.foot)), crossing, &mut placed)?;
    }
    Some((placed, total))
}

/// Places one more figure within limits where it costs least.
fn add(figure: &Figure, limits: (f64, f64), crossing: &[f64], placed: &mut Vec<Figure>) -> Option<f64> {
    let beside = figure.width / 2.0 + APART;
    let all = (1..=TIERS).flat_map(|tier| {
        [0.0, beside, -beside].map(|shift| Figure { middle: figure.foot + shift, tier, ..figure.clone() })
    });
    let inside = |figure: &Figure| figure.range().0 >= limits.0 && figure.range().1 <= limits.1;
    let free = all.filter(|figure| inside(figure) && fits(figure, placed));
    let (cost, best) = free.map(|f| (cost(&f, crossing), f)).min_by(|a, b| a.0.total_cmp(&b.0))?;
    placed.push(best);
    Some(cost)
}

fn cost(figure: &Figure, crossing: &[f64]) -> f64 {
    let (low, high) = figure.range();
    let crossed = crossing.iter().any(|at| *at > low - APART && *at < high + APART);
    let beside = if figure.middle == figure.foot { 0.0 } else { 1.0 };
    f64::from(figure.tier) * 4.0 + beside + if crossed { 6.0 } else { 0.0 }
}

fn fits(figure: &Figure, placed: &[Figure]) -> bool {
    let within = |at: f64, range: (f64, f64)| at > range.0 - APART * 0.9 && at < range.1 + APART * 0.9;
    placed.iter().all(|other| {
        let (a, b) = (figure.range(), other.range());
        let same = figure.tier == other.tier && a.0 < b.1 + APART && b.0 < a.1 + APART;
        let led_through = figure.tier > other.tier && other.tier > 0 && within(figure.foot, b);
        let leads_through = other.tier > figure.tier && within(other.foot, a);
        let beside = other.tier == figure.tier && other.tier > 0 && (within(other.foot, a) || within(figure.foot, b));
        !(same || led_through || leads_through || beside)
    })
}

#[cfg(test)]
mod tests {
    use super::inches;

    // By hand: 1 in = 25.4 mm, so 1200 mm are 47.244 in, nearest 47 4/16.
    #[test]
    fn inches_in_sixteenths() {
        for (mm, words) in [
            (1200.0, "[47 1/4\"]"),
            (25.4, "[1\"]"),
            (19.05, "[3/4\"]"),
            (1.6, "[1/16\"]"),
            (0.5, "[0\"]"),
            (-50.0, "[-1 15/16\"]"),
        ] {
            assert_eq!(inches(mm), words);
        }
    }
}
