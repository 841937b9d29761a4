//! Where the figures of a dimension chain stand so that none touches another, a leader or, if it can be helped, an
//! extension line.

use super::font::text_width;
use crate::base::number::trimmed;
use crate::model::Figures;

/// A place that a chain measures to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    /// Place on the paper along the chain, mm.
    pub at: f64,
    /// True place, mm.
    pub value: f64,
}

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
/// What a tier costs.
const TIER: f64 = 4.0;
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
        self.spot().range()
    }

    fn spot(&self) -> Spot {
        Spot { middle: self.middle, width: self.width, tier: self.tier, foot: self.foot }
    }
}

/// Where a figure stands or may stand.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Spot {
    middle: f64,
    width: f64,
    tier: u32,
    foot: f64,
}

impl Spot {
    fn range(self) -> (f64, f64) {
        (self.middle - self.width / 2.0, self.middle + self.width / 2.0)
    }
}

/// Places the figures of neighbouring stops, which grow. `crossing` are places where extension lines of other chains
/// pass, in order.
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
    let spots: Vec<Spot> = short.iter().map(Figure::spot).collect();
    let mut best: Option<Outside> = None;
    for split in 0..=short.len().min(SPLITS) {
        let least = best.as_ref().map_or(f64::INFINITY, |best| best.cost);
        best = outside(&spots, split, (ends, crossing), least).or(best);
    }
    let unbounded = || outside(&spots, 0, ((f64::NEG_INFINITY, f64::INFINITY), crossing), f64::INFINITY);
    if let Some(best) = best.or_else(unbounded) {
        for (index, spot) in best.order.iter().zip(best.spots) {
            on_line_now.extend(short.get(*index).map(|f| Figure { middle: spot.middle, tier: spot.tier, ..f.clone() }));
        }
    } else {
        on_line_now.extend(short);
    }
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

/// Those of a row of growing places that lie between two.
fn between(places: &[f64], low: f64, high: f64) -> &[f64] {
    let from = places.partition_point(|at| *at <= low);
    let rest = places.get(from..).unwrap_or_default();
    rest.get(..rest.partition_point(|at| *at < high)).unwrap_or_default()
}

/// The middle nearest to the middle of the range at which a text of this width is crossed by nothing.
fn clear_middle(low: f64, high: f64, width: f64, crossing: &[f64]) -> Option<f64> {
    let foot = f64::midpoint(low, high);
    let bars: Vec<f64> =
        std::iter::once(low).chain(between(crossing, low, high).iter().copied()).chain(std::iter::once(high)).collect();
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

/// Figures outside: their places, which figures they are in the order of placing, and what they cost together.
struct Outside {
    spots: Vec<Spot>,
    order: Vec<usize>,
    cost: f64,
}

/// All figures outside for one split; `None` if one finds no place between the ends, or if it costs no less than
/// what is known already.
fn outside(short: &[Spot], split: usize, (ends, crossing): ((f64, f64), &[f64]), least: f64) -> Option<Outside> {
    let foot = |index: usize| short.get(index).map(|spot| spot.foot);
    let next = |index: usize| foot(index).map_or(ends.1, |next| (next - APART).min(ends.1));
    let middle = next(split);
    let order: Vec<usize> = (0..split).rev().chain(split..short.len()).collect();
    let widest = short.iter().map(|spot| spot.width).fold(0.0, f64::max);
    let mut placed: Vec<Option<Spot>> = vec![None; short.len()];
    let mut found = Outside { spots: Vec::with_capacity(order.len()), order, cost: 0.0 };
    for index in &found.order {
        let spot = *short.get(*index)?;
        let limits = if *index < split {
            let before = index.checked_sub(1).and_then(foot).map(|before| before + APART);
            (before.map_or(ends.0, |before| before.max(ends.0)).min(spot.foot), middle)
        } else {
            (ends.0, next(index + 1).max(spot.foot))
        };
        let near = near(&placed, *index, spot.foot, spot.width + widest + 4.0 * APART);
        let (cost, spot) = cheapest(spot, limits, crossing, &near)?;
        found.cost += cost;
        if found.cost >= least {
            return None;
        }
        *placed.get_mut(*index)? = Some(spot);
        found.spots.push(spot);
    }
    Some(found)
}

/// The placed figures whose feet lie no farther than so much from a foot: others can't meet its figure, since a
/// figure stands over or right beside its foot.
fn near(placed: &[Option<Spot>], index: usize, foot: f64, reach: f64) -> Vec<Spot> {
    let (before, after) = placed.split_at_checked(index).unwrap_or_default();
    let close = |spot: &&Option<Spot>| spot.is_some_and(|spot| (spot.foot - foot).abs() <= reach);
    let before = before.iter().rev().take_while(close);
    before.chain(after.iter().skip(1).take_while(close)).flatten().copied().collect()
}

/// Where one more figure costs least within limits, with the cost.
fn cheapest(spot: Spot, limits: (f64, f64), crossing: &[f64], near: &[Spot]) -> Option<(f64, Spot)> {
    let beside = spot.width / 2.0 + APART;
    let mut best: Option<(f64, Spot)> = None;
    for tier in 1..=TIERS {
        if best.is_some_and(|(least, _)| f64::from(tier) * TIER > least) {
            break;
        }
        for shift in [0.0, beside, -beside] {
            let spot = Spot { middle: spot.foot + shift, tier, ..spot };
            let (low, high) = spot.range();
            if low >= limits.0 && high <= limits.1 && fits(spot, near) {
                let cost = cost(spot, crossing);
                best = best.filter(|(least, _)| *least <= cost).or(Some((cost, spot)));
            }
        }
    }
    best
}

fn cost(spot: Spot, crossing: &[f64]) -> f64 {
    let (low, high) = spot.range();
    let crossed = !between(crossing, low - APART, high + APART).is_empty();
    let beside = if spot.middle == spot.foot { 0.0 } else { 1.0 };
    f64::from(spot.tier) * TIER + beside + if crossed { 6.0 } else { 0.0 }
}

fn fits(spot: Spot, near: &[Spot]) -> bool {
    let within = |at: f64, range: (f64, f64)| at > range.0 - APART * 0.9 && at < range.1 + APART * 0.9;
    near.iter().all(|other| {
        let (a, b) = (spot.range(), other.range());
        let same = spot.tier == other.tier && a.0 < b.1 + APART && b.0 < a.1 + APART;
        let led_through = spot.tier > other.tier && other.tier > 0 && within(spot.foot, b);
        let leads_through = other.tier > spot.tier && within(other.foot, a);
        let beside = other.tier == spot.tier && other.tier > 0 && (within(other.foot, a) || within(spot.foot, b));
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
