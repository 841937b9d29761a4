//! Paints the furniture of an arrangement as it is seen along an axis: far things first, so that near ones hide them.

use super::look::Look;
use crate::drawing::{Fill, Hatch, Item, LineClass, hatch};
use crate::geometry::{Box3, Prism};
use crate::model::{Module, Move, MoveKind, PoseState, Solid, Swing, Tag};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::misfit::hatched;
use crate::views::kit::piece::{Owner, Piece, owner, paint};
use crate::views::kit::placement::{Placement, outline, polyline};
use crate::views::kit::raster::Raster;
use kurbo::{BezPath, Point, Rect, Shape};

/// Half the thickness of the slice that a plane cuts, mm.
const SLICE: f64 = 0.05;
/// A section thinner than this is shown filled (ISO 128-3:2022, thin sections), mm on paper.
const THIN: f64 = 2.0;
/// Fronts stand this much before what they close, mm.
const BEFORE: f64 = 0.5;

/// Modules with their states and a look at them.
pub(super) struct Painter<'a> {
    pub look: Look,
    /// Depth of the cutting plane; what is nearer is not seen.
    pub plane: f64,
    /// Modules, in file order, with their states.
    pub states: Vec<(&'a Module, &'a PoseState)>,
}

impl Painter<'_> {
    /// Paints all modules, and the fronts of what opens.
    pub fn paint(&self, place: Placement, canvas: &mut Canvas) {
        let mut pieces = Vec::new();
        for (module, state) in &self.states {
            let owner = owner(module);
            let mut put =
                |depth: f64, item: Item| pieces.push(Piece { height: -depth, owner: Owner::clone(&owner), item });
            for solid in &state.solids {
                self.solid(solid, place, &mut put);
            }
            self.boards(module, place, &mut put);
            for part in &state.moves {
                self.front(part, place, &mut put);
            }
        }
        paint(pieces, canvas);
        let beyond = |module: &Module| self.look.depth(&module.extent).1 > self.plane;
        for (module, _) in self.states.iter().filter(|(module, _)| beyond(module)) {
            hatched(module, place.rect(self.look.rect(&module.extent)), canvas);
        }
    }

    /// Which module is seen where: its index and one; 0 where none is.
    pub fn owners(&self, place: Placement, bounds: Rect) -> Raster {
        let mut shapes: Vec<(f64, usize, BezPath)> = Vec::new();
        for (module, (_, state)) in self.states.iter().enumerate() {
            for solid in &state.solids {
                let depth = self.look.depth(&solid.prism.bounds()).0.max(self.plane);
                shapes.extend(self.beyond(solid, place).into_iter().map(|shape| (depth, module, shape)));
            }
        }
        shapes.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mut owners = Raster::new(bounds);
        for (_, module, shape) in shapes {
            owners.fill(&shape, u32::try_from(module + 1).unwrap_or(u32::MAX));
        }
        owners
    }

    /// Whether the plane goes through a solid.
    pub fn is_cut(&self, prism: &Prism) -> bool {
        let (near, far) = self.look.depth(&prism.bounds());
        near < self.plane - SLICE && far > self.plane + SLICE
    }

    /// The face of a solid in the plane.
    pub fn cut_face(&self, prism: &Prism, place: Placement) -> Vec<BezPath> {
        let faces = self.look.shadow(prism, self.plane - SLICE, self.plane + SLICE);
        faces.iter().map(|face| place.closed(face.points())).collect()
    }

    /// What is seen of a solid beyond the plane.
    fn beyond(&self, solid: &Solid, place: Placement) -> Vec<BezPath> {
        if let (true, Some(curve)) = (solid.prism.axis == self.look.axis(), &solid.curve) {
            let whole = self.look.depth(&solid.prism.bounds()).1 > self.plane;
            let flip = if self.look.seen(Point::new(1.0, 0.0)).x < 0.0 { -1.0 } else { 1.0 };
            let seen = kurbo::Affine::scale_non_uniform(flip, 1.0) * curve.clone();
            return if whole { vec![place.path(&seen)] } else { Vec::new() };
        }
        let shadows = self.look.shadow(&solid.prism, self.plane, f64::INFINITY);
        shadows.iter().map(|outline| place.closed(outline.points())).collect()
    }

    fn solid(&self, solid: &Solid, place: Placement, put: &mut impl FnMut(f64, Item)) {
        let depth = self.look.depth(&solid.prism.bounds()).0.max(self.plane);
        for shape in self.beyond(solid, place) {
            put(depth, Item::area(shape, Some(LineClass::Visible), Fill::Furniture));
        }
        if self.is_cut(&solid.prism) {
            let soft = solid.is(Tag::Mattress);
            for face in self.cut_face(&solid.prism, place) {
                let plain = || vec![Item::area(face.clone(), Some(LineClass::Cut), Fill::Cut)];
                let items = if soft { cut_items(face.clone(), Fill::Cut, Hatch::Foam).to_vec() } else { plain() };
                items.into_iter().for_each(|item| put(self.plane - BEFORE, item));
            }
        }
    }

    /// The boards that the plane cuts; of a module with several poses their places are those of one.
    fn boards(&self, module: &Module, place: Placement, put: &mut impl FnMut(f64, Item)) {
        let parts = if module.poses.len() == 1 { &module.parts[..] } else { &[] };
        for board in parts.iter().flat_map(|part| &part.places).map(|board| &board.solid) {
            let faces = if self.is_cut(board) { self.cut_face(board, place) } else { Vec::new() };
            for face in faces {
                let size = face.bounding_box().size();
                let thin = size.width.min(size.height) < THIN;
                let items = if thin {
                    vec![Item::area(face, None, Fill::Ink)]
                } else {
                    cut_items(face, Fill::Cut, Hatch::Wood).to_vec()
                };
                items.into_iter().for_each(|item| put(self.plane - 2.0 * BEFORE, item));
            }
        }
    }

    /// The shut front of a leaf or drawer that faces the eye: its edge, and dashed lines that meet at the hinge.
    fn front(&self, part: &Move, place: Placement, put: &mut impl FnMut(f64, Item)) {
        let Some(Front { rect, hinge, near }) = self.seen_front(part) else { return };
        let paper = place.rect(rect);
        put(near - BEFORE, Item::line(outline(paper), LineClass::Detail));
        if let Some(hinge) = hinge {
            put(near - BEFORE, Item::line(hinge_sign(paper, place.rect(hinge)), LineClass::Above));
        }
    }

    /// The shut front of a leaf or drawer, if it faces the eye and is not before the plane.
    pub fn seen_front(&self, part: &Move) -> Option<Front> {
        let (front, hinge) = match &part.kind {
            MoveKind::Slide(slide) if slide.axis == self.look.axis() => (slide.body, None),
            MoveKind::Slide(_) => return None,
            MoveKind::Swing(swing) => {
                let (leaf, hinge) = shut_leaf(swing);
                (leaf, Some(hinge))
            }
        };
        let rect = self.look.rect(&front);
        let (near, far) = self.look.depth(&front);
        let flat = hinge.is_none() || far - near < 1.0;
        let seen = near >= self.plane && flat && rect.width().min(rect.height()) >= 1.0;
        seen.then(|| Front { rect, hinge: hinge.map(|hinge| self.look.rect(&hinge)), near })
    }
}

