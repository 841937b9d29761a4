//! The symbol document: what a furniture file says, typed, with places, not yet resolved.

use super::expression::Expr;
use super::fittings::{HardwareDoc, JointDoc};
use super::named::Named;
use crate::base::content::Key;
use crate::model::{Grain, LockWord, Need, Said, Service, Tag};
use crate::source::{Span, Spanned};
use std::sync::Arc;

/// The name that stands for the stature of the tallest person aboard, in expressions of a symbol.
pub const TALLEST: &str = "tallest";

/// A symbol file.
#[derive(Debug, Clone, PartialEq)]
pub struct SymbolDoc {
    /// The key of its text and its recipes' texts, with the numbers of their files.
    pub content: Key,
    /// `group/name`.
    pub symbol: Spanned<String>,
    /// One line.
    pub says: Spanned<String>,
    /// It stands outside the box.
    pub outside: bool,
    /// Run, depth, height.
    pub size: [SizeDoc; 3],
    /// Settings.
    pub settings: Named<SettingDoc>,
    /// Names for later expressions.
    pub lets: Named<Expr>,
    /// What layouts may refer to.
    pub exports: Named<Expr>,
    /// Poses; when the file has none, one pose `as-built` without variables.
    pub poses: Named<PoseDoc>,
    /// Solids.
    pub solids: Named<SolidDoc>,
    /// Spaces.
    pub spaces: Named<SpaceDoc>,
    /// Moves.
    pub moves: Named<MoveDoc>,
    /// Linework.
    pub plan: Vec<Spanned<PlanLineDoc>>,
    /// Parts.
    pub parts: Named<PartDoc>,
    /// Pieces made by recipes.
    pub pieces: Named<PieceDoc>,
    /// Hardware.
    pub hardware: Named<HardwareDoc>,
    /// `mass: { fixed }`, kg.
    pub fixed_mass: Option<Expr>,
    /// `mass: { contents }`.
    pub contents_mass: Option<Expr>,
    /// Services.
    pub connects: Vec<Spanned<Service>>,
}

/// A recipe file: how one thing that many symbols have is built, in its own frame.
#[derive(Debug, Clone, PartialEq)]
pub struct RecipeDoc {
    /// The key of its text, with the number of its file.
    pub content: Key,
    /// Its name.
    pub recipe: Spanned<String>,
    /// One line.
    pub says: Spanned<String>,
    /// What a symbol may choose.
    pub settings: Named<SettingDoc>,
    /// Names for later expressions.
    pub lets: Named<Expr>,
    /// Parts.
    pub parts: Named<PartDoc>,
    /// Hardware.
    pub hardware: Named<HardwareDoc>,
}

/// One piece of a symbol: a recipe at a place.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceDoc {
    /// Only when this holds.
    pub when: Option<Expr>,
    /// Several.
    pub each: Option<EachDoc>,
    /// Name of the recipe.
    pub recipe: Spanned<String>,
    /// The recipe; `None` until the library has read it.
    pub made: Option<Arc<RecipeDoc>>,
    /// The room it is built in; its low corner is the origin of the recipe's frame.
    pub at: ExtentDoc,
    /// Settings of the recipe.
    pub set: Named<Expr>,
}

/// `{ default, least, most }`.
#[derive(Debug, Clone, PartialEq)]
pub struct SizeDoc {
    /// Default.
    pub default: Expr,
    /// Least.
    pub least: Expr,
    /// Most.
    pub most: Expr,
    /// Where it is written.
    pub span: Span,
}

/// One setting.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingDoc {
    /// Its kind.
    pub kind: SettingKind,
    /// Its default.
    pub default: Expr,
}

/// Kinds of settings.
#[derive(Debug, Clone, PartialEq)]
pub enum SettingKind {
    /// `kind: whole`: a whole number.
    Whole {
        /// Least.
        least: Expr,
        /// Most.
        most: Expr,
    },
    /// `kind: length`: millimetres.
    Length {
        /// Least.
        least: Expr,
        /// Most.
        most: Expr,
    },
    /// `kind: yes-no`.
    YesNo,
    /// `kind: one-of`.
    OneOf {
        /// The values.
        values: Vec<Spanned<String>>,
    },
}

/// One pose: its variables.
#[derive(Debug, Clone, PartialEq)]
pub struct PoseDoc {
    /// Variables.
    pub variables: Named<Expr>,
}

/// `each: i in 1..n`.
#[derive(Debug, Clone, PartialEq)]
pub struct EachDoc {
    /// Name of the counter.
    pub counter: String,
    /// First value.
    pub from: Expr,
    /// Last value, included.
    pub to: Expr,
    /// Where it is written.
    pub span: Span,
}

/// `[low, high]`.
#[derive(Debug, Clone, PartialEq)]
pub struct RangeDoc {
    /// Low end.
    pub low: Expr,
    /// High end.
    pub high: Expr,
}

