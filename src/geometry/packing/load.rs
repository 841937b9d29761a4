//! One load: boxes put into a room one block after the other by one rule.

use super::parcel::{Packing, Parcel, SUPPORT, Stowed};
use super::room::Room;
use super::sequence::Sequence;
use super::spaces::{HAIR, Spaces, meet};
use crate::base::tolerance::SAME_SHARE;
use crate::geometry::prism::{Axis, Box3};
use kurbo::Rect;
use std::cmp::Ordering;

const AXES: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];
/// Orders of the axes: room that is least far along the first comes first.
const ORDERS: [[usize; 3]; 6] = [[2, 0, 1], [2, 1, 0], [0, 2, 1], [1, 2, 0], [0, 1, 2], [1, 0, 2]];
/// Free boxes that are thinner than this are not told, mm.
const THIN: f64 = 20.0;

/// What is chosen first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Pick {
    /// The largest box; then the first place for it.
    BoxThenPlace,
    /// The largest box; then the place whose far corner is nearest.
    BoxThenNear,
    /// The first place; then the block that fills most of it.
    PlaceThenMost,
    /// The first place; then the block that leaves the narrowest gap.
    PlaceThenFit,
    /// The first place; then the largest box, as a block.
    PlaceThenLargest,
}

const PICKS: [Pick; 5] =
    [Pick::BoxThenPlace, Pick::PlaceThenMost, Pick::PlaceThenLargest, Pick::PlaceThenFit, Pick::BoxThenNear];

/// How one load is filled.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rule {
    pick: Pick,
    order: [usize; 3],
    /// Fill from the high end of x and y.
    from_high: [bool; 2],
    /// How far chance may change a box's or block's worth, as a share.
    chance: f64,
    numbers: Sequence,
}

impl Rule {
    /// How many rules there are without chance.
    pub const PLAIN: usize = PICKS.len() * ORDERS.len();

    /// Without chance as long as there are rules, then with it.
    pub fn of_attempt(index: usize, numbers: &mut Sequence) -> Self {
        let by_chance = index >= Self::PLAIN;
        let (pick, order) = if by_chance {
            (numbers.below(PICKS.len()), numbers.below(ORDERS.len()))
        } else {
            (index % PICKS.len(), index / PICKS.len())
        };
        let flip = |numbers: &mut Sequence| by_chance && numbers.below(2) == 1;
        let from_high = [flip(numbers), flip(numbers)];
        Self {
            pick: PICKS.get(pick).copied().unwrap_or(Pick::PlaceThenMost),
            order: ORDERS.get(order).copied().unwrap_or([2, 0, 1]),
            from_high,
            chance: if by_chance { 0.6 } else { 0.0 },
            numbers: Sequence(numbers.next() | 1),
        }
    }
}

/// A block of equal boxes with its place and its worth; more is better, the first figure counts first.
#[derive(Debug, Clone, Copy)]
struct Block {
    parcel: usize,
    turn: [usize; 3],
    extents: [f64; 3],
    counts: [usize; 3],
    place: Box3,
    worth: [f64; 4],
}

/// A room that is being filled.
#[derive(Debug)]
pub(super) struct Load<'a> {
    room: &'a Room,
    parcels: &'a [Parcel],
    turns: Vec<Vec<([usize; 3], [f64; 3])>>,
    rule: Rule,
    spaces: Spaces,
    blocks: Vec<Box3>,
    placed: Vec<Stowed>,
    left: Vec<usize>,
    volume: f64,
    steps: usize,
}

impl<'a> Load<'a> {
    /// An empty room.
    fn empty(room: &'a Room, parcels: &'a [Parcel], rule: Rule) -> Self {
        Self {
            room,
            parcels,
            turns: parcels.iter().map(Parcel::turns).collect(),
            rule,
            spaces: room.spaces.clone(),
            blocks: Vec::new(),
            placed: Vec::new(),
            left: parcels.iter().map(|parcel| parcel.count).collect(),
            volume: 0.0,
            steps: 0,
        }
    }

    /// Fills a room by a rule.
    pub fn filled(room: &'a Room, parcels: &'a [Parcel], rule: Rule) -> Self {
        let mut load = Self::empty(room, parcels, rule);
        load.fill();
        load
    }

