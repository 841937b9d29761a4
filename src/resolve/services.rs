//! Water, electricity, waste pipes and climate; cables and pipes that say no way go along the walls.

use super::names::Resolver;
use crate::diagnostic::Diagnostic;
use crate::geometry::Point3;
use crate::language::expression::Failed;
use crate::language::{BATTERY, CABLE, CLIMATE, CONSUMER, CableDoc, EndDoc, PIPE, RouteEndsDoc, WATER};
use crate::model::{Battery, BoxSpace, Cable, Climate, Consumer, Load, Module, Run, Services, Wall, Waste};
use crate::source::Span;

/// Height over its floor at which a module is connected, mm; common practice, no source.
const CONNECTION: f64 = 300.0;

/// What cables and pipes may end at.
#[derive(Clone, Copy)]
pub(super) struct Ends<'m> {
    pub space: &'m BoxSpace,
    pub modules: &'m [Module],
    pub loads: &'m [Load],
}

impl Resolver<'_> {
    /// All services that could be made.
    pub fn services(&mut self, ends: Ends<'_>) -> Services {
        let doc = &self.doc.services;
        let water = doc.water.as_ref().and_then(|water| {
            let [litres] = self.figures(&WATER, &water.value).ok()?;
            Some((litres, water.span))
        });
        let battery = doc.battery.as_ref().and_then(|battery| {
            let [volts, capacity, usable, charge] = self.figures(&BATTERY, &battery.value).ok()?;
            Some(Battery { volts, capacity, usable: usable / 100.0, charge, span: battery.span })
        });
        let (mut consumers, mut cables, mut wastes) = (Vec::new(), Vec::new(), Vec::new());
        for (name, entry) in &doc.consumers {
            let Ok([watts, hours]) = self.figures(&CONSUMER, &entry.value) else { continue };
            consumers.push(Consumer { name: name.clone(), watts, hours, span: entry.span });
        }
        for (name, entry) in &doc.cables {
            cables.extend(self.cable(name, &entry.value, entry.span, ends));
        }
        for (name, entry) in &doc.wastes {
            let (run, bore) = (self.run(&entry.value.ends, ends), self.figures(&PIPE, &entry.value.figures));
            let (Ok(run), Ok([bore])) = (run, bore) else { continue };
            wastes.push(Waste { name: name.clone(), run, bore, span: entry.span });
        }
        Services { water, battery, consumers, cables, wastes }
    }

    fn cable(&mut self, name: &str, doc: &CableDoc, span: Span, ends: Ends<'_>) -> Option<Cable> {
        let run = self.run(&doc.ends, ends);
        let [amps, section, class, temperature] = self.figures(&CABLE, &doc.figures).ok()?;
        let class = match class {
            1.0 => 1,
            2.0 => 2,
            5.0 => 5,
            _ => {
                let place = doc.figures.values.get(2).and_then(Option::as_ref).map_or(span, |class| class.span);
                let error = Diagnostic::new(place, format!("`class` is {class}; it must be 1, 2 or 5"));
                self.error(error.help("1 is solid, 2 stranded, 5 flexible copper (IEC 60228)"));
                return None;
            }
        };
        let critical = doc.critical.as_ref().is_some_and(|critical| critical.value);
        let name = name.to_owned();
        Some(Cable { name, run: run.ok()?, amps, section, class, temperature, critical, span })
    }

    fn run(&mut self, doc: &RouteEndsDoc, ends: Ends<'_>) -> Result<Run, Failed> {
        let (from, to) = (self.end(&doc.from, ends), self.end(&doc.to, ends));
        let via: Result<Vec<Point3>, Failed> = doc.via.iter().map(|point| self.point3(&point.value)).collect();
        let ((start, first), (end, last)) = (from?, to?);
        if first == last {
            let span = match &doc.to {
                EndDoc::Named(name) => name.span,
                EndDoc::At(at) => at.span,
            };
            let error = Diagnostic::new(span, "this way ends where it starts");
            return Err(self.error(error.help("`from` and `to` are two places")));
        }
        let between = match via? {
            via if via.is_empty() => along_walls(ends.space, first, last),
            via => via,
        };
        let mut points: Vec<Point3> = Vec::new();
        for point in std::iter::once(first).chain(between).chain([last]) {
            if points.last() != Some(&point) {
                points.push(point);
            }
        }
        Ok(Run { ends: [start, end], points })
    }

    fn end(&mut self, doc: &EndDoc, ends: Ends<'_>) -> Result<(String, Point3), Failed> {
        let name = match doc {
            EndDoc::At(at) => return Ok(("a point".to_owned(), self.point3(&at.value)?)),
            EndDoc::Named(name) => name,
        };
        let load = ends.loads.iter().find(|load| load.name == name.value).map(|load| load.at);
        let module = || ends.modules.iter().find(|module| module.name == name.value).map(connection);
        if let Some(at) = load.or_else(module) {
            return Ok((name.value.clone(), at));
        }
        let doc = self.doc;
        if !doc.loads.contains_key(&name.value) && !doc.modules.contains_key(&name.value) {
            self.unknown_entry(name, "module or load", doc.modules.keys().chain(doc.loads.keys()));
        }
        Err(Failed)
    }

    /// The climate; the usual one where the layout says nothing.
    pub fn climate(&mut self) -> Climate {
        let Some(doc) = &self.doc.climate else { return Climate::default() };
        let Ok(figures) = self.figures(&CLIMATE, doc) else { return Climate::default() };
        let [inside, outside, humidity, air_changes, heater, outside_humidity, ..] = figures;
        let [.., summer_outside, summer_inside, sun, absorbs, cooler] = figures;
        Climate {
            inside,
            outside,
            humidity: humidity / 100.0,
            air_changes,
            heater,
            outside_humidity: outside_humidity / 100.0,
            summer_outside,
            summer_inside,
            sun,
            absorbs: absorbs / 100.0,
            cooler,
            span: Some(doc.span),
        }
    }
}

