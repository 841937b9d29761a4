//! Openings in walls and roof.

use super::edges::{Edge, Given};
use super::members::opening_axis;
use super::names::Resolver;
use crate::base::number::{micrometres, mm, trimmed};
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Diagnostic;
use crate::geometry::Axis;
use crate::language::OpeningDoc;
use crate::language::expression::Failed;
use crate::model::{BoxSpace, HingeSide, Opening, OpeningKind, Swings, Wall, Word};
use crate::source::Span;

/// Keys that place an opening in a side wall.
const SIDE_WALL_KEYS: &str = "its place is `front`, `rear`, `centre`, `run`, `sill` and `height`";
/// Keys that place an opening in the front or rear wall.
const END_WALL_KEYS: &str = "its place is `left`, `right`, `centre`, `run`, `sill` and `height`";
/// Share of a vent's size that is open to the air behind its grille; common practice, no source.
const GRILLE: f64 = 0.5;
/// Keys that place an opening in roof or floor.
const ROOF_KEYS: &str = "its place is `front`, `rear`, `left`, `right`, `centre`, `run` and `depth`";

impl Resolver<'_> {
    /// All openings that could be made.
    pub fn openings(&mut self, space: &BoxSpace) -> Vec<Opening> {
        let doc = self.doc;
        let mut made = Vec::new();
        for (name, entry) in &doc.openings {
            if let Ok(opening) = self.opening(name, &entry.value, entry.span, space) {
                made.push(opening);
            }
        }
        made
    }

    fn opening(&mut self, name: &str, doc: &OpeningDoc, span: Span, space: &BoxSpace) -> Result<Opening, Failed> {
        let kind = doc.kind.value;
        let wall = self.wall_of(name, doc, kind, span)?;
        self.refuse_foreign_keys(name, doc, wall)?;
        let axis = opening_axis(doc);
        let along = self.side(name, doc, axis, 0, span)?;
        let up = if doc.lies_flat() { self.side(name, doc, Axis::Y, 1, span)? } else { self.upward(name, doc, span)? };
        let (hinge, swings) = (self.hinge(name, doc, wall, kind)?, swings_of(doc, kind));
        self.refuse_loose_leaf(name, doc, hinge)?;
        let size = (along.1 - along.0) * (up.1 - up.0);
        let opening = Opening {
            name: name.to_owned(),
            kind,
            wall,
            along,
            up,
            radius: self.figure_or(doc.radius.as_ref(), 0.0)?,
            hinge,
            swings,
            opens: self.figure_or(doc.opens.as_ref(), 90.0)?,
            slides: self.slides(name, doc, wall, along)?,
            of_vehicle: doc.of.is_some(),
            escape: doc.escape.as_ref().is_some_and(|escape| escape.value),
            lining: self.figure_or(doc.lining.as_ref(), 0.0)?,
            free_area: self
                .figure_or(doc.free_area.as_ref(), if kind == OpeningKind::Vent { size * GRILLE } else { 0.0 })?,
            u_value: doc.u_value.as_ref().map(|u| self.within(u, (0.05, 10.0), "u-value", " W/(m²K)")).transpose()?,
            span,
        };
        self.refuse_misplaced(&opening, doc, space)?;
        self.refuse_wrong_frame(&opening, doc)?;
        Ok(opening)
    }

    fn wall_of(&mut self, name: &str, doc: &OpeningDoc, kind: OpeningKind, span: Span) -> Result<Wall, Failed> {
        match (kind, doc.wall.as_ref()) {
            (OpeningKind::RoofHatch, Some(wall)) => {
                let error =
                    Diagnostic::new(wall.span, format!("roof hatch `{name}` is in the roof and takes no `wall`"));
                Err(self.error(error.help("leave `wall` out, or make it a `hatch`")))
            }
            (OpeningKind::RoofHatch, None) => Ok(Wall::Roof),
            (_, Some(wall)) => Ok(wall.value),
            (_, None) => {
                let error = Diagnostic::new(span, format!("opening `{name}` does not say which wall it is in"));
                let help = match kind {
                    OpeningKind::Vent => "add `wall: front`, `rear`, `left`, `right`, `roof` or `floor`",
                    _ => "add `wall: front`, `rear`, `left` or `right`",
                };
                Err(self.error(error.help(help)))
            }
        }
    }

    /// Refuses keys that mean nothing in the panel of the opening.
    fn refuse_foreign_keys(&mut self, name: &str, doc: &OpeningDoc, wall: Wall) -> Result<(), Failed> {
        let place = &doc.place;
        let across = [("left", &place.left), ("right", &place.right)];
        let along = [("front", &place.front), ("rear", &place.rear)];
        let ([one, other], [size, more], help) = match wall {
            Wall::Roof | Wall::Floor => ([("sill", &doc.sill), ("height", &doc.height)], [("", &None); 2], ROOF_KEYS),
            Wall::Front | Wall::Rear => (along, [("depth", &doc.depth), ("", &None)], END_WALL_KEYS),
            _ => (across, [("depth", &doc.depth), ("", &None)], SIDE_WALL_KEYS),
        };
        let written = [one, other, size, more].into_iter().find_map(|(key, expr)| Some((key, expr.as_ref()?)));
        if let Some((key, expr)) = written {
            let message = format!("opening `{name}` is in the {} and takes no `{key}`", panel(wall));
            return Err(self.error(Diagnostic::new(expr.span, message).help(help)));
        }
        match doc.centre.as_ref().and_then(|centre| centre.value.get(1)).filter(|_| !doc.lies_flat()) {
            Some(second) => {
                let message =
                    format!("opening `{name}` is in the {} and takes one figure as its `centre`", panel(wall));
                Err(self.error(Diagnostic::new(second.span, message).help("write `centre: 900`")))
            }
            None => Ok(()),
        }
    }

    /// Refuses a leaf that swings but hangs on nothing.
    fn refuse_loose_leaf(&mut self, name: &str, doc: &OpeningDoc, hinge: Option<Wall>) -> Result<(), Failed> {
        let hangs = hinge.is_some() || no_hinge(doc.kind.value).is_some();
        let Some(swings) = doc.swings.as_ref().filter(|swings| swings.value != "no" && !hangs) else {
            return Ok(());
        };
        let message = format!("opening `{name}` swings {} and has no `hinge`", swings.value);
        Err(self.error(Diagnostic::new(swings.span, message).help("add `hinge:`, the side that it turns about")))
    }

    /// Toward which end a sliding door goes, and how far: its own size to the rear or the right, if the layout does not say.
    fn slides(
        &mut self,
        name: &str,
        doc: &OpeningDoc,
        wall: Wall,
        along: (f64, f64),
    ) -> Result<Option<(Wall, f64)>, Failed> {
        let ends = match wall {
            Wall::Front | Wall::Rear => [Wall::Left, Wall::Right],
            _ => [Wall::Front, Wall::Rear],
        };
        if doc.kind.value != OpeningKind::SlidingDoor {
            let written = doc.slides.as_ref().map(|slides| slides.span).or(doc.travel.as_ref().map(|expr| expr.span));
            let Some(span) = written else { return Ok(None) };
            let error = Diagnostic::new(span, format!("{} `{name}` does not slide", doc.kind.value.words()));
            return Err(self.error(error.help("make it a `sliding-door`, or leave `slides` and `travel` out")));
        }
        let toward = doc.slides.as_ref().map_or(ends[1], |slides| slides.value);
        if let Some(slides) = doc.slides.as_ref().filter(|slides| !ends.contains(&slides.value)) {
            let error = Diagnostic::new(slides.span, format!("this wall has no {} end", slides.value.name()));
            return Err(self.error(error.help(format!("write `{}` or `{}`", ends[0].name(), ends[1].name()))));
        }
        let travel = doc.travel.as_ref().map_or(Ok(along.1 - along.0), |travel| self.positive(travel, "the travel"))?;
        Ok(Some((toward, travel)))
    }

    /// The range of an opening along an axis of its panel.
    fn side(
        &mut self,
        name: &str,
        doc: &OpeningDoc,
        axis: Axis,
        centre: usize,
        span: Span,
    ) -> Result<(f64, f64), Failed> {
        let given = Given::of_opening(doc, axis, centre);
        let what = format!("opening `{name}`");
        let size_name = if centre == 1 { "depth" } else { "run" };
        self.refuse_no_edge(given, axis, &what, span)?;
        self.too_many(given, axis, &what, size_name);
        if given.size.is_none() && !given.fixes_size() {
            let error = Diagnostic::new(span, format!("{what} has no `{size_name}`"));
            return Err(self.error(error.help(format!("add `{size_name}:` or a second edge"))));
        }
        let low = micrometres(self.solve(given, Edge::Low, &mut |_| Err(Failed))?);
        let high = micrometres(self.solve(given, Edge::High, &mut |_| Err(Failed))?);
        if high > low {
            return Ok((low, high));
        }
        let message = format!("{what} has no size: it goes from {} to {}", mm(low), mm(high));
        Err(self.error(Diagnostic::new(given.any_span().unwrap_or(span), message)))
    }

    fn upward(&mut self, name: &str, doc: &OpeningDoc, span: Span) -> Result<(f64, f64), Failed> {
        let sill = micrometres(self.figure_or(doc.sill.as_ref(), 0.0)?);
        let Some(height) = &doc.height else {
            let error = Diagnostic::new(span, format!("opening `{name}` has no `height`"));
            return Err(self.error(error.help("add `height:`, measured from the sill")));
        };
        Ok((sill, micrometres(sill + self.positive(height, "the height")?)))
    }

    fn hinge(&mut self, name: &str, doc: &OpeningDoc, wall: Wall, kind: OpeningKind) -> Result<Option<Wall>, Failed> {
        let ends = match wall {
            Wall::Front | Wall::Rear => [HingeSide::Left, HingeSide::Right],
            _ => [HingeSide::Front, HingeSide::Rear],
        };
        if let (Some(hinge), Some(why)) = (&doc.hinge, no_hinge(kind)) {
            let message = format!("{} `{name}` takes no `hinge`", kind.words());
            return Err(self.error(Diagnostic::new(hinge.span, message).help(why)));
        }
        let Some(hinge) = &doc.hinge else {
            return Ok(match kind {
                OpeningKind::Door => Some(ends[0].wall()),
                OpeningKind::Hatch | OpeningKind::LiftGate => Some(Wall::Roof),
                _ => None,
            });
        };
        let end = hinge.value;
        match end {
            HingeSide::Top | HingeSide::Bottom if doc.lies_flat() => {
                let message = format!("{} `{name}` has no {} side", kind.words(), end.name());
                let help = "its hinge may be `front`, `rear`, `left` or `right`";
                Err(self.error(Diagnostic::new(hinge.span, message).help(help)))
            }
            HingeSide::Top | HingeSide::Bottom => Ok(Some(end.wall())),
            _ if ends.contains(&end) || doc.lies_flat() => Ok(Some(end.wall())),
            _ => {
                let message = format!("an opening in this wall has no {} side", end.name());
                let help = format!("its hinge may be `{}`, `{}`, `top` or `bottom`", ends[0].name(), ends[1].name());
                Err(self.error(Diagnostic::new(hinge.span, message).help(help)))
            }
        }
    }

    /// Refuses a lining that fills the hole and an open area larger than it.
    fn refuse_wrong_frame(&mut self, opening: &Opening, doc: &OpeningDoc) -> Result<(), Failed> {
        let sides = [opening.along.1 - opening.along.0, opening.up.1 - opening.up.0];
        let most = sides[0].min(sides[1]) / 2.0;
        if !(0.0..most).contains(&opening.lining) {
            let span = doc.lining.as_ref().map_or(opening.span, |lining| lining.span);
            let message = format!("a lining of {} does not fit opening `{}`", mm(opening.lining), opening.name);
            let help = format!("it is 0 or more, and less than {} to leave a hole", mm(most));
            return Err(self.error(Diagnostic::new(span, message).help(help)));
        }
        let area = sides[0] * sides[1];
        if !(0.0..=area).contains(&opening.free_area) {
            let span = doc.free_area.as_ref().map_or(opening.span, |area| area.span);
            let message =
                format!("opening `{}` can't have {} mm² open to the air", opening.name, trimmed(opening.free_area, 0));
            let help = format!("it can be 0 to {} mm², its whole size", trimmed(area, 0));
            return Err(self.error(Diagnostic::new(span, message).help(help)));
        }
        Ok(())
    }

    fn refuse_misplaced(&mut self, opening: &Opening, doc: &OpeningDoc, space: &BoxSpace) -> Result<(), Failed> {
        let reach = match opening.wall {
            Wall::Front | Wall::Rear => space.width,
            _ => space.length,
        };
        let ceiling = match opening.wall {
            Wall::Roof | Wall::Floor => space.width,
            Wall::Front | Wall::Rear => space.roof.least_over(opening.along.0, opening.along.1).0,
            Wall::Right => space.roof.height_at(space.width),
            _ => space.roof.height_at(0.0),
        };
        let past = [-opening.along.0, opening.along.1 - reach, -opening.up.0, opening.up.1 - ceiling];
        let where_to = match opening.wall {
            Wall::Front | Wall::Rear => {
                ["past the left wall", "past the right wall", "below the floor", "into the roof"]
            }
            Wall::Roof | Wall::Floor => {
                ["past the front wall", "past the rear wall", "past the left wall", "past the right wall"]
            }
            _ => ["past the front wall", "past the rear wall", "below the floor", "into the roof"],
        };
        for (past, where_to) in past.into_iter().zip(where_to) {
            if past > SAME_LENGTH {
                let message = format!("opening `{}` reaches {} {where_to}", opening.name, mm(past));
                return Err(self.error(Diagnostic::new(opening.span, message).help("move it or make it smaller")));
            }
        }
        let least = (opening.along.1 - opening.along.0).min(opening.up.1 - opening.up.0) / 2.0;
        if opening.radius < 0.0 || opening.radius > least + SAME_LENGTH {
            let message = format!("a corner radius of {} does not fit opening `{}`", mm(opening.radius), opening.name);
            let span = doc.radius.as_ref().map_or(opening.span, |radius| radius.span);
            return Err(self.error(Diagnostic::new(span, message).help(format!("it can be 0 to {}", mm(least)))));
        }
        if !(0.0..=180.0).contains(&opening.opens) {
            let span = doc.opens.as_ref().map_or(opening.span, |opens| opens.span);
            let message = format!("the leaf opens {} degrees; it can be 0 to 180", opening.opens);
            return Err(self.error(Diagnostic::new(span, message)));
        }
        Ok(())
    }
}

fn panel(wall: Wall) -> String {
    match wall {
        Wall::Roof | Wall::Floor => wall.name().to_owned(),
        _ => format!("{} wall", wall.name()),
    }
}

/// Why an opening says no hinge.
fn no_hinge(kind: OpeningKind) -> Option<&'static str> {
    match kind {
        OpeningKind::DoubleDoor => Some("its leaves hang at both ends"),
        OpeningKind::SlidingDoor => Some("say which way it goes: `slides: rear`"),
        OpeningKind::LiftGate => Some("it hangs at its upper edge; a `hatch` may hang elsewhere"),
        _ => None,
    }
}

fn swings_of(doc: &OpeningDoc, kind: OpeningKind) -> Swings {
    match (doc.swings.as_ref().map(|swings| swings.value.as_str()), kind) {
        (Some("in"), _) => Swings::In,
        (Some("out"), _) | (None, OpeningKind::Hatch | OpeningKind::LiftGate) => Swings::Out,
        (None, kind) if kind.is_door() => Swings::Out,
        _ => Swings::No,
    }
}
