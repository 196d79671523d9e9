//! The adjustment against a general library: the same measurements fitted by scipy, residuals and covariance by numpy.
//!
//! Run once with scipy 1.17.1 and numpy 2.4.6: `scipy.optimize.least_squares(residuals, start, method="lm", jac="3-point",
//! xtol=1e-15, ftol=1e-15, gtol=1e-15)` on residuals written anew with complex numbers and angles, Gauss-Newton steps to
//! the last digit, then `Q = inv(J'J)`, `R = 1 - J Q J'`, `w = r / sqrt(diag R)`. The measurements are those of the
//! reference machine with errors from `numpy.random.default_rng(20261125)`, and one distance 12 mm too long.

use reckon::arm::shape::ArmShape;
use reckon::arm::survey::{Doubt, Pin, Reading, Survey, Taped, Which, solve};

use crate::machine::reference;
use crate::measured::{perfect, ram_ends};

const TAPED: [(&str, &str, f64); 29] = [
    ("boom-foot", "boom-ram-barrel", 0.4176),
    ("boom-foot", "ground", 0.6594),
    ("boom-foot", "swing-axis", 0.2417),
    ("boom-ram-barrel", "ground", 1.0415),
    ("boom-ram-barrel", "swing-axis", 0.058),
    ("boom-foot", "boom-ram-rod", 1.2494),
    ("boom-foot", "dipper-ram-barrel", 1.1484),
    ("boom-foot", "dipper-pin", 2.3502),
    ("boom-ram-rod", "dipper-ram-barrel", 0.1349),
    ("boom-ram-rod", "dipper-pin", 1.1607),
    ("dipper-ram-barrel", "dipper-pin", 1.2933),
    ("dipper-pin", "dipper-ram-rod", 0.3976),
    ("dipper-pin", "bucket-ram-barrel", 0.3711),
    ("dipper-pin", "lever-pin", 1.2799),
    ("dipper-pin", "bucket-pin", 1.5499),
    ("dipper-ram-rod", "bucket-ram-barrel", 0.5657),
    ("dipper-ram-rod", "lever-pin", 1.6469),
    ("dipper-ram-rod", "bucket-pin", 1.9183),
    ("bucket-ram-barrel", "lever-pin", 1.1505),
    ("bucket-ram-barrel", "bucket-pin", 1.4201),
    ("lever-pin", "bucket-pin", 0.2731),
    ("bucket-pin", "link-pin", 0.2184),
    ("bucket-pin", "tooth", 0.848),
    ("bucket-pin", "heel", 0.5164),
    ("link-pin", "tooth", 0.9642),
    ("link-pin", "heel", 0.4516),
    ("tooth", "heel", 0.6932),
    ("lever-pin", "linkage-pin", 0.3491),
    ("linkage-pin", "link-pin", 0.3784),
];

/// Rams, height, reach.
const READ: [([f64; 3], f64, f64); 3] = [
    ([1.0755, 1.1116, 1.0123], 2.1493, 4.223),
    ([1.2871, 1.2461, 1.2334], -0.5117, 3.1131),
    ([1.4329, 1.5181, 1.0714], -1.4628, 1.3493),
];

const PINS: [f64; 23] = [
    0.2409924661,
    0.6608369629,
    0.05915583999,
    1.039880595,
    1.220700734,
    0.2676234781,
    1.099442282,
    0.327853173,
    2.351130796,
    -0.3654807169,
    0.1586683571,
    0.1678952458,
    0.333372316,
    1.279608662,
    0.04777596098,
    1.548582293,
    -0.09323344482,
    0.1975568371,
    0.8493359245,
    0.298900269,
    0.4212640617,
    0.3496747782,
    0.3772153738,
];

const SD: [f64; 23] = [
    0.001287528809,
    0.001226058791,
    0.001295932865,
    0.00123898453,
    0.001101794049,
    0.0046793447,
    0.001280533097,
    0.004003460604,
    0.001341496878,
    0.001225012001,
    0.002945309539,
    0.001607511508,
    0.001625874477,
    0.001065915235,
    0.006106186233,
    0.001225280277,
    0.001573797197,
    0.001566901409,
    0.001324961497,
    0.001748085874,
    0.001509899223,
    0.001484228446,
    0.001447463718,
];

const SQUARES: f64 = 37.4021863503;

const REDUNDANCY: [f64; 44] = [
    0.3992040565,
    0.3319021518,
    0.2632309181,
    0.3177410379,
    0.2535813379,
    0.09861190463,
    0.0662535157,
    0.2001716121,
    0.2019284559,
    0.4501301376,
    0.3579266567,
    0.4517247019,
    0.09229156678,
    0.444120233,
    0.3327503297,
    0.3674835828,
    0.5629929916,
    0.5567591875,
    0.3713832112,
    0.4002213799,
    0.580994721,
    0.1939869898,
    0.2197675695,
    0.185637838,
    0.32062986,
    0.2183734154,
    0.03887533611,
    0.02091818723,
    0.06882168255,
    0.5968984274,
    0.3020586153,
    0.1769492116,
    0.02264975458,
    0.2052254502,
    0.4694810692,
    0.28370161,
    0.2291711162,
    0.03558082556,
    0.05167049079,
    0.5981557862,
    0.4364433355,
    0.1230122059,
    0.06818194816,
    0.03240558487,
];

