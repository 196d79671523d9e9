### The reckoner: what every leaf's page says, whatever the leaf, and why a leaf gives no value.
### $input, $output: names already said; $name: as typed; $value, $low, $high: numbers with unit ready to show; $n: a count
### $origin: already said; $unit: a unit; $leaf: a leaf's name; $line: of the book; $revision: of the book

reckon-title = Reckoner
reckon-intro = Every formula of this program, each on its own leaf: what it takes, what it gives, where it comes from.
reckon-inputs = What it takes
reckon-outputs = What it gives
reckon-valid = Where it holds
reckon-name = Name
reckon-unit = Unit
reckon-from = From
reckon-to = To
reckon-value = Value
reckon-no-unit = none
reckon-any-unit = the same for all
reckon-optional = may be left out
reckon-list = a list
reckon-whole = whole number
reckon-yes-no = yes or no
reckon-work-out = Work it out
reckon-half-width = ± { $value }, 95 % sure
reckon-how = How was this got?
reckon-no-cases = No check against the world yet.

basis-read = read
basis-memory = from memory
basis-common-practice = common practice, no source
basis-definition = true by the meaning of the words

origin-entry = from an entry in the journal
origin-book-line = from line { $line } of the machine book
origin-default = taken where nobody said otherwise
origin-setting = a setting of the yard
origin-figure = worked out: { $leaf }
origin-given = as given

refusal-not-known = Not known: { $input }.
    .next = Measure it or look it up, then try again.
refusal-no-such-input = There is no “{ $name }” in this leaf.
    .next = Use one of the names the leaf lists.
refusal-given-twice = Given twice: { $input }.
    .next = Give it once.
refusal-wrong-shape = One number and a list are not the same here: { $input }.
    .next = Look at the leaf: it says which one it takes.
refusal-wrong-count = The number of values does not fit ({ $n }): { $input }.
    .next = Give as many as the leaf asks for.
refusal-not-a-number = Not a number: { $input }.
    .next = Write a number with its unit.
refusal-not-whole = Not a whole number: { $value }. Asked for: { $input }.
    .next = Give a whole number.
refusal-out-of-range = Outside what this leaf works with: { $value }. Asked for: { $input }.
    .next = It takes { $low } to { $high }.
refusal-no-result = The formula gives no number for these values.
    .next = Look whether each value is the one you meant.
refusal-contradiction = These values do not go together ({ $name }).
    .next = Each one may be right, all of them cannot. Measure again.
refusal-half-width = The ± of { $input } is no number, or below zero.
    .next = Give a ± of zero or more.
refusal-figure-disagrees = A value does not match the figure it is said to come from.
    .next = This is a mistake of the program. Report it.

leaf-formula = How it goes
leaf-source = Source
leaf-caution = Mind
leaf-bounds = { $low } to { $high } { $unit }
leaf-gives = in { $unit }
figure-input = { $value }, { $origin }
