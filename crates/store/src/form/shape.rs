//! How a stored form is declared: a plain serde type beside the domain's type, and the way from one to the other.
//!
//! A form's field names and words are what is on disks and phones for ever: to change a released form, give its kind a new version in
//! `kinds.rs` and a raiser in `raise.rs`. (A small yard of every released version in `tests/yards` notices a change that was not meant.)
//! Unknown fields are passed over: a newer program that adds a field without a new version must not turn a whole walk-round
//! into a question; the bytes keep the field.

/// A stored form of the domain's type `Of`. Writing and reading never fail: what can be ill-formed (ids, quantities) is checked while the
/// JSON is read, so that the complaint carries the path.
pub(super) trait Form: Sized {
    /// The domain's type.
    type Of;
    /// The form of a value.
    fn write(of: &Self::Of) -> Self;
    /// The value of a form.
    fn read(self) -> Self::Of;
}

/// A struct's form: fields under their own names. `maybe` fields are left out where there is nothing, `lists` where they are empty.
macro_rules! struct_form {
    ($name:ident for $of:ident { $($field:ident: $form:ty),* $(,)? }
        $(maybe { $($opt:ident: $opt_form:ty),* $(,)? })? $(lists { $($list:ident: $list_form:ty),* $(,)? })?) => {
        #[derive(Debug, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
        pub(in crate::form) struct $name {
            $($field: $form,)*
            $($(#[serde(default, skip_serializing_if = "Option::is_none")] $opt: Option<$opt_form>,)*)?
            $($(#[serde(default, skip_serializing_if = "Vec::is_empty")] $list: Vec<$list_form>,)*)?
        }
        impl Form for $name {
            type Of = $of;
            fn write(of: &$of) -> Self {
                Self {
                    $($field: Form::write(&of.$field),)*
                    $($($opt: Form::write(&of.$opt),)*)?
                    $($($list: Form::write(&of.$list),)*)?
                }
            }
            fn read(self) -> $of {
                $of {
                    $($field: self.$field.read(),)*
                    $($($opt: self.$opt.read(),)*)?
                    $($($list: self.$list.read(),)*)?
                }
            }
        }
    };
}

/// A closed list's form: one word each.
macro_rules! word_form {
    ($name:ident for $of:ident { $($variant:ident = $word:literal),+ $(,)? }) => {
        #[derive(Clone, Copy, Debug, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
        pub(in crate::form) enum $name { $(#[serde(rename = $word)] $variant,)+ }
        impl Form for $name {
            type Of = $of;
            fn write(of: &$of) -> Self {
                match of { $($of::$variant => Self::$variant,)+ }
            }
            fn read(self) -> $of {
                match self { $(Self::$variant => $of::$variant,)+ }
            }
        }
    };
}

/// A text's form: `$write` makes the text, `$read` takes it back or says what is wrong, `$schema` describes it to others.
macro_rules! text_form {
    ($name:ident for $of:ty, $write:expr, $read:expr, $schema:tt) => {
        #[derive(Clone, Debug)]
        pub(in crate::form) struct $name($of);
        impl Form for $name {
            type Of = $of;
            fn write(of: &$of) -> Self {
                Self(of.clone())
            }
            fn read(self) -> $of {
                self.0
            }
        }
        impl schemars::JsonSchema for $name {
            fn inline_schema() -> bool {
                true
            }
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!($schema)
            }
        }
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                let write: fn(&$of) -> String = $write;
                to.serialize_str(&write(&self.0))
            }
        }
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                let read: fn(&str) -> Option<$of> = $read;
                let text = std::borrow::Cow::<str>::deserialize(from)?;
                read(&text).map(Self).ok_or_else(|| {
                    serde::de::Error::custom(concat!("not a well-formed ", stringify!($name)))
                })
            }
        }
    };
}

pub(super) use {struct_form, text_form, word_form};

macro_rules! itself {
    ($($type:ty),*) => {$(
        impl Form for $type {
            type Of = $type;
            fn write(of: &$type) -> Self {
                of.clone()
            }
            fn read(self) -> $type {
                self
            }
        }
    )*};
}

itself!(String, bool, u32);

impl<F: Form> Form for Option<F> {
    type Of = Option<F::Of>;
    fn write(of: &Self::Of) -> Self {
        of.as_ref().map(F::write)
    }
    fn read(self) -> Self::Of {
        self.map(F::read)
    }
}

impl<F: Form> Form for Vec<F> {
    type Of = Vec<F::Of>;
    fn write(of: &Self::Of) -> Self {
        of.iter().map(F::write).collect()
    }
    fn read(self) -> Self::Of {
        self.into_iter().map(F::read).collect()
    }
}
