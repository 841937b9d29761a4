//! Layouts made from a seed, of the library's furniture along the walls of boxes of all kinds.

#![allow(dead_code, reason = "each test uses a part of it")]

#[path = "plan.rs"]
pub mod plan;

use plan::{Cutaway, Form, Opening, Piece, Plan, Range, Roof, Side, Way, Zone};

/// A row of random figures (Steele, Lea and Flood: `SplitMix64`).
#[derive(Debug, Clone)]
pub struct Random(u64);

impl Random {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A whole number from `low` to `high`, both included.
    pub fn whole(&mut self, low: i32, high: i32) -> f64 {
        let count = (i64::from(high) - i64::from(low) + 1).unsigned_abs();
        f64::from(low) + (self.next() % count) as f64
    }

    /// True in so many of a hundred cases.
    pub fn in_hundred(&mut self, chance: u64) -> bool {
        self.next() % 100 < chance
    }

    pub fn pick<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[(self.next() % of.len() as u64) as usize]
    }

    fn form(&mut self) -> Form {
        *self.pick(&[Form::Low, Form::Low, Form::High, Form::Both, Form::Middle])
    }
}

/// How the library's furniture may be placed: ranges of its sizes, settings, poses.
struct Kind {
    symbol: &'static str,
    name: &'static str,
    run: (i32, i32),
    depth: (i32, i32),
    height: (i32, i32),
    set: &'static [&'static str],
    poses: &'static [&'static str],
}

const fn kind(
    symbol: &'static str,
    name: &'static str,
    run: (i32, i32),
    depth: (i32, i32),
    height: (i32, i32),
) -> Kind {
    Kind { symbol, name, run, depth, height, set: &[""], poses: &[] }
}

/// What stands along a wall.
const ALONG: [Kind; 13] = [
    Kind {
        set: &[
            "drawers: 3",
            "drawers: 4, sink: none, hob: 2",
            "drawers: 2, hob: 3, toe: 80",
            "drawers: 0, sink: double",
        ],
        ..kind("galley/base-run", "galley", (900, 2000), (450, 650), (800, 960))
    },
    Kind { set: &["", "toe: 80"], ..kind("galley/drawer-fridge", "fridge", (460, 700), (520, 640), (800, 960)) },
    Kind {
        set: &["hinge: right", "fridge: yes", "shelves: 2"],
        ..kind("galley/tall-cupboard", "pantry", (300, 600), (420, 640), (1400, 1780))
    },
    Kind {
        poses: &["day", "bed"],
        set: &["", "seat-depth: 450, table: 620"],
        ..kind("lounge/dinette", "dinette", (1550, 2100), (700, 1250), (800, 1000))
    },
    Kind {
        poses: &["up", "down", "stowed"],
        ..kind("lounge/drop-table", "table", (450, 1100), (360, 620), (680, 780))
    },
    Kind { poses: &["day", "bed"], ..kind("lounge/l-shaped", "lounge", (1600, 2100), (950, 1400), (760, 1000)) },
    Kind { set: &["", "cushion: 50"], ..kind("stow/bench-seat", "bench", (500, 1900), (360, 600), (360, 540)) },
    Kind {
        set: &["batteries: 2", "batteries: 0"],
        ..kind("stow/technical-locker", "locker", (800, 1500), (420, 700), (340, 650))
    },
    Kind { set: &["inside: shelved", ""], ..kind("stow/wardrobe", "wardrobe", (360, 1000), (380, 640), (1200, 1780)) },
    Kind {
        set: &[
            "hinge: right, right-wall: no",
            "toilet-side: left",
            "door-at: left, basin: no",
            "back-wall: yes, toilet: no",
        ],
        ..kind("wash/wet-room", "wetroom", (760, 1100), (780, 1000), (1700, 1780))
    },
    Kind { set: &["drawers: 3", "drawers: 0"], ..kind("work/desk", "desk", (900, 1500), (420, 680), (690, 780)) },
    kind("build/step-well", "steps", (400, 900), (300, 500), (100, 220)),
    kind("build/wheel-box-cover", "cover", (500, 1200), (200, 400), (150, 400)),
];

