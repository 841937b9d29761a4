//! A cabinet put together by hand: two sides, a bottom, a shelf, a door. Figures by hand from the rules in `symbols/README.md`.

use super::*;
use crate::geometry::{Box3, Point3};
use crate::joinery::fixture::{part, stock};
use crate::model::{
    Chosen, Fixing, JointWord, Lies, LockWord, Machining, Meeting, Move, MoveKind, Partner, PieceAt, Place, Swing,
    Toward, Word,
};
use crate::source::Span;
use kurbo::Point;

fn board(name: &str, at: [(f64, f64); 3], [length, width, face]: [Axis; 3], face_up: bool) -> Part {
    let at = Box3 { x: at[0], y: at[1], z: at[2] };
    let size = |axis: Axis| at.range(axis).1 - at.range(axis).0;
    let toward = |axis| Toward { axis, up: true };
    let lies = Lies { length: toward(length), width: toward(width), face: Toward { axis: face, up: face_up } };
    let places = vec![Place { solid: at.into(), lies: Some(lies) }];
    Part { thickness: size(face), places, ..part(name, 1, size(length), size(width)) }
}

const UPRIGHT: [Axis; 3] = [Axis::Z, Axis::Y, Axis::X];
const LEVEL: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];
const FRONT: [Axis; 3] = [Axis::Z, Axis::X, Axis::Y];

fn carcass() -> Vec<Part> {
    vec![
        board("left", [(0.0, 15.0), (0.0, 300.0), (0.0, 800.0)], UPRIGHT, true),
        board("right", [(585.0, 600.0), (0.0, 300.0), (0.0, 800.0)], UPRIGHT, false),
        board("bottom", [(15.0, 585.0), (0.0, 300.0), (0.0, 15.0)], LEVEL, true),
    ]
}

fn door() -> (Part, Move) {
    let part = board("door", [(1.5, 598.5), (-15.0, 0.0), (1.5, 798.5)], FRONT, true);
    let swing = Swing {
        axis: Axis::Z,
        hinge: Point::new(1.5, -15.0),
        along: (1.5, 798.5),
        length: 597.0,
        thickness: 15.0,
        shut: 0.0,
        opens: -95.0,
    };
    let turns =
        Move { name: "door".to_owned(), kind: MoveKind::Swing(swing), walk_through: false, span: Span::default() };
    (part, turns)
}

fn pose(moves: Vec<Move>) -> PoseState {
    PoseState { name: "only".to_owned(), solids: vec![], spaces: vec![], moves, linework: vec![], exports: vec![] }
}

fn made(parts: Vec<Part>, moves: Vec<Move>) -> (Vec<Part>, Vec<Hardware>, Together) {
    put_together(parts, &pose(moves), &[stock()], Wall::Left)
}

/// 300 mm of edge: 40 from both ends, 220 between in two spans of 110.
#[test]
fn a_bottom_is_screwed_between_two_sides() {
    let (parts, hardware, together) = made(carcass(), vec![]);
    assert_eq!(together.joints.len(), 2);
    let joint = &together.joints[0];
    let at = |piece: PieceAt| parts[piece.part].name.as_str();
    assert_eq!((at(joint.one), joint.meeting), ("left", Meeting::EdgeOnFace));
    assert_eq!(joint.fixing, Fixing::Screws { diameter: 4.0, length: 50.0, glued: false });
    let places: Vec<f64> = joint.points.iter().map(|point| point.y).collect();
    assert_eq!(places, [40.0, 150.0, 260.0]);
    assert!(joint.points.iter().all(|point| (point.x, point.z) == (15.0, 7.5)));
    let screws: Vec<_> = hardware.iter().map(|one| (one.name.as_str(), one.count, one.size)).collect();
    assert_eq!(screws, [("carcass-screw", 6, Some(50.0))]);
}

