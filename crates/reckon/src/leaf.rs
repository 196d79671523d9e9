//! A formula's leaf: what it takes, what it gives, where it comes from, and the macro that declares it.

use quantity::{Quantity, Unit};

use crate::refusal::Refusal;
use crate::value::{Argument, Output, Value};

/// No list is longer than this: enough for the distances between 64 stations.
const LONGEST_LIST: usize = 4096;

/// The declaration of one formula.
#[derive(Debug)]
pub struct Leaf {
    /// Job and name, such as "upkeep.life_hours".
    pub id: &'static str,
    /// What it takes, in the order of the function.
    pub inputs: &'static [Input],
    /// What it gives.
    pub outputs: &'static [OutputKind],
    /// Where the formula comes from.
    pub source: Source,
    pub(crate) compute: fn(&Checked<'_>) -> Computed,
}

/// What a leaf's function gives, in the order of [`Leaf::outputs`]: each value with its half width, if it has one.
pub(crate) type Computed = Result<Vec<(Value, Option<f64>)>, Refusal>;

/// One input: its name, unit, shape and bounds.
#[derive(Debug)]
pub struct Input {
    /// The name, in words joined by underscores.
    pub name: &'static str,
    /// The unit, "1" where it has none, "any" where it only must be the same as that of its neighbours.
    pub unit: &'static str,
    /// One number, a whole one, yes or no, or a list.
    pub shape: Shape,
    /// May it be left out?
    pub optional: bool,
    /// The lowest value taken, in this unit; for a list it holds for each number.
    pub low: f64,
    /// The highest value taken.
    pub high: f64,
}

/// What kind of value an input is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// One number.
    Number,
    /// One whole number.
    Whole,
    /// 1 for yes, 0 for no.
    YesNo,
    /// Numbers in their order.
    List,
}

/// One output: its name and unit.
#[derive(Debug)]
pub struct OutputKind {
    /// The name, in words joined by underscores.
    pub name: &'static str,
    /// The unit, "1" where it has none.
    pub unit: &'static str,
}

/// Where a formula comes from. Data, not prose: it is printed as it stands in every language.
#[derive(Debug)]
pub struct Source {
    /// Author or body, and title.
    pub title: &'static str,
    /// Year of the edition; 0 where there is none.
    pub year: u16,
    /// Clause, table or page.
    pub place: &'static str,
    /// How well it is known.
    pub basis: Basis,
}

/// How well a source is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// The text was read.
    Read,
    /// Remembered; the text itself was not at hand.
    Memory,
    /// Common practice of the trade, no source.
    CommonPractice,
    /// True by the meaning of the words: arithmetic or geometry.
    Definition,
}

impl Basis {
    /// The words cases and validation use: "read", "memory", "common practice", "definition".
    pub fn code(self) -> &'static str {
        match self {
            Basis::Read => "read",
            Basis::Memory => "memory",
            Basis::CommonPractice => "common practice",
            Basis::Definition => "definition",
        }
    }
}

