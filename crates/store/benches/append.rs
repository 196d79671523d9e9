//! Durable appends beside plain SQLite doing the same statements, and reading back.

fn main() {
    divan::main();
}