/// What hangs on a wall.
const HUNG: [Kind; 2] = [
    kind("stow/overhead-locker", "over", (450, 1800), (220, 420), (260, 420)),
    Kind { set: &["boards: 1", "boards: 2"], ..kind("stow/shelf", "shelf", (300, 1500), (140, 300), (220, 400)) },
];

/// What stands across the box.
const ACROSS: [Kind; 4] = [
    Kind {
        poses: &["raised", "lowered"],
        set: &["", "mattress: 140, step-in: left"],
        ..kind("bed/lift-double", "bed", (1850, 2300), (1250, 1500), (1500, 1780))
    },
    Kind {
        set: &["", "base: open", "step-in: right"],
        ..kind("bed/fixed-across", "bed", (1800, 2300), (700, 1500), (600, 1100))
    },
    Kind { set: &["ladder: right", ""], ..kind("bed/bunks", "bunks", (1600, 2200), (700, 900), (1300, 1600)) },
    Kind { set: &["bulkhead: yes", ""], ..kind("stow/boot", "boot", (1600, 2300), (500, 1200), (400, 900)) },
];

struct Maker {
    random: Random,
    plan: Plan,
}

/// A layout of three to twelve pieces. Most compile; few are without a finding.
pub fn random_layout(seed: u64) -> Plan {
    let mut random = Random::new(seed);
    let (length, width) = (random.whole(3200, 6000), random.whole(1850, 2300));
    let height = random.whole(1850, 2100);
    let people = (0..random.whole(1, 3) as usize).map(|_| random.whole(1450, 1900)).collect();
    let plan = Plan {
        title: format!("Random {seed}"),
        length,
        width,
        height,
        roof: Roof::Flat,
        cutaways: Vec::new(),
        openings: Vec::new(),
        zones: Vec::new(),
        people,
        pieces: Vec::new(),
        arrangements: Vec::new(),
        routes: Vec::new(),
        more: String::new(),
    };
    let mut maker = Maker { random, plan };
    maker.roof();
    maker.cutaways();
    maker.openings();
    let across = maker.across();
    for wall in [Side::Left, Side::Right] {
        maker.row(wall, across);
    }
    maker.hung();
    maker.zone();
    maker.uses();
    maker.plan
}

impl Maker {
    fn roof(&mut self) {
        let (random, width, height) = (&mut self.random, self.plan.width, self.plan.height);
        self.plan.roof = match random.whole(0, 3) as u32 {
            0 => Roof::Flat,
            1 => Roof::Arch(random.whole(30, 120)),
            2 => Roof::Ridge(random.whole(30, 150)),
            _ => Roof::Line(vec![
                (0.0, height),
                (random.whole(150, 500), height + random.whole(0, 120)),
                (width - random.whole(150, 500), height + random.whole(0, 120)),
                (width, height + random.whole(0, 40)),
            ]),
        };
    }

    fn cutaways(&mut self) {
        let (random, plan) = (&mut self.random, &mut self.plan);
        if random.in_hundred(35) {
            let side = *random.pick(&[Side::Rear, Side::Rear, Side::Front, Side::Left]);
            plan.cutaways.push(Cutaway::Edge { side, along: random.whole(100, 500), height: random.whole(80, 400) });
        }
        if random.in_hundred(40) {
            let (front, run) = (plan.length * 0.5 + random.whole(0, 300), random.whole(600, 900));
            let (deep, top) = (random.whole(150, 300), random.whole(120, 320));
            let x = Range::new(front, run, Form::Both);
            for left in [0.0, plan.width - deep] {
                let y = Range::new(left, deep, Form::Both);
                plan.cutaways.push(Cutaway::Block { x: x.clone(), y, top });
            }
        }
    }

    fn opening(&mut self, name: &str, kind: &'static str, wall: Side, run: f64, up: (f64, f64)) {
        let random = &mut self.random;
        let total = if wall.runs() == Way::X { self.plan.length } else { self.plan.width };
        let ends = if wall.runs() == Way::X { [Side::Front, Side::Rear] } else { [Side::Left, Side::Right] };
        let low = random.whole(50, (total - run) as i32 - 50);
        let along = Range::new(low, run, random.form());
        let leaf = matches!(kind, "door" | "hatch");
        let hinge = if kind == "hatch" { Side::Top } else { *random.pick(&ends) };
        let swings = if leaf { *random.pick(&["out", "out", "in", "no"]) } else { "no" };
        let hinge = leaf.then_some(hinge);
        let (name, more) = (name.to_owned(), String::new());
        let wall = Some(wall);
        self.plan.openings.push(Opening {
            name,
            kind,
            wall,
            along,
            across: None,
            sill: up.0,
            height: up.1,
            hinge,
            swings,
            more,
        });
    }

