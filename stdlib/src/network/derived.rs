//! What follows for each row of a network.

use super::node::{Kind, Network};

/// What follows for the rows, in their order.
#[derive(Debug)]
pub struct Derived {
    /// Pipe from the outdoor unit to the row's end, m.
    pub actual: Vec<f64>,
    /// The same with fittings, joints and boxes, m.
    pub equivalent: Vec<f64>,
    /// The row's end above the outdoor unit, m.
    pub level: Vec<f64>,
    /// Capacity of the units behind it, its own with it; of the modules on the outdoor side, W.
    pub behind: Vec<f64>,
    /// Pipe and equivalent length from the first branch to the row's end; nothing before it.
    pub from_first: Vec<Option<(f64, f64)>>,
    /// Pipe from the changeover box that feeds it; nothing where there is none.
    pub from_box: Vec<Option<f64>>,
    /// Some pipe of the row is wider than the same pipe before it.
    pub grows: Vec<bool>,
    /// A header or joint that hangs on a header.
    pub behind_header: Vec<bool>,
}

impl Derived {
    /// From a network.
    pub fn of(network: &Network<'_>) -> Derived {
        let tree = &network.tree;
        let actual = tree.along(&network.values(|node| node.length));
        let equivalent = tree.along(&network.values(|node| node.length + node.added));
        let level = tree.along(&network.values(|node| node.rise));
        let behind = tree.downstream(&network.values(|node| match node.kind {
            Kind::Indoor | Kind::Module => node.capacity,
            _ => 0.0,
        }));
        let rows = 0..network.nodes.len();
        let first = network.first_branch();
        let at = |values: &[f64], row: usize| values.get(row).copied().unwrap_or(0.0);
        let from_first = rows.clone().map(|row| {
            let first = first.filter(|&first| tree.back_from(row).any(|before| before == first))?;
            let from = |values: &[f64]| at(values, row) - at(values, first);
            Some((from(&actual), from(&equivalent)))
        });
        let from_box = rows.clone().map(|row| {
            let over = network.changeover_box(row)?;
            Some(at(&actual, row) - at(&actual, over))
        });
        Derived {
            from_first: from_first.collect(),
            from_box: from_box.collect(),
            grows: rows.clone().map(|row| grows(network, row)).collect(),
            behind_header: rows.map(|row| behind_header(network, row)).collect(),
            actual,
            equivalent,
            level,
            behind,
        }
    }
}

/// Whether a pipe of the row is wider, by more than a rounding of its size, than the same pipe of the row before it.
fn grows(network: &Network<'_>, row: usize) -> bool {
    const SAME_SIZE: f64 = 0.05e-3;
    let ods = |row: usize| network.nodes.get(row).map_or([None; 3], |node| node.ods);
    // On the outdoor side pipes meet: there the one towards the units is the wider.
    let outdoor = network.nodes.get(row).is_none_or(|node| node.kind.is_outdoor());
    let Some(parent) = network.tree.parent(row).filter(|_| !outdoor) else { return false };
    ods(row)
        .into_iter()
        .zip(ods(parent))
        .any(|pair| matches!(pair, (Some(od), Some(before)) if od > before + SAME_SIZE))
}

fn behind_header(network: &Network<'_>, row: usize) -> bool {
    let branches = network.is(row, Kind::Header) || network.is(row, Kind::Joint);
    branches && network.tree.back_from(row).skip(1).any(|before| network.is(before, Kind::Header))
}
