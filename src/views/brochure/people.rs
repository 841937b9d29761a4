//! People in one arrangement: asleep in their beds at night, else on seats; and the beds made for them.

use super::figure::{self, Stance};
use crate::drawing::{Fill, Item, LineClass};
use crate::figures::{self, Lying, Sitting};
use crate::geometry::Axis;
use crate::model::{Arrangement, Model, Person, PlanLine, Wall};
use crate::views::kit::piece::{Owner, Piece};
use crate::views::kit::placement::Placement;
use kurbo::{Affine, BezPath, Point, Rect, Shape};

/// In an arrangement of this name nobody is aboard.
const TRAVEL: &str = "travel";
/// From the head of a bed to the middle of the pillow, and a pillow's size along and across, mm; common practice.
const PILLOW: (f64, f64, f64) = (235.0, 340.0, 560.0);
/// From the head of a bed to the blanket, and the part of it that is turned back, mm; by eye.
const BLANKET: (f64, f64) = (560.0, 130.0);
/// From the head of a bed to the top of a sleeper's head, mm; by eye.
const CROWN: f64 = 125.0;
/// Room for one who sits, side by side with others, mm; common practice.
const SEAT: f64 = 550.0;

/// The frame of one berth: x from the head of the bed to its foot, y across, from the middle.
struct Berth<'a> {
    lying: Lying<'a>,
    stance: Stance,
    length: f64,
    width: f64,
    paper: Affine,
}

/// Everything about people and bedding in an arrangement.
pub(super) fn pieces(model: &Model, arrangement: &Arrangement, place: &Placement) -> Vec<Piece> {
    let paper = Affine::translate(place.origin.to_vec2()) * Affine::scale(1.0 / place.scale);
    let asleep = figures::is_night(model, arrangement);
    let berths = figures::lying(model, arrangement);
    let mut pieces: Vec<Piece> = Vec::new();
    for lying in berths.iter().copied() {
        let lines: Vec<&PlanLine> = pillows(model, arrangement, &lying).collect();
        let berth = Berth::new(lying, &lines, paper);
        pieces.extend(berth.pieces(asleep));
    }
    let lie_down = asleep && berths.iter().any(|berth| berth.sleeper.is_some());
    if !lie_down && arrangement.name != TRAVEL {
        pieces.extend(seated(model, arrangement, paper));
    }
    pieces
}

/// The lines of a bed's symbol that lie in a berth: its pillows.
pub(super) fn pillows<'a>(
    model: &'a Model,
    arrangement: &'a Arrangement,
    lying: &Lying<'a>,
) -> impl Iterator<Item = &'a PlanLine> {
    let rect = lying.rect.inflate(1.0, 1.0);
    let (name, top) = (lying.module.name.clone(), lying.top);
    let own = model.states(arrangement).filter(move |(module, _)| module.name == name);
    own.flat_map(|(_, state)| &state.linework).filter(move |line| {
        let bounds = line.path.bounding_box();
        (line.height - top).abs() < 1.0 && rect.contains(bounds.center()) && bounds.area() > 0.0
    })
}

impl<'a> Berth<'a> {
    /// The head is where the symbol draws pillows, else at the front or the left.
    fn new(lying: Lying<'a>, pillows: &[&PlanLine], paper: Affine) -> Self {
        let (rect, middle) = (lying.rect, lying.rect.center());
        let drawn = pillows.iter().map(|line| line.path.bounding_box().center()).next();
        let lengthwise = lying.along != Axis::Y;
        let at_high = drawn.is_some_and(|at| if lengthwise { at.x > middle.x } else { at.y > middle.y });
        let (at, turn) = match (lengthwise, at_high) {
            (true, false) => (Point::new(rect.x0, middle.y), 0.0),
            (true, true) => (Point::new(rect.x1, middle.y), 180.0),
            (false, false) => (Point::new(middle.x, rect.y0), 90.0),
            (false, true) => (Point::new(middle.x, rect.y1), 270.0),
        };
        let (length, width) = if lengthwise { (rect.width(), rect.height()) } else { (rect.height(), rect.width()) };
        Self { lying, stance: Stance { at, turn, paper }, length, width, paper }
    }

