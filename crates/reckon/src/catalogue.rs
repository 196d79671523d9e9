//! The catalogue: every leaf there is, in the order a reader would look for it.

use crate::leaf::Leaf;
use crate::{machine, upkeep};

/// Every leaf, job by job.
pub static LEAVES: [&Leaf; 29] = [
    &machine::conformity_probability::LEAF,
    &machine::guard_band_risk::LEAF,
    &machine::lap_length::LEAF,
    &machine::level_at_reference::LEAF,
    &machine::level_drop_from_rods::LEAF,
    &machine::sag_tension::LEAF,
    &machine::sag_tension_ratio::LEAF,
    &machine::span_mean::LEAF,
    &machine::walk_between::LEAF,
    &upkeep::after_event_schedule::LEAF,
    &upkeep::bearing_grease_mass::LEAF,
    &upkeep::bolt_torque::LEAF,
    &upkeep::due_days::LEAF,
    &upkeep::due_first::LEAF,
    &upkeep::due_hours::LEAF,
    &upkeep::grease_round_mass::LEAF,
    &upkeep::grease_rounds_per_cartridge::LEAF,
    &upkeep::hours_by_other_meter::LEAF,
    &upkeep::hours_possible::LEAF,
    &upkeep::leak_cost::LEAF,
    &upkeep::leak_loss::LEAF,
    &upkeep::life_hours::LEAF,
    &upkeep::meter_advance::LEAF,
    &upkeep::meter_ratio::LEAF,
    &upkeep::round_minutes::LEAF,
    &upkeep::running_from_revolutions::LEAF,
    &upkeep::strokes_for_mass::LEAF,
    &upkeep::thread_stress_area::LEAF,
    &upkeep::told_hours::LEAF,
];

/// The leaf of this id, such as "upkeep.life_hours".
pub fn find(id: &str) -> Option<&'static Leaf> {
    LEAVES.iter().copied().find(|leaf| leaf.id == id)
}
