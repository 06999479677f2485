//! What follows for a network as a whole: the figures that a unit's document limits.

use std::collections::BTreeMap;

use super::derived::Derived;
use super::node::{Kind, Network};

/// A greatest figure and the name of the row that has it.
pub type Greatest<'a> = (f64, &'a str);

/// The figures of a whole network; what it has no rows for is nothing.
#[derive(Debug)]
pub struct System<'a> {
    /// Field pipe, one way, m.
    pub total: f64,
    /// The same with the pipes that join modules, m.
    pub total_with_modules: f64,
    /// The unit farthest by pipe.
    pub farthest: Greatest<'a>,
    /// The unit farthest by equivalent length.
    pub farthest_equivalent: Greatest<'a>,
    /// The node at which the main first branches.
    pub first_branch: Option<&'a str>,
    /// Greatest pipe from there to a unit, the same by equivalent length, and greatest less least pipe.
    pub after_first: Option<(Greatest<'a>, f64, f64)>,
    /// How far the highest part of the outdoor unit is above the lowest indoor unit; not below nought.
    pub outdoor_above: f64,
    /// How far the highest indoor unit is above the lowest part of the outdoor unit; not below nought.
    pub outdoor_below: f64,
    /// Highest less lowest indoor unit.
    pub between_indoors: f64,
    /// Highest less lowest module, and the longest pipe to one.
    pub modules: Option<(f64, Greatest<'a>)>,
    /// What concerns changeover boxes.
    pub boxes: Option<Boxes<'a>>,
    /// Capacity of the indoor units over that of the outdoor unit.
    pub connected: f64,
    /// How many indoor units there are.
    pub units: usize,
}

/// The figures of all changeover boxes.
#[derive(Debug)]
pub struct Boxes<'a> {
    /// Longest pipe from a box to its unit.
    pub to_unit: Greatest<'a>,
    /// Highest less lowest box.
    pub apart: f64,
    /// Highest less lowest unit behind one box.
    pub levels: Greatest<'a>,
    /// The greatest number of a port at a box.
    pub ports_used: Greatest<'a>,
    /// Units at one port, named by the box.
    pub units_at_port: Greatest<'a>,
    /// Capacity at one port, W, named by the box.
    pub capacity_at_port: Greatest<'a>,
    /// Capacity at one box, W.
    pub capacity: Greatest<'a>,
}

