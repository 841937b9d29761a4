//! The schemas of symbols and recipes.

use super::keys::{Keys, any, at_most, by_name, document, known, known_or_own, list, named, number, own, words};
use super::parts::{cutout, groove, hole, part, place, repeated};
use super::shapes::{line, movement, solid, space};
use crate::language::lower_symbol::MOST_POSES;
use crate::model::{Service, Tag};
use serde_json::Value;

const SAYS: &str = "Lengths are mm, masses kg, angles degrees; an expression may stand in the place of a number";

/// The schema of a symbol file, JSON Schema 2020-12.
#[must_use]
pub fn symbol_schema() -> Value {
    let size = Keys::of("A size").needs(&["default", "least", "most"], "mm", &number()).closed();
    let sizes = Keys::of("Its sizes").needs(&["run", "depth", "height"], "", &size).closed();
    let mass = Keys::of("Masses beside that of the parts, kg")
        .opt("fixed", "Fittings, appliances, cushions", number())
        .opt("contents", "What is usually kept inside", number());
    let head = Keys::of("A symbol")
        .need("symbol", "`group/name`", by_name("symbol-name"))
        .need("says", "One line for legends", by_name("text"))
        .need("size", "", sizes);
    let symbol = made(head)
        .opt("exports", "Values that layouts may refer to", named(by_name("value")))
        .opt("poses", "Variables of each pose", at_most(MOST_POSES, named(named(by_name("value")))))
        .opt("outside", "It stands outside the box", by_name("flag"))
        .opt("tags", "Tags of its own", own())
        .opt("solids", "The room that it fills", named(by_name("solid")))
        .opt("spaces", "The room that people and things need", named(by_name("space")))
        .opt("moves", "What swings, slides or lifts", named(by_name("move")))
        .opt("plan", "Lines of the plan", list(by_name("line")))
        .opt("pieces", "Recipes at places", named(piece()))
        .opt("mass", "", mass.closed())
        .opt("connects", "Services", list(known::<Service>()));
    let shapes = [
        ("tag", known_or_own::<Tag>("name")),
        ("solid", solid()),
        ("space", space()),
        ("move", movement()),
        ("line", line()),
    ];
    document("Symbol", SAYS, symbol.closed(), making().into_iter().chain(shapes).collect())
}

/// The schema of a recipe file, JSON Schema 2020-12.
#[must_use]
pub fn recipe_schema() -> Value {
    let head =
        Keys::of("A recipe").need("recipe", "Its name", by_name("name")).need("says", "One line", by_name("text"));
    document("Recipe", SAYS, made(head).closed(), making())
}

/// What symbols and recipes both have.
fn made(head: Keys) -> Keys {
    head.opt("settings", "What may be chosen", named(by_name("setting")))
        .opt("let", "Names for later expressions", named(by_name("value")))
        .opt("parts", "What is cut from sheets", named(by_name("part")))
        .opt("hardware", "What is bought and fitted", named(by_name("hardware")))
}

fn making() -> Vec<(&'static str, Value)> {
    vec![
        ("setting", setting()),
        ("part", part()),
        ("place", place()),
        ("groove", groove()),
        ("hole", hole()),
        ("cutout", cutout()),
        ("hardware", hardware()),
    ]
}

fn setting() -> Value {
    let ranged = Keys::of("A number")
        .need("kind", "", words(&["whole", "length"]))
        .needs(&["default", "least", "most"], "", &number())
        .closed();
    let yes_no = Keys::of("Yes or no").need("kind", "", words(&["yes-no"])).need("default", "", by_name("condition"));
    let one_of = Keys::of("A word")
        .need("kind", "", words(&["one-of"]))
        .need("default", "", by_name("expression"))
        .need("values", "The words", by_name("names"));
    any([ranged, yes_no.closed(), one_of.closed()])
}

fn piece() -> Value {
    let room = Keys::of("Its room").needs(&["u", "v", "w"], "", &by_name("range"));
    repeated(Keys::of("A recipe at a place"))
        .need("recipe", "", by_name("name"))
        .need("at", "", room.closed())
        .opt("set", "Settings of the recipe", named(by_name("value")))
        .closed()
}

fn hardware() -> Value {
    let sized = Keys::of("Something bought")
        .opt("when", "There only when this holds", by_name("condition"))
        .need("count", "How many", number())
        .opt("size", "mm", number());
    any([number(), sized.closed()])
}
