//! What holds a module together and what is fitted to it, as a table: how many, which pieces, which bores.

use crate::base::number::trimmed;
use crate::joints::practice::{DOWEL_END, DOWEL_PITCH, GRID, SCREW_END, SCREW_PITCH};
use crate::joints::{bores, sold_as};
use crate::model::{Fixing, Hardware, Joint, Lock, Meeting, Module, Partner, PieceAt, Word};
use crate::views::kit::flexible::Flexible;

/// A row: what is fixed with, and the pieces that it joins.
struct Line {
    name: String,
    /// Diameter and length of screws and dowels, or the size that hardware is sold in.
    size: String,
    /// How many; `None` for what nothing is bought for.
    count: Option<usize>,
    /// The pieces, with how many for each two.
    joins: Vec<(String, usize)>,
    bores: String,
}

/// The fixings of the joints with their pieces, the rest of the hardware, then what fixes the module to what is around it; no rows where there is none.
pub(super) fn table(module: &Module, around: &[(String, &Hardware)]) -> Flexible {
    let mut lines: Vec<Line> = Vec::new();
    for joint in &module.together.joints {
        let Some(new) = Line::of(module, joint) else { continue };
        match lines.iter_mut().find(|line| line.name == new.name && line.size == new.size && line.bores == new.bores) {
            Some(line) => line.join(new),
            None => lines.push(new),
        }
    }
    for lock in &module.together.locks {
        let new = Line::of_lock(lock);
        match lines.iter_mut().find(|line| line.name == new.name && line.bores == new.bores) {
            Some(line) => line.join(new),
            None => lines.push(new),
        }
    }
    lines.sort_by(|a, b| (&a.name, &a.size).cmp(&(&b.name, &b.size)));
    let sold = |one: &Hardware| {
        let as_this = |joint: &Joint| {
            sold_as(&joint.fixing).is_some_and(|(name, size)| name == one.name && one.size == Some(size))
        };
        module.together.joints.iter().any(as_this)
    };
    for one in module.hardware.iter().filter(|one| !sold(one)) {
        add(&mut lines, one);
    }
    for (to, one) in around {
        add(&mut lines, one);
        lines.last_mut().into_iter().for_each(|line| line.joins.push((to.clone(), 0)));
    }
    let rows = lines.iter().map(Line::row).collect();
    let columns = [
        ("fixing", 32.0, false),
        ("size", 18.0, true),
        ("count", 11.0, true),
        ("first + second piece: how many", -0.6, false),
        ("bores of each", -0.4, false),
    ];
    Flexible::new(&format!("Fixings and hardware of {}", module.name), &columns, rows)
}

/// How screws and dowels are set out.
pub(super) fn setting_out() -> String {
    let [end, pitch, grid, dowel, between] =
        [SCREW_END, SCREW_PITCH, GRID, DOWEL_END, DOWEL_PITCH].map(|mm| trimmed(mm, 0));
    format!(
        "Fixings: screws from {end} from the ends of a joint on, evenly, at most {pitch} apart, on faces at most {grid}; \
         dowels {dowel} from the front, then one for about {between}. Screws in edges of boards hold furniture, never structure."
    )
}

/// Name and size of a fixing that is made or bought; `None` for what only lies there.
fn named(fixing: &Fixing) -> Option<(String, String)> {
    let name = match fixing {
        Fixing::Rests => return None,
        Fixing::Screws { diameter, length, .. } | Fixing::Dowels { diameter, length } => {
            let glue = if matches!(fixing, Fixing::Screws { glued: false, .. }) { "" } else { ", glue" };
            let name = sold_as(fixing).map_or_else(String::new, |(name, _)| name);
            return Some((format!("{name}{glue}"), format!("{} × {}", trimmed(*diameter, 1), trimmed(*length, 1))));
        }
        Fixing::CupHinges => "hinge",
        Fixing::PianoHinge => "piano-hinge",
        Fixing::DoorHinges => "door-hinge",
        Fixing::Groove => "in its groove",
        other => other.name(),
    };
    Some((name.to_owned(), String::new()))
}

/// Counts bought things to the line of the joints that they make, or makes one.
fn add(lines: &mut Vec<Line>, one: &Hardware) {
    let name = one.force.map_or_else(|| one.name.clone(), |force| format!("{}, {} N", one.name, trimmed(force, 0)));
    let (size, count) = (one.size.map_or_else(String::new, |size| trimmed(size, 1)), one.count as usize);
    match lines.iter_mut().find(|line| line.name == name && line.count.is_none()) {
        Some(line) => (line.size, line.count) = (size, Some(count)),
        None => lines.push(Line { name, size, count: Some(count), joins: Vec::new(), bores: String::new() }),
    }
}

