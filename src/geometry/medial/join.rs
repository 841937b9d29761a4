//! Arcs as their cells see them, joined into one graph.
//!
//! Each arc is seen from both sides, and each node from all cells round it, alike but for rounding. What is alike to less
//! than a step of the grid is one. Whether that has put together what belongs together is proved by counting: the medial axis
//! of a region hangs together in each part of it and has one loop round each hole.

use super::cells::{CellArc, CellEnd};
use std::collections::{BTreeMap, HashSet};

/// How far two pictures of one node may be apart, in steps: the first that gives a graph of the right shape.
const ALIKE: [f64; 4] = [0.1, 1.0, 10.0, 100.0];

/// Nodes, and arcs between them with the numbers of the things that are equally near.
#[derive(Debug, Clone, Default)]
pub(super) struct Joined {
    pub nodes: Vec<CellEnd>,
    pub arcs: Vec<((usize, usize), (usize, usize))>,
}

/// Sets of things that are one: to each thing an earlier one of its set, or itself.
struct Sets(Vec<usize>);

impl Sets {
    fn new(count: usize) -> Self {
        Self((0..count).collect())
    }

    /// The first of its set; the way there becomes shorter.
    fn first(&mut self, mut index: usize) -> usize {
        while let Some(next) = self.0.get(index).copied().filter(|next| *next != index) {
            let after = self.0.get(next).copied().unwrap_or(next);
            if let Some(set) = self.0.get_mut(index) {
                *set = after;
            }
            index = after;
        }
        index
    }

    /// Puts two together; false if they were.
    fn join(&mut self, a: usize, b: usize) -> bool {
        let (a, b) = (self.first(a), self.first(b));
        if let Some(set) = self.0.get_mut(a.max(b)) {
            *set = a.min(b);
        }
        a != b
    }
}

/// The graph of a border with so many outer and inner rings, and whether its shape is proved.
pub(super) fn join(arcs: &[CellArc], rings: (usize, usize)) -> (Joined, bool) {
    let ends: Vec<CellEnd> = arcs.iter().flat_map(|arc| arc.ends).collect();
    let proved = ALIKE.iter().map(|alike| joined(arcs, &ends, *alike)).find(|joined| proved(joined, rings));
    match proved {
        Some(joined) => (joined, true),
        None => (joined(arcs, &ends, ALIKE[0]), false),
    }
}

fn joined(arcs: &[CellArc], ends: &[CellEnd], alike: f64) -> Joined {
    let mut sets = same_ends(ends, alike);
    let mut numbers: Vec<Option<usize>> = vec![None; ends.len()];
    let mut joined = Joined::default();
    let mut seen = HashSet::with_capacity(arcs.len());
    for (index, arc) in arcs.iter().enumerate() {
        let (a, b) = (sets.first(2 * index), sets.first(2 * index + 1));
        if a == b || !seen.insert((arc.between, (a.min(b), a.max(b)))) {
            continue;
        }
        let mut number = |end: usize| {
            let new = joined.nodes.len();
            let number = *numbers.get_mut(end)?.get_or_insert(new);
            joined.nodes.extend(ends.get(end).filter(|_| number == new));
            Some(number)
        };
        if let (Some(a), Some(b)) = (number(a), number(b)) {
            joined.arcs.push(((a, b), arc.between));
        }
    }
    joined
}

/// Ends that are one: those that close the same corner, and those that lie together.
fn same_ends(ends: &[CellEnd], alike: f64) -> Sets {
    let mut sets = Sets::new(ends.len());
    let mut corners: BTreeMap<usize, usize> = BTreeMap::new();
    // By the squares of a raster, column by column.
    let mut open: Vec<((i64, i64), usize)> = Vec::with_capacity(ends.len());
    for (index, end) in ends.iter().enumerate() {
        match end.closed {
            Some(corner) => {
                sets.join(index, *corners.entry(corner).or_insert(index));
            }
            None => open.push((((end.at.0 / alike).floor() as i64, (end.at.1 / alike).floor() as i64), index)),
        }
    }
    open.sort_unstable();
    let together = |a: usize, b: usize| {
        let (Some(a), Some(b)) = (ends.get(a), ends.get(b)) else { return false };
        (a.at.0 - b.at.0).abs() <= alike && (a.at.1 - b.at.1).abs() <= alike
    };
    let mut beside = 0;
    for (at, ((column, row), index)) in open.iter().enumerate() {
        let here = open.iter().skip(at + 1).take_while(|(square, _)| *square <= (*column, row + 1));
        beside += open.iter().skip(beside).take_while(|(square, _)| *square < (column + 1, row - 1)).count();
        let next = open.iter().skip(beside).take_while(|(square, _)| *square <= (column + 1, row + 1));
        for (_, other) in here.chain(next).filter(|(_, other)| together(*index, *other)) {
            sets.join(*index, *other);
        }
    }
    sets
}

fn proved(joined: &Joined, (outer, inner): (usize, usize)) -> bool {
    let mut sets = Sets::new(joined.nodes.len());
    let merged = joined.arcs.iter().filter(|((a, b), _)| sets.join(*a, *b)).count();
    joined.nodes.len() == merged + outer && joined.arcs.len() == merged + inner
}
