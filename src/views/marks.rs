//! Findings on the plan: their places in red, each with its number.

use super::canvas::Canvas;
use super::ink::{BADGE, Taken, badge, double_arrow, square};
use super::legend::words;
use super::numbers::holds_in;
use super::scene::Scene;
use crate::diagnostic::{Finding, Mark, Severity};
use crate::drawing::{Item, LayerKind, LineClass};
use crate::model::Arrangement;
use kurbo::{Point, Rect, Shape, Vec2};

/// Marks drawn for one finding, at most.
const MOST: usize = 4;
/// How far a badge may stand from its place, in rings of this width, mm.
const RING: f64 = 3.0;

/// Marks the findings that hold in the arrangement; notes are only listed, accepted ones have a number only.
pub(super) fn draw(scene: &Scene<'_>, findings: &[(usize, &Finding)], taken: &mut Taken, canvas: &mut Canvas) {
    for (number, finding) in findings.iter().filter(|(_, f)| is_marked(f, scene.arrangement)) {
        let mut items = Vec::new();
        for mark in finding.marks.iter().take(MOST) {
            if finding.accepted.is_none() {
                items.extend(shape(scene, mark));
            }
            items.extend(numbered(scene, *number, anchor(scene, mark), taken));
        }
        let title = format!("{} {number}: {}", finding.kind(), words(finding));
        canvas.group(LayerKind::Findings, &format!("finding-{number}"), &title, items);
    }
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

/// The badge at its place, or in the nearest free one on a leader.
fn numbered(scene: &Scene<'_>, number: usize, anchor: Point, taken: &mut Taken) -> Vec<Item> {
    let window = window(scene);
    let mut middle = anchor;
    'search: for ring in 0..40_u32 {
        for step in 0..12_u32 {
            let angle = f64::from(step) * std::f64::consts::PI / 6.0 + std::f64::consts::FRAC_PI_4;
            let candidate = anchor + Vec2::from_angle(angle) * RING * f64::from(ring);
            if taken.is_free(square(candidate, BADGE)) && window.contains(candidate) {
                middle = candidate;
                break 'search;
            }
        }
    }
    taken.add(square(middle, BADGE));
    let mut items = Vec::new();
    if (middle - anchor).hypot() > BADGE {
        items.push(Item::segment(anchor, middle, LineClass::Mark));
    }
    items.extend(badge(middle, number));
    items
}
