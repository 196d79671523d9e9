//! A number that may be printed: its leaf, every input with its origin, and what came out.

use crate::leaf::Leaf;
use crate::refusal::Refusal;
use crate::value::{Argument, Output, Value};

/// A worked-out number, with all that is needed to work it out again.
///
/// It comes only from a leaf: there is no other way to make one.
#[derive(Debug, Clone)]
pub struct Figure {
    leaf: &'static Leaf,
    inputs: Vec<FigureInput>,
    outputs: Vec<Output>,
}

/// One input of a figure: name, value in the leaf's unit, and where it was taken from.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureInput {
    name: String,
    value: Value,
    half_width: Option<f64>,
    origin: Origin,
}

/// Where an input was taken from.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    /// An entry of the journal, by its id.
    Entry(String),
    /// A line of the machine book.
    BookLine {
        /// The book's revision.
        revision: u32,
        /// The line, counted from 1.
        line: u32,
    },
    /// What is taken where nobody said otherwise.
    Default,
    /// A setting of the yard.
    Setting,
    /// Another figure; the input equals one of its outputs.
    Figure(Box<Figure>),
    /// Given by whoever asked.
    Given,
}

impl FigureInput {
    /// An input taken as it is.
    pub fn new(name: impl Into<String>, value: impl Into<Value>, origin: Origin) -> Self {
        FigureInput {
            name: name.into(),
            value: value.into(),
            half_width: None,
            origin,
        }
    }

    /// The same input, known to within half the width of its 95 % interval.
    #[must_use]
    pub fn within(self, half_width: f64) -> Self {
        FigureInput {
            half_width: Some(half_width),
            ..self
        }
    }

    /// An input that is an output of another figure, with its uncertainty; none where it has no such output.
    pub fn from_figure(name: impl Into<String>, figure: &Figure, output: &str) -> Option<Self> {
        let taken = figure.output(output)?;
        Some(FigureInput {
            name: name.into(),
            value: taken.value.clone(),
            half_width: taken.half_width,
            origin: Origin::Figure(Box::new(figure.clone())),
        })
    }

    /// The input's name in the leaf.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The value, in the unit the leaf declares.
    pub fn value(&self) -> &Value {
        &self.value
    }

    /// Half the width of its 95 % interval, where it is known.
    pub fn half_width(&self) -> Option<f64> {
        self.half_width
    }

    /// Where it was taken from.
    pub fn origin(&self) -> &Origin {
        &self.origin
    }

    fn argument(&self) -> Argument {
        Argument {
            name: self.name.clone(),
            value: self.value.clone(),
        }
    }
}

impl Figure {
    /// Works a leaf out and keeps the way there.
    ///
    /// Half widths of single inputs are carried to the outputs, taken as independent: each input is moved by its
    /// half width both ways and half the change of the output is its share; shares and the leaf's own half width
    /// add as squares (Kragten 1994, Analyst 119, 2161, from memory). Inputs that move together belong into
    /// [`crate::propagate`] instead.
    ///
    /// # Errors
    /// The leaf's refusal; "figure-disagrees" where an input is said to come from a figure that has no such output;
    /// "half-width" where a half width is negative or no number.
    pub fn reckon(leaf: &'static Leaf, inputs: Vec<FigureInput>) -> Result<Figure, Refusal> {
        inputs.iter().try_for_each(check_input)?;
        let arguments: Vec<_> = inputs.iter().map(FigureInput::argument).collect();
        let mut outputs = leaf.evaluate(&arguments)?;
        carry_half_widths(leaf, &inputs, &arguments, &mut outputs);
        Ok(Figure {
            leaf,
            inputs,
            outputs,
        })
    }

    /// The leaf it was worked out with.
    pub fn leaf(&self) -> &'static Leaf {
        self.leaf
    }

    /// The inputs, in the order they were given.
    pub fn inputs(&self) -> &[FigureInput] {
        &self.inputs
    }

    /// All outputs, in the leaf's order.
    pub fn outputs(&self) -> &[Output] {
        &self.outputs
    }

    /// The output of this name.
    pub fn output(&self, name: &str) -> Option<&Output> {
        self.outputs.iter().find(|output| output.name == name)
    }

    /// The output of this name as a number.
    pub fn number(&self, name: &str) -> Option<f64> {
        self.output(name).and_then(|output| output.value.number())
    }

    /// Works it out once more from its inputs, and the figures below it from theirs.
    ///
    /// # Errors
    /// As [`Figure::reckon`]; a figure that was made once does not refuse.
    pub fn recompute(&self) -> Result<Figure, Refusal> {
        let mut inputs = self.inputs.clone();
        for input in &mut inputs {
            if let Origin::Figure(below) = &mut input.origin {
                **below = below.recompute()?;
            }
        }
        Figure::reckon(self.leaf, inputs)
    }
}

/// The same leaf, the same inputs from the same origins, the same digits.
impl PartialEq for Figure {
    fn eq(&self, other: &Self) -> bool {
        self.leaf.id == other.leaf.id
            && self.inputs == other.inputs
            && self.outputs == other.outputs
    }
}

