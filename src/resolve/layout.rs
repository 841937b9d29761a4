//! The layout as a whole: people, zones, arrangements, routes, limits, sheets.

use super::edges::{Edge, Given};
use super::names::Resolver;
use super::services::Ends;
use crate::base::number::{micrometres, mm, trimmed};
use crate::diagnostic::Diagnostic;
use crate::geometry::Axis;
use crate::language::expression::{Expr, Failed, Scope, Value};
use crate::language::{LayoutDoc, RouteDoc, ZoneDoc};
use crate::model::{
    Accepted, Arrangement, BoxSpace, Figures, LimitChange, MEDIAN_MAN, Model, Module, PaperSize, Person, Planes,
    Projection, Revision, Route, RouteEnd, SheetSettings, Title, Zone,
};
use crate::source::{Span, Spanned};
use kurbo::Rect;

/// Most letters of the title that the one arrangement of a layout that lists none is called by.
const MOST_LETTERS: usize = 60;

impl Resolver<'_> {
    /// The whole model; what failed has been reported and is left out.
    pub fn model(&mut self, name: &str) -> Option<Model> {
        let doc = self.doc;
        self.resolve_stocks();
        let space = self.space();
        let parameters = self.parameters();
        let space = space?;
        let people = self.people();
        let openings = self.openings(&space);
        let space = self.with_walls(space, &openings);
        let zones = self.zones();
        let modules = self.modules();
        let arrangements = self.arrangements();
        let routes = self.routes(&arrangements);
        let cargo = self.cargo(&modules, &openings);
        let vehicle = self.vehicle(&space);
        let loads = self.loads();
        self.refuse_double_riders();
        let load_cases = self.load_cases(&arrangements, &loads);
        let services = self.services(Ends { space: &space, modules: &modules, loads: &loads });
        let climate = self.climate();
        let limits = self.limits();
        let accepted = self.accepted(&arrangements);
        let prices = self.prices(&modules);
        let labels = self.label_grid();
        let router = self.router();
        let sheets = self.sheets(&space);
        let model = Model {
            name: name.to_owned(),
            title: title(doc),
            people,
            parameters,
            space,
            openings,
            zones,
            arrangements: self.keep_poses(arrangements, &modules),
            modules,
            routes,
            cargo,
            vehicle,
            loads,
            load_cases,
            services,
            climate,
            limits,
            accepted,
            stocks: std::mem::take(&mut self.stocks),
            prices,
            labels,
            router,
            sheets,
            errors: 0,
        };
        self.refuse_too_much(&model);
        Some(model)
    }

    /// Parameters are computed even if nobody asks, so that a broken one is reported.
    fn parameters(&mut self) -> Vec<(String, f64)> {
        let doc = self.doc;
        let mut figures = Vec::new();
        for (name, entry) in &doc.parameters {
            if let Ok(Value::Number(figure)) = Scope::name(self, name, entry.span) {
                figures.push((name.clone(), figure));
            }
        }
        figures
    }

    fn people(&mut self) -> Vec<Person> {
        let doc = self.doc;
        let mut made = Vec::new();
        for (name, entry) in &doc.people {
            let written = entry.value.stature.as_ref();
            let Ok(stature) = self.figure_or(written, MEDIAN_MAN) else { continue };
            let Ok(mass) = self.figure_or(entry.value.mass.as_ref(), 75.0) else { continue };
            if !(500.0..=2500.0).contains(&stature) {
                let message = format!("a stature of {} mm is not that of a person", trimmed(stature, 1));
                let help = "stature is body height in millimetres, 500 to 2500";
                self.error(Diagnostic::new(written.map_or(entry.span, |stature| stature.span), message).help(help));
            }
            if !(1.0..=300.0).contains(&mass) {
                let span = entry.value.mass.as_ref().map_or(entry.span, |mass| mass.span);
                let message = format!("a mass of {} kg is not that of a person", trimmed(mass, 1));
                self.error(Diagnostic::new(span, message).help("mass is in kilograms, 1 to 300"));
            }
            let measured = written.is_some();
            made.push(Person { name: name.clone(), stature, measured, mass, span: entry.span });
        }
        made
    }

    fn zones(&mut self) -> Vec<Zone> {
        let doc = self.doc;
        let mut made = Vec::new();
        for (name, entry) in &doc.zones {
            if let Ok(zone) = self.zone(name, &entry.value, entry.span) {
                made.push(zone);
            }
        }
        made
    }

    fn zone(&mut self, name: &str, doc: &ZoneDoc, span: Span) -> Result<Zone, Failed> {
        let x = self.zone_range(name, doc, Axis::X, span)?;
        let y = self.zone_range(name, doc, Axis::Y, span)?;
        let level = doc.level.as_ref().map_or(Ok(0), |level| self.level(name, level))?;
        let purpose = doc.purpose.value.clone();
        Ok(Zone { name: name.to_owned(), purpose, rect: Rect::new(x.0, y.0, x.1, y.1), level, span })
    }

    fn level(&mut self, name: &str, expr: &Expr) -> Result<i64, Failed> {
        let level = self.figure(expr)?;
        if level.fract() == 0.0 {
            // A whole number within the bounds of figures, 10^5 either way.
            #[allow(clippy::cast_possible_truncation)]
            return Ok(level as i64);
        }
        let message = format!("the level of zone `{name}` is {level}; it must be a whole number");
        let help = "zones of one level must not overlap; 0 is the floor, 1 what lies above it";
        Err(self.error(Diagnostic::new(expr.span, message).help(help)))
    }

    fn zone_range(&mut self, name: &str, doc: &ZoneDoc, axis: Axis, span: Span) -> Result<(f64, f64), Failed> {
        let given = Given::of_place(&doc.place, axis);
        let what = format!("zone `{name}`");
        self.refuse_no_edge(given, axis, &what, span)?;
        self.too_many(given, axis, &what, "size");
        if !given.fixes_size() {
            let [low, high, _] = super::edges::edge_names(axis);
            let error = Diagnostic::new(
                given.any_span().unwrap_or(span),
                format!("{what} has only one edge in this direction"),
            );
            return Err(self.error(error.help(format!("give `{low}` and `{high}`"))));
        }
        let low = micrometres(self.solve(given, Edge::Low, &mut |_| Err(Failed))?);
        let high = micrometres(self.solve(given, Edge::High, &mut |_| Err(Failed))?);
        if high > low {
            return Ok((low, high));
        }
        let message = format!("{what} has no size: it goes from {low} to {high} mm");
        Err(self.error(Diagnostic::new(given.any_span().unwrap_or(span), message)))
    }

    fn arrangements(&mut self) -> Vec<Arrangement> {
        let doc = self.doc;
        let mut made = Vec::new();
        for (name, entry) in &doc.arrangements {
            let mut poses = vec![0; doc.modules.len()];
            for (module, pose) in &entry.value.poses {
                let Some(at) = doc.modules.get_index_of(&module.value) else {
                    self.unknown_entry(module, "module", doc.modules.keys());
                    continue;
                };
                let Some(symbol) = self.symbols.get(at).cloned().flatten() else { continue };
                match symbol.poses.get_index_of(&pose.value) {
                    Some(index) => {
                        if let Some(slot) = poses.get_mut(at) {
                            *slot = index;
                        }
                    }
                    None => self.unknown_entry(pose, "pose", symbol.poses.keys()),
                }
            }
            made.push(Arrangement { name: name.clone(), poses, span: entry.span });
        }
        if made.is_empty() {
            let name: String = doc.title.value.chars().take(MOST_LETTERS).collect();
            made.push(Arrangement { name, poses: vec![0; doc.modules.len()], span: doc.title.span });
        }
        made
    }

    /// Keeps the poses of the modules that were made; only differs from the given when errors were reported.
    fn keep_poses(&self, arrangements: Vec<Arrangement>, modules: &[Module]) -> Vec<Arrangement> {
        let doc = self.doc;
        let keep: Vec<usize> = modules.iter().filter_map(|module| doc.modules.get_index_of(&module.name)).collect();
        let pick = |poses: &[usize]| keep.iter().filter_map(|at| poses.get(*at).copied()).collect();
        arrangements.into_iter().map(|a| Arrangement { poses: pick(&a.poses), ..a }).collect()
    }

    fn routes(&mut self, arrangements: &[Arrangement]) -> Vec<Route> {
        let doc = self.doc;
        let mut made = Vec::new();
        for entry in &doc.routes {
            if let Ok(route) = self.route(&entry.value, entry.span, arrangements) {
                made.push(route);
            }
        }
        made
    }

    fn route(&mut self, doc: &RouteDoc, span: Span, arrangements: &[Arrangement]) -> Result<Route, Failed> {
        let (from, to) = (self.route_end(&doc.from), self.route_end(&doc.to));
        let least = doc.least.as_ref().map(|least| self.positive(least, "the least width")).transpose();
        let mut in_arrangements = Vec::new();
        for name in &doc.arrangements {
            match arrangements.iter().position(|arrangement| arrangement.name == name.value) {
                Some(at) => in_arrangements.push(at),
                None => self.unknown_entry(name, "arrangement", arrangements.iter().map(|a| &a.name)),
            }
        }
        if doc.arrangements.is_empty() {
            in_arrangements = (0..arrangements.len()).collect();
        }
        let name = format!("{} to {}", doc.from.value, doc.to.value);
        Ok(Route { name, from: from?, to: to?, arrangements: in_arrangements, least: least?, span })
    }

    fn route_end(&mut self, name: &Spanned<String>) -> Result<RouteEnd, Failed> {
        let doc = self.doc;
        if let Some(at) = doc.openings.get_index_of(&name.value) {
            return Ok(RouteEnd::Opening(at));
        }
        if let Some(at) = doc.modules.get_index_of(&name.value) {
            return Ok(RouteEnd::Module(at));
        }
        self.unknown_entry(name, "opening or module", doc.openings.keys().chain(doc.modules.keys()));
        Err(Failed)
    }

    fn limits(&mut self) -> Vec<LimitChange> {
        let doc = self.doc;
        let mut made = Vec::new();
        for limit in &doc.limits {
            let Ok(value) = self.figure(&limit.value) else { continue };
            made.push(LimitChange {
                check: limit.check.value.clone(),
                name: limit.name.value.clone(),
                value,
                because: limit.because.value.clone(),
                span: limit.name.span,
            });
        }
        made
    }

    fn accepted(&mut self, arrangements: &[Arrangement]) -> Vec<Accepted> {
        let doc = self.doc;
        let names = |all: &[Spanned<String>]| all.iter().map(|name| name.value.clone()).collect();
        let mut made = Vec::new();
        for Spanned { value: entry, span } in &doc.accepted {
            for name in &entry.arrangements {
                if !arrangements.iter().any(|arrangement| arrangement.name == name.value) {
                    self.unknown_entry(name, "arrangement", arrangements.iter().map(|known| &known.name));
                }
            }
            let Ok(up_to) = entry.up_to.as_ref().map(|expr| self.figure(expr)).transpose() else { continue };
            made.push(Accepted {
                check: entry.check.value.clone(),
                of: entry.of.value.clone(),
                about: names(&entry.about),
                arrangements: names(&entry.arrangements),
                up_to,
                because: entry.because.value.clone(),
                span: *span,
            });
        }
        made
    }

    fn sheets(&mut self, space: &BoxSpace) -> SheetSettings {
        let doc = &self.doc.sheets;
        let paper = doc.paper.as_ref().map_or(PaperSize::A3, |paper| paper.value);
        let scale = doc.scale.as_ref().and_then(|scale| self.positive(scale, "the scale").ok());
        let sections = doc.sections.clone().unwrap_or_default();
        let sections = Planes {
            along: self.plane(sections.along.as_ref(), space.width, "the section along the box", "left"),
            across: self.plane(sections.across.as_ref(), space.length, "the section across the box", "front"),
        };
        let is = |word: &Option<Spanned<String>>, wanted: &str| word.as_ref().is_some_and(|word| word.value == wanted);
        SheetSettings {
            paper,
            portrait: is(&doc.orientation, "portrait"),
            only: doc.only.clone(),
            scale,
            projection: if is(&doc.projection, "third") { Projection::Third } else { Projection::First },
            figures: if is(&doc.figures, "mm+inch") { Figures::MmInch } else { Figures::Mm },
            theme: doc.look,
            sections,
        }
    }

    /// A plane of a section between two walls.
    fn plane(&mut self, at: Option<&Expr>, most: f64, what: &str, wall: &str) -> Option<f64> {
        let at = at?;
        let value = self.positive(at, what).ok()?;
        if value < most {
            return Some(value);
        }
        let message = format!("{what} is {} from the {wall} wall, outside the box", mm(value));
        let help = format!("it has to lie between 0 and {}", mm(most));
        self.error(Diagnostic::new(at.span, message).help(help));
        None
    }
}

fn title(doc: &LayoutDoc) -> Title {
    let text = |field: &Option<Spanned<String>>| field.as_ref().map(|text| text.value.clone()).unwrap_or_default();
    let one = |revision: &crate::language::RevisionDoc| Revision {
        mark: revision.mark.value.clone(),
        note: text(&revision.note),
        date: text(&revision.date),
        by: text(&revision.by),
    };
    let revisions: Vec<Revision> = doc.revision.iter().map(one).collect();
    let current = revisions.last().cloned().unwrap_or_default();
    Title {
        title: doc.title.value.clone(),
        number: text(&doc.number),
        revision: current.mark,
        revision_note: current.note,
        revisions,
        by: text(&doc.drawn.by),
        approved: text(&doc.drawn.approved),
        owner: text(&doc.drawn.owner),
        date: text(&doc.drawn.date),
    }
}
