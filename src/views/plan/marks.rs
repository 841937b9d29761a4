//! Findings on the plan: their places in red, each with its number.

use crate::diagnostic::{Finding, Mark, Severity};
use crate::drawing::{Item, LayerKind, LineClass};
use crate::model::Arrangement;
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{BADGE, Taken, badge, double_arrow, square};
use crate::views::kit::numbers::holds_in;
use crate::views::kit::scene::Scene;
use crate::views::plan::legend::words;
use kurbo::{Point, Rect, Shape, Vec2};

/// Marks drawn for one finding, at most.
const MOST: usize = 4;
/// How far a badge may stand from its place, in rings of this width, mm.
const RING: f64 = 3.0;

/// Draws the places of the findings that hold in the arrangement and are not accepted, under all their numbers.
pub(in crate::views) fn places(scene: &Scene<'_>, findings: &[(usize, &Finding)], canvas: &mut Canvas) {
    let open = |finding: &Finding| is_marked(finding, scene.arrangement) && finding.accepted.is_none();
    for (number, finding) in findings.iter().filter(|(_, finding)| open(finding)) {
        let items = finding.marks.iter().take(MOST).flat_map(|mark| shape(scene, mark)).collect();
        canvas.group(LayerKind::Findings, &format!("place-{number}"), &title(*number, finding), items);
    }
}

/// Where leaders of the numbers start: nothing that stays may stand here.
pub(in crate::views) fn anchors(scene: &Scene<'_>, findings: &[(usize, &Finding)]) -> Taken {
    let mut anchors = Taken::default();
    for (_, finding) in findings.iter().filter(|(_, finding)| is_marked(finding, scene.arrangement)) {
        finding.marks.iter().take(MOST).for_each(|mark| anchors.add(square(anchor(scene, mark), 0.5)));
    }
    anchors
}

/// Numbers the findings that hold in the arrangement, all leaders under all numbers; notes are only listed.
pub(in crate::views) fn numbers(
    scene: &Scene<'_>,
    findings: &[(usize, &Finding)],
    taken: &mut Taken,
    canvas: &mut Canvas,
) {
    let texts = taken.clone();
    let (mut leaders, mut badges) = (Vec::new(), Vec::new());
    for (number, finding) in findings.iter().filter(|(_, f)| is_marked(f, scene.arrangement)) {
        let mut items = Vec::new();
        for anchor in finding.marks.iter().take(MOST).map(|mark| anchor(scene, mark)) {
            let middle = free_place(window(scene), anchor, (&texts, taken));
            taken.add(square(middle, BADGE));
            if (middle - anchor).hypot() > BADGE {
                leaders.push(Item::segment(anchor, middle, LineClass::Mark));
            }
            items.extend(badge(middle, *number));
        }
        badges.push((format!("finding-{number}"), title(*number, finding), items));
    }
    canvas.group(LayerKind::Findings, "leaders", "From numbers to their places", leaders);
    for (name, title, items) in badges {
        canvas.linked(LayerKind::Findings, (&name, &title), items, &format!("row-{name}"));
    }
}

fn title(number: usize, finding: &Finding) -> String {
    format!("{} {number}: {}", finding.kind(), words(finding))
}

fn is_marked(finding: &Finding, arrangement: &Arrangement) -> bool {
    holds_in(finding, arrangement) && (finding.severity < Severity::Note || finding.accepted.is_some())
}

/// The window that marks may be drawn in.
fn window(scene: &Scene<'_>) -> Rect {
    scene.outside().inflate(BADGE, BADGE)
}

fn clamped(scene: &Scene<'_>, point: Point) -> Point {
    let window = window(scene);
    let on_paper = scene.place.to_paper(point);
    Point::new(on_paper.x.clamp(window.x0, window.x1), on_paper.y.clamp(window.y0, window.y1))
}

fn shape(scene: &Scene<'_>, mark: &Mark) -> Vec<Item> {
    match mark {
        Mark::At(_) => Vec::new(),
        Mark::Between(a, b) => double_arrow(clamped(scene, *a), clamped(scene, *b), LineClass::Mark),
        Mark::Area(area) => {
            let path = scene.place.path(area);
            let inside = window(scene).contains_rect(path.bounding_box());
            if inside { vec![Item::line(path, LineClass::Mark)] } else { Vec::new() }
        }
    }
}

fn anchor(scene: &Scene<'_>, mark: &Mark) -> Point {
    match mark {
        Mark::At(point) => clamped(scene, *point),
        Mark::Between(a, b) => clamped(scene, a.midpoint(*b)),
        Mark::Area(area) => clamped(scene, area.bounding_box().center()),
    }
}

/// The place of a badge: at its anchor, or the nearest that is free with a leader that runs through no text.
fn free_place(window: Rect, anchor: Point, (texts, taken): (&Taken, &Taken)) -> Point {
    let around = (0..40_u32).flat_map(|ring| (0..12_u32).map(move |step| (ring, step)));
    let mut places = around.map(|(ring, step)| {
        let angle = f64::from(step) * std::f64::consts::PI / 6.0 + std::f64::consts::FRAC_PI_4;
        anchor + Vec2::from_angle(angle) * RING * f64::from(ring)
    });
    let free = |place: &Point| taken.is_free(square(*place, BADGE)) && window.contains(*place);
    places.find(|place| free(place) && texts.lets_through(anchor, *place)).unwrap_or(anchor)
}
