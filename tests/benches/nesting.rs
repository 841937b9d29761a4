//! Sheets of the published packing instances, class by class, beside the lower bound and the best plans known:
//! `cargo bench --bench nesting`. `EFFORT=1` searches as for a layout (default 18, as `boxwright nest`).

#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout, reason = "a bench may stop at once, and prints")]

#[path = "../common/instances.rs"]
mod instances;

use boxwright::joinery::nesting::{Piece, Request, SheetKind, Turn, nest, usual_effort};
use boxwright::model::materials::USEFUL;
use std::time::Instant;

/// Bins of the best plans of the literature that need no cuts from edge to edge, for classes 1 to 10, as drawn and with
/// pieces that may turn: the least of Gonçalves and Resende, International Journal of Production Economics 145 (2013);
/// Blum and Schmid, Procedia Computer Science 18 (2013); Parreño and others, Annals of Operations Research 179 (2010);
/// Beyaz and others, Applied Soft Computing 36 (2015). Taken from tables in other papers.
const FREE: [[usize; 10]; 2] =
    [[997, 124, 696, 120, 892, 109, 827, 833, 2130, 502], [972, 124, 675, 120, 861, 109, 758, 759, 2119, 491]];

/// What some requests took.
#[derive(Default)]
struct Sum {
    count: usize,
    sheets: usize,
    bound: usize,
    seconds: f64,
    longest: f64,
}

impl Sum {
    fn add(&mut self, request: &Request) {
        let begun = Instant::now();
        let plan = nest(request);
        let seconds = begun.elapsed().as_secs_f64();
        self.count += 1;
        self.sheets += plan.sheets.len();
        self.bound += plan.bound;
        self.seconds += seconds;
        self.longest = self.longest.max(seconds);
    }

    fn line(&self, name: &str, known: usize) {
        let Self { count, sheets, bound, seconds, longest } = self;
        let (ratio, mean) = (*sheets as f64 / *bound as f64, seconds / *count as f64);
        println!("| {name} | {sheets} | {bound} | {ratio:.4} | {known} | {mean:.3} | {longest:.2} |");
    }
}

fn effort(pieces: usize) -> u64 {
    let times: u64 = std::env::var("EFFORT").ok().and_then(|times| times.parse().ok()).unwrap_or(18);
    usual_effort(pieces as u32) * times
}

fn published(name: &str, turn: Turn, known: [usize; 10]) {
    println!(
        "\n{name}\n\n| class | sheets | at least | ratio | free packing | s, mean | s, most |\n|---|---|---|---|---|---|---|"
    );
    let all = instances::classes();
    let mut whole = Sum::default();
    for class in 1..=10 {
        let mut sum = Sum::default();
        for instance in all.iter().filter(|instance| instance.class == class) {
            sum.add(&instance.request(turn, effort(instance.pieces.len())));
        }
        sum.line(&class.to_string(), known[class - 1]);
        whole.count += sum.count;
        whole.sheets += sum.sheets;
        whole.bound += sum.bound;
        whole.seconds += sum.seconds;
        whole.longest = whole.longest.max(sum.longest);
    }
    whole.line("all", known.iter().sum());
}

/// The jobs of `tests/oracles/nesting.py`, whose least number of sheets is proved.
fn proved() {
    let jobs: Vec<serde_json::Value> = serde_json::from_str(include_str!("../oracles/nesting.json")).unwrap();
    let (mut sum, mut known) = (Sum::default(), 0);
    for job in &jobs {
        let number = |value: &serde_json::Value| value.as_f64().unwrap();
        let turn = |piece: &serde_json::Value| if piece[2] == true { Turn::Free } else { Turn::Never };
        let piece =
            |p: &serde_json::Value| Piece { length: number(&p[0]), width: number(&p[1]), count: 1, turn: turn(p) };
        let pieces: Vec<Piece> = job["pieces"].as_array().unwrap().iter().map(piece).collect();
        known += job["sheets"].as_u64().unwrap() as usize;
        sum.add(&Request {
            sheets: vec![SheetKind { size: (2440.0, 1220.0), cost: 1.0, stock: None }],
            kerf: number(&job["kerf"]),
            trim: number(&job["trim"]),
            useful: USEFUL,
            stages: None,
            effort: effort(pieces.len()),
            pieces,
        });
    }
    println!(
        "\nproved draws with saw cut, trim and grain\n\n| jobs | sheets | at least | ratio | proved | s, mean | s, most |\n|---|---|---|---|---|---|---|"
    );
    sum.line(&jobs.len().to_string(), known);
}

/// 1,000 parts of 100 sizes.
fn many() {
    let side = |index: u32, step: u32, low: u32, span: u32| f64::from(low + index * step % span);
    let piece = |index: u32| Piece {
        length: side(index, 197, 200, 900),
        width: side(index, 83, 90, 500),
        count: 10,
        turn: if index.is_multiple_of(3) { Turn::Never } else { Turn::Free },
    };
    let request = Request {
        sheets: vec![SheetKind { size: (2440.0, 1220.0), cost: 1.0, stock: None }],
        kerf: 3.2,
        trim: 10.0,
        useful: USEFUL,
        stages: None,
        pieces: (0..100).map(piece).collect(),
        effort: usual_effort(1000),
    };
    let mut sum = Sum::default();
    sum.add(&request);
    println!("\n1,000 parts, effort of a layout: {} sheets, at least {}, {:.2} s", sum.sheets, sum.bound, sum.seconds);
}

fn main() {
    published("2BP|O|G: as drawn", Turn::Never, FREE[0]);
    published("2BP|R|G: pieces may turn", Turn::Free, FREE[1]);
    proved();
    many();
}