impl Leaf {
    /// The job, the first part of the id.
    pub fn job(&self) -> &'static str {
        self.id.split_once('.').map_or(self.id, |(job, _)| job)
    }

    /// The key under which the layer of words keeps the leaf's sentences: "leaf-upkeep-life-hours".
    pub fn words_key(&self) -> String {
        format!("leaf-{}", self.id.replace(['.', '_'], "-"))
    }

    /// The input of this name.
    pub fn input(&self, name: &str) -> Option<&'static Input> {
        self.inputs.iter().find(|input| input.name == name)
    }

    /// True where every input is a single number or yes or no, so that a plain form can ask for all of them.
    pub fn all_single(&self) -> bool {
        self.inputs.iter().all(|input| input.shape != Shape::List)
    }

    /// Works the leaf out from inputs by name, each in the unit the leaf declares.
    ///
    /// # Errors
    /// A [`Refusal`] that names the input at fault; also where the formula gives no finite number.
    pub fn evaluate(&self, arguments: &[Argument]) -> Result<Vec<Output>, Refusal> {
        self.check_names(arguments)?;
        for input in self.inputs {
            input.check(arguments)?;
        }
        let computed = (self.compute)(&Checked { arguments })?;
        self.outputs
            .iter()
            .zip(computed)
            .map(|(kind, (value, half_width))| {
                let finite = value
                    .numbers()
                    .iter()
                    .chain(&half_width)
                    .all(|number| number.is_finite());
                let output = Output {
                    name: kind.name,
                    unit: kind.unit,
                    value,
                    half_width,
                };
                finite
                    .then_some(output)
                    .ok_or(Refusal::NoResult { output: kind.name })
            })
            .collect()
    }

    fn check_names(&self, arguments: &[Argument]) -> Result<(), Refusal> {
        for (index, argument) in arguments.iter().enumerate() {
            let Some(input) = self.input(&argument.name) else {
                return Err(Refusal::NoSuchInput {
                    input: argument.name.clone(),
                });
            };
            if arguments[..index]
                .iter()
                .any(|earlier| earlier.name == argument.name)
            {
                return Err(Refusal::Twice { input: input.name });
            }
        }
        Ok(())
    }
}

impl Input {
    /// The declared unit in the list of units a person may write; none where it is "any", or a rate not in that list.
    pub fn known_unit(&self) -> Option<Unit> {
        match self.unit {
            "1" => Some(Unit::One),
            unit => Unit::find(unit),
        }
    }

    /// A written quantity as a number in the declared unit, and half the width of its interval where it has a ±.
    ///
    /// Where the unit is "any" the quantity's own unit stands; that its neighbours have the same one is for the
    /// caller to see to. A rate whose unit is in no list is written as a bare number.
    ///
    /// # Errors
    /// `WrongUnit` where the quantity measures something else.
    pub fn number_of(&self, quantity: &Quantity) -> Result<(f64, Option<f64>), Refusal> {
        let unit = match self.unit {
            "any" => quantity.unit(),
            _ => self.known_unit().unwrap_or(Unit::One),
        };
        let wrong = Refusal::WrongUnit {
            input: self.name,
            wanted: self.unit,
        };
        let number = quantity.in_unit(unit).ok_or(wrong)?;
        Ok((
            number.to_f64(),
            quantity.plus_minus_in(unit).map(|half| half.to_f64()),
        ))
    }

    fn check(&self, arguments: &[Argument]) -> Result<(), Refusal> {
        let input = self.name;
        let Some(argument) = arguments.iter().find(|argument| argument.name == input) else {
            return if self.optional {
                Ok(())
            } else {
                Err(Refusal::NotKnown { input })
            };
        };
        let is_list = matches!(argument.value, Value::List(_));
        if is_list != (self.shape == Shape::List) {
            return Err(Refusal::WrongShape { input });
        }
        let numbers = argument.value.numbers();
        if numbers.len() > LONGEST_LIST {
            return Err(Refusal::WrongCount {
                input,
                count: numbers.len(),
            });
        }
        numbers
            .iter()
            .try_for_each(|&number| self.check_number(number))
    }

    fn check_number(&self, value: f64) -> Result<(), Refusal> {
        let (input, low, high) = (self.name, self.low, self.high);
        if !value.is_finite() {
            return Err(Refusal::NotANumber { input });
        }
        if value < low || value > high {
            return Err(Refusal::OutOfRange {
                input,
                value,
                low,
                high,
            });
        }
        let must_be_whole = matches!(self.shape, Shape::Whole | Shape::YesNo);
        if must_be_whole && value.fract() != 0.0 {
            return Err(Refusal::NotWhole { input, value });
        }
        Ok(())
    }
}

/// Arguments that have passed their leaf's checks.
pub(crate) struct Checked<'a> {
    arguments: &'a [Argument],
}

