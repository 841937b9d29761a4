//! A layout as plain figures: written out as YAML, mirrored left to right or front to rear.

use std::fmt::Write;

/// A direction in plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Front to rear.
    X,
    /// Left to right.
    Y,
}

/// A wall of the box or a side of a module.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    Front,
    Rear,
    Left,
    Right,
    /// Upper edge of an opening.
    Top,
}

impl Side {
    pub fn word(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Rear => "rear",
            Self::Left => "left",
            Self::Right => "right",
            Self::Top => "top",
        }
    }

    fn flipped(self, way: Way) -> Self {
        match (self, way) {
            (Self::Front, Way::X) => Self::Rear,
            (Self::Rear, Way::X) => Self::Front,
            (Self::Left, Way::Y) => Self::Right,
            (Self::Right, Way::Y) => Self::Left,
            (side, _) => side,
        }
    }

    /// The direction in which something that stands along this wall runs.
    pub fn runs(self) -> Way {
        if matches!(self, Self::Left | Self::Right) { Way::X } else { Way::Y }
    }
}

/// Which keys a range is written with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    Low,
    High,
    Both,
    Middle,
}

impl Form {
    fn flipped(self) -> Self {
        match self {
            Self::Low => Self::High,
            Self::High => Self::Low,
            other => other,
        }
    }
}

/// A range along x or y.
#[derive(Debug, Clone, PartialEq)]
pub struct Range {
    pub low: f64,
    pub high: f64,
    pub form: Form,
    /// The end that is written is so far from the nearer edge of another module.
    pub from: Option<(String, f64)>,
}

impl Range {
    pub fn new(low: f64, size: f64, form: Form) -> Self {
        Self { low, high: low + size, form, from: None }
    }

    pub fn size(&self) -> f64 {
        self.high - self.low
    }

    fn flipped(&self, total: f64) -> Self {
        let (low, high, from) = (total - self.high, total - self.low, self.from.clone());
        Self { low, high, form: self.form.flipped(), from }
    }

    /// Its place, as keys of a map.
    fn keys(&self, way: Way) -> String {
        let (low, high, middle) =
            if way == Way::X { ("front", "rear", "centre-x") } else { ("left", "right", "centre-y") };
        match (self.form, &self.from) {
            (Form::Low, Some((name, gap))) => format!("{low}: {name}.{high} + {}", figure(*gap)),
            (Form::High, Some((name, gap))) => format!("{high}: {name}.{low} - {}", figure(*gap)),
            (Form::Low, None) => format!("{low}: {}", figure(self.low)),
            (Form::High, None) => format!("{high}: {}", figure(self.high)),
            (Form::Both, _) => format!("{low}: {}, {high}: {}", figure(self.low), figure(self.high)),
            (Form::Middle, _) => format!("{middle}: {}", figure(f64::midpoint(self.low, self.high))),
        }
    }
}

/// The roof's shape.
#[derive(Debug, Clone, PartialEq)]
pub enum Roof {
    Flat,
    Arch(f64),
    Ridge(f64),
    Line(Vec<(f64, f64)>),
}

/// What the shell takes from the room.
#[derive(Debug, Clone, PartialEq)]
pub enum Cutaway {
    Edge { side: Side, along: f64, height: f64 },
    Block { x: Range, y: Range, top: f64 },
}

/// An opening in a wall, or in the roof where it has no wall.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    pub name: String,
    pub kind: &'static str,
    pub wall: Option<Side>,
    pub along: Range,
    /// Across the box, of a roof hatch.
    pub across: Option<Range>,
    pub sill: f64,
    pub height: f64,
    pub hinge: Option<Side>,
    pub swings: &'static str,
    /// Further keys.
    pub more: String,
}

/// One piece of furniture.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    pub name: String,
    pub symbol: &'static str,
    pub faces: Side,
    pub mirror: bool,
    pub x: Range,
    pub y: Range,
    pub height: Option<f64>,
    /// `top: box.top`, say.
    pub upward: String,
    /// Settings.
    pub set: String,
    /// Further keys.
    pub more: String,
}

