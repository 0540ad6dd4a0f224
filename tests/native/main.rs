//! The native tests, one module an area.
#![cfg(not(target_arch = "wasm32"))]

mod amounts;
mod drafts;
mod formats;
mod headnotes;
mod kitchen_cards;
mod kitchen_handbook;
mod kitchen_pans;
mod kitchen_rounding;
mod kitchen_safety;
mod kitchen_size;
mod kitchen_world;
mod layers;
mod learned;
mod lexicons;
mod output_view;
mod program;
mod settled;
mod slips;
mod spell;
mod steps;
mod sturdy;
mod versions;
mod whole;