    /// The same load with everything taken out that reaches into a part of the room, or stood on that, and filled anew.
    pub fn refilled(&self, part: &Box3, rule: Rule) -> Self {
        let mut load = Self::empty(self.room, self.parcels, rule);
        let mut kept: Vec<&Stowed> = self.placed.iter().filter(|one| !meet(&one.place, part)).collect();
        kept.sort_by(|a, b| a.place.z.0.total_cmp(&b.place.z.0));
        for one in kept {
            let plan = one.place.plan();
            if load.carried(plan, one.place.z.0) >= plan.area() * (SUPPORT - SAME_SHARE) {
                load.put_all(one.parcel, one.place, std::iter::once(*one));
            }
        }
        load.fill();
        load
    }

    fn fill(&mut self) {
        match self.rule.pick {
            Pick::BoxThenPlace | Pick::BoxThenNear => self.fill_box_by_box(),
            _ => self.fill_place_by_place(),
        }
    }

    /// Cubic millimetres placed.
    pub fn volume(&self) -> f64 {
        self.volume
    }

    /// Steps used.
    pub fn steps(&self) -> usize {
        self.steps
    }

    /// Whether nothing is left over.
    pub fn is_complete(&self) -> bool {
        self.left.iter().all(|left| *left == 0)
    }

    /// The result, with the largest free box.
    pub fn into_packing(self) -> Packing {
        let taken: Vec<Box3> = self.room.taken.iter().chain(&self.blocks).copied().collect();
        let free = Spaces::new(self.room.bounds, &taken, THIN);
        let largest_free = free.list().iter().copied().max_by(|a, b| a.volume().total_cmp(&b.volume()));
        Packing { placed: self.placed, left: self.left, largest_free }
    }

    fn changed(&mut self, worth: f64) -> f64 {
        if self.rule.chance > 0.0 {
            worth * (1.0 + self.rule.chance * (self.rule.numbers.share() - 0.5))
        } else {
            worth
        }
    }

    /// Parcels by the volume of one box, the largest first.
    fn ranked(&mut self) -> Vec<usize> {
        let parcels = self.parcels;
        let mut ranked: Vec<(usize, f64)> =
            parcels.iter().enumerate().map(|(at, parcel)| (at, self.changed(parcel.volume()))).collect();
        ranked.sort_by(|a, b| b.1.total_cmp(&a.1));
        ranked.into_iter().map(|(at, _)| at).collect()
    }

    /// Each box at the best place for it; what found none is tried again as long as that helps.
    fn fill_box_by_box(&mut self) {
        const ROUNDS: usize = 3;
        let ranked = self.ranked();
        for _ in 0..ROUNDS {
            let before = self.placed.len();
            for parcel in &ranked {
                while let Some(block) = self.place_for(*parcel) {
                    self.put(&block);
                }
            }
            if self.is_complete() || self.placed.len() == before {
                break;
            }
        }
    }

    fn place_for(&mut self, parcel: usize) -> Option<Block> {
        if self.left.get(parcel).is_none_or(|left| *left == 0) {
            return None;
        }
        let turns = self.turns.get(parcel)?.clone();
        let mut best: Option<Block> = None;
        for index in 0..self.spaces.list().len() {
            let Some(space) = self.spaces.list().get(index).copied() else { break };
            for (turn, extents) in &turns {
                self.steps += 1;
                let fits = sides(&space).iter().zip(extents).all(|(side, extent)| extent - side <= HAIR);
                if fits {
                    let block = self.block(parcel, *turn, *extents, [1; 3], &space);
                    let worth = self.worth_of_place(&block, &space);
                    self.consider(&mut best, Block { worth, ..block }, &space);
                }
            }
        }
        best
    }

    fn worth_of_place(&self, block: &Block, space: &Box3) -> [f64; 4] {
        let gap = gaps(block, space);
        let [first, second, third] = self.distances(&block.place);
        if self.rule.pick == Pick::BoxThenPlace {
            return [-first, -second, -third, -gap[0]];
        }
        let far = self.rule.order.map(|axis| self.far(&block.place, axis));
        [-far.iter().map(|far| far * far).sum::<f64>(), -gap[0], -gap[1], -gap[2]]
    }

    /// The first place with a block in it, over and over.
    fn fill_place_by_place(&mut self) {
        loop {
            let mut spaces: Vec<([f64; 3], Box3)> =
                self.spaces.list().iter().map(|space| (self.distances(space), *space)).collect();
            spaces.sort_by(|a, b| compare(&a.0, &b.0));
            let Some(block) = spaces.iter().find_map(|(_, space)| self.block_for(space)) else { break };
            self.put(&block);
        }
    }

