//! Interior elevations: each wall as it is seen from the aisle, with what stands before it.

use super::gallery::{Gallery, Picture};
use super::look::Look;
use super::planes::freest_plane;
use super::slice::Slice;
use super::{fronts, heights, rings, shell};
use crate::drawing::{Paper, dimension::Side};
use crate::model::{Arrangement, Model, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::ink::Taken;
use crate::views::kit::placement::Placement;
use crate::views::kit::words::sentence;

/// The long walls first: the short ones share a sheet.
const WALLS: [Wall; 4] = [Wall::Left, Wall::Right, Wall::Front, Wall::Rear];

/// Sheets with the four walls.
pub(in crate::views) fn sheets(paper: Paper, held: bool, model: &Model) -> Vec<Draft> {
    let Some(arrangement) = model.arrangements.first() else { return Vec::new() };
    let pictures: Vec<Picture<'_>> = WALLS
        .into_iter()
        .map(|wall| Picture {
            id: format!("elevation-{}", wall.name()),
            title: format!("{} wall", sentence(wall.name())),
            short: wall.name(),
            size: shell::inside(&model.space, Look::inside(wall), 0.0).bounds().size(),
            draw: Box::new(move |place, canvas| Elevation { model, arrangement, wall }.draw(place, canvas)),
        })
        .collect();
    let gallery = Gallery {
        paper,
        held,
        id: "elevations",
        title: "Interior elevations",
        document_type: "Elevations",
        supplement: format!("Arrangement: {}", arrangement.name),
        scale: model.sheets.scale,
        largest: 10.0,
        notes: vec![
            "Each wall seen from inside the box, from a plane through the aisle; thick: cut by it. Heights from the floor: \
             left, of worktops, seats, beds, tables and what hangs; right, of openings. Numbers are those of the plans. \
             Dashed: hidden openings, and lines that meet at a hinge. Double-dotted: other poses. Figures on fronts: their width. Circles \
             on them: locks and handles."
                .to_owned(),
            "Dimensions in mm.".to_owned(),
        ],
        tables: Vec::new(),
        together: false,
    };
    gallery.sheets(&pictures)
}

struct Elevation<'a> {
    model: &'a Model,
    arrangement: &'a Arrangement,
    wall: Wall,
}

impl Elevation<'_> {
    fn draw(&self, place: Placement, canvas: &mut Canvas) {
        let look = Look::inside(self.wall);
        let slice = Slice::new(self.model, self.arrangement, look, self.plane(), place);
        slice.draw(canvas);
        let (painter, around, bounds) = (&slice.painter, slice.around(), slice.room.bounds());
        let mut taken = Taken::default();
        let ends = (bounds.x0, bounds.x1);
        let below = vec![("modules", heights::edges(painter, ends, false)), ("inside", vec![ends.0, ends.1])];
        heights::draw(Side::Below, &below, &around, &mut taken, canvas);
        // Before the chain above, which stands farther out where it would lie on their figures.
        let top = self.top();
        heights::draw_running(Side::Left, (0.0, &heights::heights(painter, top)), &around, &mut taken, canvas);
        let openings = heights::openings(self.model, look, (0.0, top), true);
        heights::draw_running(Side::Right, (0.0, &openings), &around, &mut taken, canvas);
        let above = vec![
            ("above", heights::edges(painter, ends, true)),
            ("openings", heights::openings(self.model, look, ends, false)),
        ];
        let above = above.into_iter().filter(|(_, values)| values.len() > 2).collect();
        heights::draw(Side::Above, &above, &around, &mut taken, canvas);
        fronts::draw(painter, place, place.rect(bounds), &mut taken, canvas);
        rings::module_numbers(painter, place, place.rect(bounds), &mut taken, canvas);
    }

    /// Height of the lining at the wall; of a wall across the box, at its lower side.
    fn top(&self) -> f64 {
        let space = &self.model.space;
        let ends = [space.roof.height_at(0.0), space.roof.height_at(space.width)];
        match self.wall {
            Wall::Left => ends[0],
            Wall::Right => ends[1],
            _ => ends[0].min(ends[1]),
        }
    }

    /// Where the eye stands: the plane across the look that cuts the fewest modules, the nearest to the middle.
    fn plane(&self) -> f64 {
        freest_plane(self.model, self.arrangement, Look::inside(self.wall).axis())
    }
}
