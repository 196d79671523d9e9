//! The made-up machine of the bench: one point of every kind, everything known. Invented.

use quantity::{Habits, Quantity, Take, parse};
use std::sync::LazyLock;
use yard::{
    book::*,
    id::{ItemId, MachineId, PointId, StationId},
};

pub(crate) fn item(id: &str) -> ItemId {
    ItemId::new(id).unwrap()
}

pub(crate) fn point_id(id: &str) -> PointId {
    PointId::new(id).unwrap()
}

pub(crate) fn quantity(text: &str) -> Quantity {
    parse(text, &Habits::default(), None).unwrap()
}

/// Points of the bench machine, in lap order: id, what it bears on, kind.
fn points() -> Vec<(&'static str, About, PointKind)> {
    let level = |fluid: &str| {
        PointKind::Level(LevelMark {
            fluid: Some(item(fluid)),
            pose: Some(item("lowered")),
            attachments: Vec::new(),
            oil: OilHeat::Any,
            upper: true,
            elsewhere: Vec::new(),
        })
    };
    let fitting = |joint: &str, remote| {
        PointKind::Fitting(GreasingRule {
            joint: Some(item(joint)),
            remote,
            until: GreaseUntil::Shows,
            refused_runs: None,
            seen_within: None,
        })
    };
    let leak = |out_from| PointKind::Leak {
        fluid: None,
        out_from,
    };
    let measure = |min: Option<&str>, max: Option<&str>| {
        PointKind::Measure(MeasureLimit {
            min: min.map(quantity),
            max: max.map(quantity),
            method: "board along the top".into(),
            readings: vec!["mid span".into()],
            take: Take::Worst,
            usual_plus_minus: None,
            condition: None,
            joint: None,
        })
    };
    let crank = |with: &str, may_crank| CrankCase {
        with: with.into(),
        may_crank,
    };
    let truth_table = PointKind::Crank(vec![
        crank("neutral, take-off shaft off", true),
        crank("in gear, take-off shaft off", false),
        crank("neutral, take-off shaft on", false),
        crank("in gear, take-off shaft on", false),
    ]);
    vec![
        ("engine-oil", About::EngineOil, level("engine-oil")),
        ("hydraulic-oil", About::HydraulicOil, level("hydraulic-oil")),
        ("coolant", About::Coolant, level("coolant")),
        ("fuel-lines", About::Fuel, leak(LeakClass::III)),
        ("brake-lines", About::BrakeFluid, leak(LeakClass::III)),
        ("valve-block", About::HydraulicOil, leak(LeakClass::III)),
        ("lift-pump", About::HydraulicOil, leak(LeakClass::II)),
        ("dipper-hose", About::Hoses, PointKind::Hose),
        ("bucket-clip", About::Pins, PointKind::PinClip),
        ("boom-weld", About::Structure, PointKind::Structure),
        ("frame-bolts", About::Bolts, PointKind::Bolts),
        ("shoe-bolts", About::Tracks, PointKind::Bolts),
        (
            "left-sag",
            About::Tracks,
            measure(Some("3/4 in"), Some("2 in")),
        ),
        ("belt-play", About::Other, measure(None, Some("1/2 in"))),
        (
            "bucket-fitting",
            About::Joints,
            fitting("bucket-pivot", false),
        ),
        ("swing-fitting", About::Joints, fitting("swing-pivot", true)),
        ("fan-guard", About::Guards, PointKind::Look),
        ("drawbar-pin", About::Coupling, PointKind::Look),
        ("welder-earth", About::Shock, PointKind::Function),
        ("seat-belt", About::SeatBelt, PointKind::Look),
        ("swing-pin", About::Locks, PointKind::Look),
        ("mirror", About::Signals, PointKind::Look),
        ("parking-brake", About::Brakes, PointKind::Function),
        ("steering-clutch", About::Steering, PointKind::Function),
        ("boom-lever", About::Levers, PointKind::Function),
        ("horn", About::Signals, PointKind::Function),
        ("oil-lamp", About::OilPressure, PointKind::Function),
        (
            "oil-gauge",
            About::OilPressure,
            measure(Some("20 psi"), Some("90 psi")),
        ),
        ("starting", About::Starting, truth_table),
    ]
}

static BOOK: LazyLock<Book> = LazyLock::new(write);

/// The book of the bench machine.
pub(crate) fn book() -> Book {
    BOOK.clone()
}