    fn block_for(&mut self, space: &Box3) -> Option<Block> {
        let mut best: Option<Block> = None;
        for parcel in 0..self.parcels.len() {
            let Some(left) = self.left.get(parcel).copied().filter(|left| *left > 0) else { continue };
            let turns = self.turns.get(parcel).cloned().unwrap_or_default();
            for (turn, extents) in turns {
                for counts in shapes(&sides(space), &extents, left) {
                    self.steps += 1;
                    let block = self.block(parcel, turn, extents, counts, space);
                    let worth = self.worth_of_block(&block, space);
                    self.consider(&mut best, Block { worth, ..block }, space);
                }
            }
        }
        best
    }

    fn worth_of_block(&mut self, block: &Block, space: &Box3) -> [f64; 4] {
        let filled = block.place.volume();
        let [first, second, third] = gaps(block, space);
        match self.rule.pick {
            Pick::PlaceThenFit => [-self.changed(first), -second, -third, filled],
            Pick::PlaceThenLargest => {
                let one: f64 = block.extents.iter().product();
                [self.changed(one), filled, -first, -second]
            }
            _ => [self.changed(filled), -first, -second, -third],
        }
    }

    /// Distances of a box from the corner that is filled first, in the order of the rule.
    fn distances(&self, place: &Box3) -> [f64; 3] {
        self.rule.order.map(|axis| self.near(place, axis))
    }

    fn ends(&self, place: &Box3, axis: usize) -> (f64, f64) {
        let axis_of = AXES.get(axis).copied().unwrap_or(Axis::Z);
        let ((low, high), (from, to)) = (self.room.bounds.range(axis_of), place.range(axis_of));
        let from_high = self.rule.from_high.get(axis).copied().unwrap_or(false);
        if from_high { (high - to, high - from) } else { (from - low, to - low) }
    }

    fn near(&self, place: &Box3, axis: usize) -> f64 {
        self.ends(place, axis).0
    }

    fn far(&self, place: &Box3, axis: usize) -> f64 {
        self.ends(place, axis).1
    }

    /// A block in the preferred corner of a space.
    fn block(&self, parcel: usize, turn: [usize; 3], extents: [f64; 3], counts: [usize; 3], space: &Box3) -> Block {
        let mut block = Block { parcel, turn, extents, counts, place: *space, worth: [0.0; 4] };
        block.place = block.at_corner(space, self.rule.from_high);
        block
    }

    /// Keeps a block that is worth more than the best so far, if some corner of the space carries it.
    fn consider(&mut self, best: &mut Option<Block>, block: Block, space: &Box3) {
        if best.as_ref().is_some_and(|best| compare(&block.worth, &best.worth) != Ordering::Greater) {
            return;
        }
        let [x, y] = self.rule.from_high;
        for from_high in [[x, y], [!x, y], [x, !y], [!x, !y]] {
            let block = Block { place: block.at_corner(space, from_high), ..block };
            if self.is_carried(&block) {
                *best = Some(block);
                return;
            }
        }
    }

    /// Whether each box of a block's lowest layer has enough of its base carried.
    fn is_carried(&mut self, block: &Block) -> bool {
        let whole = self.carried(block.place.plan(), block.place.z.0);
        if whole >= block.place.plan().area() * (1.0 - SAME_SHARE) {
            return true;
        }
        let enough = |place: Box3| {
            let plan = place.plan();
            self.carried(plan, place.z.0) >= plan.area() * (SUPPORT - SAME_SHARE)
        };
        block.boxes().filter(|place| place.z.0 <= block.place.z.0 + HAIR).all(enough)
    }

    /// Area of a base at a height that something carries.
    fn carried(&self, base: Rect, height: f64) -> f64 {
        let shared = |rect: &Rect| {
            let common = rect.intersect(base);
            (common.x1 > common.x0 && common.y1 > common.y0).then_some(common)
        };
        let level = |z: f64| (z - height).abs() <= HAIR;
        let floors = self.room.floors.iter().filter(|(z, _)| level(*z)).filter_map(|(_, rect)| shared(rect)).collect();
        let blocks = self.blocks.iter().filter(|block| level(block.z.1)).filter_map(|block| shared(&block.plan()));
        union_area(floors) + blocks.map(|rect| rect.area()).sum::<f64>()
    }

    fn put(&mut self, block: &Block) {
        let (parcel, turn) = (block.parcel, block.turn);
        self.put_all(parcel, block.place, block.boxes().map(|place| Stowed { parcel, place, turn }));
    }

