//! The trade library of dewline.
