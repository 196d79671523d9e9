//! What came off a phone by another way than its own connection: parts as text or as square codes.

mod armour;
pub(crate) mod codes_words;
pub(crate) mod take_in;
