//! What can be wrong with a machine book: codes, arguments and the place; the sentences are made in `words`.

use std::ops::Range;

/// One thing wrong in a book, with its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// Line, counted from 1.
    pub line: u32,
    /// Column in characters, counted from 1.
    pub column: u32,
    /// Bytes of the text it is about; always inside the text, on character boundaries.
    pub span: Range<usize>,
    /// Whether the book can be used in spite of it.
    pub level: Level,
    /// What is wrong.
    pub what: TroubleKind,
}

/// How much a trouble weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// The book cannot be adopted.
    Mistake,
    /// The book can be adopted; look at it.
    Warning,
}

/// Slips that keep a line from being read at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slip {
    /// A text that is not closed on its line.
    OpenText,
    /// A double quote inside a text in double quotes; single quotes round the text let it stand.
    QuoteInText,
    /// A text or word without quotes.
    NoQuotes,
    /// A backslash inside double quotes; single quotes round the text let it stand.
    Backslash,
    /// A list that is not closed, or lacks a comma.
    List,
    /// A set in curly brackets that is not closed, or lacks a comma.
    Set,
    /// No `=` between key and value.
    NoEquals,
    /// No value after the `=`.
    NoValue,
    /// A key in two words; a dash joins them.
    KeyInTwoWords,
    /// Something left over behind the value.
    LeftOver,
    /// The heading of a table: its brackets do not match.
    Heading,
    /// Anything else that is not TOML.
    Other,
}

