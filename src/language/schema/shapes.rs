//! Solids, spaces, moves and lines, in the schema of symbols.

use super::keys::{Keys, any, by_name, full_list, number, words};
use super::parts::repeated;
use crate::language::lower_symbol::PLACED_SIDES;
use serde_json::Value;

/// Whether the range upward may be left out.
#[derive(Clone, Copy, PartialEq)]
enum Upward {
    Needed,
    Optional,
}

/// `keys` with each of the four shapes; the first is the block.
fn shaped(keys: &Keys, upward: Upward) -> [Keys; 4] {
    let w = |keys: Keys| match upward {
        Upward::Needed => keys.need("w", "From, to, upward", by_name("range")),
        Upward::Optional => keys.opt("w", "From, to, upward", by_name("range")),
    };
    let keys = || keys.clone();
    [
        w(keys().need("u", "From, to, along the run", by_name("range")).need(
            "v",
            "From, to, backward",
            by_name("range"),
        )),
        w(keys().need("outline", "Seen from above, `[u, v]`", by_name("points"))),
        keys().need("profile", "Seen from the side, `[v, w]`", by_name("points")).need("u", "", by_name("range")),
        keys().need("front", "Seen from the front, `[u, w]`", by_name("points")).need("v", "", by_name("range")),
    ]
}

pub(super) fn solid() -> Value {
    let sides = words(&PLACED_SIDES);
    let keys = repeated(Keys::of("A room that is filled"))
        .opt("tags", "What it is, for checks and drawings", any([by_name("tag"), full_list(by_name("tag"))]))
        .opt("bought", "Bought in: no parts are cut for it", by_name("flag"))
        .opt("open", "Sides that no board closes", any([sides.clone(), full_list(sides)]));
    let [block, others @ ..] = shaped(&keys, Upward::Needed);
    let block = block.opt("under-roof", "Cut off so far below the roof lining, mm", number());
    any([block].into_iter().chain(others).map(Keys::closed))
}

pub(super) fn space() -> Value {
    let of = |needs: &[&str]| {
        repeated(Keys::of("Room that must stay usable"))
            .need("need", "What for", words(needs))
            .opt("people", "For how many", number())
            .opt("along", "Which way people lie", words(&["u", "v"]))
    };
    let stored = of(&["storage"]).opt("carries", "What may be kept in it, kg", number());
    let all = [
        shaped(&of(&["standing", "sitting"]), Upward::Optional),
        shaped(&of(&["lying"]), Upward::Needed),
        shaped(&stored, Upward::Needed),
    ];
    any(all.into_iter().flatten().map(Keys::closed))
}

pub(super) fn movement() -> Value {
    let of = |says| repeated(Keys::of(says)).opt("walk-through", "A door that people walk through", by_name("flag"));
    let slide = of("A drawer, pull-out or lift")
        .need("slides", "", words(&["out", "left", "right", "up", "down"]))
        .needs(&["u", "w"], "", &by_name("range"))
        .opt("v", "`[0, depth]` if left out", by_name("range"))
        .need("travel", "mm", number())
        .opt("after", "The move that must be open first", by_name("name"))
        .opt("through", "It leaves the box through an opening", by_name("flag"));
    let leaf = |across| {
        of("A leaf in an upright plane")
            .need("hinged", "The edge of the hinge, seen from outside", words(&["left", "right", "top", "bottom"]))
            .need(across, "", by_name("range"))
            .need("w", "", by_name("range"))
            .need("opens", "degrees", number())
            .opt("at", "Where its outer face is, mm", number())
            .opt("thickness", "mm", number())
            .opt("inward", "Opens into the module", by_name("flag"))
    };
    let lid = of("A flat lid")
        .need("lid", "The side of the hinge", words(&["back", "front", "left", "right"]))
        .needs(&["u", "v"], "", &by_name("range"))
        .need("at", "Height of its upper face, mm", number())
        .need("opens", "degrees", number())
        .opt("thickness", "mm", number());
    any([
        slide.closed(),
        leaf("u").opt("side", "The plane it lies in", words(&["front", "back"])).closed(),
        leaf("v").need("side", "The plane it lies in", words(&["left", "right"])).closed(),
        lid.closed(),
    ])
}

pub(super) fn line() -> Value {
    let line = || {
        repeated(Keys::of("A line of the plan")).opt("at", "Height above the module's floor, mm", number()).opt(
            "dashed",
            "",
            by_name("flag"),
        )
    };
    let rect = || Keys::of("A rectangle").needs(&["u", "v"], "", &by_name("range")).closed();
    let radius = |keys: Keys| keys.need("radius", "mm", number());
    any([
        line().need("line", "Open, `[u, v]`", by_name("points")).closed(),
        line().need("outline", "Closed, `[u, v]`", by_name("points")).closed(),
        line().need("rect", "", rect()).closed(),
        radius(line().need("round-rect", "", rect())).closed(),
        radius(line().need("circle", "Its middle", by_name("pair"))).closed(),
    ])
}
