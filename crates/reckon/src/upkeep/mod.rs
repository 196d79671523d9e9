//! Upkeep: hours, what is due, grease, leaks, and the time a round takes.

pub mod after_event_schedule;
pub mod bearing_grease_mass;
pub mod bolt_preload_range;
pub mod bolt_torque;
pub mod due_days;
pub mod due_first;
pub mod due_hours;
pub mod grease_round_mass;
pub mod grease_rounds_per_cartridge;
pub mod hours_by_other_meter;
pub mod hours_possible;
pub mod leak_cost;
pub mod leak_loss;
pub mod life_hours;
pub mod meter_advance;
pub mod meter_ratio;
pub mod round_minutes;
pub mod running_from_revolutions;
pub mod split_pin;
pub mod split_pin_for_pin;
pub mod strokes_for_mass;
pub mod thread_stress_area;
pub mod told_hours;
