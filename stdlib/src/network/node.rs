//! What a row of the network says.

use super::rules::Wrong;
use crate::survey::tree::{NoTree, Tree};

/// How the outdoor unit, which has no row, is called where a row says what feeds it.
pub const ROOT: &str = "outdoor";

/// What stands at the end of a row's pipes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// One outdoor module.
    Module,
    /// A joint of the kit that joins modules.
    Modules,
    /// A branch joint.
    Joint,
    /// A header with several branches.
    Header,
    /// A box that gives each of its ports heating or cooling.
    ChangeoverBox,
    /// An isolating valve or a reducer.
    Valve,
    /// An indoor unit.
    Indoor,
    /// A stub that was closed.
    Capped,
}

impl Kind {
    /// All kinds with their names in sheets.
    pub const ALL: [(Kind, &'static str); 8] = [
        (Kind::Module, "module"),
        (Kind::Modules, "modules"),
        (Kind::Joint, "joint"),
        (Kind::Header, "header"),
        (Kind::ChangeoverBox, "changeover box"),
        (Kind::Valve, "valve"),
        (Kind::Indoor, "indoor"),
        (Kind::Capped, "capped"),
    ];

    /// By its name in a sheet.
    pub fn named(name: &str) -> Option<Kind> {
        Kind::ALL.iter().find(|(_, known)| *known == name.trim()).map(|(kind, _)| *kind)
    }

    /// Belongs to the outdoor unit: its pipes are no field pipes.
    pub fn is_outdoor(self) -> bool {
        matches!(self, Kind::Module | Kind::Modules)
    }
}

/// One row.
#[derive(Debug, Clone)]
pub struct Node<'a> {
    /// Its name.
    pub name: &'a str,
    /// What stands at its end.
    pub kind: Kind,
    /// Length of its pipes, m.
    pub length: f64,
    /// Equivalent length of its elbows and of what stands at its end, m.
    pub added: f64,
    /// How far its end is above its beginning, m.
    pub rise: f64,
    /// Capacity of a unit or module, W.
    pub capacity: f64,
    /// Two pipes, or three.
    pub pipes: Option<f64>,
    /// The port of the changeover box that feeds it.
    pub port: Option<f64>,
    /// Outside diameters of liquid, gas and third pipe, m.
    pub ods: [Option<f64>; 3],
}

/// What is true of the whole system and stands in no row.
#[derive(Debug, Clone, Copy, Default)]
pub struct Whole {
    /// Capacity of a single outdoor unit, W, where there are no modules.
    pub outdoor_capacity: Option<f64>,
    /// No unit heats: three pipes may reach a unit without a box.
    pub cooling_only: bool,
}

/// The rows as a tree that keeps the rules.
#[derive(Debug)]
pub struct Network<'a> {
    /// The rows.
    pub nodes: Vec<Node<'a>>,
    /// What feeds what.
    pub tree: Tree,
    /// The row at which the field main ends.
    pub main: usize,
    /// Capacity of the outdoor side, W.
    pub outdoor_capacity: f64,
}

impl<'a> Network<'a> {
    /// Joins the rows to a network.
    ///
    /// # Errors
    /// The rows are no tree, or the tree is no network; then all that is wrong is told.
    pub fn new(nodes: Vec<Node<'a>>, fed_from: &[Option<&str>], whole: Whole) -> Result<Network<'a>, Wrong> {
        let names: Vec<Option<&str>> = nodes.iter().map(|node| Some(node.name)).collect();
        let tree = Tree::with_roots(&names, fed_from, ROOT).map_err(|error| match error {
            NoTree::Unknown(rows) => Wrong::unknown(&rows),
            other => Wrong::Tree(other),
        })?;
        let main = super::rules::judge(&nodes, &tree, whole)?;
        let modules = nodes.iter().filter(|node| node.kind == Kind::Module).map(|node| node.capacity);
        let outdoor_capacity = whole.outdoor_capacity.unwrap_or_else(|| modules.sum());
        Ok(Network { nodes, tree, main, outdoor_capacity })
    }

    /// Rows of a kind.
    pub fn of_kind(&self, kind: Kind) -> impl Iterator<Item = usize> {
        self.nodes.iter().enumerate().filter(move |(_, node)| node.kind == kind).map(|(row, _)| row)
    }

    /// A value of each row.
    pub fn values(&self, value: fn(&Node<'_>) -> f64) -> Vec<f64> {
        self.nodes.iter().map(value).collect()
    }

    /// The first node from the outdoor unit on that feeds two or more; nothing if the main runs to one unit only.
    pub fn first_branch(&self) -> Option<usize> {
        let mut at = self.main;
        loop {
            let mut children = self.tree.children(Some(at));
            let first = children.next()?;
            if children.next().is_some() {
                return Some(at);
            }
            at = first;
        }
    }

    /// The changeover box that a row hangs on, if any; a box hangs on none.
    pub fn changeover_box(&self, row: usize) -> Option<usize> {
        self.tree.back_from(row).skip(1).find(|&row| self.is(row, Kind::ChangeoverBox))
    }

    /// Whether a row is of a kind.
    pub fn is(&self, row: usize, kind: Kind) -> bool {
        self.nodes.get(row).is_some_and(|node| node.kind == kind)
    }

    /// The name of a row.
    pub fn name(&self, row: usize) -> &'a str {
        self.nodes.get(row).map_or("", |node| node.name)
    }
}