impl Line {
    fn of(module: &Module, joint: &Joint) -> Option<Self> {
        let (name, size) = named(&joint.fixing)?;
        let number = |piece: PieceAt| (piece.part + 1).to_string();
        let other = match joint.other {
            Partner::Piece(piece) => number(piece),
            Partner::Bought(solid) => {
                let solid = module.poses.first().and_then(|pose| pose.solids.get(solid));
                solid.map_or_else(String::new, |solid| solid.name.clone())
            }
        };
        let points = joint.points.len();
        let count = sold_as(&joint.fixing).map(|_| points);
        // Where no screw has room the pieces only touch.
        if count == Some(0) {
            return None;
        }
        let joins = vec![(format!("{}+{other}", number(joint.one)), points)];
        Some(Self { name, size, count, joins, bores: bored(module, joint) })
    }

    /// A lock with its front and the board that keeps it shut.
    fn of_lock(lock: &Lock) -> Self {
        let number = |piece: &PieceAt| (piece.part + 1).to_string();
        let pieces = lock.through.iter().chain(lock.keep.as_ref().map(|(piece, _)| piece)).map(number);
        let joins = vec![(pieces.collect::<Vec<_>>().join("+"), 0)];
        let bores = lock.by.bores();
        let diameter = bores.first().map_or_else(String::new, |(_, diameter)| trimmed(*diameter, 1));
        let times = if bores.len() > 1 { format!("{} × ", bores.len()) } else { String::new() };
        let which = if lock.through.len() > 1 { "the first two" } else { "the first" };
        let bores = format!("{times}{diameter} through {which}");
        Self { name: lock.by.name().to_owned(), size: String::new(), count: None, joins, bores }
    }

    fn join(&mut self, other: Self) {
        self.count = self.count.zip(other.count).map(|(own, more)| own + more);
        for (pair, points) in other.joins {
            match self.joins.iter_mut().find(|(known, _)| *known == pair) {
                Some((_, count)) => *count += points,
                None => self.joins.push((pair, points)),
            }
        }
    }

    fn row(&self) -> Vec<String> {
        let joins = self.joins.iter().map(|(pair, count)| match count {
            0 => pair.clone(),
            _ => format!("{pair}: {count}"),
        });
        vec![
            self.name.clone(),
            self.size.clone(),
            self.count.map_or_else(String::new, |count| count.to_string()),
            joins.collect::<Vec<_>>().join(", "),
            self.bores.clone(),
        ]
    }
}

/// The bores of a joint in words: `3 through the first, 2.5 x 30 deep in the edge of the second`.
fn bored(module: &Module, joint: &Joint) -> String {
    let all = bores(&module.parts, joint);
    let second = match joint.meeting {
        Meeting::FaceOnFace => "the second",
        _ => "the edge of the second",
    };
    let word = |piece: PieceAt, which: &str| {
        let bore = all.iter().find(|bore| bore.piece == piece)?;
        let diameter = trimmed(bore.diameter, 1);
        Some(match bore.depth {
            Some(depth) => format!("{diameter} × {} deep in {which}", trimmed(depth, 1)),
            None => format!("{diameter} through {which}"),
        })
    };
    let other = if let Partner::Piece(other) = joint.other { word(other, second) } else { None };
    word(joint.one, "the first").into_iter().chain(other).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Axis, Box3, Point3};
    use crate::joinery::fixture::{module, part};
    use crate::model::{Together, Toward};
    use crate::source::Span;

    fn joint(one: usize, other: usize, fixing: Fixing, points: usize) -> Joint {
        let piece = |part| PieceAt { part, place: 0 };
        Joint {
            one: piece(one),
            other: Partner::Piece(piece(other)),
            meeting: Meeting::EdgeOnFace,
            at: Box3::default(),
            across: Toward { axis: Axis::X, up: true },
            fixing,
            points: vec![Point3::default(); points],
        }
    }

    /// Two joints of the first two pieces take 3 and 2 screws, one with the third takes 4: nine, which are bought once.
    #[test]
    fn screws_of_joints_are_counted_once() {
        let screws = || Fixing::Screws { diameter: 4.0, length: 50.0, glued: false };
        let bought = |name: &str, count, size| Hardware {
            name: name.to_owned(),
            count,
            size,
            force: None,
            span: Span::default(),
        };
        let mut one = module("cupboard", vec![part("side", 1, 700.0, 400.0); 3]);
        let joints = vec![
            joint(0, 1, screws(), 3),
            joint(0, 1, screws(), 2),
            joint(0, 2, screws(), 4),
            joint(1, 2, screws(), 0),
            joint(2, 1, Fixing::CupHinges, 2),
            joint(2, 0, Fixing::Rests, 0),
        ];
        one.together = Together { joints, ..Together::default() };
        one.hardware =
            vec![bought("carcass-screw", 9, Some(50.0)), bought("hinge", 2, None), bought("push-lock", 1, None)];
        let rows = table(&one, &[]).rows;
        let row = |cells: [&str; 5]| cells.map(str::to_owned).to_vec();
        let screws = row(["carcass-screw", "4 × 50", "9", "1+2: 5, 1+3: 4", ""]);
        assert_eq!(rows, [screws, row(["hinge", "", "2", "3+2: 2", ""]), row(["push-lock", "", "1", "", ""])]);
    }
}
