//! Edges of a region that touch at their ends only.

use super::border::Edge;
use i_overlay::i_float::int::point::IntPoint;

/// Splits edges where a corner of another contour lies on them, so that edges touch at their ends only.
pub(super) fn split(edges: Vec<Edge>) -> Vec<Edge> {
    let wide = |p: IntPoint<i32>| (i64::from(p.x), i64::from(p.y));
    let key = |p: IntPoint<i32>, a: IntPoint<i32>| {
        let ((px, py), (ax, ay)) = (wide(p), wide(a));
        (px - ax).abs() + (py - ay).abs()
    };
    let on = |p: IntPoint<i32>, (a, b): Edge| {
        let ((px, py), (ax, ay), (bx, by)) = (wide(p), wide(a), wide(b));
        p != a
            && p != b
            && px >= ax.min(bx)
            && px <= ax.max(bx)
            && py >= ay.min(by)
            && py <= ay.max(by)
            && (bx - ax) * (py - ay) == (by - ay) * (px - ax)
    };
    let mut corners: Vec<IntPoint<i32>> = edges.iter().map(|(a, _)| *a).collect();
    corners.sort_by_key(|p| (p.x, p.y));
    let beside = |(a, b): Edge| {
        let from = corners.partition_point(|p| p.x < a.x.min(b.x));
        let to = corners.partition_point(|p| p.x <= a.x.max(b.x));
        corners.get(from..to).unwrap_or_default()
    };
    let mut pieces = Vec::with_capacity(edges.len());
    for edge in edges {
        let mut stops: Vec<IntPoint<i32>> = beside(edge).iter().copied().filter(|p| on(*p, edge)).collect();
        stops.sort_by_key(|p| key(*p, edge.0));
        stops.dedup();
        let mut from = edge.0;
        for stop in stops.into_iter().chain([edge.1]) {
            pieces.push((from, stop));
            from = stop;
        }
    }
    pieces
}
