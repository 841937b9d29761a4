//! Steady conduction of heat in two dimensions, for members of metal, to which the combined method does not apply.
//!
//! Control volumes on a rectangular grid as ISO 10211 asks: each cell balances the heat through its four faces, with the
//! resistances of both half cells in line. The equations are symmetric and banded; they are solved directly (Cholesky).

use crate::model::{Layer, Panel};

/// What is beyond an edge of the grid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Edge {
    /// No heat goes through: a line of symmetry.
    Closed,
    /// Air, or a fixed temperature where the resistance is 0.
    Air {
        /// Surface resistance, m2 K/W.
        resistance: f64,
        /// Temperature, degrees Celsius.
        temperature: f64,
    },
}

/// A rectangle of cells.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// Widths of the columns, mm.
    pub columns: Vec<f64>,
    /// Heights of the rows, mm.
    pub rows: Vec<f64>,
    /// Conductivity of each cell, W/(m K), row by row.
    pub conductivity: Vec<f64>,
    /// Beyond the first column, the last column, the first row, the last row.
    pub edges: [Edge; 4],
}

/// Side of a cell, in the order of [`Grid::edges`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Left,
    Right,
    First,
    Last,
}

impl Grid {
    fn cell(&self, column: usize, row: usize) -> f64 {
        self.conductivity.get(row * self.columns.len() + column).copied().unwrap_or(0.0)
    }

    /// Half extent across a face and the face's length, mm, with the conductivity: resistance of half a cell, m K/W.
    fn half(&self, column: usize, row: usize, along_row: bool) -> f64 {
        let (width, height) = self.size(column, row);
        let (across, face) = if along_row { (width, height) } else { (height, width) };
        across / 2.0 / (self.cell(column, row) * face)
    }

    fn size(&self, column: usize, row: usize) -> (f64, f64) {
        (self.columns.get(column).copied().unwrap_or(0.0), self.rows.get(row).copied().unwrap_or(0.0))
    }

    /// Conductance between a cell and the air beyond an edge, W/(m K), and the air's temperature.
    fn outward(&self, column: usize, row: usize, side: Side) -> Option<(f64, f64)> {
        let along_row = matches!(side, Side::Left | Side::Right);
        let edge = self.edges.get(side as usize)?;
        let Edge::Air { resistance, temperature } = *edge else { return None };
        let (width, height) = self.size(column, row);
        let face = if along_row { height } else { width } / 1000.0;
        Some((1.0 / (self.half(column, row, along_row) + resistance / face), temperature))
    }

    /// Temperature of each cell, degrees Celsius, row by row; `None` if no edge has air.
    #[must_use]
    pub fn solve(&self) -> Option<Vec<f64>> {
        let (across, down) = (self.columns.len(), self.rows.len());
        // Numbered along the shorter side, the band is narrow.
        let (by_column, by_row) = if down < across { (down, 1) } else { (1, across) };
        let mut matrix = Banded::new(across * down, across.min(down));
        let mut right = vec![0.0; across * down];
        for row in 0..down {
            for column in 0..across {
                let at = column * by_column + row * by_row;
                if column + 1 < across {
                    let joined = self.half(column, row, true) + self.half(column + 1, row, true);
                    matrix.join(at, at + by_column, 1.0 / joined);
                }
                if row + 1 < down {
                    let joined = self.half(column, row, false) + self.half(column, row + 1, false);
                    matrix.join(at, at + by_row, 1.0 / joined);
                }
                for side in self.sides(column, row) {
                    let Some((conductance, temperature)) = self.outward(column, row, side) else { continue };
                    matrix.add(at, conductance);
                    if let Some(sum) = right.get_mut(at) {
                        *sum += conductance * temperature;
                    }
                }
            }
        }
        let found = matrix.solve(right)?;
        let cells = (0..down).flat_map(|row| (0..across).map(move |column| column * by_column + row * by_row));
        cells.map(|at| found.get(at).copied()).collect()
    }

    fn sides(&self, column: usize, row: usize) -> impl Iterator<Item = Side> {
        let at = [
            (column == 0, Side::Left),
            (column + 1 == self.columns.len(), Side::Right),
            (row == 0, Side::First),
            (row + 1 == self.rows.len(), Side::Last),
        ];
        at.into_iter().filter(|(is, _)| *is).map(|(_, side)| side)
    }

    /// Heat that comes in through the first row in each column, W for each metre of depth.
    fn inflow(&self, temperatures: &[f64]) -> Vec<f64> {
        let columns = temperatures.iter().take(self.columns.len()).enumerate();
        let flow = |(column, cell): (usize, &f64)| {
            self.outward(column, 0, Side::First).map_or(0.0, |(conductance, air)| conductance * (air - cell))
        };
        columns.map(flow).collect()
    }
}

/// A symmetric matrix with entries near its diagonal: row by row from the diagonal to the right.
struct Banded {
    width: usize,
    rows: Vec<Vec<f64>>,
}

impl Banded {
    fn new(size: usize, width: usize) -> Self {
        Self { width, rows: vec![vec![0.0; width + 1]; size] }
    }

    fn slot(&mut self, row: usize, off: usize) -> Option<&mut f64> {
        self.rows.get_mut(row)?.get_mut(off)
    }

    fn add(&mut self, at: usize, value: f64) {
        if let Some(slot) = self.slot(at, 0) {
            *slot += value;
        }
    }

    /// Heat flows between two cells.
    fn join(&mut self, one: usize, other: usize, conductance: f64) {
        self.add(one, conductance);
        self.add(other, conductance);
        if let Some(slot) = self.slot(one, other - one) {
            *slot -= conductance;
        }
    }