/// Through the side from its face, 7.5 mm up; into the bottom's short edge, in the middle of its thickness.
#[test]
fn pilot_holes_are_told_for_both_pieces() {
    let (parts, _, together) = made(carcass(), vec![]);
    let all = bores(&parts, &together.joints[0]);
    assert_eq!(all.len(), 6);
    let (through, edge) = (all[0], all[1]);
    assert_eq!((through.side, through.at, through.diameter, through.depth), (BoreSide::Face, (7.5, 40.0), 3.0, None));
    assert_eq!((edge.side, edge.at, edge.diameter, edge.depth), (BoreSide::Left, (40.0, 7.5), 2.5, Some(30.0)));
}

/// Rows begin at the lower end of the side, plates half a row off: 16 + 32 k. 100 mm from the ends of the door is 101.5 and
/// 698.5; the nearest are 112 and 688, so plates have bores at 96, 128, 672 and 704, 37 mm behind the edge.
#[test]
fn a_door_hangs_on_the_rows_of_its_side() {
    let (door, turns) = door();
    let (parts, hardware, together) = made([carcass(), vec![door]].concat(), vec![turns]);
    let leaf = &together.leaves[0];
    let cups: Vec<Point3> = leaf.hinges.iter().map(|hinge| hinge.at).collect();
    assert_eq!(cups, [112.0, 688.0].map(|z| Point3 { x: 24.0, y: 0.0, z }));
    let plates: Vec<_> =
        leaf.hinges.iter().map(|hinge| hinge.bearer.map(|(piece, at)| (parts[piece.part].name.clone(), at))).collect();
    assert_eq!(plates[1], Some(("left".to_owned(), Point3 { x: 15.0, y: 37.0, z: 688.0 })));
    let holes = |name: &str| {
        let part = parts.iter().find(|part| part.name == name).unwrap();
        let hole = |one: &Machining| match one {
            Machining::Hole { at, diameter, reverse, .. } => Some((*at, *diameter, *reverse)),
            _ => None,
        };
        part.machining.iter().filter_map(hole).collect::<Vec<_>>()
    };
    assert_eq!(holes("left"), [96.0, 128.0, 672.0, 704.0].map(|z| ((z, 37.0), 5.0, false)));
    assert_eq!(holes("door"), [110.5, 686.5].map(|z| ((z, 22.5), 35.0, false)));
    assert!(holes("right").is_empty());
    assert!(hardware.iter().any(|one| (one.name.as_str(), one.count) == ("hinge", 2)));
    let hung: Vec<_> = together.joints.iter().filter(|joint| joint.meeting == Meeting::Hinged).collect();
    assert!(hung.len() == 1 && hung[0].fixing == Fixing::CupHinges && hung[0].points.len() == 2);
    assert!(
        together.joints.iter().filter(|joint| joint.other == Partner::Piece(leaf.piece)).count() == 1,
        "a door that touches the carcass is not screwed to it"
    );
}

/// A fixed shelf at the place of the lower arm moves that hinge to the next free row: the arm needs 25 mm above and below.
#[test]
fn a_hinge_makes_way_for_a_shelf() {
    let (door, turns) = door();
    let shelf = board("shelf", [(15.0, 585.0), (0.0, 290.0), (120.0, 135.0)], LEVEL, true);
    let (_, _, together) = made([carcass(), vec![shelf, door]].concat(), vec![turns]);
    assert_eq!(together.leaves[0].hinges[0].at.z, 80.0);
}

#[test]
fn a_door_whose_side_is_not_there_hangs_on_nothing() {
    let (door, turns) = door();
    let mut parts = [carcass(), vec![door]].concat();
    parts.remove(0);
    let (_, _, together) = made(parts, vec![turns]);
    assert!(together.leaves[0].hinges.iter().all(|hinge| hinge.bearer.is_none()));
}

/// A symbol's word goes before what is usual.
#[test]
fn a_part_chooses_its_joint() {
    let mut parts = carcass();
    let chosen = Chosen { by: JointWord::Dowel, diameter: None, length: Some(35.0), pitch: Some(100.0) };
    parts[2].joint = Some(chosen);
    let (_, hardware, together) = made(parts.clone(), vec![]);
    assert_eq!(together.joints[0].fixing, Fixing::Dowels { diameter: 6.0, length: 35.0 });
    assert_eq!((hardware[0].name.as_str(), hardware[0].count), ("dowel-6", 8), "25 from the ends, 250 in three spans");
    parts[2].joint = Some(Chosen { by: JointWord::None, diameter: None, length: None, pitch: None });
    let (_, hardware, together) = made(parts, vec![]);
    assert!(hardware.is_empty() && together.joints.iter().all(|joint| joint.fixing == Fixing::Rests));
}

