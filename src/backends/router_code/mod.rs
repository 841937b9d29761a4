//! `router-*.nc`: what a three-axis router does, after ISO 6983 (G-code), one file for each nested sheet or each piece.
//!
//! A small part of the language, so that simple controllers know it: G0, G1, G2 and G3 with I and J, G17, G90, M3, M5, M30, and
//! the layout's own words for millimetres and for a change of tools. X and Y from the lower left corner of the board, Z from
//! its upper face, mm.

mod cuts;
mod jobs;
mod shapes;
mod tools;
mod write;

use super::backend::{Backend, OutputFile, Product, Reads};

/// Writes router code.
#[derive(Debug, Clone, Copy, Default)]
pub struct RouterCode;

impl Backend for RouterCode {
    fn name(&self) -> &'static str {
        "router"
    }

    fn says(&self) -> &'static str {
        "Code for a router with three axes after ISO 6983, only if named (router-*.nc)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[]
    }

    fn when_asked(&self) -> bool {
        true
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let Some(router) = &product.model.router else {
            return Err("the layout says nothing of a router; write its tools under `router`".to_owned());
        };
        let jobs = jobs::jobs(product, router)?;
        Ok(jobs.iter().flat_map(|job| write::files(product, router, job)).collect())
    }
}
