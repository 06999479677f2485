//! The piping network of one system: modules, joints, boxes and units as a tree, held to the rules that keep it one.

mod declared;
mod derived;
mod factor_declared;
mod node;
mod rules;
mod system;

pub use declared::functions;