    fn openings(&mut self) {
        let run = self.random.whole(540, 700);
        let wall = *self.random.pick(&[Side::Right, Side::Right, Side::Left, Side::Rear]);
        let height = self.random.whole(1650, 1780);
        self.opening("entry", "door", wall, run, (0.0, height));
        if self.random.in_hundred(25) {
            let wall = *self.random.pick(&[Side::Left, Side::Right, Side::Front]);
            self.opening("second", "door", wall, 560.0, (30.0, 1650.0));
        }
        if self.random.in_hundred(40) {
            self.opening("pass", "pass-through", Side::Front, 620.0, (420.0, 700.0));
        }
        if self.random.in_hundred(60) {
            let wall = *self.random.pick(&[Side::Left, Side::Right, Side::Rear]);
            self.opening("window", "window", wall, 800.0, (1000.0, 450.0));
        }
        if self.random.in_hundred(40) {
            let wall = *self.random.pick(&[Side::Left, Side::Right, Side::Rear]);
            self.opening("flap", "hatch", wall, 700.0, (60.0, 400.0));
        }
        if self.random.in_hundred(50) {
            let (x, y) = (self.random.whole(600, 2400), self.random.whole(400, 1000));
            let (along, across) = (Range::new(x, 400.0, Form::Middle), Some(Range::new(y, 400.0, Form::Middle)));
            let (name, more) = ("fan".to_owned(), ", radius: 40".to_owned());
            let (wall, hinge) = (None, None);
            self.plan.openings.push(Opening {
                name,
                kind: "roof-hatch",
                wall,
                along,
                across,
                sill: 0.0,
                height: 0.0,
                hinge,
                swings: "no",
                more,
            });
        }
    }

    fn piece(&mut self, kind: &Kind, faces: Side, x: Range, y: Range) -> Piece {
        let number = self.plan.pieces.iter().filter(|piece| piece.symbol == kind.symbol).count() + 1;
        Piece {
            name: format!("{}-{number}", kind.name),
            symbol: kind.symbol,
            faces,
            mirror: self.random.in_hundred(40),
            x,
            y,
            height: Some(self.random.whole(kind.height.0, kind.height.1)),
            upward: String::new(),
            set: (*self.random.pick(kind.set)).to_owned(),
            more: String::new(),
        }
    }

    /// A bed or boot across the rear; where it begins.
    fn across(&mut self) -> f64 {
        if self.random.in_hundred(35) {
            return self.plan.length;
        }
        let kind = self.random.pick(&ACROSS);
        let depth = self.random.whole(kind.depth.0, kind.depth.1);
        let run = self.plan.width.min(f64::from(kind.run.1));
        let (front, form) = (self.plan.length - depth, self.random.form());
        let faces = Side::Front;
        let (x, y) = (Range::new(front, depth, form), Range::new(0.0, run, self.random.form()));
        let piece = self.piece(kind, faces, x, y);
        self.plan.pieces.push(piece);
        front
    }

    /// Pieces along a side wall from the front to `end`.
    fn row(&mut self, wall: Side, end: f64) {
        let faces = if wall == Side::Left { Side::Right } else { Side::Left };
        let door = self.plan.openings.iter().find(|opening| opening.kind == "door" && opening.wall == Some(wall));
        let door = door.map(|door| (door.along.low, door.along.high));
        let mut at = self.random.whole(0, 200);
        let mut last: Option<String> = None;
        let most = self.random.whole(1, 4) as usize;
        for _ in 0..most {
            let kind = self.random.pick(&ALONG);
            let (run, depth) =
                (self.random.whole(kind.run.0, kind.run.1), self.random.whole(kind.depth.0, kind.depth.1));
            let gap = if self.random.in_hundred(8) { -self.random.whole(1, 60) } else { self.random.whole(0, 60) };
            let mut front = at + if last.is_some() { gap } else { 0.0 };
            let (low, high) = door.filter(|_| self.random.in_hundred(85)).unwrap_or((f64::MAX, f64::MAX));
            let past_door = front < high && front + run > low;
            if past_door {
                front = high + self.random.whole(0, 100);
            }
            let fits = front + run <= end - self.random.whole(0, 40) || self.random.in_hundred(5) && front < end;
            if !fits {
                continue;
            }
            let mut x = Range::new(front, run, self.random.form());
            if let (Form::Low, Some(name), false) = (x.form, last.clone(), past_door) {
                x.from = Some((name, gap));
            }
            let off = if self.random.in_hundred(10) { self.random.whole(-3, 40) } else { 0.0 };
            let left = if wall == Side::Left { off } else { self.plan.width - depth - off };
            let y = Range::new(left, depth, self.random.form());
            let piece = self.piece(kind, faces, x, y);
            last = Some(piece.name.clone());
            self.plan.pieces.push(piece);
            at = front + run;
        }
    }