    fn put_all(&mut self, parcel: usize, whole: Box3, boxes: impl Iterator<Item = Stowed>) {
        self.spaces.take(&whole);
        self.steps += self.spaces.list().len();
        self.blocks.push(whole);
        self.volume += whole.volume();
        let before = self.placed.len();
        self.placed.extend(boxes);
        let count = self.placed.len() - before;
        if let Some(left) = self.left.get_mut(parcel) {
            *left = left.saturating_sub(count);
        }
    }
}

impl Block {
    fn at_corner(&self, space: &Box3, from_high: [bool; 2]) -> Box3 {
        let [x, y] = from_high;
        let mut place = *space;
        for (axis, high) in AXES.into_iter().zip([x, y, false]) {
            let size = self.size(axis);
            let (from, to) = space.range(axis);
            place = place.with(axis, if high { (to - size, to) } else { (from, from + size) });
        }
        place
    }

    fn size(&self, axis: Axis) -> f64 {
        let at = AXES.iter().position(|one| *one == axis).unwrap_or(0);
        self.extents.get(at).copied().unwrap_or(0.0) * self.counts.get(at).copied().unwrap_or(0) as f64
    }

    /// Its boxes, layer by layer.
    fn boxes(&self) -> impl Iterator<Item = Box3> + use<> {
        let ([dx, dy, dz], [nx, ny, nz], place) = (self.extents, self.counts, self.place);
        let one = move |(i, j, k): (usize, usize, usize)| {
            let range = |low: f64, size: f64, at: usize| (low + size * at as f64, low + size * (at + 1) as f64);
            Box3 { x: range(place.x.0, dx, i), y: range(place.y.0, dy, j), z: range(place.z.0, dz, k) }
        };
        (0..nz).flat_map(move |k| (0..nx).flat_map(move |i| (0..ny).map(move |j| (i, j, k)))).map(one)
    }
}

fn sides(of: &Box3) -> [f64; 3] {
    [of.x.1 - of.x.0, of.y.1 - of.y.0, of.z.1 - of.z.0]
}

/// What a block leaves of a space along each axis, the narrowest first.
fn gaps(block: &Block, space: &Box3) -> [f64; 3] {
    let ([a, b, c], [x, y, z]) = (sides(space), sides(&block.place));
    let mut gaps = [a - x, b - y, c - z];
    gaps.sort_by(f64::total_cmp);
    gaps
}

fn compare<const N: usize>(a: &[f64; N], b: &[f64; N]) -> Ordering {
    let pairs = a.iter().zip(b).map(|(a, b)| if (a - b).abs() <= HAIR { Ordering::Equal } else { a.total_cmp(b) });
    pairs.fold(Ordering::Equal, Ordering::then)
}

/// Blocks of at most `left` equal boxes that fill a space along one, two or three axes, one axis after the other.
fn shapes(space: &[f64; 3], extents: &[f64; 3], left: usize) -> Vec<[usize; 3]> {
    let mut most = [0_usize; 3];
    for (most, (side, extent)) in most.iter_mut().zip(space.iter().zip(extents)) {
        *most = ((side + HAIR) / extent).floor().clamp(0.0, 1e4) as usize;
    }
    if most.contains(&0) {
        return Vec::new();
    }
    let mut found: Vec<[usize; 3]> = vec![[1; 3]];
    for order in ORDERS {
        let mut counts = [1; 3];
        let mut rest = left;
        for axis in order {
            let count = most.get(axis).copied().unwrap_or(1).min(rest);
            counts.iter_mut().skip(axis).take(1).for_each(|slot| *slot = count);
            rest /= count.max(1);
            if !found.contains(&counts) {
                found.push(counts);
            }
        }
    }
    found
}

/// Area of rectangles that may overlap.
fn union_area(rects: Vec<Rect>) -> f64 {
    if let [] | [_] = rects.as_slice() {
        return rects.first().map_or(0.0, Rect::area);
    }
    let mut stops: Vec<f64> = rects.iter().flat_map(|rect| [rect.x0, rect.x1]).collect();
    stops.sort_by(f64::total_cmp);
    let strip = |(from, to): (&f64, &f64)| {
        let over = rects.iter().filter(|rect| rect.x0 <= *from && *to <= rect.x1).map(|rect| (rect.y0, rect.y1));
        let joined = crate::geometry::section::merged(over.collect());
        (to - from) * joined.iter().map(|(low, high)| high - low).sum::<f64>()
    };
    stops.iter().zip(stops.iter().skip(1)).map(strip).sum()
}
