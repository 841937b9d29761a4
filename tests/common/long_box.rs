//! Clean layouts of many modules, for measuring time: a living box made longer, one room after the other.

use super::generator::plan::{Form, Opening, Piece, Plan, Range, Roof, Side};

/// Length of one room and width of a row of them, mm.
const ROOM: f64 = 2600.0;
const ROW: f64 = 2300.0;
/// Rooms in a row: a box is at most 100 m long.
const ROOMS: usize = 34;
/// Free floor before the rooms of a box with more than one row, from row to row, mm.
const PASSAGE: f64 = 1200.0;

/// Where a room stands: its row from the left, and how far its front wall is from the box's.
#[derive(Debug, Clone, Copy)]
struct Spot {
    room: usize,
    rows: usize,
    row: usize,
    start: f64,
}

impl Spot {
    fn new(room: usize, rooms: usize) -> Self {
        let rows = rooms.div_ceil(ROOMS);
        let each = rooms.div_ceil(rows);
        let (row, place) = (room / each, room % each);
        Self { room, rows, row, start: ROOM * place as f64 + if rows > 1 { PASSAGE } else { 0.0 } }
    }
}

/// A box of so many rooms, each with thirteen modules, and a lift bed at its rear, in three arrangements; rooms that do
/// not fit into a row begin another one beside it. `turn` makes the box a little longer, so that each is a layout of its own.
pub fn long_box(rooms: usize, turn: u32) -> Plan {
    let spots: Vec<Spot> = (0..rooms).map(|room| Spot::new(room, rooms)).collect();
    let end = spots.iter().map(|spot| spot.start + ROOM).fold(0.0, f64::max);
    let rows = spots.last().map_or(1, |spot| spot.row + 1);
    let length = end + 1500.0 + f64::from(turn % 1000) * 0.25;
    let mut plan = Plan {
        title: format!("Long box of {rooms} rooms"),
        length,
        width: ROW * rows as f64,
        height: 2150.0,
        roof: Roof::Arch(60.0),
        cutaways: Vec::new(),
        openings: Vec::new(),
        zones: Vec::new(),
        people: vec![1810.0, 1690.0],
        pieces: Vec::new(),
        arrangements: ["day", "night", "travel"].map(|name| (name.to_owned(), Vec::new())).to_vec(),
        routes: Vec::new(),
        more: "accepted:\n  - { check: bed-access, of: bed, because: the inner sleeper climbs over }\n".to_owned(),
    };
    for spot in spots {
        furnish(&mut plan, spot);
    }
    bed(&mut plan);
    boot(&mut plan);
    plan
}

fn piece(name: String, symbol: &'static str, faces: Side, x: (f64, f64), y: (f64, f64)) -> Piece {
    Piece {
        name,
        symbol,
        faces,
        mirror: false,
        x: Range::new(x.0, x.1, Form::Low),
        y: Range::new(y.0, y.1, if faces == Side::Left { Form::High } else { Form::Low }),
        height: None,
        upward: String::new(),
        set: String::new(),
        more: String::new(),
    }
}

/// Symbol, name, where it begins in the room, run, depth, height, upward, settings.
type Row = (&'static str, &'static str, f64, f64, f64, Option<f64>, &'static str, &'static str);

const LEFT: [Row; 8] = [
    ("galley/base-run", "galley", 0.0, 1100.0, 540.0, None, "", "drawers: 3"),
    ("galley/drawer-fridge", "fridge", 1100.0, 500.0, 540.0, None, "", ""),
    ("galley/tall-cupboard", "pantry", 1600.0, 450.0, 540.0, Some(1900.0), "", ""),
    ("stow/wardrobe", "wardrobe", 2050.0, 540.0, 540.0, Some(1900.0), "", ""),
    ("stow/overhead-locker", "over", 0.0, 1100.0, 320.0, Some(340.0), ", top: 2150", ""),
    ("stow/shelf", "shelf", 1100.0, 500.0, 200.0, Some(220.0), ", floor: 1360", ""),
    ("stow/shelf", "board", 0.0, 1100.0, 140.0, Some(220.0), ", floor: 1250", ""),
    ("stow/shelf", "high-shelf", 1110.0, 480.0, 200.0, Some(220.0), ", floor: 1700", ""),
];

