//! What all views draw with: canvas, clipping, places of texts, tables and pages.

pub(super) mod beside;
pub(super) mod canvas;
pub(super) mod clip;
pub(super) mod draft;
pub(super) mod flexible;
pub(super) mod ink;
pub(super) mod leaders;
pub(super) mod misfit;
pub(super) mod numbers;
pub(super) mod pages;
pub(super) mod piece;
pub(super) mod placement;
pub(super) mod raster;
pub(super) mod scene;
pub(super) mod table_layout;
pub(super) mod words;