    /// Solves by Gauss without exchange of rows, which a symmetric positive matrix does not need.
    fn solve(mut self, mut right: Vec<f64>) -> Option<Vec<f64>> {
        let size = self.rows.len();
        for pivot in 0..size {
            let row = self.rows.get(pivot)?.clone();
            let diagonal = *row.first()?;
            if diagonal <= 0.0 {
                return None;
            }
            let value = *right.get(pivot)?;
            for off in 1..=self.width.min(size - 1 - pivot) {
                let factor = row.get(off)? / diagonal;
                if factor == 0.0 {
                    continue;
                }
                *right.get_mut(pivot + off)? -= factor * value;
                let below = self.rows.get_mut(pivot + off)?;
                for (slot, above) in below.iter_mut().zip(row.iter().skip(off)) {
                    *slot -= factor * above;
                }
            }
        }
        for pivot in (0..size).rev() {
            let row = self.rows.get(pivot)?;
            let known: f64 = row.iter().zip(right.get(pivot..)?).skip(1).map(|(entry, value)| entry * value).sum();
            let solved = (right.get(pivot)? - known) / row.first()?;
            *right.get_mut(pivot)? = solved;
        }
        Some(right)
    }
}

/// A panel with members, cut across one of them: from its middle to the middle between two.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Transmittance over the whole width, W/(m2 K).
    pub u: f64,
    /// How warm the coldest place of the inside is: 0 as outside, 1 as the air inside.
    pub coldest: f64,
    /// How warm the inside is midway between two members.
    pub between: f64,
    /// What the last halving of the cells changed of the heat, percent.
    pub change: f64,
    /// The cells.
    pub grid: Grid,
    /// How warm each cell is, row by row from inside, 0 to 1.
    pub temperatures: Vec<f64>,
}

/// Cells of half a member, of half the room between two, and of a layer, at first.
const MEMBER_CELLS: usize = 3;
const BETWEEN_CELLS: usize = 20;
const LAYER_CELLS: usize = 6;
/// Layers this thin have fewer cells, mm.
const THIN: f64 = 5.0;
/// A grid is fine enough when one with twice as many cells each way changes the heat by less than this, percent; ISO 10211 asks for 1.
const FINE: f64 = 0.5;
/// How often cells are halved, at most.
const MOST_HALVINGS: u32 = 3;

/// The section through a member of a panel, on a grid that is refined until the heat through it changes by less than half a percent; `None`
/// for panels without members.
#[must_use]
pub fn panel_section(panel: &Panel, surfaces: (f64, f64)) -> Option<Section> {
    let mut section = on_grid(panel, surfaces, 1)?;
    for halved in 1..=MOST_HALVINGS {
        let finer = on_grid(panel, surfaces, 2_usize.pow(halved))?;
        let change = (finer.u - section.u).abs() / finer.u * 100.0;
        section = Section { change, ..finer };
        if change < FINE {
            break;
        }
    }
    Some(section)
}

fn on_grid(panel: &Panel, (inside, outside): (f64, f64), finer: usize) -> Option<Section> {
    let bridge = panel.layers.iter().find_map(|layer| layer.bridge.as_ref())?;
    let half = bridge.width / 2.0;
    let of_member = MEMBER_CELLS * finer;
    let mut columns = vec![half / of_member as f64; of_member];
    columns.extend(growing(bridge.spacing / 2.0 - half, BETWEEN_CELLS * finer));
    let (mut rows, mut conductivity) = (Vec::new(), Vec::new());
    for layer in &panel.layers {
        let cells = finer * if layer.thickness < THIN { LAYER_CELLS / 3 } else { LAYER_CELLS };
        for _ in 0..cells {
            rows.push(layer.thickness / cells as f64);
            conductivity.extend((0..columns.len()).map(|column| of_column(layer, column < of_member)));
        }
    }
    let width: f64 = columns.iter().sum::<f64>() / 1000.0;
    let air = |resistance, temperature| Edge::Air { resistance, temperature };
    let edges = [Edge::Closed, Edge::Closed, air(inside, 1.0), air(outside, 0.0)];
    let grid = Grid { columns, rows, conductivity, edges };
    let temperatures = grid.solve()?;
    let inflow = grid.inflow(&temperatures);
    let surface = |(flow, column): (&f64, &f64)| 1.0 - flow / (column / 1000.0) * inside;
    let surfaces: Vec<f64> = inflow.iter().zip(&grid.columns).map(surface).collect();
    let coldest = surfaces.iter().copied().fold(1.0, f64::min);
    let between = surfaces.last().copied().unwrap_or(1.0);
    let u = inflow.iter().sum::<f64>() / width;
    Some(Section { u, coldest, between, change: 0.0, grid, temperatures })
}

fn of_column(layer: &Layer, in_member: bool) -> f64 {
    let member = layer.bridge.as_ref().filter(|_| in_member);
    member.map_or(layer.conductivity, |bridge| bridge.conductivity)
}

/// A length in cells that grow evenly, the first a seventh of the last.
fn growing(length: f64, cells: usize) -> Vec<f64> {
    const LAST: f64 = 7.0;
    let ratio = LAST.powf(1.0 / (cells as f64 - 1.0));
    let first = length * (ratio - 1.0) / (ratio.powf(cells as f64) - 1.0);
    (0..cells).map(|at| first * ratio.powf(at as f64)).collect()
}

#[cfg(test)]
mod tests;
