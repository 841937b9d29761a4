//! Spoils the project's own layouts and symbols in many ways: whatever comes, the compiler must answer, in bounded time.
//!
//! `MUTATIONS=10000000 MUTATION_SEED=7 cargo test --release --test mutate` for a long run. With `MUTATION_TRACE=1` each
//! input is written to the target's temporary folder before it is tried, which finds even an overflow of the stack.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use boxwright::compile::{Options, compile, produce};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::time::{Duration, Instant};

/// Mutations in an ordinary test run.
const FEW: u64 = 800;
/// Longest time for one input, far above what any needs even unoptimised.
const LONGEST: Duration = Duration::from_secs(20);

/// Steele, Lea and Flood's SplitMix64: small, and the same everywhere.
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, most: usize) -> usize {
        if most == 0 { 0 } else { usize::try_from(self.next() % most as u64).unwrap() }
    }

    fn pick<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.below(of.len())]
    }
}

const NUMBERS: [&str; 28] = [
    "0",
    "-0",
    "-1",
    "1",
    "1e308",
    "-1e308",
    "1e17",
    "-1e17",
    "1e-308",
    "nan",
    ".nan",
    ".inf",
    "inf",
    "0.0001",
    "99999999999999999999",
    "100000",
    "100001",
    "1000000 m",
    "1 / 0",
    "0 / 0",
    "sqrt(-1)",
    "tan(90)",
    "0.5",
    "3.3333333333",
    "2000",
    "1e3 m",
    "0x10",
    "-5",
];

const WORDS: [&str; 37] = [
    "null",
    "~",
    "true",
    "no",
    "[]",
    "{}",
    "''",
    "!x",
    "&a",
    "*a",
    "<<",
    "? ",
    "- ",
    "---",
    "...",
    "|",
    ">",
    "#",
    "\u{0}",
    "\u{7}",
    "\u{202e}",
    "\u{feff}",
    "é",
    "🛏",
    "box",
    "box.rear",
    "i in 1..1000000",
    "each: i in 1..1000",
    "each: i in 1e17..1e17, when: no",
    "each: i in -1e17..1, when: no",
    "each: i in 1..1e308",
    "if(1,2,3)",
    "min()",
    "roof(1/0)",
    "..",
    "\t",
    "'",
];

/// Pieces of a text: words, numbers, blanks and single signs.
fn tokens(text: &str) -> Vec<String> {
    let mut tokens: Vec<String> = Vec::new();
    let mut last = 'x';
    for c in text.chars() {
        let joins = |a: char, b: char| (a.is_alphanumeric() && b.is_alphanumeric()) || (a == ' ' && b == ' ');
        match tokens.last_mut() {
            Some(token) if joins(last, c) => token.push(c),
            _ => tokens.push(c.to_string()),
        }
        last = c;
    }
    tokens
}

fn is_number(token: &str) -> bool {
    token.starts_with(|c: char| c.is_ascii_digit())
}

fn spoil_tokens(text: &str, random: &mut Random) -> String {
    let mut tokens = tokens(text);
    let at = random.below(tokens.len());
    let other = random.below(tokens.len());
    match random.below(5) {
        0 if !tokens.is_empty() => drop(tokens.remove(at)),
        1 => tokens.insert(at, (*random.pick(&WORDS)).to_owned()),
        2 if !tokens.is_empty() => tokens.swap(at, other),
        3 if !tokens.is_empty() => tokens[at] = (*random.pick(&WORDS)).to_owned(),
        _ if !tokens.is_empty() => tokens[at] = tokens[other].clone(),
        _ => {}
    }
    tokens.concat()
}

