//! Leaves and what they hang on: the number of hinges, their places on the rows, and the boards that take their plates.

use super::hanging::{Bearer, Hanging, bearers, hanging};
use super::pieces::{Piece, middle, point};
use super::practice::{CUP, HINGE_END, PIANO_GAP, PLATE_OFF_ROW, ROW, hinge_count};
use super::room::Rooms;
use super::strut;
use crate::geometry::{Axis, Box3};
use crate::model::{Hinge, Hung, Leaf, Move, Stock};

/// All leaves of a module.
pub(super) fn leaves(pieces: &[Piece<'_>], moves: &[Move], stocks: &[Stock], rooms: &mut Rooms<'_>) -> Vec<Leaf> {
    let hanging: Vec<Hanging<'_, '_>> = hanging(pieces, moves);
    let foot =
        |of: &Hanging<'_, '_>| bearers(of, pieces).iter().map(|one| one.piece.bounds.range(of.axis).0).reduce(f64::min);
    let floor = hanging.iter().filter(|of| of.axis == Axis::Z).filter_map(foot).reduce(f64::min);
    let leaf = |of: &Hanging<'_, '_>| {
        let mass = stocks.get(of.piece.part.stock).map_or(0.0, |stock| of.piece.part.mass(stock));
        let (tall, wide) = (of.piece.size(of.axis), of.piece.size(of.away));
        let hung = match () {
            () if of.walk_through => Hung::Door,
            () if of.lies_flat() => Hung::Piano,
            () => Hung::Cups,
        };
        let hinges = match hung {
            Hung::Door => door_hinges(of, pieces, hinge_count(tall, mass).max(3)),
            Hung::Piano => vec![piano(of, pieces)],
            Hung::Cups => {
                let bearers = bearers(of, pieces);
                let range = of.piece.bounds.range(of.axis);
                // Rows of a level hinge line begin in its middle, so that left and right are alike.
                let datum = if of.axis == Axis::Z { floor.unwrap_or(range.0) } else { middle(range) - PLATE_OFF_ROW };
                cups(of, &bearers, datum, hinge_count(tall, mass), rooms)
            }
        };
        let strut =
            (hung == Hung::Cups && of.axis != Axis::Z && !of.high).then(|| strut::force(mass, wide, of.swing.opens));
        Leaf { piece: of.piece.at, turns: of.turns, hung, axis: of.axis, tall, wide, hinges, strut }
    };
    hanging.iter().map(leaf).collect()
}

/// Cup hinges on the rows, each at the nearest place to an even share that a board has room for.
fn cups(
    of: &Hanging<'_, '_>,
    bearers: &[Bearer<'_, '_>],
    datum: f64,
    count: usize,
    rooms: &mut Rooms<'_>,
) -> Vec<Hinge> {
    let range = of.piece.bounds.range(of.axis);
    let tall = range.1 - range.0;
    let end = HINGE_END.min(tall / 4.0);
    let step = (tall - 2.0 * end) / (count.max(2) - 1) as f64;
    let mut hinges: Vec<Hinge> = Vec::new();
    let mut after = range.0 + CUP.0;
    for index in 0..count {
        let wanted = range.0 + end + step * index as f64;
        let reach = (step / 2.0).max(2.0 * ROW);
        let row = |steps: i32| {
            datum + PLATE_OFF_ROW + ROW * (((wanted - datum - PLATE_OFF_ROW) / ROW).round() + f64::from(steps))
        };
        let mut places: Vec<f64> = (-40..=40).map(row).filter(|at| (at - wanted).abs() <= reach).collect();
        places.retain(|at| *at >= after && *at <= range.1 - CUP.0);
        places.sort_by(|a, b| (a - wanted).abs().total_cmp(&(b - wanted).abs()).then(a.total_cmp(b)));
        let found = places
            .iter()
            .find_map(|at| bearers.iter().find(|bearer| rooms.has(of, bearer, *at)).map(|bearer| (*at, bearer)));
        let at = found.map_or(places.first().copied().unwrap_or(wanted), |(at, _)| at);
        after = at + 2.0 * ROW;
        let cup = point([(of.axis, at), (of.away, of.off_edge(CUP.2)), (of.through, of.inner())]);
        let bearer = found.map(|(at, bearer)| {
            rooms.take(of, bearer, at);
            let back = of.behind(bearer.front, bearer.setback(of.piece.part.thickness));
            (bearer.piece.at, point([(of.axis, at), (of.away, bearer.face), (of.through, back)]))
        });
        hinges.push(Hinge { at: cup, bearer });
    }
    hinges
}

/// Hinges of a door at the board beside its hinge edge.
fn door_hinges(of: &Hanging<'_, '_>, pieces: &[Piece<'_>], count: usize) -> Vec<Hinge> {
    let range = of.piece.bounds.range(of.axis);
    let end = 150.0_f64.min((range.1 - range.0) / 4.0);
    let step = (range.1 - range.0 - 2.0 * end) / (count.max(2) - 1) as f64;
    let hinge = |index: usize| {
        let at = range.0 + end + step * index as f64;
        let covers = |piece: &&Piece<'_>| {
            let (low, high) = piece.bounds.range(of.axis);
            low <= at - PLATE_HALF_DOOR && high >= at + PLATE_HALF_DOOR && beside(of, piece, 8.0)
        };
        let found = pieces.iter().filter(|piece| piece.moves.is_none()).find(covers);
        let place = point([(of.axis, at), (of.away, of.edge()), (of.through, of.inner())]);
        Hinge { at: place, bearer: found.map(|piece| (piece.at, place)) }
    };
    (0..count).map(hinge).collect()
}

/// Half of the height of a door's hinge, mm.
const PLATE_HALF_DOOR: f64 = 40.0;

/// Whether a board goes on beside the hinge edge, in the thickness of the leaf.
fn beside(of: &Hanging<'_, '_>, piece: &Piece<'_>, gap: f64) -> bool {
    let (low, high) = piece.bounds.range(of.away);
    let gap_to = if of.high { of.edge() - high } else { low - of.edge() };
    (-0.05..=gap).contains(&gap_to)
        && super::pieces::meet(piece.bounds.range(of.through), of.piece.bounds.range(of.through)).is_some()
}

/// A piano hinge: on the board beside the edge, or on the one below it.
fn piano(of: &Hanging<'_, '_>, pieces: &[Piece<'_>]) -> Hinge {
    let range = of.piece.bounds.range(of.axis);
    let covered = |piece: &&Piece<'_>| {
        super::pieces::meet(piece.bounds.range(of.axis), range).map_or(0.0, |both| both.1 - both.0)
            >= 0.8 * (range.1 - range.0)
    };
    let below = |piece: &Piece<'_>| {
        let under: Box3 = piece.bounds;
        let (low, high) = under.range(of.away);
        let touches = (if of.inward_high { under.range(of.through).0 } else { under.range(of.through).1 }) - of.inner();
        touches.abs() <= 1.0 && low <= of.edge() + PIANO_GAP && high >= of.edge() - PIANO_GAP
    };
    let own = |piece: &&Piece<'_>| piece.moves.is_none() && covered(piece);
    let found = pieces.iter().filter(own).find(|piece| beside(of, piece, PIANO_GAP));
    let found = found.or_else(|| pieces.iter().filter(own).find(|piece| below(piece)));
    let at = point([(of.axis, middle(range)), (of.away, of.edge()), (of.through, of.inner())]);
    Hinge { at, bearer: found.map(|piece| (piece.at, at)) }
}
