//! Segments of pipe that are fed from one another, as a table of rows that name the segment before them.

use std::collections::BTreeMap;

/// The segments of a system, each row knowing the row that feeds it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tree {
    /// The row that feeds each row; nothing for the root.
    parents: Vec<Option<usize>>,
    /// Rows in such an order that every row stands behind the one that feeds it.
    order: Vec<usize>,
}

/// Why rows are no tree; each names the rows that are wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoTree {
    /// There is no row.
    Empty,
    /// A row without a name, counted from one.
    Nameless(usize),
    /// Two rows of one name.
    Double(String),
    /// Rows fed from what is no row: each with what it names.
    Unknown(Vec<(String, String)>),
    /// More than one row is fed from the outdoor unit.
    Roots(Vec<String>),
    /// Rows that feed one another in a ring, in order.
    Ring(Vec<String>),
}

impl Tree {
    /// From the names of the segments and of what feeds them; nothing or `root` there is the outdoor unit, which feeds
    /// one segment only.
    pub fn new(names: &[Option<&str>], fed_from: &[Option<&str>], root: &str) -> Result<Tree, NoTree> {
        let tree = Tree::with_roots(names, fed_from, root)?;
        let roots: Vec<usize> = tree.roots().collect();
        if roots.len() > 1 {
            let said = |row: usize| names.get(row).copied().flatten().unwrap_or("").trim().to_string();
            return Err(NoTree::Roots(roots.into_iter().map(said).collect()));
        }
        Ok(tree)
    }

    /// The same where the outdoor unit may feed several.
    pub fn with_roots(names: &[Option<&str>], fed_from: &[Option<&str>], root: &str) -> Result<Tree, NoTree> {
        let mut places = BTreeMap::new();
        for (row, name) in names.iter().enumerate() {
            let name = name.map(str::trim).filter(|name| !name.is_empty()).ok_or(NoTree::Nameless(row + 1))?;
            if places.insert(name, row).is_some() {
                return Err(NoTree::Double(name.to_string()));
            }
        }
        let said = |row: usize| names.get(row).copied().flatten().unwrap_or("").trim().to_string();
        let mut parents = Vec::with_capacity(names.len());
        let mut unknown = Vec::new();
        for (row, from) in fed_from.iter().take(names.len()).enumerate() {
            let from = from.map_or("", str::trim);
            let parent = places.get(from).copied();
            // A segment may itself be called like the outdoor unit; then its name goes first.
            if parent.is_none() && !from.is_empty() && from != root {
                unknown.push((said(row), from.to_string()));
            }
            parents.push(parent);
        }
        if !unknown.is_empty() {
            return Err(NoTree::Unknown(unknown));
        }
        if names.is_empty() {
            return Err(NoTree::Empty);
        }
        let order = in_order(&parents);
        if order.len() < parents.len() {
            return Err(NoTree::Ring(ring(&parents, &order).into_iter().map(said).collect()));
        }
        Ok(Tree { parents, order })
    }

    /// The row that feeds a row; nothing if that is the outdoor unit.
    pub fn parent(&self, row: usize) -> Option<usize> {
        self.parents.get(row).copied().flatten()
    }

    /// The rows that a row feeds; those of nothing are fed from the outdoor unit.
    pub fn children(&self, of: Option<usize>) -> impl Iterator<Item = usize> {
        self.parents.iter().enumerate().filter(move |(_, parent)| **parent == of).map(|(row, _)| row)
    }

    /// The rows that are fed from the outdoor unit.
    pub fn roots(&self) -> impl Iterator<Item = usize> {
        self.children(None)
    }

    /// The row and those that feed it, back to the outdoor unit.
    pub fn back_from(&self, row: usize) -> impl Iterator<Item = usize> {
        std::iter::successors(Some(row), |row| self.parent(*row))
    }

    /// For each row its own value and those of all rows behind it.
    pub fn downstream(&self, values: &[f64]) -> Vec<f64> {
        let mut sums = values.to_vec();
        for &row in self.order.iter().rev() {
            if let Some(parent) = self.parents.get(row).copied().flatten() {
                let behind = sums.get(row).copied().unwrap_or(0.0);
                if let Some(sum) = sums.get_mut(parent) {
                    *sum += behind;
                }
            }
        }
        sums
    }

