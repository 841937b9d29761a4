//! The box with its shell, openings, zones and modules, in the schema of layouts.

use super::keys::{Keys, any, by_name, full_list, known, named, named_some, number, words};
use crate::language::lower_layout::{CORNERS, EDGE_KEYS, FLOOR_EDGES, ROOF_EDGES};
use crate::model::{HingeSide, OpeningKind, Wall, Word};
use serde_json::{Value, json};

pub(super) fn room() -> Value {
    Keys::of("The room inside")
        .need("length", "Front to rear, mm", number())
        .need("width", "Left to right, mm", number())
        .need("height", "Floor to roof lining at the side walls, mm", number())
        .opt("roof", "", by_name("roof"))
        .opt("shell", "", by_name("shell"))
        .opt("walls", "", walls())
        .opt("cutaways", "Parts of the room that the shell takes", named(by_name("cutaway")))
        .closed()
}

fn walls() -> Value {
    let keys = ["sides", "left", "right", "front", "rear"];
    let line = full_list(by_name("pair"));
    Keys::of("How far walls stand inward, `[height, inward]` from the floor up, mm").opts(&keys, "", &line).closed()
}

pub(super) fn roof() -> Value {
    let flat = Keys::of("A level roof").need("shape", "", words(&["flat"])).closed();
    let shaped = Keys::of("A roof that rises to the middle")
        .need("shape", "", words(&["arch", "ridge"]))
        .need("rise", "Of the middle above the side walls, mm", number())
        .closed();
    any([words(&["flat"]), flat, shaped, full_list(by_name("pair"))])
}

pub(super) fn shell() -> Value {
    Keys::of("Layups of the panels").opts(&["walls", "roof", "floor"], "A layup", &by_name("name")).closed()
}

pub(super) fn cutaway() -> Value {
    let edge = |says, edges: &[&str], other: &'static str, on: &'static str| {
        let keys = Keys::of(says).need("edge", "", words(edges)).need("along", "mm", number());
        let long = keys.clone().need(other, on, number()).closed();
        [long, keys.need("angle", "From `along`, degrees", number()).closed()]
    };
    let lying: Vec<&str> = [FLOOR_EDGES, ROOF_EDGES].concat();
    let wedge = any(edge("A wedge off an edge of floor or roof", &lying, "height", "On the wall, mm"));
    let corner = any(edge("A corner seen from above", &CORNERS, "across", "Along the end wall, mm"));
    let faces = Keys::of("Its faces, mm")
        .needs(&["front", "rear", "left", "right", "top"], "", &number())
        .opt("floor", "", number())
        .closed();
    any([wedge, corner, Keys::of("A block, such as a wheel box").need("box", "", faces).closed()])
}

pub(super) fn layer() -> Value {
    let frame = Keys::of("Members set into the layer")
        .need("material", "", by_name("name"))
        .need("width", "Of one, mm", number())
        .need("spacing", "From middle to middle, mm", number());
    Keys::of("A layer")
        .need("material", "", by_name("name"))
        .need("thickness", "mm", number())
        .opt("frame", "", frame.closed())
        .closed()
}

/// Panels of a vent may be roof and floor too.
pub(super) fn opening() -> Value {
    let others: Vec<&str> = OpeningKind::names().into_iter().filter(|kind| *kind != OpeningKind::Vent.name()).collect();
    let upright = Wall::UPRIGHT.map(Wall::name);
    let of = |says, kinds: &[&str], walls: &[&str]| {
        Keys::of(says)
            .need("kind", "", words(kinds))
            .opt("wall", "The panel it is in", words(walls))
            .opts(&["front", "rear", "left", "right"], "Position of this edge, mm", &number())
            .opt("centre", "Middle along the wall, or `[x, y]` in roof or floor, mm", any([number(), by_name("pair")]))
            .opt("run", "Size along the wall, mm", number())
            .opt("depth", "Size across the box in roof or floor, mm", number())
            .opt("sill", "Lower edge above the floor, mm", number())
            .opt("height", "From the sill up, mm", number())
            .opt("radius", "Of the corners, mm", number())
            .opt("hinge", "Side of the hinge", known::<HingeSide>())
            .opt("swings", "Where the leaf goes", words(&["in", "out", "no"]))
            .opt("opens", "How far the leaf opens, degrees", number())
            .opt("slides", "Toward which end of its wall a sliding leaf goes", words(&upright))
            .opt("travel", "How far it goes, mm", number())
            .opt("of", "A door or window of the vehicle itself", words(&["vehicle"]))
            .opt("escape", "A way out in an emergency", by_name("flag"))
            .opt("lining", "Thickness of the lining frame in the hole, mm", number())
            .opt("free-area", "Open to the air even when it is shut, mm²", number())
            .opt("u-value", "Heat transmittance, W/(m²K)", number())
            .closed()
    };
    any([of("An opening", &others, &upright), of("A hole for air that never shuts", &["vent"], &Wall::names())])
}

pub(super) fn zone() -> Value {
    Keys::of("A part of the floor")
        .need("purpose", "What it is for", by_name("purpose"))
        .opts(&EDGE_KEYS, "Position, mm", &number())
        .opt("level", "Zones of one level must not overlap", number())
        .closed()
}

/// Where a module or a load is.
pub(super) fn place() -> Value {
    let edges = ["front", "rear", "left", "right", "floor", "top", "centre-x", "centre-y"];
    Keys::of("Positions of its own edges, mm").opts(&edges, "Position, mm", &number()).closed()
}

pub(super) fn module() -> Value {
    let size = Keys::of("Sizes, mm").opts(&["run", "depth", "height"], "mm", &number());
    let nobody = json!({ "type": "null" });
    let takers = any([by_name("names"), named_some(any([by_name("names"), nobody]))]);
    Keys::of("A piece of furniture")
        .need("symbol", "`group/name`", by_name("symbol-name"))
        .opt("faces", "The side at which a person stands", words(&Wall::UPRIGHT.map(Wall::name)))
        .opt("mirror", "Swap its left and right", by_name("flag"))
        .opt("place", "", place())
        .opt("size", "", size.closed())
        .opt("zone", "The zone that it must lie in", by_name("name"))
        .opt("set", "Settings of the symbol", named(by_name("value")))
        .opt("used-from", "Where people stand who use it", words(&["inside", "outside"]))
        .opt("through", "The opening that it is used or slides out through", by_name("name"))
        .opt("sleepers", "Who sleeps in it", takers.clone())
        .opt("riders", "Who sits in it on the road", takers)
        .closed()
}
