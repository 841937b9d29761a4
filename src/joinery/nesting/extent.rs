//! Sizes in whole micrometres, and the two ways in which rectangles join.

/// How two rectangles lie together; the cut between them goes the other way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Join {
    /// Side by side along the sheet's length.
    Beside,
    /// One above the other, along the sheet's width.
    Above,
}

/// A size, kerf included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Extent {
    pub w: i32,
    pub h: i32,
}

impl Extent {
    pub fn new(join: Join, along: i32, across: i32) -> Self {
        match join {
            Join::Beside => Self { w: along, h: across },
            Join::Above => Self { w: across, h: along },
        }
    }

    /// The side in the direction of the join.
    pub fn along(self, join: Join) -> i32 {
        match join {
            Join::Beside => self.w,
            Join::Above => self.h,
        }
    }

    /// The other side.
    pub fn across(self, join: Join) -> i32 {
        self.turned().along(join)
    }

    pub fn turned(self) -> Self {
        Self { w: self.h, h: self.w }
    }

    pub fn area(self) -> i64 {
        i64::from(self.w) * i64::from(self.h)
    }

    pub fn holds(self, other: Self) -> bool {
        other.w <= self.w && other.h <= self.h
    }
}
