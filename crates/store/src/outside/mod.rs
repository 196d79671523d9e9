//! Outside the chain, and erasable: people's names and PINs, settings, one-time links, sign-ins, tokens, devices, counters against
//! guessing.

mod devices;
mod links;
pub(crate) mod people;
mod sessions;
mod settings;
mod throttle;
mod tokens;

pub use devices::Device;
pub use links::{Link, LinkUse};
pub use people::Person;
pub use sessions::Session;
pub use throttle::{Miss, Misses};
pub use tokens::Token;

use crate::{Drawer, StoreError, Yard};
use serde::{Serialize, de::DeserializeOwned};

impl Yard {
    /// What is under a key, read from its form.
    pub(crate) fn kept<F: DeserializeOwned>(
        &self,
        drawer: Drawer,
        key: &str,
    ) -> Result<Option<F>, StoreError> {
        let text = self.store.engine().get(self.id(), drawer, key)?;
        text.map(|text| read(drawer, key, &text)).transpose()
    }

    /// Everything in a drawer, read from its form.
    pub(crate) fn all_kept<F: DeserializeOwned>(
        &self,
        drawer: Drawer,
    ) -> Result<Vec<(String, F)>, StoreError> {
        let all = self.store.engine().list(self.id(), drawer)?;
        all.into_iter()
            .map(|(key, text)| Ok((key.clone(), read(drawer, &key, &text)?)))
            .collect()
    }

    /// Changes what is under a key, in one step however many write: `change` is asked again where somebody else was quicker.
    pub(crate) fn change<F: Serialize + DeserializeOwned, R>(
        &self,
        drawer: Drawer,
        key: &str,
        mut change: impl FnMut(Option<F>) -> (Option<F>, R),
    ) -> Result<R, StoreError> {
        let mut engine = self.store.to_write()?;
        loop {
            let old = engine.get(self.id(), drawer, key)?;
            let (new, said) = change(
                old.as_deref()
                    .map(|text| read(drawer, key, text))
                    .transpose()?,
            );
            let new = new.map(|form| self.json(&form)).transpose()?;
            if old == new || engine.swap(self.id(), drawer, key, old.as_deref(), new.as_deref())? {
                return Ok(said);
            }
        }
    }

    /// Takes every key out of a drawer whose form `goes` says so.
    pub(crate) fn clear<F: DeserializeOwned>(
        &self,
        drawer: Drawer,
        goes: impl Fn(&F) -> bool,
    ) -> Result<(), StoreError> {
        let mut engine = self.store.to_write()?;
        for (key, text) in engine.list(self.id(), drawer)? {
            if read::<F>(drawer, &key, &text).map_or(true, |form| goes(&form)) {
                engine.swap(self.id(), drawer, &key, Some(&text), None)?;
            }
        }
        Ok(())
    }

    /// A form's JSON.
    pub(crate) fn json(&self, form: &impl Serialize) -> Result<String, StoreError> {
        serde_json::to_string(form).map_err(StoreError::engine)
    }
}

fn read<F: DeserializeOwned>(drawer: Drawer, key: &str, text: &str) -> Result<F, StoreError> {
    serde_json::from_str(text)
        .map_err(|why| StoreError::file_damaged(format_args!("{}/{key}: {why}", drawer.code())))
}
