//! Forms of the smallest things: ids, times, quantities as they were written.

use super::shape::{Form, text_form};
use jiff::{Timestamp, civil::Date};
use quantity::{Habits, Quantity, parse};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::borrow::Cow;
use yard::id::{EntryId, FaultRef, ItemId, MachineId, PersonId, PhotoId, PointId, RoundId};

text_form!(EntryRef for EntryId, |id| id.to_string(), |text| text.parse().ok(), { "type": "string", "format": "uuid" });
text_form!(RoundRef for RoundId, |id| id.to_string(), |text| text.parse().ok(), { "type": "string", "format": "uuid" });
text_form!(PersonRef for PersonId, |id| id.to_string(), |text| text.parse().ok(), { "type": "string", "format": "uuid" });
text_form!(PhotoRef for PhotoId, |id| id.to_string(), |text| text.parse().ok(), { "type": "string", "format": "uuid" });
text_form!(MachineRef for MachineId, |id| id.to_string(), MachineId::new, { "type": "string", "pattern": "^[a-z0-9][a-z0-9-]{0,63}$" });
text_form!(PointRef for PointId, |id| id.to_string(), PointId::new, { "type": "string", "pattern": "^[a-z0-9][a-z0-9-]{0,63}$" });
text_form!(ItemRef for ItemId, |id| id.to_string(), ItemId::new, { "type": "string", "pattern": "^[a-z0-9][a-z0-9-]{0,63}$" });
text_form!(Thing for FaultRef, |fault| fault.to_string(), |text| text.parse().ok(), { "type": "string", "description": "An entry's id, or `<entry>/<point>`." });
text_form!(Time for Timestamp, |time| time.to_string(), |text| text.parse().ok(), { "type": "string", "format": "date-time" });
text_form!(Day for Date, |day| day.to_string(), |text| text.parse().ok(), { "type": "string", "format": "date" });

/// A quantity as it was written: `"2 1/8 in"`; where the comma was the decimal sign, `{"text": "12,5 L", "comma": "decimal"}`, so that the
/// text means the same whatever the yard's habit becomes.
#[derive(Clone, Debug)]
pub(in crate::form) struct Written(Quantity);

impl JsonSchema for Written {
    fn schema_name() -> Cow<'static, str> {
        "Quantity".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        WrittenAs::json_schema(generator)
    }
}

/// A quantity with its unit, as it was written: `"2 1/8 in"`.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
enum WrittenAs {
    Plain(String),
    Comma { text: String, comma: Comma },
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum Comma {
    Decimal,
}

impl Form for Written {
    type Of = Quantity;
    fn write(of: &Quantity) -> Self {
        Self(of.clone())
    }
    fn read(self) -> Quantity {
        self.0
    }
}

impl Serialize for Written {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let reads_back =
            |habits: &Habits| parse(self.0.text(), habits, None).is_ok_and(|read| read == self.0);
        let text = self.0.text().to_owned();
        let form = if reads_back(&Habits::default()) {
            WrittenAs::Plain(text)
        } else if reads_back(&decimal_comma()) {
            WrittenAs::Comma {
                text,
                comma: Comma::Decimal,
            }
        } else {
            // No reader gives such a quantity; its value still must not be lost.
            WrittenAs::Plain(
                Quantity::from_exact(
                    self.0.value().clone(),
                    self.0.unit(),
                    self.0.plus_minus().cloned(),
                )
                .text()
                .to_owned(),
            )
        };
        form.serialize(to)
    }
}

impl<'de> Deserialize<'de> for Written {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let read = match WrittenAs::deserialize(from)? {
            WrittenAs::Plain(text) => parse(&text, &Habits::default(), None),
            WrittenAs::Comma {
                text,
                comma: Comma::Decimal,
            } => parse(&text, &decimal_comma(), None),
        };
        read.map(Self)
            .map_err(|_| serde::de::Error::custom("not a quantity"))
    }
}

fn decimal_comma() -> Habits {
    Habits {
        decimal_comma: true,
    }
}
