//! New ids from the outside world's clock and chance.

use uuid::{Builder, Uuid};
use yard::world::World;

/// A new UUIDv7: the time now to the millisecond, then ten bytes of chance.
pub fn fresh_id(world: &dyn World) -> Uuid {
    let chance = world.chance();
    let mut tail = [0u8; 10];
    tail.copy_from_slice(&chance[6..]);
    let millis = u64::try_from(world.now().as_millisecond()).unwrap_or(0);
    Builder::from_unix_timestamp_millis(millis, &tail).into_uuid()
}
