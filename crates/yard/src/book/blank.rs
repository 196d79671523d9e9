//! A new book begun from a blank: the same text with its own name and id.

use super::mend;
use super::tree::{Node, Value};
use crate::id::MachineId;
use std::ops::Range;

/// The blank's text with `name` and `id` of the new machine; everything else stays as it is, comments too.
///
/// Where the blank has no `[machine]` with both keys, a table with them is put behind everything else.
pub fn new_from_blank(blank: &str, name: &str, id: &MachineId) -> String {
    let document = mend::document(blank);
    let machine = document
        .entries
        .iter()
        .find(|(key, _)| key.text == "machine")
        .map(|(_, node)| node);
    let place = |key: &str| machine.and_then(|node| value_of(node, key));
    let (Some(name_at), Some(id_at)) = (place("name"), place("id")) else {
        return format!("{blank}\n[machine]\nid = \"{id}\"\nname = {}\n", text(name));
    };
    let mut changes = [(name_at, text(name)), (id_at, text(id.as_str()))];
    changes.sort_by_key(|(span, _)| std::cmp::Reverse(span.start));
    let mut new = blank.to_owned();
    for (span, value) in changes {
        new.replace_range(span, &value);
    }
    new
}

fn value_of(machine: &Node, key: &str) -> Option<Range<usize>> {
    let Value::Table(entries) = &machine.value else {
        return None;
    };
    entries
        .iter()
        .find(|(k, _)| k.text == key)
        .map(|(_, node)| node.span.clone())
}

/// A TOML text. Control characters are left out; nobody's machine is called by one.
fn text(value: &str) -> String {
    let plain: String = value.chars().filter(|c| !c.is_control()).collect();
    format!("\"{}\"", plain.replace('\\', "\\\\").replace('"', "\\\""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_name_and_id_change() {
        let blank = "# A blank.\nkingpost = 1\n[machine]\nid = \"blank\" # change\nname = 'Blank'\nkind = \"k\"\n";
        let new = new_from_blank(blank, "Old \"Bess\" \\", &MachineId::new("bess").unwrap());
        assert_eq!(
            new,
            "# A blank.\nkingpost = 1\n[machine]\nid = \"bess\" # change\nname = \"Old \\\"Bess\\\" \\\\\"\nkind = \"k\"\n"
        );
    }

    #[test]
    fn a_text_without_a_machine_gets_one() {
        assert!(
            new_from_blank("x = 1\n", "A", &MachineId::new("a").unwrap())
                .ends_with("\n[machine]\nid = \"a\"\nname = \"A\"\n")
        );
    }
}
