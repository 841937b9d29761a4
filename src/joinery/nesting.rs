//! Laying parts on sheets so that every cut of a panel saw goes from edge to edge.

/// A placed piece, cut size without kerf, mm from the sheet's lower left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// Index of the piece's kind in the request.
    pub piece: usize,
    /// Left edge.
    pub x: f64,
    /// Lower edge.
    pub y: f64,
    /// Size along the sheet's length.
    pub length: f64,
    /// Size along the sheet's width.
    pub width: f64,
    /// Turned by a right angle.
    pub turned: bool,
}

/// One sheet with its pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct CutSheet {
    /// Sheet size, length x width, mm.
    pub size: (f64, f64),
    /// Pieces on it.
    pub pieces: Vec<Placed>,
}

/// All sheets of one stock.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CuttingPlan {
    /// The sheets.
    pub sheets: Vec<CutSheet>,
    /// No plan can use fewer sheets than this.
    pub bound: usize,
    /// Pieces (kind indices, once each) that fit on no sheet.
    pub too_large: Vec<usize>,
}
