//! Spoils the project's own layouts, symbols, themes, lists of parts and expressions in many ways: whatever comes, there is an
//! answer in bounded time, and every output that is made is sound.
//!
//! `FUZZ=10000000 FUZZ_SEED=7 cargo test --release --test mutate` for a long run: so many files, and ten times as many lists
//! and expressions, which take less. With `FUZZ_TRACE=1` each input is written to the target's temporary folder before it
//! is tried, which finds even an overflow of the stack.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a test may stop at once, and tells what it did")]

mod common;
mod fuzz {
    use super::common;

    pub mod drivers;
    pub mod sound;
    pub mod spoil;
}

use boxwright::registry::Registry;
use fuzz::drivers::{Subject, answered, answers, expression, files, parts, subjects};
use fuzz::sound::unsound;
use fuzz::spoil::{Random, spoil};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// Spoilt files in an ordinary test run.
const FEW: u64 = 800;
/// Spoilt lists and expressions for each spoilt file.
const QUICK: u64 = 10;
/// Longest time for one input, far above what any needs even unoptimised.
const LONGEST: Duration = Duration::from_secs(20);
/// Failures after which a run ends.
const ENOUGH: usize = 20;

fn setting(name: &str, default: u64) -> u64 {
    std::env::var(name).ok().and_then(|value| value.parse().ok()).unwrap_or(default)
}

/// One run of a driver over many inputs.
struct Campaign {
    name: &'static str,
    seed: u64,
    slowest: Duration,
    failures: Vec<String>,
}

impl Campaign {
    fn new(name: &'static str) -> Self {
        Self { name, seed: setting("FUZZ_SEED", 1), slowest: Duration::ZERO, failures: Vec::new() }
    }

    fn path(&self, why: &str) -> PathBuf {
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("{}-{why}.txt", self.name))
    }

    /// Tries one input; `driver` says what is wrong with what it made of it.
    fn try_one(&mut self, number: u64, text: &str, of: &str, driver: impl FnOnce() -> Vec<String>) {
        if std::env::var_os("FUZZ_TRACE").is_some() {
            std::fs::write(self.path("last"), text).unwrap();
        }
        let started = Instant::now();
        let mut wrong = catch_unwind(AssertUnwindSafe(driver)).unwrap_or_else(|_| vec!["panic".to_owned()]);
        self.slowest = self.slowest.max(started.elapsed());
        if started.elapsed() > LONGEST {
            wrong.push("slow".to_owned());
        }
        if !wrong.is_empty() {
            let path = self.path(&format!("{}-{number}", self.seed));
            std::fs::write(&path, text).unwrap();
            self.failures.push(format!("{}: {} in place of {of}", wrong.join("; "), path.display()));
        }
    }

    fn is_over(&self) -> bool {
        self.failures.len() > ENOUGH
    }

    fn end(self, count: u64, what: &str) {
        println!("{count} {what}, slowest {:?}", self.slowest);
        assert!(self.failures.is_empty(), "\n{}\n", self.failures.join("\n"));
    }
}

/// Does something without the words of panics, which a long run would fill its output with.
fn quietly(count: u64, run: impl FnOnce()) {
    let hook = std::panic::take_hook();
    if count > FEW {
        std::panic::set_hook(Box::new(|_| {}));
    }
    run();
    std::panic::set_hook(hook);
}

#[test]
fn no_spoilt_file_makes_the_compiler_panic_or_hang_or_write_nonsense() {
    let (count, registry, mut campaign) = (setting("FUZZ", FEW), Registry::standard(), Campaign::new("file"));
    let (sound, broken): (Vec<Subject>, Vec<Subject>) = subjects().into_iter().partition(|one| one.compiles(&registry));
    let (mut random, mut made) = (Random(campaign.seed), 0_u64);
    quietly(count, || {
        for number in 0..count {
            let any = sound.is_empty() || random.below(8) == 0;
            let subject = random.pick(if any { &broken } else { &sound });
            let text = spoil(&subject.text, &mut random);
            campaign.try_one(number, &text, &subject.spoilt, || {
                let outputs = files(subject, &text, &registry, number);
                made += u64::from(outputs.is_some());
                outputs.into_iter().flatten().filter_map(|file| unsound(&file)).collect()
            });
            if campaign.is_over() {
                break;
            }
        }
    });
    assert!(made > count / 20 || count < 100, "only {made} of {count} still gave drawings");
    campaign.end(count, &format!("spoilt files of {}, {made} still gave drawings", sound.len() + broken.len()));
}

#[test]
fn no_spoilt_list_of_parts_or_expression_makes_the_reader_panic_or_hang() {
    let (count, mut campaign) = (setting("FUZZ", FEW) * QUICK, Campaign::new("quick"));
    let (lists, expressions) = (fuzz::drivers::lists(), fuzz::drivers::expressions());
    assert!(expressions.len() > 100);
    let (mut random, mut read, mut parsed) = (Random(campaign.seed), 0_u64, 0_u64);
    quietly(count, || {
        for number in 0..count {
            if number % 4 == 0 {
                let text = spoil(random.pick::<String>(&lists), &mut random);
                campaign.try_one(number, &text, "a list of parts", || parts(&text, &mut read));
            } else {
                let text = spoil(random.pick::<String>(&expressions), &mut random);
                campaign.try_one(number, &text, "an expression", || expression(&text, &mut parsed));
            }
            if campaign.is_over() {
                break;
            }
        }
    });
    assert!(read > 0 && parsed > 0, "{read} lists and {parsed} expressions were good");
    campaign
        .end(count, &format!("spoilt lists and expressions, {read} lists and {parsed} expressions were still good"));
}

#[test]
fn mutations_differ_and_repeat() {
    let text = "boxwright: 1\nbox: { length: 4000, width: 2000 }\n";
    let made = |seed| (0..50).scan(Random(seed), |random, _| Some(spoil(text, random))).collect::<Vec<_>>();
    assert_eq!(made(3), made(3));
    assert_ne!(made(3), made(4));
    assert!(made(3).iter().filter(|one| *one != text).count() > 40);
}

#[test]
fn no_spoilt_answer_of_a_plug_in_makes_the_host_panic_or_silent() {
    let (count, mut random, mut campaign) =
        (setting("FUZZ", FEW) * QUICK, Random(setting("FUZZ_SEED", 1)), Campaign::new("answer"));
    let (all, mut good) = (answers(), 0_u64);
    for text in &all {
        assert_eq!(answered(text, &mut good), Vec::<String>::new());
    }
    assert_eq!(good, 4, "each is good for what it is made for");
    quietly(count, || {
        for number in 0..count {
            let text = spoil(random.pick::<String>(&all), &mut random);
            campaign.try_one(number, &text, "an answer", || answered(&text, &mut good));
            if campaign.is_over() {
                break;
            }
        }
    });
    campaign.end(count, &format!("spoilt answers of plug-ins, {good} still good"));
}
