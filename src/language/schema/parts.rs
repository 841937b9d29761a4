//! Parts with their machining, in the schemas of symbols and recipes.

use super::keys::{Keys, any, by_name, just, list, number, words};
use crate::language::lower_symbol::{LOOSE_SIDES, PLACED_SIDES};
use crate::model::{JointWord, LockWord, Word};
use serde_json::{Value, json};

/// `when` and `each`.
pub(super) fn repeated(keys: Keys) -> Keys {
    let each = json!({ "type": "string", "pattern": "^\\s*\\S+\\s* in .*\\.\\." });
    keys.opt("when", "There only when this holds", by_name("condition")).opt(
        "each",
        "Made once for each number: `i in 1..3`",
        each,
    )
}

pub(super) fn part() -> Value {
    let loose = common(&LOOSE_SIDES)
        .opt("outline", "Its shape from the datum corner", by_name("points"))
        .opt("count", "How many", number())
        .needs(&["length", "width"], "mm", &number());
    let places = json!({ "type": "array", "items": by_name("place"), "minItems": 1 });
    let placed = common(&PLACED_SIDES).need("at", "Where it stands", any([by_name("place"), places])).opt(
        "long",
        "Which direction is its length",
        words(&["u", "v", "w"]),
    );
    let outlined = placed.clone().opt("outline", "Its shape from the datum corner", by_name("points"));
    let under_roof = placed.need("under-roof", "Cut off so far below the roof lining, mm", number());
    any([loose.closed(), outlined.closed(), under_roof.closed()])
}

fn common(sides: &[&'static str]) -> Keys {
    let sides = |says| Keys::of(says).opts(sides, "mm", &number()).closed();
    repeated(Keys::of("A part"))
        .need("stock", "The sheet material", by_name("name"))
        .opt("grain", "Which way it runs", words(&["length", "width", "free"]))
        .opt("bands", "", sides("Thicknesses of edge bands"))
        .opt("scribe", "", sides("Left on for fitting to a curved wall or roof"))
        .opt("grooves", "", list(by_name("groove")))
        .opt("holes", "", list(by_name("hole")))
        .opt("cutouts", "Openings right through", list(by_name("cutout")))
        .opt("faced", "Its two faces differ", by_name("flag"))
        .opt("held", "The hardware that holds it", by_name("name"))
        .opt("joint", "What holds it to others in the place of what is usual", joint())
        .opt("lock", "What shuts a front, or what it is opened by", words(&LockWord::names()))
        .opt("load", "What it is made to carry, kg/m²", number())
        .opt("clear", "Room that is wanted around it, mm", number())
        .opt("note", "A word for the joiner", by_name("text"))
}

fn joint() -> Value {
    let by = || words(&JointWord::names());
    let figures = Keys::of("A joint with its figures").need("by", "Which", by());
    let figures = figures.opts(&["diameter", "length", "pitch"], "mm", &number());
    any([by(), figures.closed()])
}

pub(super) fn place() -> Value {
    let block = Keys::of("A board along the axes").needs(&["u", "v", "w"], "", &by_name("range")).opt(
        "face",
        "Where its machined face looks",
        words(&PLACED_SIDES),
    );
    let slope = Keys::of("A sloping board").need("u", "", by_name("range")).need(
        "slope",
        "Its lower face seen from the side, `[[v, w], [v, w]]`",
        just(2, &by_name("pair")),
    );
    any([block.closed(), slope.closed()])
}

pub(super) fn groove() -> Value {
    repeated(Keys::of("A groove"))
        .needs(&["from", "to"], "End of its middle line", &by_name("pair"))
        .needs(&["width", "depth"], "mm", &number())
        .opt("holds", "The hardware that is laid into it", by_name("name"))
        .opt("reverse", "On the back of the board", by_name("flag"))
        .closed()
}

pub(super) fn hole() -> Value {
    repeated(Keys::of("A round hole"))
        .need("at", "Its middle", by_name("pair"))
        .need("diameter", "mm", number())
        .opt("depth", "mm; right through if left out", number())
        .opt("reverse", "On the back of the board", by_name("flag"))
        .closed()
}

pub(super) fn cutout() -> Value {
    let cutout = || repeated(Keys::of("An opening right through")).need("name", "What for", by_name("text"));
    let rect = Keys::of("A rectangle").needs(&["length", "width"], "", &by_name("range"));
    any([
        cutout().need("rect", "", rect.closed()).closed(),
        cutout().need("outline", "", by_name("points")).closed(),
        cutout().need("circle", "Its middle", by_name("pair")).need("radius", "mm", number()).closed(),
    ])
}
