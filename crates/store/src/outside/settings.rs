//! Settings: JSON texts by key, and the yard's habits among them.

use crate::{Drawer, StoreError, Yard};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use yard::handover::YardHabits;

/// The key of the yard's habits.
const HABITS: &str = "habits";

impl Yard {
    /// A setting.
    ///
    /// # Errors
    /// The engine's own.
    pub fn setting(&self, key: &str) -> Result<Option<Value>, StoreError> {
        self.kept(Drawer::Setting, key)
    }

    /// Keeps a setting, or takes it away.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn keep_setting(&self, key: &str, value: Option<&Value>) -> Result<(), StoreError> {
        self.change(Drawer::Setting, key, |_: Option<Value>| {
            (value.cloned(), ())
        })
    }

    /// The yard's habits; what was never settled is as by default.
    ///
    /// # Errors
    /// The engine's own.
    pub fn habits(&self) -> Result<YardHabits, StoreError> {
        Ok(self
            .kept::<HabitsForm>(Drawer::Setting, HABITS)?
            .map_or_else(YardHabits::default, HabitsForm::read))
    }

    /// Settles the yard's habits.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn keep_habits(&self, habits: &YardHabits) -> Result<(), StoreError> {
        self.change(Drawer::Setting, HABITS, |_: Option<HabitsForm>| {
            (Some(HabitsForm::write(habits)), ())
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(default)]
struct HabitsForm {
    round_holds_hours: u32,
    refused_runs_hours: Option<u32>,
    relief_allowed: bool,
    decimal_comma: bool,
    seasons: Vec<(i8, i8)>,
    gun_grams: Option<f64>,
}

impl Default for HabitsForm {
    fn default() -> Self {
        Self::write(&YardHabits::default())
    }
}

impl HabitsForm {
    fn write(of: &YardHabits) -> Self {
        Self {
            round_holds_hours: of.round_holds_hours,
            refused_runs_hours: of.refused_runs_hours,
            relief_allowed: of.relief_allowed,
            decimal_comma: of.decimal_comma,
            seasons: of.seasons.clone(),
            // JSON has no NaN; a gun without a number is a gun not measured.
            gun_grams: of.gun_grams.filter(|grams| grams.is_finite()),
        }
    }

    fn read(self) -> YardHabits {
        YardHabits {
            round_holds_hours: self.round_holds_hours,
            refused_runs_hours: self.refused_runs_hours,
            relief_allowed: self.relief_allowed,
            decimal_comma: self.decimal_comma,
            seasons: self.seasons,
            gun_grams: self.gun_grams,
        }
    }
}
