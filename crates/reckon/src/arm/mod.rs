//! The arm: from pins, rams and weights to what it can reach, what it can push, and what holds it back.
//!
//! | module | what it answers |
//! | --- | --- |
//! | [`shape`] | the machine as measured: pins, rams, linkage, weights |
//! | [`pose`] | ram lengths and joint angles, where the tooth is, how far it reaches |
//! | [`force`] | the thrust in each ram, what each allows at the tooth, tipping, sliding |
//! | [`strength`] | the same over the whole reach, many poses at once |
//! | [`rest`] | what is shut in when it is parked, what bleeding does, oil level, buckling |
//! | [`survey`] | from a tape to the pins, how surely, and what to measure next |
//! | [`swing`] | torque of the swing, energy of the moving arm, what stopping it does |
//!
//! A file that declares a leaf gives one figure that a page or a paper prints, in the units people read: `arm.` and the
//! file's name. The others are what those figures are made of. A whole arm goes into a leaf as a list of numbers
//! ([`shape::ArmShape::to_numbers`]), a stance likewise ([`force::Stance::to_numbers`]).
//!
//! Frame: the arm plane of the project, r outwards from the swing axis, z up, metres and radians, angles from r
//! towards z. Ram thrust is positive where it pushes its pins apart. Forces in newtons, pressures in pascals.
//! Nothing here assumes that lengthening a ram raises or lowers anything: signs come from the pins alone.
//! No friction, no drag of seals, rigid links, level ground.

pub mod force;
pub mod pose;
pub mod rest;
pub mod shape;
pub mod strength;
pub mod survey;
pub mod swing;
