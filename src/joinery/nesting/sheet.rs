//! A sheet as a tree of cuts, and where one more piece may join it.
//!
//! The tree is kept in postfix order, children before their join (as Wong and Liu wrote slicing floor plans in 1986):
//! a subtree is a stretch of the list. A joint is as large as its children need; its *room* is what it may grow to while
//! everything beside it stays as large as it needs. So no free space is bound to a place before the end, and a piece
//! may be put beside any piece or joint that has room (insertion into the tree: Fleszar, "Three insertion heuristics
//! and a justification improvement heuristic for two-dimensional bin packing with guillotine cuts", Computers &
//! Operations Research 40 (2013), from memory). Every cut goes from edge to edge by construction.

use super::extent::{Extent, Join};
use super::task::Item;

/// What a node is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Content {
    /// An item of the task, lying or turned.
    Item(u32, bool),
    /// The joint of the two subtrees before it.
    Joint(Join),
}

/// A piece or a joint.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    pub content: Content,
    /// What it needs.
    pub size: Extent,
    /// What it may grow to.
    pub room: Extent,
    /// First node of its subtree.
    pub start: u32,
    /// The join that it is a child of, and how many changes of direction led to it, that one included.
    pub parent: Option<Join>,
    pub level: u8,
    /// Changes of direction under it, its own included.
    depth: u8,
}

impl Node {
    pub fn items(&self, at: usize) -> usize {
        (at - self.start as usize) / 2 + 1
    }

    /// Free length in a direction.
    pub fn spare(&self, join: Join) -> i32 {
        self.room.along(join) - self.size.along(join)
    }

    /// Cut stages that a piece joined to this node leads to.
    fn stages(&self, join: Join) -> u8 {
        self.stages_after(self.level, self.parent, join)
    }

    /// The same, if `level` stages led to it and the last of them divided in the direction `last`.
    pub fn stages_after(&self, level: u8, last: Option<Join>, join: Join) -> u8 {
        let depth = match self.content {
            Content::Joint(own) if own == join => self.depth - 1,
            Content::Joint(_) | Content::Item(..) => self.depth,
        };
        level.saturating_add(u8::from(last != Some(join))).saturating_add(depth)
    }
}

/// Which place suits best.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fit {
    /// The least shorter rest of the free space beside the node.
    ShortRest,
    /// The least longer rest.
    LongRest,
    /// The least area lost by unequal sides.
    Loss,
    /// The least area lost by unequal sides or left over beyond the piece.
    Snug,
}

/// All ways to choose a place.
pub(super) const FITS: [Fit; 4] = [Fit::ShortRest, Fit::Loss, Fit::Snug, Fit::LongRest];

/// A place for an item.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    /// Less is better.
    pub rank: i64,
    at: usize,
    join: Join,
    turned: bool,
}

/// An open sheet.
#[derive(Debug)]
pub(super) struct Sheet {
    /// Index of its kind in the task.
    pub kind: usize,
    pub whole: Extent,
    /// Area of its items.
    pub used: i64,
    /// The greatest spare of any node in each direction.
    gap: Extent,
    pub nodes: Vec<Node>,
}

/// Copies are made at every step, into memory that is there already.
impl Clone for Sheet {
    fn clone(&self) -> Self {
        Self { nodes: self.nodes.clone(), ..*self }
    }

    fn clone_from(&mut self, other: &Self) {
        let mut nodes = std::mem::take(&mut self.nodes);
        nodes.clone_from(&other.nodes);
        *self = Self { nodes, ..*other };
    }
}

impl Sheet {
    pub fn new(kind: usize, whole: Extent) -> Self {
        Self { kind, whole, used: 0, gap: whole, nodes: Vec::new() }
    }

    pub fn free(&self) -> i64 {
        self.whole.area() - self.used
    }

    pub fn items(&self) -> impl Iterator<Item = u32> {
        self.nodes.iter().filter_map(|node| match node.content {
            Content::Item(item, _) => Some(item),
            Content::Joint(_) => None,
        })
    }

    /// Quick to say that the item has no place here.
    pub fn may_take(&self, item: &Item) -> bool {
        let Extent { w, h } = item.size;
        let as_it_lies = (w <= self.gap.w || h <= self.gap.h) && self.whole.holds(item.size);
        let opens =
            as_it_lies || (item.turns && (h <= self.gap.w || w <= self.gap.h) && self.whole.holds(item.size.turned()));
        opens && item.size.area() <= self.free()
    }

