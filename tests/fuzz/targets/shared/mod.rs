//! What the targets share with the stable driver, and how its mistakes become mutations of the fuzzer.

#![allow(dead_code, unused_macros, unused_imports, reason = "each target uses a part of it")]

#[path = "../../../common/mod.rs"]
pub mod common;
#[path = "../../drivers.rs"]
pub mod drivers;
#[path = "../../sound.rs"]
pub mod sound;
#[path = "../../spoil.rs"]
pub mod spoil;

use libfuzzer_sys::fuzzer_mutate;

/// Spoils a text as the stable driver does, or every fourth time as the fuzzer itself does.
pub fn mutate(data: &mut [u8], size: usize, most: usize, seed: u32) -> usize {
    if seed % 4 == 0 {
        return fuzzer_mutate(data, size, most);
    }
    let text = spoil::spoil(&String::from_utf8_lossy(&data[..size]), &mut spoil::Random(seed.into()));
    let length = text.len().min(most);
    data[..length].copy_from_slice(&text.as_bytes()[..length]);
    length
}

/// A target for one kind of text; the driver says what is wrong with what was made of it.
macro_rules! text_target {
    ($driver:expr) => {
        libfuzzer_sys::fuzz_mutator!(|data: &mut [u8], size: usize, most: usize, seed: u32| {
            shared::mutate(data, size, most, seed)
        });
        libfuzzer_sys::fuzz_target!(|text: &str| {
            let driver: fn(&str) -> Vec<String> = $driver;
            let wrong = driver(text);
            assert!(wrong.is_empty(), "{wrong:?}");
        });
    };
}
pub(crate) use text_target;

/// A target for a file of a layout: the one of this path in the stable driver's list.
macro_rules! file_target {
    ($path:literal) => {
        shared::text_target!(|text| shared::file($path, text));
    };
}
pub(crate) use file_target;

/// Compiles a text in the place of a file, makes an output of it, and says what is unsound.
pub fn file(path: &str, text: &str) -> Vec<String> {
    use boxwright::registry::Registry;
    use std::sync::OnceLock;
    static SUBJECT: OnceLock<(drivers::Subject, Registry)> = OnceLock::new();
    let (subject, registry) = SUBJECT.get_or_init(|| {
        let subject = drivers::subjects().into_iter().find(|subject| subject.spoilt == path);
        (subject.expect("a file of that path"), Registry::standard())
    });
    // Which output is made goes by the text, so that an input always does the same.
    let turn = text.bytes().fold(0_u64, |sum, byte| sum.wrapping_mul(31).wrapping_add(byte.into()));
    let made = drivers::files(subject, text, registry, turn);
    made.into_iter().flatten().filter_map(|file| sound::unsound(&file)).collect()
}