fn write() -> Book {
    let stations = ["left-side", "seat"].map(|id| Station {
        id: StationId::new(id).unwrap(),
        name: id.into(),
        at: Some(Place {
            x: 0.0,
            y: 1.0,
            z: 0.0,
        }),
        line: 10,
    });
    let joint = |id: &str| Joint {
        id: item(id),
        name: id.into(),
        lubrication: Lubrication::Fittings,
        mirror: None,
        at: None,
        line: 200,
    };
    let fluid = |id: &str| Fluid {
        id: item(id),
        name: id.into(),
        grade: Some("15W-40".into()),
        holds: Some(quantity("10 L")),
        filler: Some("cap".into()),
        line: 220,
    };
    Book {
        attachments: Vec::new(),
        documents: Vec::new(),
        machine: Identity {
            id: MachineId::new("bench").unwrap(),
            name: "Bench machine (invented)".into(),
            kind: "tracked loader-backhoe".into(),
            made: None,
            serial: None,
            duty: None,
            invented: true,
            without: Vec::new(),
        },
        stop: Some(StopEngine {
            how: "Pull the red knob and hold it".into(),
            then: None,
            line: 5,
        }),
        start: Vec::new(),
        meter: Some(Meter {
            kind: MeterKind::Running,
            rolls_over_at: None,
            shows_to: None,
            speeds: MeterSpeeds::default(),
            line: 7,
        }),
        further_meters: Vec::new(),
        service_hours: None,
        lap: stations.iter().map(|station| station.id.clone()).collect(),
        stations: stations.to_vec(),
        lap_is_stewards: true,
        poses: vec![Pose {
            id: item("lowered"),
            what: "everything lowered".into(),
            rods_in: Vec::new(),
            rods_out: Vec::new(),
            guards: Vec::new(),
            line: 30,
        }],
        points: points()
            .into_iter()
            .zip(0u32..)
            .map(|(point, at)| as_point(point, at))
            .collect(),
        joints: vec![joint("bucket-pivot"), joint("swing-pivot")],
        fluids: ["engine-oil", "hydraulic-oil", "coolant"]
            .map(fluid)
            .to_vec(),
        parts: Vec::new(),
        greasing: GreasingHabit {
            when: Some(GreaseWhen::After),
            refused_runs: None,
            line: 0,
        },
        rams: Vec::new(),
        distances: Vec::new(),
        masses: Vec::new(),
        ground_gear: Some(GroundGear {
            attachment: false,
            tracks: true,
            travels: true,
            towed: false,
            gauge: Some(quantity("1.5 m")),
            length: Some(quantity("2 m")),
            friction: None,
            link_mass: None,
            line: 250,
        }),
        rest: rest_order(),
        shift: Shift::default(),
        danger_zone: Some(DangerZone {
            reach: quantity("6 m"),
            middle: None,
            around: None,
            line: 260,
        }),
        weaknesses: Vec::new(),
        drawing: Vec::new(),
        renamed: Vec::new(),
        controls: Vec::new(),
        arm: ArmTables::default(),
    }
}

fn as_point((id, about, kind): (&'static str, About, PointKind), at: u32) -> Point {
    let station = if at < 18 { "left-side" } else { "seat" };
    Point {
        id: point_id(id),
        station: StationId::new(station).unwrap(),
        what: id.replace('-', " "),
        how: None,
        why: None,
        kind,
        about,
        rhythms: vec![Rhythm::EveryStart],
        at: Some(Place {
            x: 0.0,
            y: 1.0,
            z: 0.5,
        }),
        pose: None,
        engine: Engine::Off,
        guards: Vec::new(),
        mirror: None,
        count: 1,
        seconds: 10,
        bad_is: None,
        source: None,
        line: 40 + at,
    }
}

fn rest_order() -> Vec<RestStep> {
    use RestKind::*;
    let steps = [
        ("lowered", Lowered, Some("teeth on the ground"), None),
        (
            "swing-lock",
            Lock,
            Some("pin in, clip on"),
            Some("out and stowed"),
        ),
        ("neutral", Neutral, Some("lever shown"), None),
        ("brake", Brake, Some("pedal latched"), None),
        ("engine-off", EngineOff, None, None),
        ("battery-off", BatteryOff, Some("handle in the box"), None),
        ("clean", Clean, None, None),
    ];
    let step = |(id, is, proof, to_dig): (&str, RestKind, Option<&str>, Option<&str>)| RestStep {
        id: item(id),
        what: id.replace('-', " "),
        proof: proof.map(str::to_owned),
        is,
        to_dig: to_dig.map(str::to_owned),
        line: 240,
    };
    steps.map(step).to_vec()
}
