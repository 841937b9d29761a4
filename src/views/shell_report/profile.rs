//! Temperature through a panel: its layers in true thickness, the temperature as a line over them.

use crate::base::number::trimmed;
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass};
use crate::model::{Model, Panel, Wall};
use crate::shell::dew::dew_point;
use crate::shell::heat::{RSI_STILL, temperatures};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::{Placement, outline, polyline};
use crate::views::kit::words::sentence;
use crate::views::room::gallery::Picture;
use kurbo::{Point, Rect, Size};

/// Height of the picture and of a degree, mm.
const HEIGHT: f64 = 60.0;
/// Room for the air films beside the panel, mm.
const AIR: f64 = 12.0;
const LETTERS: f64 = 2.5;

/// The picture of one panel.
pub(super) fn picture<'a>(model: &'a Model, (name, side, panel): (&'static str, Wall, &'a Panel)) -> Picture<'a> {
    Picture {
        id: format!("temperature-{}", name),
        title: format!("{}: {}", sentence(name), panel.layup),
        short: name,
        size: Size::new(panel.thickness, 0.0),
        draw: Box::new(move |place, canvas| Profile { model, side, panel, place }.draw(canvas)),
    }
}

struct Profile<'a> {
    model: &'a Model,
    side: Wall,
    panel: &'a Panel,
    place: Placement,
}

impl Profile<'_> {
    fn draw(&self, canvas: &mut Canvas) {
        let climate = &self.model.climate;
        let all = temperatures(self.panel, self.side, RSI_STILL, (climate.inside, climate.outside));
        let (low, high) = (climate.outside.min(climate.inside), climate.inside.max(climate.outside));
        let up = |celsius: f64| self.place.origin.y + (celsius - low) / (high - low).max(1.0) * HEIGHT;
        let mut x = self.place.origin.x;
        let mut faces = vec![x - AIR, x];
        let mut layers = Vec::new();
        for (index, layer) in self.panel.layers.iter().enumerate() {
            let right = x + self.place.length(layer.thickness);
            let rect = Rect::new(x, self.place.origin.y, right, self.place.origin.y + HEIGHT);
            let fill = if index % 2 == 0 { Fill::Cut } else { Fill::Shell };
            layers.push(Item::area(outline(rect), Some(LineClass::Detail), fill));
            faces.push(right);
            x = right;
        }
        faces.push(x + AIR);
        canvas.group(LayerKind::Shell, "layers", "Layers", layers);
        let points: Vec<Point> = faces.iter().zip(&all).map(|(x, celsius)| Point::new(*x, up(*celsius))).collect();
        let line = Item::line(polyline(points.iter().copied()), LineClass::Cut);
        canvas.group(LayerKind::Dimensions, "temperature", "Temperature", vec![line]);
        let dew = dew_point(climate.inside, climate.humidity);
        if (low..=high).contains(&dew) {
            let ends = [faces.first(), faces.last()].map(|x| Point::new(x.copied().unwrap_or_default(), up(dew)));
            let line = Item::segment(ends[0], ends[1], LineClass::Above);
            let words = Item::text(
                ends[1] + kurbo::Vec2::new(1.5, -LETTERS / 2.0),
                format!("{} °C", trimmed(dew, 1)),
                LETTERS,
                Align::Start,
            );
            canvas.group(LayerKind::Dimensions, "dew-point", "Dew point", vec![line, words]);
        }
        self.figures(&points, &all, canvas);
    }

    /// Temperatures of the air and of both surfaces, beside the picture.
    fn figures(&self, points: &[Point], all: &[f64], canvas: &mut Canvas) {
        let words = |celsius: f64| format!("{} °C", trimmed(celsius, 1));
        let mut items = Vec::new();
        if let (Some(air), Some(first), Some(from), Some(surface)) =
            (points.first(), all.first(), points.get(1), all.get(1))
        {
            items.push(Item::text(Point::new(air.x - 1.5, air.y - LETTERS / 2.0), words(*first), LETTERS, Align::End));
            let low = from.y.min(air.y - LETTERS * 2.0);
            items.push(Item::text(Point::new(air.x - 1.5, low - LETTERS / 2.0), words(*surface), LETTERS, Align::End));
            items.push(Item::segment(Point::new(air.x - 1.0, low), *from, LineClass::Dimension));
        }
        if let (Some(air), Some(last)) = (points.last(), all.last()) {
            items.push(Item::text(Point::new(air.x + 1.5, air.y - LETTERS / 2.0), words(*last), LETTERS, Align::Start));
        }
        canvas.group(LayerKind::Labels, "figures", "Temperatures", items);
    }
}
