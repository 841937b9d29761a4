//! The boxes that time and instructions are measured on are clean, so that nothing else is measured than what is meant.
//!
//! `LONG_BOXES=folder` writes them there, as `.ci/instructions` does.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/generator.rs"]
mod generator;
#[path = "common/long_box.rs"]
mod long_box;

use boxwright::compile::{Options, compile};
use boxwright::diagnostic::Severity;
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use long_box::long_box;
use std::path::Path;

/// Rooms, and the modules that they make.
const BOXES: [(usize, usize); 4] = [(1, 14), (3, 40), (8, 105), (38, 495)];

#[test]
fn long_boxes_are_clean() {
    for (rooms, modules) in BOXES {
        let text = long_box(rooms, 1).yaml();
        let world = MemoryWorld::default().with("long.yaml", &text);
        let compiled = compile(&world, "long.yaml", &Registry::standard(), &Options::default());
        let errors: Vec<_> = compiled.errors.errors().iter().map(|error| &error.message).collect();
        assert!(errors.is_empty(), "{rooms} rooms: {errors:#?}");
        let grave = compiled.findings.iter().filter(|one| one.severity < Severity::Note && one.accepted.is_none());
        let grave: Vec<_> = grave.map(|one| (&one.key.check, &one.key.subject, &one.message)).collect();
        assert!(grave.is_empty(), "{rooms} rooms: {grave:#?}");
        let made = compiled.model.unwrap().modules.len();
        assert_eq!(made, modules, "{rooms} rooms");
        if let Ok(folder) = std::env::var("LONG_BOXES") {
            std::fs::write(Path::new(&folder).join(format!("long-{made}.yaml")), text).unwrap();
        }
    }
}
