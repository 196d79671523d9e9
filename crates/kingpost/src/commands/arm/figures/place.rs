//! Where everything is, and how each ram stands.

use super::Figures;
use reckon::arm::shape::{Joint, Stop};
use yard::arm::PoseRecord;

pub(super) fn add(figures: &mut Figures, record: &PoseRecord) {
    for ram in &record.rams {
        let joint = ram.joint.code();
        figures.number(format!("{joint}-length"), "m", ram.length);
        figures.number(format!("{joint}-extension"), "m", ram.extension);
        figures.number(format!("{joint}-out"), "", ram.out);
        figures.word(format!("{joint}-stop"), stop(ram.stop));
        figures.number(format!("{joint}-angle"), "deg", ram.angle.to_degrees());
        figures.number(format!("{joint}-lever"), "m", ram.lever);
    }
    figures.number("swing-angle", "deg", record.asked.swing.to_degrees());
    figures.number("load", "kg", record.asked.load);
    figures.number("attitude", "deg", record.attitude.to_degrees());
    let pivots = ["boom-foot", "dipper-pin", "bucket-pin"];
    for (name, pivot) in pivots.into_iter().zip(record.pivots) {
        figures.point(name, pivot);
    }
    for joint in Joint::ALL {
        figures.point(
            &format!("{}-ram-barrel", joint.code()),
            record.barrels[joint.index()],
        );
        figures.point(
            &format!("{}-ram-rod", joint.code()),
            record.rods[joint.index()],
        );
    }
    figures.point("lever-pin", record.lever_pin);
    figures.point("link-pin", record.link_pin);
    figures.point("tooth", record.tooth);
    if let Some(half) = record.tooth_plus_minus {
        figures.point("tooth-plus-minus", half);
    }
    if let Some(heel) = record.heel {
        figures.point("heel", heel);
    }
}

/// Where a ram stands in its stroke.
fn stop(stop: Stop) -> &'static str {
    match stop {
        Stop::Between => "between",
        Stop::FullyIn => "fully-in",
        Stop::FullyOut => "fully-out",
        Stop::TooShort(_) => "too-short",
        Stop::TooLong(_) => "too-long",
    }
}
