//! When rows that name what feeds them are a piping network, and what is wrong where they are none.

use std::collections::BTreeMap;

use super::node::{Kind, Node, ROOT, Whole};
use crate::survey::tree::{NoTree, Tree};

/// How many rows one fault names.
const NAMED: usize = 5;

/// Why rows are no network.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wrong {
    /// They are no tree.
    Tree(NoTree),
    /// Everything else that is wrong, a sentence each.
    Rules(Vec<String>),
}

impl Wrong {
    /// Rows that are fed from what is no row.
    pub fn unknown(rows: &[(String, String)]) -> Wrong {
        let said =
            rows.iter().take(NAMED).map(|(name, from)| format!("{name} is fed from \"{from}\", which is no node"));
        Wrong::Rules(said.collect())
    }
}

/// Holds the rows to all rules at once, and gives the row of the field main.
pub fn judge(nodes: &[Node<'_>], tree: &Tree, whole: Whole) -> Result<usize, Wrong> {
    let rows = Rows { nodes, tree };
    let mut faults = Vec::new();
    let mains: Vec<usize> = tree.roots().filter(|&row| !rows.kind(row).is_outdoor()).collect();
    match mains.as_slice() {
        [_] => {}
        [] => faults.push("no main leaves the outdoor unit".to_string()),
        several => faults.push(format!(
            "two mains leave the outdoor unit: {}: join them at a joint, or write two tables",
            rows.names(several)
        )),
    }
    faults.extend(rows.modules(whole));
    faults.extend(rows.children());
    faults.extend(rows.pipes(whole));
    faults.extend(rows.ports());
    match mains.first() {
        Some(&main) if faults.is_empty() => Ok(main),
        _ => Err(Wrong::Rules(faults)),
    }
}

struct Rows<'a> {
    nodes: &'a [Node<'a>],
    tree: &'a Tree,
}

