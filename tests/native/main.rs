//! The native tests, one module an area.
#![cfg(not(target_arch = "wasm32"))]

mod kitchen_cards;
mod kitchen_handbook;
mod kitchen_pans;
mod kitchen_rounding;
mod kitchen_safety;
mod kitchen_size;
mod kitchen_world;
mod output_view;
