//! Drawings as SVG and documents as PDF: everything that is drawn or typeset, on screen and on paper alike.

pub mod drawing;
