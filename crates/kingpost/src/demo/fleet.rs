//! The six machines of the demo, all invented: each from a blank, with what the machine itself told its steward.

use super::{BOOK, calendar::Who};
use crate::blanks;
use jiff::civil::Weekday;
use yard::{book::new_from_blank, id::MachineId};

/// One machine of the yard.
#[derive(Clone, Debug)]
pub(crate) struct Member {
    /// Its id.
    pub(crate) id: &'static str,
    /// Its name.
    name: &'static str,
    /// What it was made from.
    blank: &'static str,
    /// Lines for its `[machine]` table.
    plate: &'static str,
    /// Lines for its `[ground]` table.
    ground: &'static str,
    /// Limits: point, and the lines that say them.
    limits: &'static [(&'static str, &'static str)],
    /// Grades: fluid, and the lines that say what goes in.
    fluids: &'static [(&'static str, &'static str)],
    /// Sizes of its rams: ram, and the lines that say them.
    rams: &'static [(&'static str, &'static str)],
    /// Further tables.
    tables: &'static str,
    /// Tape survey, masses, and what it stands on.
    arm: &'static str,
    /// Days before the last one on which its story begins, and on which it ends.
    pub(crate) days: (i64, i64),
    /// Its day of the week.
    pub(crate) weekday: Weekday,
    /// In how many weeks of a hundred it is used from March to November.
    pub(crate) share: u32,
    /// Who may use it; the first most often.
    pub(crate) people: &'static [Who],
    /// What its meter shows at the beginning, tenths of an hour; none where it has no meter.
    pub(crate) tenths: Option<u32>,
    /// Most tenths of an hour on one day.
    pub(crate) longest: u32,
    /// What is done with it.
    pub(crate) work: &'static [&'static str],
}

/// The machine that the demo began with; its book is measured to the last fitting.
pub(crate) const MARIGOLD: &str = "marigold";
/// Mini excavator with a track that keeps getting slack.
pub(crate) const BRYONY: &str = "bryony";
/// Tractor that gets a new meter, and has a slow leak.
pub(crate) const TEASEL: &str = "teasel";
/// Chainsaw without a meter.
pub(crate) const WREN: &str = "wren";
/// All-terrain vehicle that is sold.
pub(crate) const SORREL: &str = "sorrel";
/// Generator that came a few weeks ago.
pub(crate) const EMBER: &str = "ember";

impl Member {
    /// Its book: the blank, and what the machine told.
    pub(crate) fn book(&self) -> String {
        if self.id == MARIGOLD {
            return BOOK.to_owned();
        }
        self.told(self.fluids)
    }

    /// Its book before anybody knew which grades go in.
    pub(crate) fn first_book(&self) -> String {
        if self.id == EMBER {
            self.told(&[])
        } else {
            self.book()
        }
    }

    fn told(&self, fluids: &[(&str, &str)]) -> String {
        let id = MachineId::new(self.id).expect("the demo's ids are well formed");
        let mut text = new_from_blank(blanks::text(self.blank).unwrap_or_default(), self.name, &id);
        let mut after = |head: &str, lines: &str| {
            if let Some(at) = text.find(head) {
                text.insert_str(at + head.len(), lines);
            }
        };
        after("\n[machine]\n", self.plate);
        after("\n[ground]\n", self.ground);
        for (point, limit) in self.limits {
            after(&format!("\n[[point]]\nid = \"{point}\"\n"), limit);
        }
        for (fluid, grade) in fluids {
            after(&format!("\n[[fluid]]\nid = \"{fluid}\"\n"), grade);
        }
        for (ram, sizes) in self.rams {
            after(&format!("\n[[ram]]\nid = \"{ram}\"\n"), sizes);
        }
        text.push_str(self.tables);
        text.push_str(self.arm);
        if matches!(self.id, BRYONY | TEASEL) {
            text.push_str(super::hung::TAKEN);
        }
        text
    }
}

/// All six, the oldest friend first.
pub(crate) fn all() -> [Member; 6] {
    [marigold(), bryony(), teasel(), wren(), sorrel(), ember()]
}

fn marigold() -> Member {
    Member {
        id: MARIGOLD,
        name: "Marigold",
        blank: "tracked-loader-backhoe",
        plate: "",
        ground: "",
        limits: &[],
        fluids: &[],
        rams: &[],
        tables: "",
        arm: "",
        days: (728, 92),
        weekday: Weekday::Saturday,
        share: 62,
        people: &[Who::Tamsin, Who::Ines, Who::Bram],
        tenths: Some(super::shift::FIRST_TENTHS),
        longest: 50,
        work: &super::calendar::WORK,
    }
}

const SAG: &str = "min = \"15 mm\"\nmax = \"40 mm\"\n";

const BRYONY_ARM: &str = include_str!("../../../../demo/bryony-arm.toml");