impl Checked<'_> {
    fn find(&self, name: &str) -> Option<&Value> {
        self.arguments
            .iter()
            .find(|argument| argument.name == name)
            .map(|argument| &argument.value)
    }

    pub(crate) fn optional(&self, name: &'static str) -> Option<f64> {
        self.find(name).and_then(Value::number)
    }

    pub(crate) fn number(&self, name: &'static str) -> Result<f64, Refusal> {
        self.optional(name).ok_or(Refusal::NotKnown { input: name })
    }

    pub(crate) fn whole(&self, name: &'static str) -> Result<u32, Refusal> {
        // Within the bounds of a `Whole` input, which are those of a u32: see the catalogue's test.
        self.number(name).map(|number| number as u32)
    }

    pub(crate) fn yes(&self, name: &'static str) -> Result<bool, Refusal> {
        self.number(name).map(|number| number != 0.0)
    }

    pub(crate) fn list(&self, name: &'static str) -> Result<&[f64], Refusal> {
        self.find(name)
            .map(Value::numbers)
            .ok_or(Refusal::NotKnown { input: name })
    }
}

/// Declares a formula's leaf as `pub static LEAF`, and with it how the one typed function is called.
///
/// `computes` takes a function that always gives a value, `tries` one that may refuse. Inputs stand in the order of
/// the function's parameters, as `name: kind ["unit"] low, high` with the kinds `number`, `optional`, `whole`,
/// `yes_no` and `list`. Outputs are read from the result by name, with `; within` the half width where there is one.
macro_rules! leaf {
    (
        $id:literal $verb:ident $function:path;
        inputs { $( $input:ident : $kind:ident [$unit:literal] $low:literal, $high:literal; )* }
        outputs |$result:ident| { $( $output:ident [$output_unit:literal] = $value:expr $(; within $half:expr)? ),* $(,)? }
        source { $title:literal, $year:literal, $place:literal, $basis:ident }
    ) => {
        /// The declaration of this file's formula.
        pub static LEAF: $crate::Leaf = $crate::Leaf {
            id: $id,
            inputs: &[ $( $crate::Input {
                name: stringify!($input),
                unit: $unit,
                shape: $crate::leaf::leaf!(@shape $kind),
                optional: $crate::leaf::leaf!(@optional $kind),
                low: $low,
                high: $high,
            } ),* ],
            outputs: &[ $( $crate::OutputKind { name: stringify!($output), unit: $output_unit } ),* ],
            source: $crate::Source { title: $title, year: $year, place: $place, basis: $crate::Basis::$basis },
            compute: |checked| {
                let $result = $crate::leaf::leaf!(
                    @call $verb $function, ( $( $crate::leaf::leaf!(@take $kind checked, stringify!($input)) ),* )
                );
                Ok(vec![ $( ($crate::Value::from($value), $crate::leaf::leaf!(@half $($half)?)) ),* ])
            },
        };
    };
    (@call computes $function:path, ( $($argument:expr),* )) => { $function( $($argument),* ) };
    (@call tries $function:path, ( $($argument:expr),* )) => { $function( $($argument),* )? };
    (@take number $checked:ident, $name:expr) => { $checked.number($name)? };
    (@take optional $checked:ident, $name:expr) => { $checked.optional($name) };
    (@take whole $checked:ident, $name:expr) => { $checked.whole($name)? };
    (@take yes_no $checked:ident, $name:expr) => { $checked.yes($name)? };
    (@take list $checked:ident, $name:expr) => { $checked.list($name)? };
    (@shape number) => { $crate::Shape::Number };
    (@shape optional) => { $crate::Shape::Number };
    (@shape whole) => { $crate::Shape::Whole };
    (@shape yes_no) => { $crate::Shape::YesNo };
    (@shape list) => { $crate::Shape::List };
    (@optional optional) => { true };
    (@optional $other:ident) => { false };
    (@half) => { None };
    (@half $half:expr) => { Some($half) };
}
pub(crate) use leaf;
