//! The vehicle, loads, services, climate and labels, in the schema of layouts.

use super::keys::{Keys, any, by_name, known, list, named, number, words};
use super::places::place;
use crate::language::lower_layout::LABELS;
use crate::language::services::{BATTERY, CABLE, CLIMATE, CONSUMER, PIPE, WATER};
use crate::language::vehicle::{
    CAB, FOUR_POINT, FRAME, FRONT, OVERHANG, RAILS, REAR, SPRINGS, SUBFRAME, THREE_POINT, VEHICLE,
};
use crate::model::{DrawnBy, Holds, LoadKind, Steel, VehicleClass};
use serde_json::Value;

pub(super) fn vehicle() -> Value {
    let front = Keys::of("The front axle, or the coupling of a trailer").figures(&FRONT).closed();
    let rear = Keys::of("The rear axle, or a group of them").figures(&REAR).closed();
    let axles =
        |first| Keys::of("What it rests on").need(first, "", front.clone()).need("rear", "", rear.clone()).closed();
    let subframe = any([
        subframe("three-point").figures(&THREE_POINT).closed(),
        subframe("four-point").figures(&FOUR_POINT).closed(),
        subframe("springs").figures(&SPRINGS).closed(),
        subframe("rigid").closed(),
    ]);
    let seat = Keys::of("A seat for the road").need("at", "`[x, y, z]` in the box", by_name("triple")).opt(
        "who",
        "Who sits there",
        by_name("name"),
    );
    let seat = any([by_name("triple"), seat.closed()]);
    Keys::of("What carries the box")
        .opt("kind", "", words(&["truck", "van", "trailer"]))
        .opt("region", "Whose table of outside sizes holds", words(&["eu", "uk", "au"]))
        .opt("class", "Whose rules on masses hold", known::<VehicleClass>())
        .opt("drawn-by", "What draws a trailer", known::<DrawnBy>())
        .need("axles", "", any([axles("front"), axles("coupling")]))
        .figures(&VEHICLE)
        .opt("cab", "", Keys::of("The cab, mm").figures(&CAB).closed())
        .opt("frame", "", Keys::of("The frame, mm").figures(&FRAME).closed())
        .opt("underside", "Corners of what else the ground may touch, `[x, z]`", list(by_name("pair")))
        .opt("rear-overhang-limit", "", Keys::of("The rear overhang at most").figures(&OVERHANG).closed())
        .opt("subframe", "", subframe)
        .opt(
            "seats",
            "Where people sit on the road, `[x, y, z]` in the box",
            any([list(by_name("triple")), named(seat)]),
        )
        .closed()
}

/// What every subframe may say.
fn subframe(kind: &'static str) -> Keys {
    let rails = Keys::of("Two rectangular tubes").figures(&RAILS).need("steel", "By EN 10025-2", known::<Steel>());
    let keys = Keys::of("What the box rests on").need("kind", "", words(&[kind])).figures(&SUBFRAME);
    keys.opt("rails", "The longitudinals", rails.closed())
}

pub(super) fn load() -> Value {
    let fill = Keys::of("Share that is filled, 0 to 1").opts(&["empty", "running", "full"], "", &number()).closed();
    let load = Keys::of("A tank, or a thing beside the furniture")
        .opt("at", "Its middle, `[x, y, z]` in the box", by_name("triple"))
        .opt("place", "", place())
        .opt("size", "Outside size, mm", by_name("triple"))
        .opt("holds", "", known::<Holds>())
        .opt("density", "kg a litre", number())
        .opt("aboard", "", words(&["always", "full"]))
        .opt("is", "", known::<LoadKind>())
        .opt("filler", "Where the tank is filled, `[x, y, z]` in the box", by_name("triple"))
        .opt("fill", "", fill);
    let (mass, tank) = ("Of the thing or the empty tank, kg", "Inside size, mm");
    let thing = load.clone().need("mass", mass, number()).opt("tank", tank, by_name("triple"));
    let empty = load.opt("mass", mass, number()).need("tank", tank, by_name("triple"));
    any([thing.closed(), empty.closed()])
}

pub(super) fn load_case() -> Value {
    Keys::of("As the case `full`, but")
        .opt("arrangement", "With the seats of this one", by_name("name"))
        .opt("people", "So many people", number())
        .opt("contents", "Contents of the furniture, percent", number())
        .opt("cargo", "With the cargo or without", by_name("flag"))
        .opt("fill", "Share of each tank that is filled, 0 to 1", named(number()))
        .closed()
}

pub(super) fn services() -> Value {
    let runs = |says| {
        let end = any([by_name("name"), by_name("triple")]);
        Keys::of(says)
            .need("from", "A module, a load or a point", end.clone())
            .need("to", "A module, a load or a point", end)
            .opt("via", "Points on the way", list(by_name("triple")))
    };
    let cable = runs("A cable").figures(&CABLE).opt("critical", "Must not fail", by_name("flag"));
    Keys::of("Water, electricity, waste pipes")
        .opt("water", "", Keys::of("Water that a person uses in a day").figures(&WATER).closed())
        .opt("battery", "", Keys::of("The battery").figures(&BATTERY).closed())
        .opt("consumers", "What uses the battery", named(Keys::of("A consumer").figures(&CONSUMER).closed()))
        .opt("cables", "", named(cable.closed()))
        .opt("wastes", "Waste pipes", named(runs("A waste pipe").figures(&PIPE).closed()))
        .closed()
}

pub(super) fn climate() -> Value {
    Keys::of("The air that the shell is for").figures(&CLIMATE).closed()
}

pub(super) fn labels() -> Value {
    Keys::of("The grid of label sheets on A4").figures(&LABELS).closed()
}
