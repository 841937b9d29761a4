//! Where the figures of a dimension chain stand so that none touches another, a leader or, if it can be helped, an
//! extension line.

use super::dimension::Stop;
use super::font::text_width;
use crate::base::number::trimmed;

/// Height of dimension figures, mm (ISO 3098).
pub(super) const HEIGHT: f64 = 2.5;
/// From the dimension line to the figure's base line, mm.
pub(super) const GAP: f64 = 0.9;
/// From one tier of figures to the next, mm.
pub(super) const ROW: f64 = 4.2;
/// Room kept free between a figure and the ends of its distance, mm.
const PAD: f64 = 1.1;
/// Room kept free between two figures, or a figure and a leader, mm.
const APART: f64 = 0.8;
/// More tiers than this are never needed by a chain that a sheet can show.
const TIERS: u32 = 40;

/// A figure, placed along its chain; its tier is 0 on the line and grows outward.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Figure {
    /// What it says.
    pub words: String,
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
    fn range(&self) -> (f64, f64) {
        (self.middle - self.width / 2.0, self.middle + self.width / 2.0)
    }
}

/// Places the figures of neighbouring stops. `crossing` are places where extension lines of other chains pass.
///
/// Figures outside are placed from left to right, none over the foot of a leader still to come, so that each has a
/// place: at the left of its leader, over all that is there.
pub(super) fn place(stops: &[Stop], crossing: &[f64]) -> Vec<Figure> {
    let pairs = stops.iter().copied().zip(stops.iter().skip(1).copied());
    let (mut placed, mut short) = (Vec::new(), Vec::new());
    for (a, b) in pairs {
        match on_line(a, b, crossing) {
            Some(figure) => placed.push(figure),
            None => short.push((a, b)),
        }
    }
    let feet: Vec<f64> = short.iter().map(|(a, b)| f64::midpoint(a.at, b.at)).collect();
    for (index, (a, b)) in short.into_iter().enumerate() {
        let next = feet.get(index + 1).copied().unwrap_or(f64::INFINITY);
        let figure = outside(a, b, crossing, next, &placed);
        placed.push(figure);
    }
    placed
}

fn words(a: Stop, b: Stop) -> String {
    trimmed(b.value - a.value, 1)
}

/// The figure between its extension lines if it fits: in the middle, or where no line crosses it.
fn on_line(a: Stop, b: Stop, crossing: &[f64]) -> Option<Figure> {
    let words = words(a, b);
    let width = text_width(&words, HEIGHT);
    if width + 2.0 * PAD > b.at - a.at {
        return None;
    }
    let foot = f64::midpoint(a.at, b.at);
    let middle = clear_middle(a.at, b.at, width, crossing).unwrap_or(foot);
    Some(Figure { words, middle, width, tier: 0, foot })
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

fn outside(a: Stop, b: Stop, crossing: &[f64], next: f64, placed: &[Figure]) -> Figure {
    let words = words(a, b);
    let width = text_width(&words, HEIGHT);
    let foot = f64::midpoint(a.at, b.at);
    let beside = width / 2.0 + APART;
    let figure = |tier, shift| Figure { words: words.clone(), middle: foot + shift, width, tier, foot };
    let all = (1..=TIERS).flat_map(|tier| [0.0, beside, -beside].map(|shift| figure(tier, shift)));
    let free = all.filter(|figure| figure.range().1 + APART < next.max(foot) && fits(figure, placed));
    free.min_by(|a, b| cost(a, crossing).total_cmp(&cost(b, crossing))).unwrap_or_else(|| figure(TIERS, -beside))
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