/// Measured with a rule and a tape; pressures from a gauge.
const BRYONY_RAMS: &[(&str, &str)] = &[
    (
        "boom-ram",
        "bore = \"65 mm\"\nrod = \"35 mm\"\nclosed = \"740 mm\"\nopen = \"1110 mm\"\n\
         supply = \"190 bar\"\nrelief-piston = \"210 bar\"\nrelief-rod = \"210 bar\"\n\
         barrel-mass = \"10 kg\"\nbarrel-centre = \"0.30 m\"\nrod-mass = \"5 kg\"\nrod-centre = \"0.26 m\"\n\
         gland = \"0.66 m\"\ntube = \"78 mm\"\n",
    ),
    (
        "dipper-ram",
        "bore = \"60 mm\"\nrod = \"35 mm\"\nclosed = \"875 mm\"\nopen = \"1335 mm\"\n\
         supply = \"190 bar\"\nrelief-piston = \"210 bar\"\nrelief-rod = \"210 bar\"\n\
         barrel-mass = \"11 kg\"\nbarrel-centre = \"0.36 m\"\nrod-mass = \"6 kg\"\nrod-centre = \"0.33 m\"\n\
         gland = \"0.80 m\"\ntube = \"72 mm\"\n",
    ),
    (
        "bucket-ram",
        "bore = \"55 mm\"\nrod = \"30 mm\"\nclosed = \"665 mm\"\nopen = \"990 mm\"\n\
         supply = \"190 bar\"\nrelief-piston = \"210 bar\"\nrelief-rod = \"210 bar\"\n\
         barrel-mass = \"7 kg\"\nbarrel-centre = \"0.28 m\"\nrod-mass = \"4 kg\"\nrod-centre = \"0.24 m\"\n\
         gland = \"0.59 m\"\ntube = \"66 mm\"\n",
    ),
];

fn bryony() -> Member {
    Member {
        id: BRYONY,
        name: "Bryony",
        blank: "mini-excavator",
        plate: "made = \"1996 (invented)\"\nserial = \"invented-B3-118\"\ninvented = true\n",
        ground: "friction = \"0.5\"\n",
        limits: &[
            ("track-sag-left", SAG),
            ("track-sag-right", SAG),
            ("swing-play", "max = \"12 mm\"\n"),
            ("slew-play", "max = \"30 mm\"\n"),
        ],
        fluids: &[
            ("engine-oil", "grade = \"15W-40\"\nholds = \"3.6 L\"\n"),
            (
                "coolant",
                "grade = \"half water, half antifreeze\"\nholds = \"4.5 L\"\n",
            ),
            ("fuel", "grade = \"diesel\"\nholds = \"26 L\"\n"),
            ("hydraulic-oil", "grade = \"HV 46\"\nholds = \"28 L\"\n"),
            ("final-drive-oil", "grade = \"80W-90\"\nholds = \"0.6 L\"\n"),
            ("grease", "grade = \"lithium, NLGI 2\"\n"),
        ],
        rams: BRYONY_RAMS,
        tables: r#"
[stop]
how = "Turn the key to the left; if it runs on, pull the knob right of the seat"
then = "Safety lever up, battery switch off"

[meter]
kind = "running"

[danger]
reach = "6.2 m"
middle = [0, 0]
around = "2 m"

[[document]]
id = "slinging-eye"
what = "test-report"
title = "Report of the lifting eye on the bucket link (invented)"
"#,
        arm: BRYONY_ARM,
        days: (726, 0),
        weekday: Weekday::Tuesday,
        share: 70,
        people: &[Who::Perrin, Who::Perrin, Who::Hanne],
        tenths: Some(41_870),
        longest: 45,
        work: &[
            "Footing behind the barn",
            "Drain across the yard",
            "Pulling roots",
            "Trench for a cable, 50 cm",
        ],
    }
}

const FRONT: &str = "min = \"2.0 bar\"\nmax = \"2.8 bar\"\n";
const REAR: &str = "min = \"1.2 bar\"\nmax = \"1.8 bar\"\n";
const PEDAL: &str = "min = \"20 mm\"\nmax = \"40 mm\"\n";