/// A corner of an outline, or an arc to a point through another.
#[derive(Debug, Clone, PartialEq)]
pub enum OutlinePoint {
    /// `[a, b]`.
    Corner([Expr; 2]),
    /// `{ arc: [a, b], through: [a, b] }`: from the point before, through `through`, to `to`.
    Arc {
        /// End.
        to: [Expr; 2],
        /// A point between.
        through: [Expr; 2],
    },
}

/// Shapes of solids and spaces, in the module's frame (u, v, w).
#[derive(Debug, Clone, PartialEq)]
pub enum SolidShape {
    /// `u, v, w` ranges.
    Block([RangeDoc; 3]),
    /// `outline: [[u, v], ...]` with `w`.
    Outline(Vec<OutlinePoint>, RangeDoc),
    /// `profile: [[v, w], ...]` with `u`: a side view swept along the run.
    Profile(Vec<OutlinePoint>, RangeDoc),
    /// `front: [[u, w], ...]` with `v`: a front view swept along the depth.
    Front(Vec<OutlinePoint>, RangeDoc),
}

/// One solid.
#[derive(Debug, Clone, PartialEq)]
pub struct SolidDoc {
    /// Only when this holds.
    pub when: Option<Expr>,
    /// Several.
    pub each: Option<EachDoc>,
    /// Shape.
    pub shape: SolidShape,
    /// Tags.
    pub tags: Vec<Said<Tag>>,
    /// Bought in.
    pub bought: bool,
    /// Sides that no board closes.
    pub open: Vec<Spanned<String>>,
    /// Of a block: cut off so far below the roof lining.
    pub under_roof: Option<Expr>,
}

/// One space.
#[derive(Debug, Clone, PartialEq)]
pub struct SpaceDoc {
    /// Only when this holds.
    pub when: Option<Expr>,
    /// Several.
    pub each: Option<EachDoc>,
    /// Shape. For `standing` and `sitting`, `w` may be left out: `[0, tallest]`.
    pub shape: SolidShape,
    /// What for.
    pub need: Spanned<Need>,
    /// For how many; 1 by default.
    pub people: Option<Expr>,
    /// `along: u` or `v`: which way people lie.
    pub along: Option<Spanned<char>>,
    /// `carries`: kilograms that may be kept in a storage space.
    pub carries: Option<Expr>,
}

/// Which way a leaf or drawer is made.
#[derive(Debug, Clone, PartialEq)]
pub enum MoveShape {
    /// `slides: out|left|right|up|down`, with `u`, `w`, `v` (default `[0, depth]`) and `travel`.
    Slide {
        /// Direction.
        direction: Spanned<String>,
        /// Body when shut.
        body: [RangeDoc; 3],
        /// Travel.
        travel: Expr,
        /// The move that must be open first.
        after: Option<Spanned<String>>,
        /// It leaves the box through an opening.
        through: bool,
    },
    /// `hinged: left|right|top|bottom`, in the front plane `v = at` (default 0), with `u`, `w` and `opens`;
    /// `side: left|right|back` puts it into another plane, whose range is `u` or `v`.
    Leaf {
        /// Hinge side.
        hinged: Spanned<String>,
        /// `front` (default), `back`, `left`, `right`.
        side: Spanned<String>,
        /// Position of the leaf's outer face along the plane's normal.
        at: Option<Expr>,
        /// Range across.
        across: RangeDoc,
        /// Range upward.
        upward: RangeDoc,
        /// Angle.
        opens: Expr,
        /// Leaf thickness; default 18.
        thickness: Option<Expr>,
        /// Opens into the module instead of away from it.
        inward: bool,
    },
    /// `lid: back|front|left|right` (hinge side) with `u`, `v`, `at` (the height of its upper face) and `opens`.
    Lid {
        /// Hinge side.
        hinged: Spanned<String>,
        /// Range along u.
        u: RangeDoc,
        /// Range along v.
        v: RangeDoc,
        /// Height of the upper face.
        at: Expr,
        /// Angle.
        opens: Expr,
        /// Leaf thickness; default 18.
        thickness: Option<Expr>,
    },
}

/// One move.
#[derive(Debug, Clone, PartialEq)]
pub struct MoveDoc {
    /// Only when this holds.
    pub when: Option<Expr>,
    /// Several.
    pub each: Option<EachDoc>,
    /// Shape.
    pub shape: MoveShape,
    /// A door for people.
    pub walk_through: bool,
}

/// Linework shapes, in u and v.
#[derive(Debug, Clone, PartialEq)]
pub enum LineShape {
    /// `line: [[u, v], ...]`, open; may have arcs.
    Line(Vec<OutlinePoint>),
    /// `outline: [[u, v], ...]`, closed.
    Outline(Vec<OutlinePoint>),
    /// `rect: { u, v }` or, with `radius`, `round-rect: { u, v }`.
    Rect(RangeDoc, RangeDoc, Option<Expr>),
    /// `circle: [u, v]` with `radius`.
    Circle([Expr; 2], Expr),
}

/// One piece of linework.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanLineDoc {
    /// Only when this holds.
    pub when: Option<Expr>,
    /// Several.
    pub each: Option<EachDoc>,
    /// Shape.
    pub shape: LineShape,
    /// Height above the module's floor; default the module's height.
    pub at: Option<Expr>,
    /// Dashed.
    pub dashed: bool,
}

