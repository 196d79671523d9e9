//! The pins a tape goes to, and the rigid link each of them sits on.

/// One end of a measured distance: a pin, or what heights and level distances are taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pin {
    /// The boom's foot pin, on the post.
    BoomFoot,
    /// The boom ram's barrel pin, on the post.
    BoomRamBarrel,
    /// The boom ram's rod pin, on the boom.
    BoomRamRod,
    /// The dipper ram's barrel pin, on the boom.
    DipperRamBarrel,
    /// The pin between boom and dipper.
    DipperPin,
    /// The dipper ram's rod pin, on the dipper.
    DipperRamRod,
    /// The bucket ram's barrel pin, on the dipper.
    BucketRamBarrel,
    /// The lever's pin on the dipper.
    LeverPin,
    /// The pin between dipper and bucket.
    BucketPin,
    /// The link's pin on the bucket.
    LinkPin,
    /// The tip of the middle tooth.
    Tooth,
    /// The heel of the bucket: the back end of its bottom plate.
    Heel,
    /// The pin that rod, lever and link share.
    LinkagePin,
    /// The ground, the machine standing level.
    Ground,
    /// The axis about which the arm swings.
    SwingAxis,
}

/// A rigid body: the distance between two of its pins is the same in every pose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Body {
    /// The post, with the ground it stands over and its swing axis.
    Post,
    /// The boom.
    Boom,
    /// The dipper.
    Dipper,
    /// The bucket.
    Bucket,
    /// The lever of the bucket's linkage.
    Lever,
    /// The link of the bucket's linkage.
    Link,
}

const CODES: [(Pin, &str); 15] = [
    (Pin::BoomFoot, "boom-foot"),
    (Pin::BoomRamBarrel, "boom-ram-barrel"),
    (Pin::BoomRamRod, "boom-ram-rod"),
    (Pin::DipperRamBarrel, "dipper-ram-barrel"),
    (Pin::DipperPin, "dipper-pin"),
    (Pin::DipperRamRod, "dipper-ram-rod"),
    (Pin::BucketRamBarrel, "bucket-ram-barrel"),
    (Pin::LeverPin, "lever-pin"),
    (Pin::BucketPin, "bucket-pin"),
    (Pin::LinkPin, "link-pin"),
    (Pin::Tooth, "tooth"),
    (Pin::Heel, "heel"),
    (Pin::LinkagePin, "linkage-pin"),
    (Pin::Ground, "ground"),
    (Pin::SwingAxis, "swing-axis"),
];

impl Pin {
    /// Every one of them, from the machine outwards.
    pub fn all() -> impl Iterator<Item = Pin> {
        CODES.iter().map(|(pin, _)| *pin)
    }

    /// Its word in books and tables.
    pub fn code(self) -> &'static str {
        CODES
            .iter()
            .find(|(pin, _)| *pin == self)
            .map_or("", |(_, code)| code)
    }

    /// The one of this word.
    pub fn from_code(code: &str) -> Option<Pin> {
        CODES
            .iter()
            .find(|(_, word)| *word == code)
            .map(|(pin, _)| *pin)
    }
}

impl Body {
    /// All of them, from the machine outwards.
    pub const ALL: [Body; 6] = [
        Body::Post,
        Body::Boom,
        Body::Dipper,
        Body::Bucket,
        Body::Lever,
        Body::Link,
    ];

    /// The pins on it.
    pub fn pins(self) -> &'static [Pin] {
        match self {
            Body::Post => &[
                Pin::BoomFoot,
                Pin::BoomRamBarrel,
                Pin::Ground,
                Pin::SwingAxis,
            ],
            Body::Boom => &[
                Pin::BoomFoot,
                Pin::BoomRamRod,
                Pin::DipperRamBarrel,
                Pin::DipperPin,
            ],
            Body::Dipper => &[
                Pin::DipperPin,
                Pin::DipperRamRod,
                Pin::BucketRamBarrel,
                Pin::LeverPin,
                Pin::BucketPin,
            ],
            Body::Bucket => &[Pin::BucketPin, Pin::LinkPin, Pin::Tooth, Pin::Heel],
            Body::Lever => &[Pin::LeverPin, Pin::LinkagePin],
            Body::Link => &[Pin::LinkagePin, Pin::LinkPin],
        }
    }

    /// The body on which both ends sit, so that a tape between them reads the same in every pose.
    ///
    /// None where they sit on different bodies, are the same pin, or are ground and swing axis.
    pub fn of_both(from: Pin, to: Pin) -> Option<Body> {
        let no_pin = |pin| matches!(pin, Pin::Ground | Pin::SwingAxis);
        if from == to || (no_pin(from) && no_pin(to)) {
            return None;
        }
        Body::ALL
            .into_iter()
            .find(|body| body.pins().contains(&from) && body.pins().contains(&to))
    }

    /// Every pair of its ends that a tape can be held between.
    pub fn pairs(self) -> Vec<(Pin, Pin)> {
        let pins = self.pins();
        let all = pins
            .iter()
            .enumerate()
            .flat_map(|(at, from)| pins[at + 1..].iter().map(|to| (*from, *to)));
        all.filter(|(from, to)| Body::of_both(*from, *to).is_some())
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_lead_back_to_their_pins() {
        for pin in Pin::all() {
            assert_eq!(Pin::from_code(pin.code()), Some(pin));
        }
        assert_eq!(Pin::from_code("elbow"), None);
    }

    #[test]
    fn a_tape_over_a_joint_is_no_rigid_distance() {
        assert_eq!(
            Body::of_both(Pin::BoomFoot, Pin::DipperPin),
            Some(Body::Boom)
        );
        assert_eq!(
            Body::of_both(Pin::LeverPin, Pin::LinkagePin),
            Some(Body::Lever)
        );
        assert_eq!(Body::of_both(Pin::BoomFoot, Pin::Ground), Some(Body::Post));
        assert_eq!(Body::of_both(Pin::BoomFoot, Pin::Tooth), None);
        assert_eq!(Body::of_both(Pin::BoomRamBarrel, Pin::BoomRamRod), None);
        assert_eq!(Body::of_both(Pin::Ground, Pin::SwingAxis), None);
        assert_eq!(Body::of_both(Pin::Tooth, Pin::Tooth), None);
    }

    #[test]
    fn pairs_of_each_body() {
        // Two heights, two level distances and pin to pin; six of four pins; ten of five.
        let counts = Body::ALL.map(|body| body.pairs().len());
        assert_eq!(counts, [5, 6, 10, 6, 1, 1]);
    }
}