const NORMALISED: [f64; 44] = [
    -2.957504564,
    -1.662835407,
    0.9193640455,
    1.915258854,
    -1.530198638,
    -0.6220424414,
    2.889953507,
    -1.386954241,
    -0.7312056113,
    -0.9712373622,
    -0.6835066096,
    -0.8299278406,
    -4.748520823,
    -0.6004609238,
    1.522889396,
    4.884211243,
    -1.708288838,
    -2.080192926,
    2.940724485,
    -0.2781778118,
    -0.07324279288,
    -0.07837260708,
    -1.899804213,
    -0.2034554788,
    1.353701046,
    0.2034554788,
    0.2034554788,
    -2.649396755,
    3.010422281,
    -1.466326051,
    -0.1231752794,
    0.2776717356,
    -0.4207913586,
    0.995028458,
    0.2062865495,
    -0.2880712414,
    -0.4974871609,
    0.40809375,
    -0.3978212665,
    1.018870272,
    3.165799428,
    2.631949888,
    -1.29440492,
    2.425635673,
];

/// How the test of the wrong distance goes together with each.
const TOGETHER: [f64; 44] = [
    -0.034688354,
    -0.04185024918,
    -0.1879574673,
    0.0489416967,
    0.1231296359,
    -0.1168164838,
    0.5271564806,
    -0.4414743202,
    -0.09159313332,
    -0.01017276048,
    -0.1229493911,
    0.05984037905,
    -0.985631264,
    -0.04675968115,
    0.287708521,
    1.0,
    -0.4508190358,
    -0.3645882596,
    0.4617081697,
    0.09975924742,
    -0.1492877263,
    0.07636230497,
    -0.2105498296,
    -0.1494918517,
    0.1157850141,
    0.1494918517,
    0.1494918517,
    -0.4796088215,
    0.5265896513,
    -0.05132969245,
    0.1028896824,
    0.1189380941,
    0.08569180539,
    0.1240260814,
    0.2365807912,
    0.123503873,
    -0.02899040094,
    0.2126528909,
    0.06276457517,
    -0.04348806004,
    0.2955502586,
    0.3063710635,
    -0.2385215361,
    0.1186470276,
];

/// With the rams at 1.29, 1.2045 and 0.96554 m: reach, height, their standard uncertainties and covariance.
const TOOTH: [f64; 5] = [
    4.206265173,
    -0.3055685422,
    0.00766774,
    0.01359948,
    7.783348342e-5,
];

fn survey(shape: &ArmShape) -> Survey {
    let mut survey = perfect(shape, &[]);
    survey.rams = ram_ends(shape);
    survey.distances = TAPED
        .iter()
        .map(|(from, to, metres)| Taped {
            from: Pin::from_code(from).unwrap(),
            to: Pin::from_code(to).unwrap(),
            metres: *metres,
            sd: 0.0015,
        })
        .collect();
    survey.readings = READ
        .iter()
        .map(|(rams, height, reach)| Reading {
            rams: *rams,
            rams_sd: 0.002,
            tooth_height: Some(*height),
            reach: Some(*reach),
            tooth_sd: 0.004,
        })
        .collect();
    survey
}

fn near(found: f64, printed: f64, tolerance: f64, what: &str) {
    assert!(
        (found - printed).abs() <= tolerance,
        "{what}: {found} for {printed}"
    );
}

#[test]
fn pins_uncertainties_and_tests_are_the_librarys() {
    let survey = survey(&reference().shape);
    let solved = solve(&survey).unwrap();
    let found = solved.geometry.to_list();
    near(solved.overall.squares, SQUARES, 1e-7, "squares");
    let widened = solved.overall.widened;
    for at in 0..PINS.len() {
        near(found[at], PINS[at], 2e-9, "pin");
        near(
            solved.variance(at).sqrt() / widened,
            SD[at],
            1e-7 * SD[at],
            "its uncertainty",
        );
    }
    for (at, tested) in solved.tested.iter().enumerate() {
        near(tested.redundancy, REDUNDANCY[at], 1e-7, "redundancy");
        near(
            tested.normalised.unwrap(),
            NORMALISED[at],
            1e-5,
            "normalised residual",
        );
        near(
            solved.tests_together(15, at),
            TOGETHER[at],
            1e-6,
            "tests together",
        );
    }
    let tooth = solved.tooth_at([1.29, 1.2045, 0.965_54], 0.0).unwrap();
    near(tooth.values[0], TOOTH[0], 1e-8, "reach");
    near(tooth.values[1], TOOTH[1], 1e-8, "height");
    near(
        tooth.sd(0).unwrap() / widened,
        TOOTH[2],
        1e-7,
        "its uncertainty",
    );
    near(
        tooth.sd(1).unwrap() / widened,
        TOOTH[3],
        1e-7,
        "its uncertainty",
    );
    near(
        tooth.covariance[0][1] / (widened * widened),
        TOOTH[4],
        1e-10,
        "covariance",
    );
}

#[test]
fn the_wrong_distance_is_among_the_suspects() {
    let solved = solve(&survey(&reference().shape)).unwrap();
    // Its test and that of the ram barrel's distance from the dipper's pin go together at 0.986: not to be told apart.
    let Some(Doubt::Suspects { which, .. }) = solved.doubts.first() else {
        panic!("{:?}", solved.doubts)
    };
    assert_eq!(which, &[Which::Distance(15), Which::Distance(12)]);
}
