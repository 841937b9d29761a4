//! Distances by hand.

use super::*;
use crate::checks::testing::{block, box3, door, model, run, solid, space, with, with_opening};
use crate::model::Wall;
use crate::model::testing::{load, said};

/// A door in the right wall from x = 1000 to 1600, a hob at the left wall from x = 2000, and an extinguisher at a place.
fn hangs(at: Option<(f64, f64)>) -> Model {
    let mut galley = block("galley", box3((1800.0, 3000.0), (0.0, 600.0), (0.0, 900.0)));
    let mut hob = solid("hob", box3((2000.0, 2400.0), (50.0, 550.0), (860.0, 905.0)).into());
    hob.tags.push(said("hob"));
    galley.poses[0].solids.push(hob);
    let mut model = with(model(space(4000.0, 2000.0, 2000.0)), galley);
    model = with_opening(model, door("entry", Wall::Right, (1000.0, 1600.0)));
    model.loads.extend(at.map(|(x, y)| {
        let mut load = load("powder", [x, y, 600.0], [120.0, 120.0, 400.0], 2.0);
        load.kind = LoadKind::Extinguisher;
        load
    }));
    model
}

fn said_of(at: (f64, f64)) -> Vec<String> {
    run(&Extinguisher, &hangs(Some(at))).into_iter().map(|one| one.message).collect()
}

#[test]
fn within_a_metre_of_the_door() {
    // The door lies in the outermost millimetre of the room.
    assert!(said_of((600.0, 1999.0)).is_empty());
    assert!(said_of((0.0, 1999.0)).is_empty(), "1,000 mm");
    assert_eq!(said_of((2601.0, 1999.0)), ["`powder` hangs 1001 mm from the door `entry`, of 1000 mm at most"]);
}

#[test]
fn half_a_metre_from_the_hob() {
    assert!(said_of((1500.0, 1050.0)).is_empty());
    assert_eq!(
        said_of((2000.0, 1049.0)),
        [
            "`powder` hangs 1030.8 mm from the door `entry`, of 1000 mm at most",
            "`powder` hangs 499 mm from the hob of `galley`, at least 500 mm"
        ]
    );
}

#[test]
fn a_note_where_there_is_none() {
    let found = run(&Extinguisher, &hangs(None));
    assert_eq!((found.len(), found[0].severity), (1, Severity::Note));
    assert!(run(&Extinguisher, &model(space(4000.0, 2000.0, 2000.0))).is_empty(), "an empty box burns nothing");
    let mut two = hangs(Some((3900.0, 100.0)));
    two.loads.extend(hangs(Some((800.0, 1900.0))).loads);
    assert!(run(&Extinguisher, &two).is_empty(), "the one by the door counts");
}