const RIGHT: [Row; 5] = [
    ("stow/bench-seat", "bench", 900.0, 900.0, 450.0, None, "", ""),
    ("stow/technical-locker", "locker", 1800.0, 780.0, 450.0, None, "", "batteries: 1, tank: yes"),
    ("stow/shelf", "books", 900.0, 900.0, 180.0, Some(220.0), ", floor: 1500", ""),
    ("stow/shelf", "box-shelf", 1800.0, 780.0, 200.0, Some(220.0), ", floor: 1150", ""),
    ("stow/overhead-locker", "chest", 1800.0, 780.0, 320.0, Some(300.0), ", top: 2150", ""),
];

fn furnish(plan: &mut Plan, spot: Spot) {
    let Spot { room, rows, row, start } = spot;
    let (left, right) = (ROW * row as f64, ROW * (row + 1) as f64);
    for (faces, pieces) in [(Side::Right, &LEFT[..]), (Side::Left, &RIGHT[..])] {
        for (symbol, name, at, run, depth, height, upward, set) in pieces {
            let y = (if faces == Side::Right { left } else { right - depth }, *depth);
            let mut piece = piece(format!("{name}-{room}"), symbol, faces, (start + at, *run), y);
            piece.height = *height;
            (piece.upward, piece.set) = ((*upward).to_owned(), (*set).to_owned());
            plan.pieces.push(piece);
        }
    }
    if !room.is_multiple_of(3) {
        table(plan, room, (start + 100.0, right - 400.0));
    } else if row + 1 == rows {
        let along = Range::new(start + 120.0, 640.0, Form::Low);
        plan.openings.push(opening(&format!("door-{room}"), "door", Side::Right, along, (0.0, 1880.0)));
    }
    if row == 0 {
        let along = Range::new(start + 200.0, 700.0, Form::Low);
        plan.openings.push(opening(&format!("window-{room}"), "window", Side::Left, along, (1500.0, 250.0)));
    }
}

/// Room for large things under the bed.
fn boot(plan: &mut Plan) {
    plan.pieces.retain(|piece| piece.name != "high-shelf-0");
    let mut boot = piece("boot".to_owned(), "stow/boot", Side::Front, (plan.length - 1370.0, 1370.0), (0.0, ROW));
    boot.height = Some(500.0);
    boot.y = Range::new(0.0, ROW, Form::Both);
    plan.pieces.push(boot);
    let along = Range::new(plan.length - 1200.0, 900.0, Form::Low);
    plan.openings.push(opening("boot-hatch", "hatch", Side::Left, along, (60.0, 420.0)));
}

/// A drop table in the place of a shelf, in another pose in each arrangement.
fn table(plan: &mut Plan, room: usize, at: (f64, f64)) {
    plan.pieces.retain(|piece| piece.name != format!("board-{room}"));
    let name = format!("table-{room}");
    plan.pieces.push(piece(name.clone(), "lounge/drop-table", Side::Left, (at.0, 700.0), (at.1, 400.0)));
    for ((_, poses), pose) in plan.arrangements.iter_mut().zip(["up", "down", "stowed"]) {
        poses.push((name.clone(), pose));
    }
}

fn opening(name: &str, kind: &'static str, wall: Side, along: Range, up: (f64, f64)) -> Opening {
    let door = kind == "door";
    Opening {
        name: name.to_owned(),
        kind,
        wall: Some(wall),
        along,
        across: None,
        sill: up.0,
        height: up.1,
        hinge: door.then_some(Side::Front),
        swings: if door { "out" } else { "no" },
        more: if name == "bed-window" { ", escape: true".to_owned() } else { String::new() },
    }
}

fn bed(plan: &mut Plan) {
    let mut bed = piece("bed".to_owned(), "bed/lift-double", Side::Front, (plan.length - 1400.0, 1400.0), (0.0, ROW));
    bed.x.form = Form::High;
    bed.height = Some(2100.0);
    bed.y = Range::new(0.0, ROW, Form::Both);
    bed.more = ", sleepers: [p0, p1]".to_owned();
    plan.pieces.push(bed);
    for (arrangement, poses) in &mut plan.arrangements {
        let pose = if arrangement == "night" { "lowered" } else { "raised" };
        poses.push(("bed".to_owned(), pose));
    }
    let across = Range::new(800.0, 700.0, Form::Low);
    plan.openings.push(opening("bed-window", "window", Side::Rear, across, (1300.0, 450.0)));
}