/// A zone.
#[derive(Debug, Clone, PartialEq)]
pub struct Zone {
    pub name: String,
    pub x: Range,
    pub y: Range,
}

/// A whole layout.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    pub title: String,
    pub length: f64,
    pub width: f64,
    pub height: f64,
    pub roof: Roof,
    pub cutaways: Vec<Cutaway>,
    pub openings: Vec<Opening>,
    pub zones: Vec<Zone>,
    /// Statures.
    pub people: Vec<f64>,
    pub pieces: Vec<Piece>,
    /// Names, each with poses of pieces.
    pub arrangements: Vec<(String, Vec<(String, &'static str)>)>,
    /// From, to, least.
    pub routes: Vec<(String, String, Option<f64>)>,
    /// Further top-level lines.
    pub more: String,
}

fn figure(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

impl Plan {
    fn total(&self, way: Way) -> f64 {
        if way == Way::X { self.length } else { self.width }
    }

    /// The same layout with left and right, or front and rear, swapped.
    pub fn flipped(&self, way: Way) -> Self {
        let total = self.total(way);
        let range = |range: &Range, along: Way| if along == way { range.flipped(total) } else { range.clone() };
        let mut plan = self.clone();
        if let (Roof::Line(points), Way::Y) = (&mut plan.roof, way) {
            points.reverse();
            points.iter_mut().for_each(|point| point.0 = total - point.0);
        }
        for cutaway in &mut plan.cutaways {
            match cutaway {
                Cutaway::Edge { side, .. } => *side = side.flipped(way),
                Cutaway::Block { x, y, .. } => (*x, *y) = (range(x, Way::X), range(y, Way::Y)),
            }
        }
        for opening in &mut plan.openings {
            opening.along = range(&opening.along, opening.wall.map_or(Way::X, Side::runs));
            opening.across = opening.across.as_ref().map(|across| range(across, Way::Y));
            opening.wall = opening.wall.map(|wall| wall.flipped(way));
            opening.hinge = opening.hinge.map(|hinge| hinge.flipped(way));
        }
        for zone in &mut plan.zones {
            (zone.x, zone.y) = (range(&zone.x, Way::X), range(&zone.y, Way::Y));
        }
        for piece in &mut plan.pieces {
            (piece.x, piece.y) = (range(&piece.x, Way::X), range(&piece.y, Way::Y));
            piece.faces = piece.faces.flipped(way);
            piece.mirror = !piece.mirror;
        }
        plan
    }

    /// The layout file.
    pub fn yaml(&self) -> String {
        let mut text = format!("boxwright: 1\ntitle: {}\n", self.title);
        let mut line = |say: String| text += &(say + "\n");
        line(self.people());
        self.space().into_iter().for_each(&mut line);
        line("openings:".to_owned());
        self.openings.iter().for_each(|opening| line(opening.line()));
        if !self.zones.is_empty() {
            line("zones:".to_owned());
        }
        for zone in &self.zones {
            let keys = format!("{}, {}", zone.x.keys(Way::X), zone.y.keys(Way::Y));
            line(format!("  {}: {{ purpose: living, {keys} }}", zone.name));
        }
        line("modules:".to_owned());
        self.pieces.iter().for_each(|piece| line(piece.line()));
        if !self.arrangements.is_empty() {
            line("arrangements:".to_owned());
        }
        for (name, poses) in &self.arrangements {
            let poses: Vec<String> = poses.iter().map(|(piece, pose)| format!("{piece}: {pose}")).collect();
            line(format!("  {name}: {{ {} }}", poses.join(", ")));
        }
        if !self.routes.is_empty() {
            line("routes:".to_owned());
        }
        for (from, to, least) in &self.routes {
            let least = least.map(|least| format!(", least: {}", figure(least))).unwrap_or_default();
            line(format!("  - {{ from: {from}, to: {to}{least} }}"));
        }
        text + &self.more
    }

    fn people(&self) -> String {
        let one = |(at, stature): (usize, &f64)| format!("p{at}: {{ stature: {} }}", figure(*stature));
        let people: Vec<String> = self.people.iter().enumerate().map(one).collect();
        format!("people: {{ {} }}", people.join(", "))
    }

    fn space(&self) -> Vec<String> {
        let [length, width, height] = [self.length, self.width, self.height].map(figure);
        let mut lines = vec!["box:".to_owned(), format!("  length: {length}\n  width: {width}\n  height: {height}")];
        lines.push(match &self.roof {
            Roof::Flat => "  roof: flat".to_owned(),
            Roof::Arch(rise) => format!("  roof: {{ shape: arch, rise: {} }}", figure(*rise)),
            Roof::Ridge(rise) => format!("  roof: {{ shape: ridge, rise: {} }}", figure(*rise)),
            Roof::Line(points) => {
                let points: Vec<String> =
                    points.iter().map(|(y, z)| format!("[{}, {}]", figure(*y), figure(*z))).collect();
                format!("  roof: [{}]", points.join(", "))
            }
        });
        if !self.cutaways.is_empty() {
            lines.push("  cutaways:".to_owned());
        }
        lines.extend(self.cutaways.iter().enumerate().map(|(at, cutaway)| match cutaway {
            Cutaway::Edge { side, along, height } => {
                let (along, height) = (figure(*along), figure(*height));
                format!("    cut-{at}: {{ edge: {}-floor, along: {along}, height: {height} }}", side.word())
            }
            Cutaway::Block { x, y, top } => {
                let keys = format!("{}, {}", x.keys(Way::X), y.keys(Way::Y));
                format!("    cut-{at}: {{ box: {{ {keys}, top: {} }} }}", figure(*top))
            }
        }));
        lines
    }
}

impl Opening {
    fn line(&self) -> String {
        let mut line = format!("  {}: {{ kind: {}, swings: {}", self.name, self.kind, self.swings);
        if let Some(across) = &self.across {
            let [x, y] = [&self.along, across].map(|range| figure(f64::midpoint(range.low, range.high)));
            let [run, depth] = [&self.along, across].map(|range| figure(range.size()));
            let _ = write!(line, ", centre: [{x}, {y}], run: {run}, depth: {depth}");
        }
        if let Some(wall) = self.wall {
            let run = if self.along.form == Form::Both {
                String::new()
            } else {
                format!(", run: {}", figure(self.along.size()))
            };
            let keys = self.along.keys(wall.runs()).replace("centre-x", "centre").replace("centre-y", "centre");
            let (sill, height) = (figure(self.sill), figure(self.height));
            let _ = write!(line, ", wall: {}, {keys}{run}, sill: {sill}, height: {height}", wall.word());
        }
        if let Some(hinge) = self.hinge {
            let _ = write!(line, ", hinge: {}", hinge.word());
        }
        line + &self.more + " }"
    }
}

impl Piece {
    /// The range along its facing side, and the one from there to its back.
    pub fn run_and_depth(&self) -> (&Range, &Range) {
        if self.faces.runs() == Way::X { (&self.x, &self.y) } else { (&self.y, &self.x) }
    }

    fn line(&self) -> String {
        let (run, depth) = self.run_and_depth();
        let mut size: Vec<String> = [("run", run), ("depth", depth)]
            .into_iter()
            .filter(|(_, range)| range.form != Form::Both)
            .map(|(word, range)| format!("{word}: {}", figure(range.size())))
            .collect();
        size.extend(self.height.map(|height| format!("height: {}", figure(height))));
        let (name, symbol, faces) = (&self.name, self.symbol, self.faces.word());
        let place = format!("{}, {}{}", self.x.keys(Way::X), self.y.keys(Way::Y), self.upward);
        let mut line =
            format!("  {name}: {{ symbol: {symbol}, faces: {faces}, mirror: {}, place: {{ {place} }}", self.mirror);
        if !size.is_empty() {
            let _ = write!(line, ", size: {{ {} }}", size.join(", "));
        }
        if !self.set.is_empty() {
            let _ = write!(line, ", set: {{ {} }}", self.set);
        }
        line + &self.more + " }"
    }
}