/// What is wrong, with what would be right where that is known.
#[derive(Clone, Debug, PartialEq)]
#[expect(
    missing_docs,
    reason = "the fields are named for what they hold; each variant says what it means"
)]
pub enum TroubleKind {
    /// The line does not read.
    Syntax { slip: Slip, right: Option<String> },
    /// The text is longer than any book.
    TooBig { bytes: usize, most: usize },
    /// So much is wrong that the rest is not listed.
    AndMore { shown: usize },
    /// The book does not say `kingpost = 1`, or a format this program does not know.
    Format { found: Option<i64>, known: i64 },
    /// No table of this name.
    UnknownTable {
        found: String,
        nearest: Option<String>,
    },
    /// `[x]` where `[[x]]` belongs, or the other way round.
    TableForm { table: &'static str, right: String },
    /// A table that may be there once is there again.
    TableTwice { table: String, first_line: u32 },
    /// A table that every book has is missing.
    MissingTable { table: &'static str },
    /// No key of this name here.
    UnknownKey {
        table: &'static str,
        found: String,
        nearest: Option<String>,
    },
    /// The same key again.
    KeyTwice { key: String, first_line: u32 },
    /// A key that belongs to other kinds of points.
    KeyOfOtherKind {
        key: String,
        kind: String,
        belongs_to: String,
    },
    /// A key that must be there is not.
    MissingKey { table: &'static str, key: String },
    /// Another type of value than belongs here.
    WrongType {
        key: String,
        wanted: &'static str,
        found: &'static str,
    },
    /// A list or text with nothing in it.
    Nothing { key: String },
    /// A text or list longer than allowed.
    TooLong { key: String, most: usize },
    /// A number outside its bounds.
    OutOfBounds { key: String, least: i64, most: i64 },
    /// A quantity that must be more than zero.
    NotPositive { key: String },
    /// None of the words allowed here.
    UnknownWord {
        key: String,
        found: String,
        nearest: Option<String>,
        allowed: String,
    },
    /// Not an id: small letters, digits and dashes, at most 64.
    BadId {
        found: String,
        right: Option<String>,
    },
    /// The id is taken.
    IdTwice { id: String, first_line: u32 },
    /// Speaks of something the book does not have.
    UnknownReference {
        to: &'static str,
        found: String,
        nearest: Option<String>,
    },
    /// The quantity does not read.
    Quantity {
        key: String,
        trouble: quantity::Trouble,
    },
    /// The lower limit is over the upper one.
    LimitsCrossed { min: String, max: String },
    /// Lower and upper limit, or limit and ±, measure different things.
    LimitsDiffer { min: String, max: String },
    /// A limit without the method it belongs to.
    NoMethod,
    /// The twin does not name this one back.
    MirrorOneSided { twin: String },
    /// The twin is of another kind.
    MirrorOtherKind { twin: String },
    /// Named as its own twin.
    MirrorItself,
    /// A track adjuster's fitting among the fittings to be greased.
    AdjusterGreased,
    /// A rhythm that does not read.
    BadRhythm { found: String },
    /// `until` of a fitting that does not read.
    BadUntil { found: String },
    /// The lap leaves a station out.
    LapMisses { station: String },
    /// The lap names a station twice.
    LapTwice { station: String },
    /// A place is two or three lengths.
    BadPlace,
    /// A stroke is one line of two or more points, or one circle with a radius over zero.
    BadStroke,
    /// The old id of a rename is still there.
    RenameStillThere { old: String },
    /// `bad-is` or `out-from` weaker than the rule that stands down at once.
    WeakerThanRule {
        key: &'static str,
        rule: &'static str,
    },
    /// Working the levers after stopping, without the book saying who holds that safe on this machine.
    LeversNotSaidSafe,
    /// A ram's rod as thick as its bore, or thicker.
    RodFillsBore,
    /// A ram no longer open than closed.
    RamDoesNotOpen,
    /// A ram's rod both in and out in one pose.
    RodInAndOut { ram: String },
    /// A limit with a ± of its own; only what is measured has one.
    LimitWithPlusMinus { key: &'static str, limit: String },
    /// Two readings of one measure under one name.
    ReadingTwice { name: String },
    /// A torque that hardly suits its thread and grade; believed between these, Nm.
    TorqueUnlikely {
        torque: String,
        thread: String,
        grade: String,
        low: u32,
        high: u32,
    },
    /// No date.
    BadDate { found: String },
    /// A level's mark names an attachment that the book does not take.
    MarkOfOtherAttachment { found: String },
    /// A pin written on a part that it does not stand on.
    PinOnOtherPart { pin: String, right: &'static str },
    /// A pin that lies on the first axis of its part by definition, written beside it.
    PinOffAxis { pin: String },
    /// A distance from or to something that is no pin of the format: the arm's figures do not use it.
    PinNotKnown {
        found: String,
        nearest: Option<String>,
        known: String,
    },
    /// A pose reading that says neither how high nor how far out the tooth is.
    ReadingWithoutTooth,
    /// The place of a mass has more or fewer numbers than its frame.
    MassPlace { of: String, wanted: usize },
    /// More or fewer lengths than belong there.
    LengthsCount { least: usize, most: usize },
    /// Corners that do not go round an outline without dents.
    CornersEncloseNothing,
    /// Something that may be said once is said again.
    Twice { word: String, first_line: u32 },
}

impl Slip {
    /// Every slip.
    pub const ALL: [Slip; 12] = [
        Slip::OpenText,
        Slip::QuoteInText,
        Slip::NoQuotes,
        Slip::Backslash,
        Slip::List,
        Slip::Set,
        Slip::NoEquals,
        Slip::NoValue,
        Slip::KeyInTwoWords,
        Slip::LeftOver,
        Slip::Heading,
        Slip::Other,
    ];

    /// Its permanent name.
    pub fn code(self) -> &'static str {
        match self {
            Slip::OpenText => "open-text",
            Slip::QuoteInText => "quote-in-text",
            Slip::NoQuotes => "no-quotes",
            Slip::Backslash => "backslash",
            Slip::List => "list",
            Slip::Set => "set",
            Slip::NoEquals => "no-equals",
            Slip::NoValue => "no-value",
            Slip::KeyInTwoWords => "key-in-two-words",
            Slip::LeftOver => "left-over",
            Slip::Heading => "heading",
            Slip::Other => "other",
        }
    }
}

impl TroubleKind {
    /// Its permanent name; the sentence is in `words` under `book-trouble-<code>` (slips: `book-trouble-syntax-<slip>`).
    pub fn code(&self) -> &'static str {
        use TroubleKind::*;
        match self {
            Syntax { .. } => "syntax",
            TooBig { .. } => "too-big",
            AndMore { .. } => "and-more",
            Format { .. } => "format",
            UnknownTable { .. } => "unknown-table",
            TableForm { .. } => "table-form",
            TableTwice { .. } => "table-twice",
            MissingTable { .. } => "missing-table",
            UnknownKey { .. } => "unknown-key",
            KeyTwice { .. } => "key-twice",
            KeyOfOtherKind { .. } => "key-of-other-kind",
            MissingKey { .. } => "missing-key",
            WrongType { .. } => "wrong-type",
            Nothing { .. } => "nothing",
            TooLong { .. } => "too-long",
            OutOfBounds { .. } => "out-of-bounds",
            NotPositive { .. } => "not-positive",
            UnknownWord { .. } => "unknown-word",
            BadId { .. } => "bad-id",
            IdTwice { .. } => "id-twice",
            UnknownReference { .. } => "unknown-reference",
            Quantity { .. } => "quantity",
            LimitsCrossed { .. } => "limits-crossed",
            LimitsDiffer { .. } => "limits-differ",
            NoMethod => "no-method",
            MirrorOneSided { .. } => "mirror-one-sided",
            MirrorOtherKind { .. } => "mirror-other-kind",
            MirrorItself => "mirror-itself",
            AdjusterGreased => "adjuster-greased",
            BadRhythm { .. } => "bad-rhythm",
            BadUntil { .. } => "bad-until",
            LapMisses { .. } => "lap-misses",
            LapTwice { .. } => "lap-twice",
            BadPlace => "bad-place",
            BadStroke => "bad-stroke",
            RenameStillThere { .. } => "rename-still-there",
            WeakerThanRule { .. } => "weaker-than-rule",
            LeversNotSaidSafe => "levers-not-said-safe",
            RodFillsBore => "rod-fills-bore",
            RamDoesNotOpen => "ram-does-not-open",
            RodInAndOut { .. } => "rod-in-and-out",
            LimitWithPlusMinus { .. } => "limit-with-plus-minus",
            ReadingTwice { .. } => "reading-twice",
            TorqueUnlikely { .. } => "torque-unlikely",
            BadDate { .. } => "bad-date",
            MarkOfOtherAttachment { .. } => "mark-of-other-attachment",
            PinOnOtherPart { .. } => "pin-on-other-part",
            PinOffAxis { .. } => "pin-off-axis",
            PinNotKnown { .. } => "pin-not-known",
            ReadingWithoutTooth => "reading-without-tooth",
            MassPlace { .. } => "mass-place",
            LengthsCount { .. } => "lengths-count",
            CornersEncloseNothing => "corners-enclose-nothing",
            Twice { .. } => "twice",
        }
    }

    /// Every code, for tables of sentences and tests.
    pub const CODES: [&'static str; 54] = [
        "syntax",
        "too-big",
        "and-more",
        "format",
        "unknown-table",
        "table-form",
        "table-twice",
        "missing-table",
        "unknown-key",
        "key-twice",
        "key-of-other-kind",
        "missing-key",
        "wrong-type",
        "nothing",
        "too-long",
        "out-of-bounds",
        "not-positive",
        "unknown-word",
        "bad-id",
        "id-twice",
        "unknown-reference",
        "quantity",
        "limits-crossed",
        "limits-differ",
        "no-method",
        "mirror-one-sided",
        "mirror-other-kind",
        "mirror-itself",
        "adjuster-greased",
        "bad-rhythm",
        "bad-until",
        "lap-misses",
        "lap-twice",
        "bad-place",
        "bad-stroke",
        "rename-still-there",
        "weaker-than-rule",
        "levers-not-said-safe",
        "rod-fills-bore",
        "ram-does-not-open",
        "rod-in-and-out",
        "limit-with-plus-minus",
        "reading-twice",
        "torque-unlikely",
        "bad-date",
        "mark-of-other-attachment",
        "pin-on-other-part",
        "pin-off-axis",
        "pin-not-known",
        "reading-without-tooth",
        "mass-place",
        "lengths-count",
        "corners-enclose-nothing",
        "twice",
    ];
}
