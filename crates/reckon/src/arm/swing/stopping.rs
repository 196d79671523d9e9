//! What stopping the swinging arm does: never strike or sweep with it.

/// The energy of the swinging arm, in joules: I omega^2 / 2.
pub fn energy(inertia: f64, speed: f64) -> f64 {
    0.5 * inertia * speed * speed
}

/// The sideways force at the tooth that stops this energy over this distance, in newtons: the mean, and the peak where the
/// force grows evenly as in a spring. E / d and 2 E / d.
///
/// Nothing where there is no distance.
pub fn stop_forces(energy: f64, distance: f64) -> Option<(f64, f64)> {
    let mean = energy / distance;
    (mean.is_finite() && mean >= 0.0).then_some((mean, 2.0 * mean))
}

/// The peak of the sideways force at the tooth against something of this stiffness, in newtons: tooth speed x
/// sqrt(k m) with the arm's mass as felt at the tooth, so omega sqrt(k I).
///
/// - `stiffness`: N/m at the tooth.
pub fn spring_force(inertia: f64, speed: f64, stiffness: f64) -> f64 {
    speed * (stiffness * inertia).sqrt()
}
