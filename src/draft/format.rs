//! Draft formats.