fn teasel() -> Member {
    Member {
        id: TEASEL,
        name: "Teasel",
        blank: "compact-tractor",
        plate: "made = \"1988 (invented)\"\nserial = \"invented-T-2207\"\ninvented = true\n",
        ground: "",
        limits: &[
            ("tyre-front-pressure-left", FRONT),
            ("tyre-front-pressure-right", FRONT),
            ("tyre-rear-pressure-left", REAR),
            ("tyre-rear-pressure-right", REAR),
            ("pedal-travel", PEDAL),
            ("clutch-travel", PEDAL),
        ],
        fluids: &[
            ("engine-oil", "grade = \"15W-40\"\nholds = \"4.2 L\"\n"),
            (
                "coolant",
                "grade = \"half water, half antifreeze\"\nholds = \"5 L\"\n",
            ),
            ("fuel", "grade = \"diesel\"\nholds = \"27 L\"\n"),
            (
                "hydraulic-oil",
                "grade = \"tractor oil for gears, brakes and hydraulics\"\nholds = \"19 L\"\n",
            ),
            ("axle-oil", "grade = \"80W-90\"\nholds = \"5 L\"\n"),
            ("grease", "grade = \"lithium, NLGI 2\"\n"),
        ],
        rams: &[],
        tables: r#"
[stop]
how = "Pull the knob left of the wheel until it stands still"
then = "Key out, parking brake on, loader flat on the ground"

[meter]
kind = "running"

[danger]
reach = "3.5 m"
middle = [0.6, 0]
around = "2 m"
"#,
        arm: "",
        days: (722, 0),
        weekday: Weekday::Wednesday,
        share: 75,
        people: &[Who::Hanne, Who::Hanne, Who::Perrin],
        tenths: Some(29_914),
        longest: 35,
        work: &[
            "Mowing the lower field",
            "Gravel to the track, by the bucket",
            "Moving hay",
            "Dung to the beds",
        ],
    }
}

fn wren() -> Member {
    Member {
        id: WREN,
        name: "Wren",
        blank: "chainsaw",
        plate: "made = \"2009 (invented)\"\ninvented = true\n",
        ground: "",
        limits: &[],
        fluids: &[
            (
                "mixed-fuel",
                "grade = \"petrol with two-stroke oil, 50 to 1\"\nholds = \"0.5 L\"\n",
            ),
            (
                "bar-oil",
                "grade = \"bar oil from plants\"\nholds = \"0.27 L\"\n",
            ),
        ],
        rams: &[],
        tables: r#"
[stop]
how = "Push the switch at the rear handle down"
then = "Chain brake on, cover over the bar"

[meter]
kind = "none"

[danger]
reach = "5 m"
middle = [0, 0]
around = "3 m"
"#,
        arm: "",
        days: (719, 0),
        weekday: Weekday::Friday,
        share: 45,
        people: &[Who::Perrin, Who::Sefa],
        tenths: None,
        longest: 18,
        work: &[
            "Logs for the stove",
            "Windfall on the lane",
            "Posts cut to length",
        ],
    }
}

fn sorrel() -> Member {
    Member {
        id: SORREL,
        name: "Sorrel",
        blank: "atv",
        plate: "made = \"2004 (invented)\"\nserial = \"invented-Q-031\"\ninvented = true\n",
        ground: "",
        limits: &[
            ("pressure-front", "min = \"3 psi\"\nmax = \"5 psi\"\n"),
            ("pressure-rear", "min = \"3 psi\"\nmax = \"5 psi\"\n"),
            ("chain", "min = \"20 mm\"\nmax = \"40 mm\"\n"),
        ],
        fluids: &[
            ("engine-oil", "grade = \"10W-40\"\nholds = \"1.9 L\"\n"),
            ("fuel", "grade = \"petrol\"\nholds = \"12 L\"\n"),
            ("gear-oil", "grade = \"80W-90\"\nholds = \"0.3 L\"\n"),
            ("brake-fluid", "grade = \"DOT 4\"\n"),
        ],
        rams: &[],
        tables: r#"
[stop]
how = "Red switch at the left grip, then the key to the left"
then = "Parking brake on, key out"

[meter]
kind = "key-on"

[danger]
reach = "1.5 m"
middle = [0, 0]
around = "2 m"
"#,
        arm: "",
        days: (715, 300),
        weekday: Weekday::Monday,
        share: 65,
        people: &[Who::Hanne],
        tenths: Some(8_812),
        longest: 22,
        work: &[
            "Round of the fences",
            "Feed to the far shed",
            "Tools to the ditch",
        ],
    }
}

fn ember() -> Member {
    Member {
        id: EMBER,
        name: "Ember",
        blank: "portable-generator",
        plate: "made = \"2013 (invented)\"\nserial = \"invented-G-77\"\ninvented = true\n",
        ground: "",
        limits: &[
            ("volts", "min = \"207 V\"\nmax = \"253 V\"\n"),
            ("frequency", "min = \"47 Hz\"\nmax = \"53 Hz\"\n"),
        ],
        fluids: &[
            ("engine-oil", "grade = \"10W-30\"\nholds = \"0.6 L\"\n"),
            ("fuel", "grade = \"petrol\"\nholds = \"11 L\"\n"),
        ],
        rams: &[],
        tables: r#"
[stop]
how = "Turn the red switch to 0"
then = "Fuel tap shut, cables unplugged"

[meter]
kind = "running"

[danger]
reach = "1 m"
middle = [0, 0]
around = "2 m"
"#,
        arm: "",
        days: (36, 0),
        weekday: Weekday::Thursday,
        share: 100,
        people: &[Who::Perrin, Who::Hanne],
        tenths: Some(3_120),
        longest: 30,
        work: &["Light and mixer at the footing", "Pump in the lower trench"],
    }
}