/// Doors on both faces of one board of 15 mm: bores of 11 mm from both sides do not meet.
#[test]
fn plates_on_both_faces_of_a_divider_stand_apart() {
    let (mut first, turns) = door();
    let divider = board("divider", [(292.5, 307.5), (0.0, 300.0), (15.0, 800.0)], UPRIGHT, true);
    let half = |x: (f64, f64)| board("door", [x, (-15.0, 0.0), (1.5, 798.5)], FRONT, true);
    first.places = vec![];
    let swing = |hinge: f64, shut: f64, opens: f64| {
        let MoveKind::Swing(swing) = &turns.kind else { panic!("a swing") };
        let swing = Swing { hinge: Point::new(hinge, -15.0), length: 297.0, shut, opens, ..swing.clone() };
        Move { kind: MoveKind::Swing(swing), ..turns.clone() }
    };
    let moves = vec![swing(298.5, 180.0, 95.0), swing(301.5, 0.0, -95.0)];
    let parts = [carcass(), vec![divider, half((1.5, 298.5)), half((301.5, 598.5))]].concat();
    let (_, _, together) = made(parts, moves);
    let at = |leaf: usize| {
        together.leaves[leaf].hinges.iter().map(|hinge| (hinge.at.z, hinge.bearer.is_some())).collect::<Vec<_>>()
    };
    let all: Vec<(f64, bool)> = at(0).into_iter().chain(at(1)).collect();
    assert!(all.iter().all(|(_, backed)| *backed), "{all:?}");
    assert!(at(0).iter().all(|(a, _)| at(1).iter().all(|(b, _)| (a - b).abs() >= 48.0)), "{all:?}");
}

/// The lock of the door, 40 mm from the edge that opens: kept by the right side; without it, by a rail at the upper end; without both by
/// nothing. A knob asks for no board.
#[test]
fn a_lock_is_bored_where_a_board_keeps_it() {
    let (mut door, turns) = door();
    door.lock = Some(LockWord::PushLock);
    let rail = board("rail", [(15.0, 585.0), (0.0, 15.0), (740.0, 800.0)], FRONT, true);
    let mut with = |boards: Vec<Part>, word: LockWord| {
        door.lock = Some(word);
        let (parts, hardware, together) = made([boards, vec![door.clone()]].concat(), vec![turns.clone()]);
        let lock = together.locks[0].clone();
        assert!(hardware.iter().any(|one| one.name == word.name() && one.count == 1));
        let front = &parts[lock.through[0].part];
        let own = |machining: &Machining| match machining {
            Machining::Hole { at, diameter, depth: None, .. } => Some((*at, *diameter)),
            _ => None,
        };
        let holes: Vec<_> = front.machining.iter().filter_map(own).collect();
        (holes, lock.keep.map(|(piece, at)| (parts[piece.part].name.clone(), at.x, at.z)))
    };
    let all = carcass();
    assert_eq!(
        with(all.clone(), LockWord::PushLock),
        (vec![((398.5, 557.0), 26.0)], Some(("right".to_owned(), 585.0, 400.0)))
    );
    let rest = vec![all[0].clone(), rail];
    assert_eq!(with(rest, LockWord::PushLock), (vec![((757.0, 557.0), 26.0)], Some(("rail".to_owned(), 558.5, 758.5))));
    assert_eq!(with(vec![all[0].clone()], LockWord::PushLock), (vec![((398.5, 557.0), 26.0)], None));
    let (holes, keep) = with(all, LockWord::Handle);
    assert_eq!((holes, keep), (vec![((350.5, 557.0), 5.0), ((446.5, 557.0), 5.0)], None), "96 mm apart");
}
