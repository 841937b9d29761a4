//! A panel with members, cut across one: lines of equal temperature from the two-dimensional conduction.

use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::model::{Model, Panel, Wall};
use crate::shell::conduction::{Section, panel_section};
use crate::shell::heat::{RSE, rsi};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::{Placement, outline};
use crate::views::kit::words::sentence;
use crate::views::room::gallery::Picture;
use kurbo::{Point, Rect, Size};

/// Degrees from line to line.
const STEP: f64 = 5.0;
/// No further than this from the member is drawn, mm.
const WIDTH: f64 = 120.0;

/// The picture; none for a panel without members.
pub(super) fn picture<'a>(
    model: &'a Model,
    (name, side, panel): (&'static str, Wall, &'a Panel),
) -> Option<Picture<'a>> {
    let section = panel_section(panel, (rsi(side), RSE))?;
    Some(Picture {
        id: format!("member-{}", name),
        title: format!("{}: a line every {STEP} K beside a member, inside above", sentence(name)),
        short: "member",
        size: Size::new(WIDTH, panel.thickness),
        draw: Box::new(move |place, canvas| draw(model, panel, &section, place, canvas)),
    })
}

fn draw(model: &Model, panel: &Panel, section: &Section, place: Placement, canvas: &mut Canvas) {
    let mut top = 0.0;
    let mut layers = Vec::new();
    for layer in &panel.layers {
        let rect = Rect::new(0.0, -top - layer.thickness, WIDTH, -top);
        layers.push(Item::area(outline(place.rect(rect)), Some(LineClass::Detail), Fill::Shell));
        if let Some(bridge) = &layer.bridge {
            let rect = Rect { x1: bridge.width / 2.0, ..rect };
            layers.push(Item::area(outline(place.rect(rect)), Some(LineClass::Visible), Fill::Cut));
        }
        top += layer.thickness;
    }
    canvas.group(LayerKind::Shell, "layers", "Layers and member", layers);
    let climate = &model.climate;
    let celsius = |share: f64| climate.outside + (climate.inside - climate.outside) * share;
    let mut level = (climate.outside.min(climate.inside) / STEP).ceil() * STEP;
    let mut lines = Vec::new();
    while level < climate.inside.max(climate.outside) {
        let pieces = level_line(section, |share| celsius(share) - level);
        let inside = pieces.into_iter().filter(|(a, b)| a.x.max(b.x) <= WIDTH);
        lines.extend(inside.map(|(a, b)| Item::segment(place.to_paper(a), place.to_paper(b), LineClass::Dimension)));
        level += STEP;
    }
    canvas.group(LayerKind::Dimensions, "temperatures", "Lines of equal temperature", lines);
}

/// Pieces of the line on which a function of the warmth is zero, between the middles of the cells.
fn level_line(section: &Section, of: impl Fn(f64) -> f64) -> Vec<(Point, Point)> {
    let (xs, ys) = (middles(&section.grid.columns), middles(&section.grid.rows));
    let at = |column: usize, row: usize| section.temperatures.get(row * xs.len() + column).map(|share| of(*share));
    let mut pieces = Vec::new();
    for (row, (y0, y1)) in ys.iter().zip(ys.iter().skip(1)).enumerate() {
        for (column, (x0, x1)) in xs.iter().zip(xs.iter().skip(1)).enumerate() {
            let corners = [
                (column, row, x0, y0),
                (column + 1, row, x1, y0),
                (column + 1, row + 1, x1, y1),
                (column, row + 1, x0, y1),
            ];
            let values: Vec<(Point, f64)> =
                corners.into_iter().filter_map(|(c, r, x, y)| Some((Point::new(*x, -y), at(c, r)?))).collect();
            let next = values.iter().cycle().skip(1);
            let crossed: Vec<Point> = values
                .iter()
                .zip(next)
                .filter(|(a, b)| (a.1 < 0.0) != (b.1 < 0.0))
                .map(|(a, b)| a.0.lerp(b.0, a.1 / (a.1 - b.1)))
                .collect();
            pieces.extend(crossed.chunks_exact(2).filter_map(|pair| Some((*pair.first()?, *pair.get(1)?))));
        }
    }
    pieces
}

fn middles(widths: &[f64]) -> Vec<f64> {
    let mut edge = 0.0;
    let middle = |width: &f64| {
        edge += width;
        edge - width / 2.0
    };
    widths.iter().map(middle).collect()
}
