//! Steps in words.

use super::apart::toward;
use crate::base::number::trimmed;
use crate::figures::{Anchor, Anchored, Fastened};
use crate::geometry::Axis;
use crate::joints::{Assembly, Kit, Step};
use crate::model::{Fixing, Joint, Model, Module, Partner, Toward};
use crate::views::kit::flexible::Flexible;

/// Narrower than this the steps are hard to read, mm.
const LIST: f64 = 110.0;

/// `A` for the first of what is made up before.
pub(super) fn letter(index: usize) -> String {
    let letters = 'A'..='Z';
    letters.clone().nth(index % 26).map_or_else(String::new, |one| {
        let round = index / 26;
        if round == 0 { one.to_string() } else { format!("{one}{round}") }
    })
}

/// All steps in order: what is made up first, the module, where it goes.
pub(super) fn table(module: &Module, numbers: &[String], made: &Assembly, around: Option<&str>) -> Flexible {
    let told = Told { module, numbers, kits: &made.kits };
    let mut rows = Vec::new();
    for (index, kit) in made.kits.iter().enumerate() {
        let name = letter(index);
        rows.extend(kit.steps.iter().enumerate().map(|(at, step)| told.row(format!("{name}{}", at + 1), step)));
    }
    rows.extend(made.steps.iter().enumerate().map(|(at, step)| told.row((at + 1).to_string(), step)));
    if let Some(around) = around {
        let last = (made.steps.len() + 1).to_string();
        rows.push(vec![last, "the whole".to_owned(), "to its place".to_owned(), around.to_owned()]);
    }
    let columns =
        [("step", 9.0, false), ("put in place", -1.4, false), ("comes from", 16.0, false), ("fixings", -1.8, false)];
    let mut table = Flexible::new(&format!("Steps of {}", module.name), &columns, rows);
    table.least = LIST;
    table
}

struct Told<'a> {
    module: &'a Module,
    /// Numbers of the parts in the cut list.
    numbers: &'a [String],
    kits: &'a [Kit],
}

impl Told<'_> {
    fn row(&self, number: String, step: &Step) -> Vec<String> {
        let from = step.from.map_or("start", |from| side(toward(self.module, from)));
        vec![number, self.what(step), from.to_owned(), self.fixings(step)]
    }

    /// What comes: `2 x 3 carcass-side (galley-03)`.
    fn what(&self, step: &Step) -> String {
        if let Some(kit) = step.kit {
            let name = self.kits.get(kit).map_or("", name);
            return format!("{}{} ({name})", times(step.count), letter(kit));
        }
        let mut parts: Vec<(usize, usize)> = Vec::new();
        for piece in &step.pieces {
            match parts.iter_mut().find(|(part, _)| *part == piece.part) {
                Some((_, count)) => *count += 1,
                None => parts.push((piece.part, 1)),
            }
        }
        let piece = |(index, count): &(usize, usize)| {
            let part = self.module.parts.get(*index);
            let name = part.map_or("", |part| part.name.as_str());
            let number = self.numbers.get(*index).filter(|number| !number.is_empty());
            let number = number.map_or_else(String::new, |number| format!(" ({number})"));
            format!("{}{} {name}{number}", times(*count), index + 1)
        };
        let bought = step.bought.iter().filter_map(|solid| self.module.poses.first()?.solids.get(*solid));
        let bought = bought.map(|solid| format!("{}, bought", solid.name));
        parts.iter().map(piece).chain(bought).collect::<Vec<_>>().join("; ")
    }

    /// The fixings of a step, equal ones together, with the numbers of the parts that they lead to.
    fn fixings(&self, step: &Step) -> String {
        let joints = step.joints.iter().filter_map(|index| self.module.together.joints.get(*index));
        let mut all: Vec<(String, usize, Vec<usize>)> = Vec::new();
        for joint in joints {
            let Some(kind) = kind(joint) else { continue };
            let to = self.partner(step, joint);
            let count = joint.points.len();
            match all.iter_mut().find(|(known, ..)| *known == kind) {
                Some((_, sum, to_all)) => {
                    *sum += count;
                    to_all.extend(to.filter(|to| !to_all.contains(to)));
                }
                None => all.push((kind, count, to.into_iter().collect())),
            }
        }
        let words = all.into_iter().map(|(kind, count, mut to)| {
            to.sort_unstable();
            let numbers: Vec<String> = to.iter().map(|part| (part + 1).to_string()).collect();
            one_or_more(&kind, count).replace('@', &numbers.join(", "))
        });
        words.chain(self.struts(step)).collect::<Vec<_>>().join("; ")
    }

    /// The part that a joint leads to from the pieces of a step.
    fn partner(&self, step: &Step, joint: &Joint) -> Option<usize> {
        let Partner::Piece(other) = joint.other else { return None };
        let own = |piece| step.pieces.contains(piece);
        Some(if own(&joint.one) && !own(&other) { other.part } else { joint.one.part })
    }

    fn struts(&self, step: &Step) -> Vec<String> {
        let own = self.module.together.leaves.iter().filter(|leaf| step.pieces.contains(&leaf.piece));
        let mut forces: Vec<(f64, usize)> = Vec::new();
        for force in own.filter_map(|leaf| leaf.strut) {
            match forces.iter_mut().find(|(known, _)| *known == force) {
                Some((_, count)) => *count += 2,
                None => forces.push((force, 2)),
            }
        }
        forces.iter().map(|(force, count)| format!("{count} gas struts, {} N each", trimmed(*force, 0))).collect()
    }
}

