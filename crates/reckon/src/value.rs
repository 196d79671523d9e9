//! What goes into a leaf and what comes out of it.

/// One number, or a list of them in their order.
///
/// Always in the unit its leaf declares. Yes and no are 1 and 0.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// One number.
    Number(f64),
    /// Several numbers; their order counts.
    List(Vec<f64>),
}

impl Value {
    /// The number, where it is one.
    pub fn number(&self) -> Option<f64> {
        match self {
            Value::Number(number) => Some(*number),
            Value::List(_) => None,
        }
    }

    /// The numbers: the list, or the one number alone.
    pub fn numbers(&self) -> &[f64] {
        match self {
            Value::Number(number) => std::slice::from_ref(number),
            Value::List(list) => list,
        }
    }

    /// True where both hold the same numbers to the last bit.
    pub fn same_digits(&self, other: &Value) -> bool {
        let (ours, theirs) = (self.numbers(), other.numbers());
        let same_shape = matches!(self, Value::Number(_)) == matches!(other, Value::Number(_));
        same_shape
            && ours.len() == theirs.len()
            && ours
                .iter()
                .zip(theirs)
                .all(|(a, b)| a.to_bits() == b.to_bits())
    }
}

impl From<f64> for Value {
    fn from(number: f64) -> Self {
        Value::Number(number)
    }
}

impl From<u32> for Value {
    fn from(number: u32) -> Self {
        Value::Number(f64::from(number))
    }
}

impl From<bool> for Value {
    fn from(yes: bool) -> Self {
        Value::Number(f64::from(u8::from(yes)))
    }
}

impl From<Vec<f64>> for Value {
    fn from(list: Vec<f64>) -> Self {
        Value::List(list)
    }
}

/// An input by its name, in the unit the leaf declares for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Argument {
    /// The input's name, as the leaf declares it.
    pub name: String,
    /// Its value.
    pub value: Value,
}

impl Argument {
    /// An argument from a name and anything that is a value.
    pub fn new(name: impl Into<String>, value: impl Into<Value>) -> Self {
        Argument {
            name: name.into(),
            value: value.into(),
        }
    }
}

/// One result of a leaf.
#[derive(Debug, Clone, PartialEq)]
pub struct Output {
    /// Its name, as the leaf declares it.
    pub name: &'static str,
    /// Its unit, as the leaf declares it; "1" where it has none.
    pub unit: &'static str,
    /// The value.
    pub value: Value,
    /// Half the width of the 95 % interval about the value, in the same unit; none where it is not known.
    pub half_width: Option<f64>,
}
