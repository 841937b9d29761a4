//! What a written value means in a layout that is taken mirrored or turned.
//!
//! An expression of the base is evaluated as if it stood in the base: each `galley.right` in it becomes `box.width -
//! galley.left`. So parameters, sums of edges and the curve of the roof mean what they meant.

use super::expression::{Binary, Expr, ExprKind, Function};

/// The middle of an opening along its wall, whichever way that goes.
const CENTRE: &str = "centre";
/// Behind [`CENTRE`]: measured from the other side, if the opening's wall goes across the box.
pub const ACROSS: &str = ">across";
/// Behind [`CENTRE`]: measured from the other end, if the opening's wall goes along it.
pub const ALONG: &str = ">along";

/// Which ends of the box are exchanged, and whether a value is itself a position.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Turn {
    /// Front and rear.
    pub ends: bool,
    /// Left and right.
    pub sides: bool,
    /// The value is a place along the box, measured from the other end.
    pub(super) from_end: bool,
    /// The value is a place across the box, measured from the other side.
    pub(super) from_side: bool,
}

impl Turn {
    /// By the words of `extends`: `mirror` exchanges left and right, `turn` both.
    #[must_use]
    pub fn by(mirror: bool, turn: bool) -> Self {
        Self { ends: turn, sides: mirror != turn, ..Self::default() }
    }

    /// Whether anything is exchanged, or measured from elsewhere.
    #[must_use]
    pub fn any(self) -> bool {
        self.ends || self.sides || self.from_end || self.from_side
    }

    /// What is written, as it is meant now.
    #[must_use]
    pub fn expr(self, expr: Expr) -> Expr {
        let span = expr.span;
        let expr = self.names(expr);
        let from = |name: &str, expr: Expr| less(name, expr);
        let expr = if self.from_end { from("box.length", expr) } else { expr };
        let expr = if self.from_side { from("box.width", expr) } else { expr };
        Expr { span, ..expr }
    }

    /// The names in an expression, at most as deep as the reader allows.
    fn names(self, expr: Expr) -> Expr {
        let span = expr.span;
        let kind = match expr.kind {
            ExprKind::Name(name) => return self.name(name, span),
            ExprKind::Unary(op, inner) => ExprKind::Unary(op, Box::new(self.names(*inner))),
            ExprKind::Binary(op, a, b) => ExprKind::Binary(op, Box::new(self.names(*a)), Box::new(self.names(*b))),
            ExprKind::Call(function, arguments) => {
                let mut arguments: Vec<Expr> = arguments.into_iter().map(|argument| self.names(argument)).collect();
                if function == Function::Roof && self.sides {
                    arguments = arguments.into_iter().map(|y| less("box.width", y)).collect();
                }
                let (function, whole) = match function {
                    Function::Left if self.sides => (Function::Right, Some("box.width")),
                    Function::Right if self.sides => (Function::Left, Some("box.width")),
                    Function::Front if self.ends => (Function::Rear, Some("box.length")),
                    Function::Rear if self.ends => (Function::Front, Some("box.length")),
                    same => (same, None),
                };
                let call = Expr { kind: ExprKind::Call(function, arguments), span };
                return whole.map_or_else(|| call.clone(), |whole| less(whole, call.clone()));
            }
            same => same,
        };
        Expr { kind, span }
    }

    fn name(self, name: String, span: crate::source::Span) -> Expr {
        let plain = |name: String| Expr { kind: ExprKind::Name(name), span };
        let Some((of, member)) = name.rsplit_once('.') else { return plain(name) };
        if member == CENTRE {
            return plain(format!(
                "{name}{}{}",
                if self.sides { ACROSS } else { "" },
                if self.ends { ALONG } else { "" }
            ));
        }
        let other = match member {
            "left" if self.sides => "right",
            "right" if self.sides => "left",
            "front" if self.ends => "rear",
            "rear" if self.ends => "front",
            "outer-left" if self.sides => "outer-right",
            "outer-right" if self.sides => "outer-left",
            "outer-front" if self.ends => "outer-rear",
            "outer-rear" if self.ends => "outer-front",
            "centre-y" if self.sides => "centre-y",
            "centre-x" if self.ends => "centre-x",
            _ => return plain(name),
        };
        let whole = if matches!(other, "left" | "right" | "outer-left" | "outer-right" | "centre-y") {
            "box.width"
        } else {
            "box.length"
        };
        less(whole, plain(format!("{of}.{other}")))
    }
}

/// `whole - expr`.
fn less(whole: &str, expr: Expr) -> Expr {
    let span = expr.span;
    let whole = Expr { kind: ExprKind::Name(whole.to_owned()), span };
    Expr { kind: ExprKind::Binary(Binary::Subtract, Box::new(whole), Box::new(expr)), span }
}
