//! The native tests, one module an area.
#![cfg(not(target_arch = "wasm32"))]

mod kitchen_cards;
mod kitchen_rounding;
mod output_view;