    /// Pillow, sleeper and blanket, from below.
    fn pieces(&self, asleep: bool) -> Vec<Piece> {
        let (name, top) = (&self.lying.module.name, self.lying.top);
        let bedding = Owner::new((format!("bedding-{name}"), format!("Bedding of {name}")));
        let mut pieces = Vec::new();
        let mut lay = |shape: BezPath, line: LineClass, fill: Fill| {
            let height = top + 0.1 + 0.01 * pieces.len() as f64;
            pieces.push(Piece::area(height, &bedding, shape, line, fill));
        };
        let half = (PILLOW.2 / 2.0).min(self.width / 2.0 - 30.0);
        let pillow = Rect::new(PILLOW.0 - PILLOW.1 / 2.0, -half, PILLOW.0 + PILLOW.1 / 2.0, half);
        lay(self.stance.place(&pillow.to_rounded_rect(70.0)), LineClass::Detail, Fill::Paper);
        let side = self.width / 2.0 - 18.0;
        let blanket = Rect::new(BLANKET.0, -side, self.length - 25.0, side);
        let fold = Rect { x1: BLANKET.0 + BLANKET.1, ..blanket };
        lay(self.stance.place(&blanket.to_rounded_rect(45.0)), LineClass::Detail, Fill::Bedding);
        lay(self.stance.place(&fold.to_rounded_rect(45.0)), LineClass::Detail, Fill::Paper);
        if let Some(person) = self.lying.sleeper.filter(|_| asleep) {
            self.sleeper(person, &mut pieces);
        }
        pieces
    }

    /// Head and shoulders go between pillow and blanket, the body's shape onto it.
    fn sleeper(&self, person: &Person, pieces: &mut Vec<Piece>) {
        let owner = Owner::new((format!("person-{}", person.name), format!("Person: {}", person.name)));
        let height = person.stature.min(self.length - CROWN);
        let ahead = Affine::rotate(self.stance.turn.to_radians()) * Point::new(CROWN, 0.0);
        let stance = Stance { at: self.stance.at + ahead.to_vec2(), turn: self.stance.turn, paper: self.paper };
        let blanket = pieces.split_off(1.min(pieces.len()));
        let top = self.lying.top;
        let put = |items: Vec<Item>, pieces: &mut Vec<Piece>| {
            for item in items {
                let height = top + 0.1 + 0.01 * pieces.len() as f64;
                pieces.push(Piece { height, owner: Owner::clone(&owner), item });
            }
        };
        put(figure::lying_body(&stance, height), pieces);
        for piece in blanket {
            let height = top + 0.1 + 0.01 * pieces.len() as f64;
            pieces.push(Piece { height, ..piece });
        }
        let from = BLANKET.0 + BLANKET.1 - CROWN;
        let body = figure::under_blanket(height, from, self.length - CROWN - 60.0);
        put(vec![Item::line(stance.place(&body), LineClass::Figure)], pieces);
    }
}

/// People on seats, in turn on each so that they face each other; those who find none are left out.
fn seated(model: &Model, arrangement: &Arrangement, paper: Affine) -> Vec<Piece> {
    let places: Vec<Sitting<'_>> =
        figures::sitting(model, arrangement).into_iter().filter(|place| place.seat.is_some()).collect();
    let rows = places.iter().map(|place| place.people).max().unwrap_or(0);
    let in_turn =
        (0..rows).flat_map(|row| places.iter().filter(move |place| row < place.people).map(move |p| (row, p)));
    let mut pieces = Vec::new();
    for (person, (row, place)) in model.people.iter().zip(in_turn) {
        let owner = Owner::new((format!("person-{}", person.name), format!("Person: {}", person.name)));
        let stance = seat(place, row, person, paper);
        let low = place.seat.unwrap_or(0.0);
        let legs = figure::sitting_legs(&stance, person.stature).into_iter().map(|item| (low + 10.0, item));
        let body = figure::sitting_body(&stance, person.stature).into_iter().map(|item| (low + 600.0, item));
        pieces.extend(legs.chain(body).map(|(height, item)| Piece { height, owner: Owner::clone(&owner), item }));
    }
    pieces
}

/// Where one sits: back to the back of the place, beside the others.
fn seat(place: &Sitting<'_>, row: u32, person: &Person, paper: Affine) -> Stance {
    let Rect { x0, y0, x1, y1 } = place.rect;
    let back = 0.085 * person.stature;
    let share = |low: f64, high: f64| {
        let room = ((high - low) / f64::from(place.people)).max(SEAT.min(high - low));
        (low + room * (f64::from(row) + 0.5)).min(high - room / 2.0)
    };
    let (at, turn) = match place.faces {
        Wall::Front => (Point::new(x1 - back, share(y0, y1)), 180.0),
        Wall::Left => (Point::new(share(x0, x1), y1 - back), 270.0),
        Wall::Right => (Point::new(share(x0, x1), y0 + back), 90.0),
        Wall::Rear | Wall::Roof | Wall::Floor => (Point::new(x0 + back, share(y0, y1)), 0.0),
    };
    Stance { at, turn, paper }
}