    /// Lockers and shelves over what is low.
    fn hung(&mut self) {
        let low = |piece: &&Piece| piece.height.is_some_and(|height| height < 1000.0) && piece.faces.runs() == Way::X;
        let below: Vec<Piece> = self.plan.pieces.iter().filter(low).cloned().collect();
        for under in below {
            if self.plan.pieces.len() >= 12 || !self.random.in_hundred(35) {
                continue;
            }
            let kind = self.random.pick(&HUNG);
            let run = under.x.size().clamp(f64::from(kind.run.0), f64::from(kind.run.1));
            let depth = self.random.whole(kind.depth.0, kind.depth.1);
            let left = if under.faces == Side::Right { 0.0 } else { self.plan.width - depth };
            let x = Range::new(under.x.low, run, self.random.form());
            let y = Range::new(left, depth, self.random.form());
            let mut piece = self.piece(kind, under.faces, x, y);
            piece.upward = if kind.name == "over" {
                ", top: box.top".to_owned()
            } else {
                format!(", floor: {}", self.random.whole(1150, 1400))
            };
            self.plan.pieces.push(piece);
        }
    }

    fn zone(&mut self) {
        let Some(piece) = self.plan.pieces.first().cloned().filter(|_| self.random.in_hundred(40)) else { return };
        let mut around = |range: &Range, total: f64| {
            let (low, high) = (self.random.whole(-15, 150), self.random.whole(-15, 150));
            let (low, high) = ((range.low - low).max(0.0), (range.high + high).min(total));
            Range::new(low, high - low, Form::Both)
        };
        let (x, y) = (around(&piece.x, self.plan.length), around(&piece.y, self.plan.width));
        self.plan.zones.push(Zone { name: "about".to_owned(), x, y });
        if let Some(first) = self.plan.pieces.first_mut() {
            first.more = ", zone: about".to_owned();
        }
    }

    /// Arrangements, routes and limits.
    fn uses(&mut self) {
        let all = ALONG.iter().chain(&ACROSS);
        let poses: Vec<(String, &'static [&'static str])> = self
            .plan
            .pieces
            .iter()
            .filter_map(|piece| {
                let kind = all.clone().find(|kind| kind.symbol == piece.symbol && !kind.poses.is_empty())?;
                Some((piece.name.clone(), kind.poses))
            })
            .collect();
        for name in ["day", "night", "travel"].into_iter().take(self.random.whole(0, 3) as usize) {
            let posed = poses.iter().map(|(piece, poses)| (piece.clone(), *self.random.pick(poses))).collect();
            self.plan.arrangements.push((name.to_owned(), posed));
        }
        let mut ends: Vec<String> = self.plan.pieces.iter().map(|piece| piece.name.clone()).collect();
        ends.extend(self.plan.openings.iter().map(|opening| opening.name.clone()));
        for _ in 0..self.random.whole(0, 2) as usize {
            let (from, to) = (self.random.pick(&ends).clone(), self.random.pick(&ends).clone());
            let known = self.plan.routes.iter().any(|route| route.0 == from && route.1 == to);
            if from != to && !known {
                let least = self.random.in_hundred(40).then(|| self.random.whole(400, 700));
                self.plan.routes.push((from, to, least));
            }
        }
        if self.random.in_hundred(15) {
            self.plan.more = "limits: { walkway: { least: 420, because: \"a test\" } }\n".to_owned();
        }
    }
}
