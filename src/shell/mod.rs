//! The shell: its surfaces, what heat goes through it, where it gets wet, and what is fixed to it.

pub mod conduction;
pub mod dew;
pub mod heat;
pub mod inserts;
pub mod losses;
pub mod moisture;
pub mod summer;
mod surfaces;

pub use surfaces::{
    Surface, filling_mass, layered, opening_area, opening_centre, panel_of, surfaces, taken_outline, usual_u,
};