/// Words with `#` in the place of a count, which may be one.
fn one_or_more(kind: &str, count: usize) -> String {
    let one = ["screws", "dowels", "hinges"].into_iter().filter(|_| count == 1);
    let words = one.fold(kind.to_owned(), |words, many| words.replace(many, many.trim_end_matches('s')));
    words.replace('#', &count.to_string())
}

/// `2 × ` for two; nothing for one.
fn times(count: usize) -> String {
    if count == 1 { String::new() } else { format!("{count} × ") }
}

/// The name of what is made up before, without the number of one of several.
pub(super) fn name(kit: &Kit) -> &str {
    kit.name.trim_end_matches(|sign: char| sign.is_ascii_digit() || sign == ' ')
}

/// What holds a joint, with `#` for how many and `@` for the parts that it leads to; nothing for what only lies there.
fn kind(joint: &Joint) -> Option<String> {
    let mm = |value: f64| trimmed(value, 1);
    Some(match &joint.fixing {
        Fixing::Rests => return None,
        Fixing::Glue => "glue to @".to_owned(),
        Fixing::Groove => "in the groove at @".to_owned(),
        Fixing::Screws { diameter, length, glued } => {
            let glue = if *glued { "glue and " } else { "" };
            format!("{glue}# screws {} × {} to @", mm(*diameter), mm(*length))
        }
        Fixing::Dowels { diameter, length } => format!("# dowels {} × {} and glue to @", mm(*diameter), mm(*length)),
        Fixing::CupHinges => "# cup hinges at @".to_owned(),
        Fixing::PianoHinge => "piano hinge at @".to_owned(),
        Fixing::DoorHinges => "# door hinges at @".to_owned(),
        Fixing::Held(by) => format!("on {}s at @", by.replace('-', " ")),
        Fixing::Chosen(name) => format!("{name} to @"),
    })
}

/// A side in words, as who stands before the module sees it.
fn side(from: Toward) -> &'static str {
    match (from.axis, from.up) {
        (Axis::X, false) => "the left",
        (Axis::X, true) => "the right",
        (Axis::Y, false) => "the front",
        (Axis::Y, true) => "the back",
        (Axis::Z, true) => "above",
        (Axis::Z, false) => "below",
    }
}

/// What a module is fixed to around it, and what with: `at the left wall: 2, 4, 3 insert screws; at the floor: 1`.
pub(super) fn around(model: &Model, anchored: &[Anchored], fastened: &[Fastened]) -> Option<String> {
    let mut all: Vec<(String, Vec<usize>, f64)> = Vec::new();
    // Of the pieces at a neighbour those count that stand nearest to it, not what stands behind them.
    let nearest =
        |to: Anchor| anchored.iter().filter(|one| one.to == to).map(|one| one.packer).fold(f64::MAX, f64::min);
    let meets = |one: &&Anchored| !matches!(one.to, Anchor::Module(_)) || one.packer <= nearest(one.to) + 0.5;
    for one in anchored.iter().filter(meets) {
        let to = one.to.words(model);
        match all.iter_mut().find(|(known, ..)| *known == to) {
            Some((_, parts, packer)) => {
                parts.push(one.piece.part);
                *packer = packer.max(one.packer);
            }
            None => all.push((to, vec![one.piece.part], one.packer)),
        }
    }
    let words = all.into_iter().map(|(to, mut parts, packer)| {
        parts.sort_unstable();
        parts.dedup();
        let numbers: Vec<String> = parts.iter().map(|part: &usize| (part + 1).to_string()).collect();
        let packer = if packer >= 0.5 { format!(", packers up to {} mm", trimmed(packer, 1)) } else { String::new() };
        let with = fastened.iter().filter(|one| one.to.words(model) == to && one.bought.size.is_none());
        let with = with.map(|one| format!(", {} {}s", one.bought.count, one.bought.name.replace('-', " ")));
        format!("at the {to}: {}{packer}{}", numbers.join(", "), with.collect::<String>())
    });
    let words: Vec<String> = words.collect();
    (!words.is_empty()).then(|| words.join("; "))
}
