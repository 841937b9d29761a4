//! Compiles one layout file for a vehicle's living box into checked drawings and a cut list.
//!
//! ```text
//! text ──source──▶ document ──resolve──▶ model ──checks──▶ findings
//!  (files, spans)  (typed, spanned)      (absolute,         │
//!                                         per arrangement)  │
//!                        symbols ─▶          ├──vehicle, shell, services──▶ loads, heat, energy
//!                                            ├──joinery──▶ cut list, cutting plan
//!                                            └──views──▶ sheets (closed set of items, paper mm)
//!                                                          └──backends──▶ svg pdf png csv json
//! ```
//!
//! [`compile::compile`] goes from a file to findings, [`compile::produce`] on to sheets and cut list, and each
//! [`backends::Backend`] of the [`registry::Registry`] makes files of them. The only door to the outside is
//! [`source::World`]; only [`cli`] writes.
//!
//! # What a model guarantees
//!
//! A [`model::Model`] exists only if the layout compiled without an error. Then:
//!
//! - no expression, reference, default or `extends` is left; every figure is absolute, finite, in millimetres (masses in
//!   kilograms, angles in degrees) and within 100 metres; lengths are rounded to whole micrometres, but for the arcs of
//!   linework;
//! - x goes from the front wall to the rear, y from the left wall to the right, z from the floor up, from the inside
//!   front left corner at the floor;
//! - names of modules, openings, zones, parameters and people are unique among each other;
//! - every module has at least one pose, and every arrangement names one pose of each module by index;
//! - every solid of every pose lies inside its module's extent; outlines are simple, counter-clockwise and enclose an
//!   area; low ends of ranges lie below high ends;
//! - every part has a positive size, also without its bands, its outline and machining within it, a count of at least one and a stock of the model; a placed part's places are all
//!   of its size;
//! - openings lie inside their panel and have a size; zones have an area;
//! - everything carries the span of the line that it came from.
//!
//! What the model does not promise is what the checks are for: that modules keep clear of each other, of the shell
//! and of people.

pub mod backends;
pub mod base;
pub mod checks;
pub mod cli;
pub mod compare;
pub mod compile;
#[cfg(feature = "desk")]
pub mod desk;
pub mod diagnostic;
pub mod drawing;
pub mod figures;
pub mod geometry;
pub mod joinery;
pub mod joints;
pub mod language;
pub mod model;
pub mod plug_ins;
pub mod registry;
pub mod resolve;
pub mod rules;
pub mod services;
pub mod shell;
pub mod source;
pub mod suggest;
pub mod vary;
pub mod vehicle;
pub mod views;