/// Where a module is connected: in the middle of its back, low down.
fn connection(module: &Module) -> Point3 {
    let extent = &module.extent;
    let middle = extent.centre();
    let z = extent.z.1.min(extent.z.0 + CONNECTION);
    match module.faces {
        Wall::Front => Point3 { x: extent.x.1, z, ..middle },
        Wall::Rear => Point3 { x: extent.x.0, z, ..middle },
        Wall::Left => Point3 { y: extent.y.1, z, ..middle },
        _ => Point3 { y: extent.y.0, z, ..middle },
    }
}

/// Corners between two points: to the nearest wall, round the shorter way at the first one's height, then up or down and to
/// the second.
fn along_walls(space: &BoxSpace, from: Point3, to: Point3) -> Vec<Point3> {
    let (length, width) = (space.length, space.width);
    let whole = 2.0 * (length + width);
    let (a, b) = (station(space, from), station(space, to));
    let forward = (b - a).rem_euclid(whole);
    let ahead = forward <= whole / 2.0;
    let corners = [0.0, length, length + width, 2.0 * length + width];
    let reach = if ahead { forward } else { whole - forward };
    let off = |s: f64| if ahead { (s - a).rem_euclid(whole) } else { (a - s).rem_euclid(whole) };
    let mut passed: Vec<(f64, f64)> =
        corners.into_iter().map(|s| (off(s), s)).filter(|(off, _)| *off > 0.0 && *off < reach).collect();
    passed.sort_by(|one, other| one.0.total_cmp(&other.0));
    let stops = std::iter::once(a).chain(passed.into_iter().map(|(_, s)| s)).chain([b]);
    let mut points: Vec<Point3> = stops.map(|s| at_station(space, s, from.z)).collect();
    points.push(at_station(space, b, to.z));
    points
}

/// How far along the walls, from the front left corner by the left wall, the place nearest to a point is, mm.
fn station(space: &BoxSpace, point: Point3) -> f64 {
    let (length, width) = (space.length, space.width);
    let (x, y) = (point.x.clamp(0.0, length), point.y.clamp(0.0, width));
    let walls = [
        (y, x),
        (length - x, length + y),
        (width - y, length + width + length - x),
        (x, 2.0 * length + width + width - y),
    ];
    walls.into_iter().min_by(|one, other| one.0.total_cmp(&other.0)).map_or(0.0, |(_, s)| s)
}

fn at_station(space: &BoxSpace, s: f64, z: f64) -> Point3 {
    let (length, width) = (space.length, space.width);
    if s <= length {
        Point3 { x: s, y: 0.0, z }
    } else if s <= length + width {
        Point3 { x: length, y: s - length, z }
    } else if s <= 2.0 * length + width {
        Point3 { x: 2.0 * length + width - s, y: width, z }
    } else {
        Point3 { x: 0.0, y: 2.0 * (length + width) - s, z }
    }
}