fn check_input(input: &FigureInput) -> Result<(), Refusal> {
    if input
        .half_width
        .is_some_and(|half| !half.is_finite() || half < 0.0)
    {
        return Err(Refusal::Contradiction { what: "half-width" });
    }
    match &input.origin {
        Origin::Figure(below)
            if !below
                .outputs
                .iter()
                .any(|output| output.value.same_digits(&input.value)) =>
        {
            Err(Refusal::Contradiction {
                what: "figure-disagrees",
            })
        }
        _ => Ok(()),
    }
}

fn carry_half_widths(
    leaf: &Leaf,
    inputs: &[FigureInput],
    arguments: &[Argument],
    outputs: &mut [Output],
) {
    for (index, input) in inputs.iter().enumerate() {
        let (Some(half), Some(centre)) = (input.half_width, input.value.number()) else {
            continue;
        };
        let moved = |by: f64| {
            let mut changed = arguments.to_vec();
            changed[index].value = Value::Number(centre + by);
            leaf.evaluate(&changed).ok()
        };
        let (below, above) = (moved(-half), moved(half));
        for (place, output) in outputs.iter_mut().enumerate() {
            let share = share_of(place, output, below.as_deref(), above.as_deref());
            output.half_width = match (output.half_width, share) {
                (Some(own), Some(share)) => Some((own * own + share * share).sqrt()),
                (None, share) => share,
                (own, None) => own,
            };
        }
    }
}

/// What one input's half width does to one output; one-sided where the other side lies outside the leaf's bounds.
fn share_of(
    place: usize,
    output: &Output,
    below: Option<&[Output]>,
    above: Option<&[Output]>,
) -> Option<f64> {
    let centre = output.value.number()?;
    let at = |side: Option<&[Output]>| side.and_then(|outputs| outputs.get(place)?.value.number());
    let share = match (at(below), at(above)) {
        (Some(below), Some(above)) => (above - below).abs() / 2.0,
        (Some(one), None) | (None, Some(one)) => (one - centre).abs(),
        (None, None) => return None,
    };
    share.is_finite().then_some(share)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::upkeep::{due_hours, grease_round_mass};

    fn due(last: f64, now: f64) -> Figure {
        let given = |name: &str, value: f64| FigureInput::new(name, value, Origin::Given);
        let inputs = vec![
            given("last", last),
            given("interval", 50.0),
            given("now", now).within(0.1),
        ];
        Figure::reckon(&due_hours::LEAF, inputs).unwrap()
    }

    #[test]
    fn a_figure_worked_out_again_is_the_same() {
        let figure = due(412.6, 450.3);
        assert_eq!(figure.recompute().unwrap(), figure);
        assert_ne!(figure, due(412.6, 450.4));
    }

    #[test]
    fn half_widths_reach_the_outputs_they_bear_on() {
        let figure = due(412.6, 450.3);
        assert!((figure.output("remaining").unwrap().half_width.unwrap() - 0.1).abs() < 1e-9);
        assert_eq!(figure.output("due").unwrap().half_width, Some(0.0));
    }

    #[test]
    fn independent_half_widths_add_as_squares() {
        // 3 x 4 with 10 % and 10 %: relative half width sqrt(0.02), JCGM 100:2008, 5.1.6.
        let inputs = vec![
            FigureInput::new("fittings", 1.0, Origin::Default),
            FigureInput::new("strokes", 3.0, Origin::Setting).within(0.3),
            FigureInput::new("grams_per_stroke", 4.0, Origin::Setting).within(0.4),
        ];
        let figure = Figure::reckon(&grease_round_mass::LEAF, inputs).unwrap();
        let relative = figure.output("mass").unwrap().half_width.unwrap() / 12.0;
        assert!((relative - 0.02_f64.sqrt()).abs() < 1e-9);
    }

    #[test]
    fn an_input_from_a_figure_must_be_its_output() {
        let below = due(412.6, 450.3);
        let taken = FigureInput::from_figure("last", &below, "due").unwrap();
        assert_eq!(taken.value(), &Value::Number(462.6));
        let mut false_one = taken.clone();
        false_one.value = Value::Number(462.7);
        let rest = [
            FigureInput::new("interval", 50.0, Origin::Given),
            FigureInput::new("now", 470.0, Origin::Given),
        ];
        let with = |first: FigureInput| {
            Figure::reckon(&due_hours::LEAF, [vec![first], rest.to_vec()].concat())
        };
        assert!(with(taken).unwrap().recompute().is_ok());
        assert_eq!(
            with(false_one).unwrap_err(),
            Refusal::Contradiction {
                what: "figure-disagrees"
            }
        );
    }

    #[test]
    fn a_half_width_that_is_none_is_refused() {
        let input = FigureInput::new("last", 1.0, Origin::Given).within(f64::NAN);
        let refused = Figure::reckon(&due_hours::LEAF, vec![input]).unwrap_err();
        assert_eq!(refused, Refusal::Contradiction { what: "half-width" });
    }
}
