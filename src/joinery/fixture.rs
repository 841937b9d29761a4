//! A small layout for the tests of joinery and of the back-ends that print it.

use crate::geometry::Prism;
use crate::model::*;
use crate::source::Span;
use kurbo::Rect;

/// A plain part of stock 0.
pub(crate) fn part(name: &str, count: u32, length: f64, width: f64) -> Part {
    Part {
        name: name.to_owned(),
        count,
        length,
        width,
        thickness: 12.0,
        stock: 0,
        grain: Grain::Length,
        bands: Bands::default(),
        scribe: Bands::default(),
        outline: None,
        curve: None,
        faced: false,
        hand: None,
        machining: Vec::new(),
        places: Vec::new(),
        held: None,
        joint: None,
        lock: None,
        load: None,
        clear: 0.0,
        note: None,
        span: Span::default(),
        piece: None,
    }
}

/// 12 mm birch plywood, 2440 x 1220, kerf 3.2, trim 10.
pub(crate) fn stock() -> Stock {
    let mut stock = materials::material("birch-ply-12").unwrap().stock("board");
    stock.sheets = vec![bought((2440.0, 1220.0), None)];
    stock
}

/// A size that can be bought.
pub(crate) fn bought(size: (f64, f64), price: Option<f64>) -> SheetSize {
    SheetSize { size, price, on_hand: None }
}

/// A module with one pose and these parts.
pub(crate) fn module(name: &str, parts: Vec<Part>) -> Module {
    let span = Span::default();
    let prism = Prism::upright(Rect::new(0.0, 0.0, 1200.0, 560.0), 0.0, 900.0);
    let solid = Solid {
        name: "body".to_owned(),
        prism: prism.clone(),
        curve: None,
        tags: vec![Tag::Worktop.into()],
        bought: false,
        open: vec![],
        span,
    };
    let pose = PoseState {
        name: "shut".to_owned(),
        solids: vec![solid],
        spaces: vec![],
        moves: vec![],
        linework: vec![],
        exports: vec![],
    };
    Module {
        name: name.to_owned(),
        symbol: "test/body".to_owned(),
        says: "A body".to_owned(),
        faces: Wall::Right,
        extent: prism.bounds(),
        zone: None,
        outside: false,
        used_outside: false,
        through: None,
        sleepers: vec![],
        riders: vec![],
        poses: vec![pose],
        parts,
        together: Together::default(),
        hardware: vec![],
        masses: vec![],
        connects: vec![],
        misfits: Vec::new(),
        span,
        place_span: span,
    }
}

/// A box of 4 m x 2 m with these modules and one stock.
pub(crate) fn model(modules: Vec<Module>) -> Model {
    let day = Arrangement { name: "day".to_owned(), poses: vec![0; modules.len()], span: Span::default() };
    let empty = testing::model(testing::space(4000.0, 2000.0, 1960.0));
    Model { modules, arrangements: vec![day], stocks: vec![stock()], ..empty }
}
