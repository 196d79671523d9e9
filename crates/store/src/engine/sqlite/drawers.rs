//! The drawers in SQLite.

use super::{Sqlite, key};
use crate::{
    StoreError,
    journal::{Drawer, Drawers},
};
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use uuid::Uuid;
use yard::id::YardId;

impl Drawers for Sqlite {
    fn add_yard(&mut self, yard: YardId, name: &str) -> Result<(), StoreError> {
        let sql = "INSERT INTO yard (id, place, name) VALUES (?1, 1 + (SELECT coalesce(max(place), 0) FROM yard), ?2) ON CONFLICT (id) DO NOTHING";
        let made = self.connection.execute(sql, params![key(&yard.0), name])?;
        if made == 1 {
            Ok(())
        } else {
            Err(StoreError::YardExists)
        }
    }

    fn yards(&mut self) -> Result<Vec<(YardId, String)>, StoreError> {
        let mut select = self
            .connection
            .prepare_cached("SELECT id, name FROM yard ORDER BY place")?;
        let rows = select.query_map([], |row| {
            Ok((YardId(Uuid::from_bytes(row.get(0)?)), row.get(1)?))
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn get(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        at: &str,
    ) -> Result<Option<String>, StoreError> {
        get(&self.connection, yard, drawer, at)
    }

    fn list(&mut self, yard: YardId, drawer: Drawer) -> Result<Vec<(String, String)>, StoreError> {
        let mut select = self.connection.prepare_cached(
            "SELECT key, value FROM drawer WHERE yard = ?1 AND drawer = ?2 ORDER BY key",
        )?;
        let rows = select.query_map(params![key(&yard.0), drawer.code()], |row| {
            Ok((row.get(0)?, row.get(1)?))
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn swap(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        at: &str,
        old: Option<&str>,
        new: Option<&str>,
    ) -> Result<bool, StoreError> {
        let step = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        if get(&step, yard, drawer, at)?.as_deref() != old {
            return Ok(false);
        }
        let place = params![key(&yard.0), drawer.code(), at];
        match new {
            Some(new) => step.execute(
                "INSERT INTO drawer (yard, drawer, key, value) VALUES (?1, ?2, ?3, ?4) ON CONFLICT (yard, drawer, key) DO UPDATE SET value = ?4",
                params![key(&yard.0), drawer.code(), at, new],
            )?,
            None => step.execute("DELETE FROM drawer WHERE yard = ?1 AND drawer = ?2 AND key = ?3", place)?,
        };
        if drawer.lasts() {
            step.execute(
                "UPDATE yard SET kept = kept + 1 WHERE id = ?1",
                [key(&yard.0)],
            )?;
        }
        step.commit()?;
        Ok(true)
    }

    fn kept(&mut self, yard: YardId) -> Result<u64, StoreError> {
        let mut select = self
            .connection
            .prepare_cached("SELECT kept FROM yard WHERE id = ?1")?;
        let kept: Option<i64> = select
            .query_row([key(&yard.0)], |row| row.get(0))
            .optional()?;
        kept.map(i64::unsigned_abs).ok_or(StoreError::NoYard)
    }

    fn scrub(&mut self) -> Result<(), StoreError> {
        Ok(self
            .connection
            .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))?)
    }

    fn complaints(&mut self) -> Result<Vec<String>, StoreError> {
        let mut check = self.connection.prepare("PRAGMA integrity_check")?;
        let lines = check
            .query_map([], |row| row.get::<_, String>(0))?
            .collect::<Result<Vec<_>, _>>()?;
        let mut strays = self
            .connection
            .prepare("SELECT DISTINCT \"table\" FROM pragma_foreign_key_check")?;
        let strays = strays
            .query_map([], |row| {
                Ok(format!("{}: of no yard", row.get::<_, String>(0)?))
            })?
            .collect::<Result<Vec<_>, _>>()?;
        let lines = lines.into_iter().filter(|line| line != "ok");
        Ok(lines.chain(strays).collect())
    }
}

fn get(
    connection: &Connection,
    yard: YardId,
    drawer: Drawer,
    at: &str,
) -> Result<Option<String>, StoreError> {
    let mut select = connection
        .prepare_cached("SELECT value FROM drawer WHERE yard = ?1 AND drawer = ?2 AND key = ?3")?;
    Ok(select
        .query_row(params![key(&yard.0), drawer.code(), at], |row| row.get(0))
        .optional()?)
}