/// A shut front as it is seen, mm.
pub(super) struct Front {
    pub rect: Rect,
    /// The line of its hinge.
    pub hinge: Option<Rect>,
    near: f64,
}

/// A face in the plane: filled, hatched, with a thick edge.
pub(super) fn cut_items(face: BezPath, fill: Fill, material: Hatch) -> [Item; 3] {
    let lines = Item::line(hatch(&face, material), LineClass::Dimension);
    [Item::area(face.clone(), None, fill), lines, Item::line(face, LineClass::Cut)]
}

/// The shut leaf as a flat box, and the line of its hinge.
fn shut_leaf(swing: &Swing) -> (Box3, Box3) {
    let (first, second) = swing.axis.plane();
    let free = crate::views::kit::placement::polar(swing.hinge, swing.length, swing.shut);
    let leaf = Rect::from_points(swing.hinge, free);
    let with = |rect: Rect| {
        Box3::default().with(swing.axis, swing.along).with(first, (rect.x0, rect.x1)).with(second, (rect.y0, rect.y1))
    };
    (with(leaf), with(Rect::from_points(swing.hinge, swing.hinge)))
}

/// Two lines from the corners away from the hinge to the middle of the hinge.
pub(super) fn hinge_sign(leaf: Rect, hinge: Rect) -> BezPath {
    let apex = hinge.center();
    let upright = hinge.height() >= hinge.width();
    let far = if upright { if apex.x < leaf.center().x { leaf.x1 } else { leaf.x0 } } else { apex.x };
    let ends = if upright {
        [Point::new(far, leaf.y0), Point::new(far, leaf.y1)]
    } else {
        let y = if apex.y < leaf.center().y { leaf.y1 } else { leaf.y0 };
        [Point::new(leaf.x0, y), Point::new(leaf.x1, y)]
    };
    polyline([ends[0], apex, ends[1]])
}

/// Other poses of what is bought and soft, which show where a bed or table goes: the bounds of their mattresses and tops.
pub(super) fn other_poses(module: &Module, state: &PoseState, look: Look, plane: f64) -> Vec<Rect> {
    let tells = |solid: &&Solid| {
        let beyond = look.depth(&solid.prism.bounds()).1 > plane + SLICE;
        beyond && solid.is_any(&[Tag::Mattress, Tag::Table])
    };
    let rects = |state: &PoseState| -> Vec<Rect> {
        state.solids.iter().filter(tells).map(|solid| look.rect(&solid.prism.bounds())).collect()
    };
    let own = rects(state);
    let others = module.poses.iter().filter(|pose| pose.name != state.name).flat_map(rects);
    let mut found: Vec<Rect> = Vec::new();
    for rect in others {
        if !own.contains(&rect) && !found.contains(&rect) {
            found.push(rect);
        }
    }
    found
}
