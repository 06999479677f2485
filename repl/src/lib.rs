//! Reports and commands of dewline.
