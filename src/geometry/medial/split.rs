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
    let upright = |p: &IntPoint<i32>| (p.x, p.y);
    let flat = |p: &IntPoint<i32>| (p.y, p.x);
    let mut by_x: Vec<IntPoint<i32>> = edges.iter().map(|(a, _)| *a).collect();
    let mut by_y = by_x.clone();
    by_x.sort_unstable_by_key(upright);
    by_y.sort_unstable_by_key(flat);
    // The corners beside an edge, with few more: none if it runs along an axis.
    let beside = |(a, b): Edge| {
        let (low, high) = (IntPoint::new(a.x.min(b.x), a.y.min(b.y)), IntPoint::new(a.x.max(b.x), a.y.max(b.y)));
        let columns = by_x.partition_point(|p| upright(p) < upright(&low))
            ..by_x.partition_point(|p| upright(p) <= upright(&high));
        let rows = by_y.partition_point(|p| flat(p) < flat(&low))..by_y.partition_point(|p| flat(p) <= flat(&high));
        let corners = if columns.len() < rows.len() { by_x.get(columns) } else { by_y.get(rows) };
        corners.unwrap_or_default()
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
