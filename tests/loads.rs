//! The demos on their vehicles: masses that agree with the cut list, balance, report, worked sums.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use assert_cmd::Command;
use boxwright::compile::{Compiled, Options, compile, produce};
use boxwright::diagnostic::Severity;
use boxwright::joinery::cut_list;
use boxwright::registry::Registry;
use boxwright::vehicle::{Group, load_cases, masses, weigh};

fn demo(name: &str) -> Compiled {
    let world = common::world(&common::yaml_files("layouts"));
    compile(&world, &format!("layouts/{name}.yaml"), &Registry::standard(), &Options::default())
}

const ON_WHEELS: [&str; 2] = ["marram", "teasel"];
const ALL: [&str; 3] = ["marram", "teasel", "skua"];

/// The sawn parts of the mass list weigh what the rows of the cut list do, to 1 g.
#[test]
fn the_mass_list_and_the_cut_list_agree_to_a_gram() {
    for name in ALL {
        let compiled = demo(name);
        let model = compiled.model.as_ref().unwrap();
        let list = masses(model, None);
        let parts: f64 = list.iter().filter(|mass| mass.group == Group::Parts).map(|mass| mass.mass).sum();
        let rows: f64 = cut_list(model).rows.iter().map(|row| row.mass * f64::from(row.count)).sum();
        assert!((parts - rows).abs() <= 0.001, "{name}: {parts} kg in the mass list, {rows} kg in the cut list");
    }
}

/// In every load case the axles carry the sum of all masses, to 1 g, and the bare vehicle stands on them as its papers say.
#[test]
fn the_axles_of_the_demos_carry_all_of_it() {
    for name in ON_WHEELS {
        let compiled = demo(name);
        let model = compiled.model.as_ref().unwrap();
        let vehicle = model.vehicle.as_ref().unwrap();
        let cases = load_cases(model);
        assert!(cases.len() >= 5, "{name}");
        for case in &cases {
            let weighed = weigh(model, vehicle, case);
            let total: f64 = case.aboard.iter().map(|mass| mass.mass).sum();
            assert!((weighed.front + weighed.rear - total).abs() <= 0.001);
        }
        let mut bare = cases[0].clone();
        bare.aboard.retain(|mass| mass.group == Group::Vehicle);
        let weighed = weigh(model, vehicle, &bare);
        assert!(
            (weighed.front - vehicle.front.bare).abs() <= 0.001 && (weighed.rear - vehicle.rear.bare).abs() <= 0.001
        );
    }
}

/// Truck and trailer have a whole vehicle block and pass every check on it.
#[test]
fn truck_and_trailer_pass() {
    const VEHICLE: [&str; 9] = [
        "axle-load",
        "payload",
        "side-balance",
        "roll-threshold",
        "outside-size",
        "overhang",
        "ground-angles",
        "twist-gap",
        "subframe",
    ];
    for name in ON_WHEELS {
        let compiled = demo(name);
        for check in VEHICLE.into_iter().filter(|check| name != "teasel" || !["twist-gap", "subframe"].contains(check))
        {
            let own: Vec<_> = compiled.findings.iter().filter(|finding| finding.key.check == check).collect();
            assert!(!own.is_empty(), "{name}: {check} says nothing");
            assert!(own.iter().all(|finding| finding.severity >= Severity::Note), "{name}: {own:?}");
        }
    }
}

#[test]
fn the_report_holds_what_the_checks_say() {
    let compiled = demo("marram");
    let outputs = produce(&compiled).unwrap();
    let product = outputs.product(&compiled);
    let registry = Registry::standard();
    let backend = registry.backends.iter().find(|one| one.name() == "report-json").unwrap();
    let files = backend.files(&product).unwrap();
    let report: serde_json::Value = serde_json::from_slice(&files[0].bytes).unwrap();
    let cases = report["vehicle"]["load-cases"].as_array().unwrap();
    let heaviest = cases.iter().map(|case| case["front"].as_f64().unwrap()).fold(0.0, f64::max);
    let said = compiled.findings.iter().find(|finding| finding.key.check == "axle-load").unwrap();
    assert!((said.measured.unwrap().value - heaviest).abs() <= 0.001);
    let titles: Vec<&str> =
        report["sums"].as_array().unwrap().iter().map(|sum| sum["check"].as_str().unwrap()).collect();
    assert!(["axle-load", "surface-dew", "voltage-drop"].iter().all(|check| titles.contains(check)), "{titles:?}");
}

#[test]
fn a_sum_is_worked_out_for_a_layout() {
    let run = |arguments: &[&str]| {
        let output = Command::new(env!("CARGO_BIN_EXE_boxwright")).arg("explain").args(arguments).output().unwrap();
        (output.status.code(), String::from_utf8(output.stdout).unwrap())
    };
    let (code, text) = run(&["axle-load", "--in", "layouts/marram.yaml"]);
    assert_eq!(code, Some(0));
    assert!(text.contains("sum(m X) / wheelbase") && text.contains("/ 3600") && text.contains("Caution"), "{text}");
    let (code, text) = run(&["walkway", "--in", "layouts/marram.yaml"]);
    assert!(code == Some(0) && text.contains("no sums"), "{text}");
    let (code, text) = run(&["axle-load", "--in", "tests/suite/vehicle-in-metres.yaml"]);
    assert!(code == Some(2) && text.contains("must be 500 to 15000 mm"), "{text}");
}