    /// The best place for an item.
    pub fn best(&self, item: &Item, fit: Fit, stages: u8) -> Option<Spot> {
        let mut best: Option<Spot> = None;
        for (turned, size) in item.poses() {
            if self.nodes.is_empty() && self.whole.holds(size) {
                let rank = i64::from((self.whole.w - size.w).min(self.whole.h - size.h));
                best = better(best, Spot { rank, at: 0, join: Join::Beside, turned });
            }
            for (at, node) in self.nodes.iter().enumerate() {
                if !node.room.holds(size) {
                    continue;
                }
                for join in [Join::Beside, Join::Above] {
                    if size.along(join) <= node.spare(join) && (stages == u8::MAX || node.stages(join) <= stages) {
                        best = better(best, Spot { rank: rank(fit, node, size, join), at, join, turned });
                    }
                }
            }
        }
        best
    }

    pub fn insert(&mut self, spot: Spot, index: u32, item: &Item) {
        let size = if spot.turned { item.size.turned() } else { item.size };
        let content = Content::Item(index, spot.turned);
        let leaf = Node { content, size, room: size, start: 0, parent: None, level: 0, depth: 0 };
        if self.nodes.is_empty() {
            self.nodes.push(leaf);
        } else {
            let after = (spot.at + 1).min(self.nodes.len());
            self.nodes.insert(after, leaf);
            self.nodes.insert(after + 1, Node { content: Content::Joint(spot.join), ..leaf });
        }
        self.measure();
    }

    /// Takes the subtree that ends at `at` out, and gives its items to `out`. Areas, sizes and rooms are those from before until
    /// [`Self::measure`].
    pub fn remove(&mut self, at: usize, out: &mut Vec<u32>) {
        let Some(start) = self.nodes.get(at).map(|node| node.start) else { return };
        let parent = self.parent(at).unwrap_or(self.nodes.len());
        let gone = at as u32 + 1 - start;
        for node in self.nodes.iter_mut().skip(at + 1).filter(|node| node.start as usize > at) {
            node.start -= gone + u32::from(node.start as usize > parent);
        }
        if parent < self.nodes.len() {
            self.nodes.remove(parent);
        }
        for node in self.nodes.drain(start as usize..=at) {
            if let Content::Item(item, _) = node.content {
                out.push(item);
            }
        }
    }

    /// The children of the joint at `at`, as indices.
    pub fn children(&self, at: usize) -> Option<(usize, usize)> {
        let right = at.checked_sub(1)?;
        let left = (self.nodes.get(right)?.start as usize).checked_sub(1)?;
        Some((left, right))
    }

    fn pair(&self, at: usize) -> Option<(usize, Node, usize, Node)> {
        let (left, right) = self.children(at)?;
        Some((left, *self.nodes.get(left)?, right, *self.nodes.get(right)?))
    }

    /// The joint of which the node at `at` is a child.
    pub fn parent(&self, at: usize) -> Option<usize> {
        let start = self.nodes.get(at)?.start;
        self.nodes.iter().skip(at + 1).position(|node| node.start <= start).map(|between| at + 1 + between)
    }

    pub fn items_under(&self, at: usize) -> usize {
        self.nodes.get(at).map_or(0, |node| node.items(at))
    }

    /// The subtree that ends at `at` as a sheet of its own, as large as its room.
    pub fn part(&self, at: usize) -> Option<Self> {
        let root = self.nodes.get(at)?;
        let nodes = self.nodes.get(root.start as usize..=at)?.to_vec();
        let mut part = Self { nodes, ..Self::new(self.kind, root.room) };
        part.measure();
        Some(part)
    }

    /// Puts a part back where it was taken from, whatever is on it now.
    pub fn put_back(&mut self, at: usize, part: &Self) {
        let Some(root) = self.nodes.get(at) else { return };
        if part.nodes.is_empty() {
            self.remove(at, &mut Vec::new());
        } else {
            self.nodes.splice(root.start as usize..=at, part.nodes.iter().copied());
        }
        self.measure();
    }

    /// Areas, sizes and rooms after a change of the tree.
    pub fn measure(&mut self) {
        self.measure_sizes();
        self.measure_rooms();
    }

