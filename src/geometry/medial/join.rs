//! Arcs as their cells see them, joined into one graph.
//!
//! Each arc is seen from both sides, and each node from all cells round it, alike but for rounding. What is alike to less
//! than a step of the grid is one. Whether that has put together what belongs together is proved by counting: the medial axis
//! of a region hangs together in each part of it and has one loop round each hole.

use super::cells::{CellArc, CellEnd};
use std::collections::{BTreeMap, BTreeSet};

/// How far two pictures of one node may be apart, in steps: the first that gives a graph of the right shape.
const ALIKE: [f64; 4] = [0.1, 1.0, 10.0, 100.0];

/// Nodes, and arcs between them with the numbers of the things that are equally near.
#[derive(Debug, Clone, Default)]
pub(super) struct Joined {
    pub nodes: Vec<CellEnd>,
    pub arcs: Vec<((usize, usize), (usize, usize))>,
}

/// Sets of things that are one.
struct Sets(Vec<usize>);

impl Sets {
    fn new(count: usize) -> Self {
        Self((0..count).collect())
    }

    fn first(&self, mut index: usize) -> usize {
        while let Some(next) = self.0.get(index).copied().filter(|next| *next != index) {
            index = next;
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
    let sets = same_ends(ends, alike);
    let mut numbers: BTreeMap<usize, usize> = BTreeMap::new();
    let mut joined = Joined::default();
    let mut seen: BTreeSet<((usize, usize), (usize, usize))> = BTreeSet::new();
    for (index, arc) in arcs.iter().enumerate() {
        let (a, b) = (sets.first(2 * index), sets.first(2 * index + 1));
        if a == b || !seen.insert((arc.between, (a.min(b), a.max(b)))) {
            continue;
        }
        let mut number = |end: usize| {
            *numbers.entry(end).or_insert_with(|| {
                joined.nodes.extend(ends.get(end));
                joined.nodes.len() - 1
            })
        };
        let nodes = (number(a), number(b));
        joined.arcs.push((nodes, arc.between));
    }
    joined
}

/// Ends that are one: those that close the same corner, and those that lie together.
fn same_ends(ends: &[CellEnd], alike: f64) -> Sets {
    let mut sets = Sets::new(ends.len());
    let mut corners: BTreeMap<usize, usize> = BTreeMap::new();
    let mut open: Vec<(f64, f64, usize)> = Vec::with_capacity(ends.len());
    for (index, end) in ends.iter().enumerate() {
        match end.closed {
            Some(corner) => {
                sets.join(index, *corners.entry(corner).or_insert(index));
            }
            None => open.push((end.at.0, end.at.1, index)),
        }
    }
    open.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (at, (x, y, index)) in open.iter().enumerate() {
        let near = open.iter().skip(at + 1).take_while(|other| other.0 - x <= alike);
        for other in near.filter(|other| (other.1 - y).abs() <= alike) {
            sets.join(*index, other.2);
        }
    }
    sets
}

fn proved(joined: &Joined, (outer, inner): (usize, usize)) -> bool {
    let mut sets = Sets::new(joined.nodes.len());
    let merged = joined.arcs.iter().filter(|((a, b), _)| sets.join(*a, *b)).count();
    joined.nodes.len() == merged + outer && joined.arcs.len() == merged + inner
}