fn spoil_number(text: &str, random: &mut Random) -> String {
    let mut tokens = tokens(text);
    let numbers: Vec<usize> = (0..tokens.len()).filter(|at| is_number(&tokens[*at])).collect();
    if !numbers.is_empty() {
        let at = *random.pick(&numbers);
        tokens[at] = match random.below(4) {
            0 => (*random.pick(&NUMBERS)).to_owned(),
            1 => random.below(4000).to_string(),
            _ => (tokens[at].parse().unwrap_or(0_usize) + 201).saturating_sub(random.below(400)).to_string(),
        };
    }
    tokens.concat()
}

fn spoil_lines(text: &str, random: &mut Random) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    if lines.is_empty() {
        return text.to_owned();
    }
    let (at, other) = (random.below(lines.len()), random.below(lines.len()));
    match random.below(5) {
        0 => drop(lines.remove(at)),
        1 => lines.insert(other, lines[at].clone()),
        2 => lines.swap(at, other),
        3 => lines[at] = format!("  {}", lines[at]),
        _ => lines[at] = lines[at].trim_start().to_owned(),
    }
    lines.join("\n")
}

fn spoil_bytes(text: &str, random: &mut Random) -> String {
    let mut bytes = text.as_bytes().to_vec();
    let at = random.below(bytes.len());
    let byte = u8::try_from(random.below(256)).unwrap();
    match random.below(4) {
        0 if !bytes.is_empty() => bytes[at] = byte,
        1 => bytes.insert(at, byte),
        2 if !bytes.is_empty() => drop(bytes.remove(at)),
        _ => bytes.truncate(at),
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

fn spoil_depth(text: &str, random: &mut Random) -> String {
    let depth = *random.pick(&[10, 63, 64, 65, 200, 3000]);
    let (open, shut) = *random.pick(&[("[", "]"), ("{a: ", "}"), ("(", ")"), ("-", ""), ("not ", ""), ("abs(", ")")]);
    let nest = format!("{}1{}", open.repeat(depth), shut.repeat(depth));
    let mut tokens = tokens(text);
    let at = random.below(tokens.len());
    tokens.insert(at, nest);
    tokens.concat()
}

fn spoil_alias(text: &str, random: &mut Random) -> String {
    let rows = 2 + random.below(30);
    let bomb = (1..rows).map(|row| format!("b{row}: &b{row} [{}]\n", format!("*b{}, ", row - 1).repeat(9)));
    format!("b0: &b0 [1, 2]\n{}{text}", bomb.collect::<String>())
}

fn spoil(text: &str, random: &mut Random) -> String {
    let mut text = text.to_owned();
    let times = if random.below(3) == 0 { 1 + random.below(4) } else { 1 };
    for _ in 0..times {
        text = match random.below(40) {
            0..8 => spoil_tokens(&text, random),
            8..22 => spoil_number(&text, random),
            22..31 => spoil_lines(&text, random),
            31..38 => spoil_bytes(&text, random),
            38 => spoil_depth(&text, random),
            _ => spoil_alias(&text, random),
        };
    }
    text
}

/// Compiles, draws, and makes the output whose turn it is; the answer does not matter, only that there is one.
fn answer(world: &MemoryWorld, path: &str, registry: &Registry, turn: u64) -> bool {
    let compiled = compile(world, path, registry, &Options::default());
    let outputs = produce(&compiled, &Registry::standard());
    let Some(product) = outputs.as_ref().map(|outputs| outputs.product(&compiled)) else { return false };
    let count = registry.backends.len().max(1) as u64;
    let backend = registry.backends.get(usize::try_from(turn % count).unwrap());
    let _ = backend.map(|backend| backend.files(&product));
    true
}

/// A file to spoil, and the layout that reads it.
struct Subject {
    spoilt: String,
    text: String,
    layout: String,
    world: MemoryWorld,
}

impl Subject {
    /// Whether its layout compiles before it is spoilt; those that do reach further, so they are taken more often.
    fn compiles(&self, registry: &Registry) -> bool {
        let world = self.world.clone().with(&self.spoilt, &self.text);
        compile(&world, &self.layout, registry, &Options::default()).model.is_some()
    }
}

/// Each demo and suite layout by itself, and each symbol through a layout that places it.
fn subjects() -> Vec<Subject> {
    let mut files = common::yaml_files("layouts/");
    files.extend(common::yaml_files("tests/suite/"));
    let world = common::world(&files);
    let layouts = files.iter().map(|(path, text)| Subject {
        spoilt: path.clone(),
        text: text.clone(),
        layout: path.clone(),
        world: world.clone(),
    });
    let symbols = common::yaml_files("symbols/").into_iter().map(|(path, text)| {
        let name = path.trim_start_matches("symbols/").trim_end_matches(".yaml");
        let place = format!(
            "boxwright: 1\ntitle: t\nsymbols: [mine]\nbox: {{ length: 6000, width: 2400, height: 2100 }}\n\
             openings: {{ entry: {{ kind: door, wall: right, front: 200, run: 600, sill: 0, height: 1800 }} }}\n\
             modules: {{ one: {{ symbol: {name}, faces: front, place: {{ rear: box.rear, left: box.left }} }} }}\n"
        );
        let spoilt = format!("mine/{name}.yaml");
        Subject { spoilt, text, layout: "t.yaml".to_owned(), world: MemoryWorld::default().with("t.yaml", &place) }
    });
    layouts.chain(symbols).collect()
}

fn setting(name: &str, default: u64) -> u64 {
    std::env::var(name).ok().and_then(|value| value.parse().ok()).unwrap_or(default)
}

#[test]
fn no_mutation_of_a_file_makes_the_compiler_panic_or_hang() {
    let (count, seed) = (setting("MUTATIONS", FEW), setting("MUTATION_SEED", 1));
    let registry = Registry::standard();
    let (sound, unsound): (Vec<Subject>, Vec<Subject>) =
        subjects().into_iter().partition(|one| one.compiles(&registry));
    let trace = std::env::var_os("MUTATION_TRACE").is_some();
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let hook = std::panic::take_hook();
    if count > FEW {
        std::panic::set_hook(Box::new(|_| {}));
    }
    let (mut random, mut built, mut slowest, mut failures) = (Random(seed), 0_u64, Duration::ZERO, Vec::new());
    for number in 0..count {
        let any = sound.is_empty() || random.below(8) == 0;
        let subject = random.pick(if any { &unsound } else { &sound });
        let text = spoil(&subject.text, &mut random);
        let keep = |why: &str| {
            let path = folder.join(format!("mutation-{why}-{seed}-{number}.yaml"));
            std::fs::write(&path, &text).unwrap();
            format!("{why}: {} in place of {}", path.display(), subject.spoilt)
        };
        if trace {
            std::fs::write(folder.join(format!("mutation-{seed}.yaml")), &text).unwrap();
        }
        let world = subject.world.clone().with(&subject.spoilt, &text);
        let started = Instant::now();
        match catch_unwind(AssertUnwindSafe(|| answer(&world, &subject.layout, &registry, number))) {
            Ok(made) => built += u64::from(made),
            Err(_) => failures.push(keep("panic")),
        }
        slowest = slowest.max(started.elapsed());
        if started.elapsed() > LONGEST {
            failures.push(keep("slow"));
        }
        if failures.len() > 20 {
            break;
        }
    }
    std::panic::set_hook(hook);
    let files = sound.len() + unsound.len();
    println!("{count} mutations of {files} files, {built} still gave drawings, slowest {slowest:?}");
    assert!(failures.is_empty(), "\n{}\n", failures.join("\n"));
}

#[test]
fn mutations_differ_and_repeat() {
    let text = "boxwright: 1\nbox: { length: 4000, width: 2000 }\n";
    let made = |seed| (0..50).scan(Random(seed), |random, _| Some(spoil(text, random))).collect::<Vec<_>>();
    assert_eq!(made(3), made(3));
    assert_ne!(made(3), made(4));
    assert!(made(3).iter().filter(|one| *one != text).count() > 40);
}
