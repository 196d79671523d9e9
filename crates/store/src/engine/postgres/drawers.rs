//! The drawers in PostgreSQL.

use super::{Postgres, key, read_id};
use crate::{
    StoreError,
    journal::{Drawer, Drawers},
};
use postgres::GenericClient;
use yard::id::YardId;

impl Drawers for Postgres {
    fn add_yard(&mut self, yard: YardId, name: &str) -> Result<(), StoreError> {
        let name = name.to_owned();
        let made = self.run(move |client| {
            Ok(client.execute(
                "INSERT INTO yard (id, name) VALUES ($1, $2) ON CONFLICT (id) DO NOTHING",
                &[&key(&yard.0), &name],
            )?)
        })?;
        if made == 1 {
            Ok(())
        } else {
            Err(StoreError::YardExists)
        }
    }

    fn yards(&mut self) -> Result<Vec<(YardId, String)>, StoreError> {
        self.run(|client| {
            let rows = client.query("SELECT id, name FROM yard ORDER BY place", &[])?;
            rows.iter()
                .map(|row| Ok((YardId(read_id(row, 0)?), row.try_get(1)?)))
                .collect()
        })
    }

    fn get(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        at: &str,
    ) -> Result<Option<String>, StoreError> {
        let at = at.to_owned();
        self.run(move |client| get(client, yard, drawer, &at))
    }

    fn list(&mut self, yard: YardId, drawer: Drawer) -> Result<Vec<(String, String)>, StoreError> {
        self.run(move |client| {
            let rows = client.query(
                "SELECT key, value FROM drawer WHERE yard = $1 AND drawer = $2 ORDER BY key",
                &[&key(&yard.0), &drawer.code()],
            )?;
            rows.iter()
                .map(|row| Ok((row.try_get(0)?, row.try_get(1)?)))
                .collect()
        })
    }

    fn swap(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        at: &str,
        old: Option<&str>,
        new: Option<&str>,
    ) -> Result<bool, StoreError> {
        let (at, old, new) = (
            at.to_owned(),
            old.map(str::to_owned),
            new.map(str::to_owned),
        );
        self.write(yard, move |step| {
            if get(step, yard, drawer, &at)? != old {
                return Ok(false);
            }
            match new {
                Some(new) => step.execute(
                    "INSERT INTO drawer (yard, drawer, key, value) VALUES ($1, $2, $3, $4) ON CONFLICT (yard, drawer, key) DO UPDATE SET value = $4",
                    &[&key(&yard.0), &drawer.code(), &at, &new],
                )?,
                None => step.execute("DELETE FROM drawer WHERE yard = $1 AND drawer = $2 AND key = $3", &[&key(&yard.0), &drawer.code(), &at])?,
            };
            if drawer.lasts() {
                step.execute("UPDATE yard SET kept = kept + 1 WHERE id = $1", &[&key(&yard.0)])?;
            }
            Ok(true)
        })
    }

    fn kept(&mut self, yard: YardId) -> Result<u64, StoreError> {
        let row = self.run(move |client| {
            Ok(client.query_opt("SELECT kept FROM yard WHERE id = $1", &[&key(&yard.0)])?)
        })?;
        Ok(row
            .ok_or(StoreError::NoYard)?
            .try_get::<_, i64>(0)?
            .unsigned_abs())
    }

    fn scrub(&mut self) -> Result<(), StoreError> {
        self.run(|client| Ok(client.batch_execute("VACUUM drawer")?))
    }

    fn complaints(&mut self) -> Result<Vec<String>, StoreError> {
        // The server watches over its own files; the chain is walked by `verify`.
        Ok(vec![])
    }
}

fn get(
    client: &mut impl GenericClient,
    yard: YardId,
    drawer: Drawer,
    at: &str,
) -> Result<Option<String>, StoreError> {
    let sql = "SELECT value FROM drawer WHERE yard = $1 AND drawer = $2 AND key = $3";
    Ok(client
        .query_opt(sql, &[&key(&yard.0), &drawer.code(), &at])?
        .map(|row| row.try_get(0))
        .transpose()?)
}