impl<'a> System<'a> {
    /// From a network and what follows for its rows; nothing if there is no indoor unit.
    pub fn of(network: &Network<'a>, rows: &Derived) -> Option<System<'a>> {
        let indoor: Vec<usize> = network.of_kind(Kind::Indoor).collect();
        let modules: Vec<usize> = network.of_kind(Kind::Module).collect();
        let [highest, lowest] = ends(&indoor, &rows.level)?;
        // A single outdoor unit has no row: it stands where levels begin.
        let [top, bottom] = ends(&modules, &rows.level).unwrap_or([0.0, 0.0]);
        let length = |outdoor_too: bool| {
            let counted = network.nodes.iter().filter(|node| outdoor_too || !node.kind.is_outdoor());
            counted.map(|node| node.length).sum()
        };
        let capacity = |row: &usize| network.nodes.get(*row).map_or(0.0, |node| node.capacity);
        Some(System {
            total: length(false),
            total_with_modules: length(true),
            farthest: greatest(network, &indoor, |row| rows.actual.get(row).copied())?,
            farthest_equivalent: greatest(network, &indoor, |row| rows.equivalent.get(row).copied())?,
            first_branch: network.first_branch().map(|row| network.name(row)),
            after_first: after_first(network, rows, &indoor),
            outdoor_above: (top - lowest).max(0.0),
            outdoor_below: (highest - bottom).max(0.0),
            between_indoors: highest - lowest,
            modules: greatest(network, &modules, |row| rows.actual.get(row).copied()).map(|pipe| (top - bottom, pipe)),
            boxes: Boxes::of(network, rows, &indoor),
            connected: indoor.iter().map(capacity).sum::<f64>() / network.outdoor_capacity,
            units: indoor.len(),
        })
    }
}

impl<'a> Boxes<'a> {
    fn of(network: &Network<'a>, rows: &Derived, indoor: &[usize]) -> Option<Boxes<'a>> {
        let boxes: Vec<usize> = network.of_kind(Kind::ChangeoverBox).collect();
        let [top, bottom] = ends(&boxes, &rows.level)?;
        let mut behind: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        // The row that hangs on a box itself, with all units behind it: what one port feeds.
        let mut at_port: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for &unit in indoor {
            let Some(over) = network.changeover_box(unit) else { continue };
            behind.entry(over).or_default().push(unit);
            let first = network.tree.back_from(unit).find(|&row| network.tree.parent(row) == Some(over));
            at_port.entry(first.unwrap_or(unit)).or_default().push(unit);
        }
        let capacity = |units: &Vec<usize>| units.iter().filter_map(|&unit| rows.behind.get(unit)).sum::<f64>();
        let ports: Vec<usize> = at_port.keys().copied().collect();
        let named_by_box = |figure: &dyn Fn(&Vec<usize>) -> f64| {
            let (row, most) = largest(&ports, |port| at_port.get(&port).map(figure))?;
            Some((most, network.tree.parent(row).map_or("", |over| network.name(over))))
        };
        Some(Boxes {
            to_unit: greatest(network, indoor, |row| rows.from_box.get(row).copied().flatten())?,
            apart: top - bottom,
            levels: greatest(network, &boxes, |over| {
                let [high, low] = ends(behind.get(&over)?, &rows.level)?;
                Some(high - low)
            })?,
            ports_used: greatest(network, &boxes, |over| {
                let ports = network.tree.children(Some(over)).filter_map(|row| network.nodes.get(row)?.port);
                ports.reduce(f64::max)
            })?,
            units_at_port: named_by_box(&|units| units.len() as f64)?,
            capacity_at_port: named_by_box(&capacity)?,
            capacity: greatest(network, &boxes, |over| behind.get(&over).map(capacity))?,
        })
    }
}

fn after_first<'a>(network: &Network<'a>, rows: &Derived, indoor: &[usize]) -> Option<(Greatest<'a>, f64, f64)> {
    let pipe = |row: usize| rows.from_first.get(row).copied().flatten().map(|(actual, _)| actual);
    let most = greatest(network, indoor, pipe)?;
    let least = indoor.iter().filter_map(|&row| pipe(row)).fold(f64::INFINITY, f64::min);
    let equivalent = |row: usize| rows.from_first.get(row).copied().flatten().map(|(_, equivalent)| equivalent);
    let (equivalent, _) = greatest(network, indoor, equivalent)?;
    Some((most, equivalent, most.0 - least))
}

/// The greatest and the least of some rows; nothing if there are none.
fn ends(rows: &[usize], values: &[f64]) -> Option<[f64; 2]> {
    let mut found = rows.iter().filter_map(|&row| values.get(row).copied());
    let first = found.next()?;
    Some(found.fold([first, first], |[high, low], value| [high.max(value), low.min(value)]))
}

/// The first row with the greatest figure, and that figure.
fn largest(rows: &[usize], figure: impl Fn(usize) -> Option<f64>) -> Option<(usize, f64)> {
    let mut found: Option<(usize, f64)> = None;
    for &row in rows {
        let Some(value) = figure(row) else { continue };
        if found.is_none_or(|(_, most)| value > most) {
            found = Some((row, value));
        }
    }
    found
}

fn greatest<'a>(network: &Network<'a>, rows: &[usize], figure: impl Fn(usize) -> Option<f64>) -> Option<Greatest<'a>> {
    largest(rows, figure).map(|(row, most)| (most, network.name(row)))
}
