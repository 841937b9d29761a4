//! The 500 published instances of two-dimensional bin packing, made by their published drawing rule.
//!
//! Classes 1 to 6: Berkey and Wang, Journal of the Operational Research Society 38 (1987); 7 to 10: Martello and Vigo,
//! Management Science 44 (1998); drawn by the linear congruential numbers that Lodi, Martello and Vigo, INFORMS Journal
//! on Computing 11 (1999), used for each size 20 to 100 and each of 10 repeats. Single precision, as theirs.

use boxwright::joinery::nesting::{Piece, Request, SheetKind, Turn};
use boxwright::model::materials::USEFUL;

/// One instance: pieces as (width, height) for square sheets.
pub struct Instance {
    pub class: usize,
    pub sheet: u16,
    pub pieces: Vec<(u16, u16)>,
}

struct Draws(u32);

impl Draws {
    fn next(&mut self) -> f32 {
        self.0 = (self.0 * 7141 + 54773) % 259_200;
        self.0 as f32 / 259_200.0
    }

    /// A whole number from `low`, of `count` in a row.
    fn whole(&mut self, low: u16, count: u16) -> u16 {
        (f32::from(count) * self.next()) as u16 + low
    }
}

/// Sheet side and longest piece side of classes 1 to 6.
const UNIFORM: [(u16, u16); 6] = [(10, 10), (30, 10), (40, 35), (100, 35), (100, 100), (300, 100)];

/// All instances, by class, number of pieces and repeat.
pub fn classes() -> Vec<Instance> {
    let sizes = (1..=10).flat_map(|class| [20, 40, 60, 80, 100].map(|count| (class, count)));
    sizes.flat_map(|(class, count)| (1..=10).map(move |repeat| instance(class, count, repeat))).collect()
}

fn instance(class: usize, count: u16, repeat: u16) -> Instance {
    let mut draws = Draws(0);
    let skipped = (f32::from(count * repeat) * 31.47_f32 + 2000.0) as u32 + 1;
    for _ in 0..skipped {
        draws.next();
    }
    match UNIFORM.get(class - 1) {
        Some((sheet, most)) => {
            let pieces = (0..count).map(|_| {
                let height = draws.whole(1, *most);
                (draws.whole(1, *most), height)
            });
            Instance { class, sheet: *sheet, pieces: pieces.collect() }
        }
        None => Instance { class, sheet: 100, pieces: (0..count).map(|_| mixed(&mut draws, class - 7)).collect() },
    }
}

/// A piece of classes 7 to 10 on sheets of 100: wide, tall, large or small; seven in ten are of the class's own type.
fn mixed(draws: &mut Draws, own: usize) -> (u16, u16) {
    let chances: [f32; 4] = std::array::from_fn(|kind| if kind == own { 0.7 } else { 0.1 });
    let (draw, mut sum, mut kind) = (draws.next(), 0.0, 0);
    while kind < 3 && draw >= sum + chances[kind] {
        sum += chances[kind];
        kind += 1;
    }
    // Lowest and highest side, width then height.
    let [width, height] =
        [[(66, 100), (1, 50)], [(1, 50), (66, 100)], [(50, 100), (50, 100)], [(1, 50), (1, 50)]][kind];
    let side = |draws: &mut Draws, (low, high): (u16, u16)| draws.whole(low, high - low + 1);
    let height = side(draws, height);
    (side(draws, width), height)
}

impl Instance {
    pub fn request(&self, turn: Turn, effort: u64) -> Request {
        let side = f64::from(self.sheet);
        let piece = |(w, h): &(u16, u16)| Piece { length: f64::from(*w), width: f64::from(*h), count: 1, turn };
        Request {
            sheets: vec![SheetKind { size: (side, side), cost: 1.0, stock: None }],
            kerf: 0.0,
            trim: 0.0,
            useful: USEFUL,
            stages: None,
            pieces: self.pieces.iter().map(piece).collect(),
            effort,
        }
    }
}