impl Rows<'_> {
    fn kind(&self, row: usize) -> Kind {
        self.nodes.get(row).map_or(Kind::Capped, |node| node.kind)
    }

    fn name(&self, row: usize) -> &str {
        self.nodes.get(row).map_or("", |node| node.name)
    }

    fn names(&self, rows: &[usize]) -> String {
        let mut said: Vec<&str> = rows.iter().take(NAMED).map(|&row| self.name(row)).collect();
        if rows.len() > NAMED {
            said.push("…");
        }
        said.join(", ")
    }

    /// A sentence for each of the first rows that something is wrong with.
    fn each(&self, wrong: impl Fn(usize) -> Option<String>) -> Vec<String> {
        (0..self.nodes.len()).filter_map(wrong).take(NAMED).collect()
    }

    fn count(&self, row: usize) -> usize {
        self.tree.children(Some(row)).count()
    }

    /// Modules join at their kit only, and something has a capacity.
    fn modules(&self, whole: Whole) -> Vec<String> {
        let mut faults = self.each(|row| {
            let parent = self.tree.parent(row)?;
            let at_kit = self.kind(parent) == Kind::Modules;
            (self.kind(row).is_outdoor() && !at_kit).then(|| {
                let (name, on) = (self.name(row), self.name(parent));
                format!("module {name} hangs on {on}: modules join at their kit only")
            })
        });
        faults.extend(self.each(|row| {
            let parent = self.tree.parent(row)?;
            let field = !self.kind(row).is_outdoor() && self.kind(parent).is_outdoor();
            field.then(|| {
                let (name, on) = (self.name(row), self.name(parent));
                format!("{name} hangs on {on}, which is of the outdoor unit: feed it from \"{ROOT}\"")
            })
        }));
        faults.extend(self.each(|row| {
            let single = self.kind(row) == Kind::Modules && self.count(row) < 2;
            single.then(|| format!("kit joint {} joins one module only", self.name(row)))
        }));
        let modules = self.nodes.iter().filter(|node| node.kind == Kind::Module);
        let (count, capacity) = modules.fold((0, 0.0), |(count, sum), module| (count + 1, sum + module.capacity));
        match whole.outdoor_capacity {
            None if count == 0 => faults.push("whose capacity? give module rows or `outdoor_capacity`".to_string()),
            None if capacity <= 0.0 => faults.push("the modules have no capacity".to_string()),
            Some(_) if count > 0 => {
                faults.push("module rows and `outdoor_capacity` both say the capacity: give one".to_string());
            }
            _ => {}
        }
        faults
    }

    /// What a row feeds fits what stands at its end.
    fn children(&self) -> Vec<String> {
        self.each(|row| {
            let (name, count) = (self.name(row), self.count(row));
            let first = || self.tree.children(Some(row)).next().map_or("", |child| self.name(child));
            match self.kind(row) {
                Kind::Indoor if count > 0 => Some(format!("{name} is an indoor unit and feeds {}", first())),
                Kind::Module if count > 0 => Some(format!("{name} is a module and feeds {}", first())),
                Kind::Capped if count > 0 => Some(format!("{name} is capped and feeds {}", first())),
                Kind::Joint | Kind::Header | Kind::ChangeoverBox | Kind::Valve if count == 0 => {
                    Some(format!("nothing hangs on {name}: cap it and say so (`kind` is \"capped\"), or remove it"))
                }
                Kind::Joint if count != 2 => {
                    Some(format!("joint {name} feeds {count}: use a header, or another joint"))
                }
                Kind::Valve if count != 1 => {
                    Some(format!("valve {name} feeds {count}: a valve has one pipe behind it"))
                }
                _ => None,
            }
        })
    }

    /// Three pipes end at boxes, two behind them.
    fn pipes(&self, whole: Whole) -> Vec<String> {
        let pipes = |row: usize| self.nodes.get(row).and_then(|node| node.pipes);
        self.each(|row| {
            let (name, count) = (self.name(row), pipes(row)?);
            if count != 2.0 && count != 3.0 {
                return Some(format!("{name} has {count} pipes: two or three"));
            }
            let above = || self.tree.back_from(row).skip(1);
            if let Some(over) = above().find(|&over| self.kind(over) == Kind::ChangeoverBox) {
                let over = self.name(over);
                return (count == 3.0).then(|| format!("{over}'s units have two pipes, {name} says 3"));
            }
            let field_before = self.tree.parent(row).filter(|&over| !self.kind(over).is_outdoor());
            if let Some(over) = field_before.filter(|&over| count == 3.0 && pipes(over) == Some(2.0)) {
                return Some(format!("{name} has three pipes, {} before it two", self.name(over)));
            }
            let third_before = above().any(|over| pipes(over) == Some(3.0));
            match self.kind(row) {
                Kind::Indoor if count == 3.0 && !whole.cooling_only => {
                    Some(format!("three pipes reach {name} without a changeover box: only with `cooling_only = true`"))
                }
                kind if count == 2.0 && third_before && !kind.is_outdoor() && !whole.cooling_only => {
                    Some(format!("the third pipe ends before {name}, where there is no changeover box"))
                }
                _ => None,
            }
        })
    }

    /// Each port of a box feeds one pipe.
    fn ports(&self) -> Vec<String> {
        let mut taken: BTreeMap<(usize, u64), usize> = BTreeMap::new();
        let mut faults = Vec::new();
        for (row, node) in self.nodes.iter().enumerate() {
            let on = self.tree.parent(row).filter(|&parent| self.kind(parent) == Kind::ChangeoverBox);
            let (name, Some(on)) = (node.name, on) else {
                if let Some(port) = node.port {
                    faults.push(format!("{} has port {port}, but hangs on no changeover box", node.name));
                }
                continue;
            };
            let over = self.name(on);
            match node.port {
                None => faults.push(format!("{name} hangs on {over}: on which port?")),
                Some(port) if port < 1.0 || port.fract() != 0.0 => {
                    faults.push(format!("{name}: port {port} of {over} is no whole number from 1"));
                }
                Some(port) => {
                    if let Some(other) = taken.insert((on, port.to_bits()), row) {
                        let other = self.name(other);
                        faults.push(format!(
                            "{other} and {name} are both on port {port} of {over}: two units on one port must be joined \
                             behind it and run in one mode"
                        ));
                    }
                }
            }
        }
        faults.truncate(NAMED);
        faults
    }
}
