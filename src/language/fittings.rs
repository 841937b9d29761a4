//! What holds the parts of a symbol, and what is fitted to it, as its file says.

use super::expression::Expr;
use crate::model::JointWord;

/// `joint: dowel`, or `joint: { by: dowel, diameter, length, pitch }`.
#[derive(Debug, Clone, PartialEq)]
pub struct JointDoc {
    /// Which.
    pub by: JointWord,
    /// Of screw or dowel.
    pub diameter: Option<Expr>,
    /// Of screw or dowel.
    pub length: Option<Expr>,
    /// Most from one to the next.
    pub pitch: Option<Expr>,
}

/// One kind of hardware.
#[derive(Debug, Clone, PartialEq)]
pub struct HardwareDoc {
    /// Only when this holds.
    pub when: Option<Expr>,
    /// How many.
    pub count: Expr,
    /// Size.
    pub size: Option<Expr>,
}