    /// For each row the sum from the outdoor unit up to it, its own value with it.
    pub fn along(&self, values: &[f64]) -> Vec<f64> {
        let mut sums = values.to_vec();
        for &row in &self.order {
            if let Some(parent) = self.parents.get(row).copied().flatten() {
                let before = sums.get(parent).copied().unwrap_or(0.0);
                if let Some(sum) = sums.get_mut(row) {
                    *sum += before;
                }
            }
        }
        sums
    }
}

/// Rows reachable from the root, each behind the one that feeds it.
fn in_order(parents: &[Option<usize>]) -> Vec<usize> {
    let mut children = vec![Vec::new(); parents.len()];
    let mut order = Vec::with_capacity(parents.len());
    for (row, parent) in parents.iter().enumerate() {
        match parent.and_then(|parent| children.get_mut(parent)) {
            Some(children) => children.push(row),
            None => order.push(row),
        }
    }
    let mut next = 0;
    while let Some(&row) = order.get(next) {
        order.extend(children.get(row).map_or(&[][..], Vec::as_slice));
        next += 1;
    }
    order
}

/// The first ring among the rows that are not reached from the root.
fn ring(parents: &[Option<usize>], reached: &[usize]) -> Vec<usize> {
    let mut free = vec![true; parents.len()];
    for &row in reached {
        if let Some(free) = free.get_mut(row) {
            *free = false;
        }
    }
    let Some(start) = free.iter().position(|free| *free) else { return Vec::new() };
    let before = |row: usize| parents.get(row).copied().flatten();
    // After as many steps as there are rows, the way back is inside the ring for sure.
    let inside = (0..parents.len()).try_fold(start, |row, _| before(row));
    let mut ring = Vec::new();
    let mut row = inside;
    while let Some(at) = row {
        ring.push(at);
        row = before(at).filter(|next| !ring.contains(next));
    }
    ring
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{NoTree, Tree};

    fn tree(rows: &[(&str, &str)]) -> Result<Tree, NoTree> {
        let names: Vec<_> = rows.iter().map(|(name, _)| Some(*name)).collect();
        let fed: Vec<_> = rows.iter().map(|(_, from)| Some(*from)).collect();
        Tree::new(&names, &fed, "outdoor")
    }

    /// Added up by hand.
    #[test]
    fn sums_go_down_and_up() {
        // Rows may stand in any order.
        let found = tree(&[("c", "b"), ("a", "outdoor"), ("b", "a"), ("d", "a")]).unwrap();
        assert_eq!(found.downstream(&[1.0, 10.0, 100.0, 1000.0]), [1.0, 1111.0, 101.0, 1000.0]);
        assert_eq!(found.along(&[1.0, 10.0, 100.0, 1000.0]), [111.0, 10.0, 110.0, 1010.0]);
    }

    #[test]
    fn what_is_no_tree_names_its_rows() {
        assert_eq!(tree(&[]), Err(NoTree::Empty));
        assert_eq!(tree(&[("a", ""), ("b", "x")]), Err(NoTree::Unknown(vec![("b".into(), "x".into())])));
        assert_eq!(tree(&[("a", ""), ("b", "outdoor")]), Err(NoTree::Roots(vec!["a".into(), "b".into()])));
        assert_eq!(tree(&[("a", ""), ("a", "a")]), Err(NoTree::Double("a".into())));
        assert_eq!(tree(&[("a", ""), (" ", "a")]), Err(NoTree::Nameless(2)));
        let Err(NoTree::Ring(mut ring)) = tree(&[("a", ""), ("b", "d"), ("c", "b"), ("d", "c"), ("e", "d")]) else {
            unreachable!()
        };
        ring.sort();
        assert_eq!(ring, ["b", "c", "d"]);
        assert_eq!(tree(&[("a", "a")]), Err(NoTree::Ring(vec!["a".into()])));
    }

    /// The sum of what is behind the root is the sum of all, whatever the tree.
    #[test]
    fn the_root_carries_all() {
        let names: Vec<String> = (0..1_000).map(|row| format!("s{row}")).collect();
        let fed: Vec<String> = (0..1_000_usize)
            .map(|row| if row == 0 { String::new() } else { format!("s{}", row * 7 % row.max(1)) })
            .collect();
        let names: Vec<_> = names.iter().map(|name| Some(name.as_str())).collect();
        let fed: Vec<_> = fed.iter().map(|from| Some(from.as_str())).collect();
        let found = Tree::new(&names, &fed, "outdoor").unwrap();
        assert_eq!(found.downstream(&vec![1.0; 1_000])[0], 1_000.0);
    }
}
