//! What the pipeline's stages are measured beside: the same work done in the usual way by libraries.

use super::inset::passes;
use boxwright::drawing::{Item, Sheet};
use boxwright::geometry::{Clearance, End, Polygon, Region};
use kurbo::{PathEl, Point};
use printpdf::{
    BuiltinFont, Line, LinePoint, Mm, Op, PdfDocument, PdfFontHandle, PdfPage, PdfSaveOptions, Pt, TextItem,
};
use serde_json::Value;

/// A floor with furniture, and ways between points of it.
pub struct Ways {
    free: Region,
    routes: Vec<(Point, Point)>,
}

/// So many plans of `tests/oracles/plans.json`, with their routes from point to point.
pub fn ways(count: usize) -> Vec<Ways> {
    let plans: Vec<Value> = serde_json::from_str(include_str!("../oracles/plans.json")).unwrap();
    let point = |value: &Value| Some(Point::new(value[0].as_f64()?, value[1].as_f64()?));
    let polygon = |value: &Value| Polygon::new(value.as_array().unwrap().iter().filter_map(point).collect());
    let ways = plans.iter().map(|plan| {
        let furniture: Vec<Polygon> = plan["furniture"].as_array().unwrap().iter().map(polygon).collect();
        let routes = plan["routes"].as_array().unwrap().iter();
        Ways {
            free: Region::new([&polygon(&plan["floor"])]).subtract(&Region::new(&furniture)),
            routes: routes.filter_map(|route| Some((point(&route["from"])?, point(&route["to"])?))).collect(),
        }
    });
    ways.filter(|ways| !ways.routes.is_empty()).take(count).collect()
}

/// Their widths by our own graph.
pub fn by_graph(ways: &[Ways]) -> Vec<f64> {
    let each = ways.iter().flat_map(|ways| {
        let clearance = Clearance::new(&ways.free);
        let width = move |(from, to): &(Point, Point)| {
            clearance.widest(&End::Point(*from), &End::Point(*to)).map_or(0.0, |way| way.width)
        };
        ways.routes.iter().map(width)
    });
    each.collect()
}

/// The same widths by insetting the floor, halving the step until it is below a tenth of a millimetre.
pub fn by_insets(ways: &[Ways]) -> Vec<f64> {
    let width = |free: &Region, (from, to): &(Point, Point)| {
        let (mut passing, mut step) = (0.0, 2048.0);
        while step > 0.05 {
            if passes(free, passing + step, *from, *to) {
                passing += step;
            }
            step /= 2.0;
        }
        2.0 * passing
    };
    ways.iter().flat_map(|ways| ways.routes.iter().map(move |route| width(&ways.free, route))).collect()
}

/// The lines and texts of the sheets as a PDF file written by printpdf alone.
pub fn by_printpdf(sheets: &[Sheet]) -> Vec<u8> {
    let mut document = PdfDocument::new("peer");
    for sheet in sheets {
        let mut ops = Vec::new();
        sheet.views.iter().flat_map(|view| &view.layers).for_each(|layer| steps(&layer.items, &mut ops));
        let [width, height] = [sheet.paper.width, sheet.paper.height].map(|mm| Mm(mm as f32));
        document.pages.push(PdfPage::new(width, height, ops));
    }
    let options = PdfSaveOptions { optimize: true, subset_fonts: false, secure: true, image_optimization: None };
    document.save(&options, &mut Vec::new())
}

fn at(p: Point) -> printpdf::Point {
    printpdf::Point::new(Mm(p.x as f32), Mm(p.y as f32))
}

fn steps(items: &[Item], ops: &mut Vec<Op>) {
    for item in items {
        match item {
            Item::Path(path) => {
                let parts = path.shape.elements().chunk_by(|_, next| !matches!(next, PathEl::MoveTo(_)));
                ops.extend(parts.map(|part| Op::DrawLine { line: line(part) }));
            }
            Item::Text(text) => ops.extend([
                Op::StartTextSection,
                Op::SetFont {
                    font: PdfFontHandle::Builtin(BuiltinFont::Helvetica),
                    size: Pt(text.height as f32 * 4.0),
                },
                Op::SetTextCursor { pos: at(text.at) },
                Op::ShowText { items: vec![TextItem::Text(text.words.clone())] },
                Op::EndTextSection,
            ]),
            Item::Group(group) => steps(&group.items, ops),
        }
    }
}

fn line(part: &[PathEl]) -> Line {
    let corner = |p: Point, bezier| LinePoint { p: at(p), bezier };
    let points = part.iter().flat_map(|element| match *element {
        PathEl::MoveTo(a) | PathEl::LineTo(a) => vec![corner(a, false)],
        PathEl::QuadTo(a, b) => vec![corner(a, true), corner(a, true), corner(b, false)],
        PathEl::CurveTo(a, b, c) => vec![corner(a, true), corner(b, true), corner(c, false)],
        PathEl::ClosePath => Vec::new(),
    });
    Line { points: points.collect(), is_closed: part.ends_with(&[PathEl::ClosePath]) }
}
