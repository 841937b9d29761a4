//! A check: gas lockers have a vent to the outside in the floor below them, and no open side.

use boxwright_guest::{Check, Description, Finding, Limit, Module, Opening, Question, Reads};

boxwright_guest::describe!(description);
boxwright_guest::answers!(check: find);

const MANUAL: &str = "\
# Computes
For each module with `gas` in its name: the free area of the vents in the floor below it, and the sides of its solids that no
board closes.

# Why
Gas from a leaking bottle is heavier than air: it has to fall out through the floor, and must not get into the room.

# Limit
`least`: free area of its vents, mm².

# Source
From memory, not verified.

# Change it
`limits: { gas-rules:gas-locker: { least: 20000, because: \"two bottles\" } }`
";

fn description() -> Description {
    let least = Limit { class: "from-memory".to_owned(), source: "from memory".to_owned(), ..limit() };
    let paths = [
        "openings/*/name",
        "openings/*/kind",
        "openings/*/wall",
        "openings/*/along",
        "openings/*/up",
        "openings/*/free-area",
        "modules/*/name",
        "modules/*/extent",
        "modules/*/poses/*/solids/*/name",
        "modules/*/poses/*/solids/*/open",
    ];
    Description::new("gas-rules", "house rules on gas").check(Check {
        name: "gas-locker".to_owned(),
        says: "gas lockers have a vent in the floor and are closed to the room".to_owned(),
        manual: MANUAL.to_owned(),
        caution: Some("no proof of a gas installation; that is for licensed people and the local code".to_owned()),
        limits: vec![least],
        reads: Reads::model(&paths),
    })
}

fn limit() -> Limit {
    Limit { name: "least".to_owned(), value: 10_000.0, unit: "mm2".to_owned(), bound: "least".to_owned(), ..Limit::default() }
}

fn find(question: &Question) -> Result<Vec<Finding>, String> {
    let least = question.limit("gas-locker", "least")?;
    let lockers = question.model.modules.iter().filter(|module| module.name.contains("gas"));
    let mut findings = Vec::new();
    for locker in lockers {
        let free: f64 = question.model.openings.iter().filter(|one| is_below(one, locker)).map(|one| one.free_area).sum();
        let message = format!("vents in the floor below it are open by {free} mm²");
        let vent = Finding::judged("gas-locker", "fault", &locker.name, message, (free, least)).asks("vent");
        let middle = |range: [f64; 2]| (range[0] + range[1]) / 2.0;
        findings.push(vent.at(middle(locker.extent.x), middle(locker.extent.y)));
        let open = locker.poses.first().into_iter().flat_map(|pose| &pose.solids).filter(|solid| !solid.open.is_empty());
        findings.extend(open.map(|solid| {
            let message = format!("`{}` is open to {}", solid.name, solid.open.join(", "));
            Finding::new("gas-locker", "fault", &locker.name, message).of_part(&solid.name)
        }));
    }
    Ok(findings)
}

/// Whether an opening is a vent in the floor that lies below a module.
fn is_below(opening: &Opening, module: &Module) -> bool {
    let within = |inner: [f64; 2], outer: [f64; 2]| inner[0] >= outer[0] && inner[1] <= outer[1];
    opening.kind == "vent"
        && opening.wall == "floor"
        && within(opening.along, module.extent.x)
        && within(opening.up, module.extent.y)
}