/// `{ u, v, w }`.
#[derive(Debug, Clone, PartialEq)]
pub struct ExtentDoc {
    /// u, v, w.
    pub ranges: [RangeDoc; 3],
    /// Where it is written.
    pub span: Span,
}

/// Where a piece of a part stands.
#[derive(Debug, Clone, PartialEq)]
pub struct PartPlaceDoc {
    /// Its shape.
    pub shape: PartShape,
    /// `face`: the side of the module that its machined face looks at.
    pub face: Option<Spanned<String>>,
    /// Where it is written.
    pub span: Span,
}

/// Shapes of a placed part.
#[derive(Debug, Clone, PartialEq)]
pub enum PartShape {
    /// `u, v, w` ranges.
    Block([RangeDoc; 3]),
    /// `u` with `slope: [[v, w], [v, w]]`: a sloping board whose lower face follows that line.
    Slope(RangeDoc, [[Expr; 2]; 2]),
}

/// How a part's size is given.
#[derive(Debug, Clone, PartialEq)]
pub enum PartSize {
    /// `count`, `length`, `width`.
    Loose {
        /// How many; 1 by default.
        count: Option<Expr>,
        /// Length.
        length: Expr,
        /// Width.
        width: Expr,
    },
    /// `at: { u, v, w }` or a list of such, all of one size: sizes follow from the places; one of the three is
    /// the thickness of the stock.
    Placed {
        /// The places.
        at: Vec<PartPlaceDoc>,
        /// `long: u|v|w`: which direction is the length; by default the longer one.
        long: Option<Spanned<char>>,
    },
}

/// A figure for each edge: thickness of its band, or scribe allowance. For a placed part the sides of the module may be named too.
#[derive(Debug, Clone, PartialEq)]
pub struct BandsDoc {
    /// Side (`front`, `back`, `left`, `right`, and `top`, `bottom` for placed parts) to thickness.
    pub sides: Vec<(Spanned<String>, Expr)>,
}

/// Shapes of cutouts, from the datum corner.
#[derive(Debug, Clone, PartialEq)]
pub enum CutoutShape {
    /// `rect: { length: [a, b], width: [a, b] }`.
    Rect(RangeDoc, RangeDoc),
    /// `circle: [a, b]`, `radius`.
    Circle([Expr; 2], Expr),
    /// `outline: [[a, b], ...]`.
    Outline(Vec<OutlinePoint>),
}

/// One machining, maybe several times.
#[derive(Debug, Clone, PartialEq)]
pub struct MachiningDoc {
    /// Only when this holds.
    pub when: Option<Expr>,
    /// Several.
    pub each: Option<EachDoc>,
    /// On the back of the board.
    pub reverse: bool,
    /// What is done.
    pub kind: MachiningKind,
    /// Where it is written.
    pub span: Span,
}

/// Kinds of machining.
#[derive(Debug, Clone, PartialEq)]
pub enum MachiningKind {
    /// `grooves: - { from: [a, b], to: [a, b], width, depth, holds }`.
    Groove {
        /// Start.
        from: [Expr; 2],
        /// End.
        to: [Expr; 2],
        /// Width.
        width: Expr,
        /// Depth.
        depth: Expr,
        /// What is bought and laid into it.
        holds: Option<Spanned<String>>,
    },
    /// `holes: - { at: [a, b], diameter, depth }`.
    Hole {
        /// Centre.
        at: [Expr; 2],
        /// Diameter.
        diameter: Expr,
        /// Depth; through if absent.
        depth: Option<Expr>,
    },
    /// `cutouts: - { name, rect|circle|outline }`.
    Cutout {
        /// What for.
        name: Spanned<String>,
        /// Shape.
        shape: CutoutShape,
    },
}

/// One part.
#[derive(Debug, Clone, PartialEq)]
pub struct PartDoc {
    /// Only when this holds.
    pub when: Option<Expr>,
    /// Several.
    pub each: Option<EachDoc>,
    /// Size.
    pub size: PartSize,
    /// Stock.
    pub stock: Spanned<String>,
    /// Grain; `Length` by default.
    pub grain: Grain,
    /// Bands.
    pub bands: BandsDoc,
    /// Scribe allowances.
    pub scribe: BandsDoc,
    /// True outline.
    pub outline: Option<Vec<OutlinePoint>>,
    /// Cut off so far below the roof lining.
    pub under_roof: Option<Expr>,
    /// Machining.
    pub machining: Vec<MachiningDoc>,
    /// `faced`: its two faces differ, and its place says where the good one looks.
    pub faced: bool,
    /// What holds it where it touches nothing.
    pub held: Option<Spanned<String>>,
    /// What holds it to others in the place of what is usual.
    pub joint: Option<JointDoc>,
    /// What shuts it, or what it is opened by.
    pub lock: Option<LockWord>,
    /// What it is made to carry, kg/m2.
    pub load: Option<Expr>,
    /// Room around it that is wanted.
    pub clear: Option<Expr>,
    /// A word for the joiner.
    pub note: Option<Spanned<String>>,
}