    fn measure_sizes(&mut self) {
        self.used = 0;
        for at in 0..self.nodes.len() {
            let (done, rest) = self.nodes.split_at_mut(at);
            let Some(node) = rest.first_mut() else { return };
            let Content::Joint(join) = node.content else {
                node.start = at as u32;
                self.used += node.size.area();
                continue;
            };
            let Some((right, done)) = done.split_last() else { continue };
            let Some(left) = (right.start as usize).checked_sub(1).and_then(|left| done.get(left)) else { continue };
            let (a, b) = (left.size, right.size);
            node.size = Extent::new(join, a.along(join) + b.along(join), a.across(join).max(b.across(join)));
            node.start = left.start;
            let under = |child: &Node| match child.content {
                Content::Joint(own) if own == join => child.depth,
                _ => child.depth.saturating_add(1),
            };
            node.depth = under(left).max(under(right));
        }
    }

    /// What a joint has to spare, each of its children may have.
    fn measure_rooms(&mut self) {
        if let Some(root) = self.nodes.last_mut() {
            (root.room, root.parent, root.level) = (self.whole, None, 0);
        }
        let mut gap = if self.nodes.is_empty() { self.whole } else { Extent::default() };
        for at in (0..self.nodes.len()).rev() {
            let (under, rest) = self.nodes.split_at_mut(at);
            let Some(node) = rest.first() else { break };
            gap.w = gap.w.max(node.room.w - node.size.w);
            gap.h = gap.h.max(node.room.h - node.size.h);
            let Content::Joint(join) = node.content else { continue };
            let (spare, across) = (node.spare(join), node.room.across(join));
            let level = node.level.saturating_add(u8::from(node.parent != Some(join)));
            let enter = |child: &mut Node| {
                child.room = Extent::new(join, child.size.along(join) + spare, across);
                (child.parent, child.level) = (Some(join), level);
            };
            let Some((right, under)) = under.split_last_mut() else { continue };
            enter(right);
            (right.start as usize).checked_sub(1).and_then(|left| under.get_mut(left)).into_iter().for_each(enter);
        }
        self.gap = gap;
    }

    /// How many cuts free the pieces: one for each joint, and one for each side on which a piece or joint is shorter
    /// than its neighbour, or all are shorter than the sheet.
    pub fn cuts(&self) -> usize {
        let joint = |at: usize| {
            let (_, left, _, right) = self.pair(at)?;
            let parent = left.parent?;
            Some(1 + usize::from(left.size.across(parent) != right.size.across(parent)))
        };
        let joints = self.nodes.iter().enumerate().filter(|(_, node)| matches!(node.content, Content::Joint(_)));
        let root = self
            .nodes
            .last()
            .map_or(0, |root| usize::from(root.size.w < self.whole.w) + usize::from(root.size.h < self.whole.h));
        joints.filter_map(|(at, _)| joint(at)).sum::<usize>() + root
    }

    /// The node beside which the largest rest can be cut off, in which direction, and the area of that rest.
    pub fn largest_rest(&self, stages: u8) -> Option<(usize, Join, i64)> {
        let mut largest: Option<(usize, Join, i64)> = None;
        for (at, node) in self.nodes.iter().enumerate() {
            for join in [Join::Beside, Join::Above] {
                let area = i64::from(node.spare(join)) * i64::from(node.room.across(join));
                if node.stages(join) <= stages && largest.is_none_or(|(_, _, most)| area > most) {
                    largest = Some((at, join, area));
                }
            }
        }
        largest
    }
}

fn better(best: Option<Spot>, spot: Spot) -> Option<Spot> {
    if best.is_none_or(|best| spot.rank < best.rank) { Some(spot) } else { best }
}

fn rank(fit: Fit, node: &Node, size: Extent, join: Join) -> i64 {
    let (along, across) = (node.spare(join) - size.along(join), node.room.across(join) - size.across(join));
    let higher = i64::from(node.size.across(join) - size.across(join));
    let loss =
        if higher >= 0 { higher * i64::from(size.along(join)) } else { -higher * i64::from(node.size.along(join)) };
    match fit {
        Fit::ShortRest => ordered(along.min(across), along.max(across)),
        Fit::LongRest => ordered(along.max(across), along.min(across)),
        Fit::Loss => loss,
        Fit::Snug => loss.min(i64::from(along) * i64::from(node.size.across(join).max(size.across(join)))),
    }
}

/// One number that compares the first, then the second.
fn ordered(first: i32, second: i32) -> i64 {
    (i64::from(first) << 32) + i64::from(second)
}
