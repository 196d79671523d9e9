//! How much force at the tooth one ram allows.

/// How much force in one direction a limit allows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Allowed {
    /// This limit never bites in this direction.
    Unlimited,
    /// Up to so many newtons.
    UpTo(f64),
    /// Not even the arm's own weight can be held: the limit is passed before any force is asked for.
    NotEvenItself,
}

impl Allowed {
    /// The force in newtons; nothing where it is unlimited, 0 where the arm cannot hold itself.
    pub fn newtons(self) -> Option<f64> {
        match self {
            Allowed::Unlimited => None,
            Allowed::UpTo(force) => Some(force),
            Allowed::NotEvenItself => Some(0.0),
        }
    }

    /// A number to compare limits by: the force, infinite where unlimited, below nothing where it cannot hold itself.
    pub fn rank(self) -> f64 {
        match self {
            Allowed::Unlimited => f64::INFINITY,
            Allowed::UpTo(force) => force,
            Allowed::NotEvenItself => -1.0,
        }
    }
}

/// How much force at the tooth one ram allows.
///
/// - `hanging`: its thrust with nothing at the tooth, newtons.
/// - `per_newton`: what each newton at the tooth adds to it.
/// - `limits`: the most it can push and pull, newtons, both positive.
///
/// The thrust at s newtons is hanging + s per_newton. Which side of the piston is squeezed is judged there, at s, and not
/// at nothing: a ram that hangs in tension may well be pressed by the work.
///
/// Source: the thrust is linear in s, definition.
pub fn allowed(hanging: f64, per_newton: f64, limits: (f64, f64)) -> Allowed {
    let (push, pull) = limits;
    if !(hanging <= push && hanging >= -pull) {
        return Allowed::NotEvenItself;
    }
    if per_newton > 0.0 {
        Allowed::UpTo((push - hanging) / per_newton)
    } else if per_newton < 0.0 {
        Allowed::UpTo((-pull - hanging) / per_newton)
    } else {
        Allowed::Unlimited
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weight_helps_one_way_and_hurts_the_other() {
        assert_eq!(allowed(-20.0, 2.0, (100.0, 50.0)), Allowed::UpTo(60.0));
        assert_eq!(allowed(-20.0, -2.0, (100.0, 50.0)), Allowed::UpTo(15.0));
        assert_eq!(allowed(-20.0, 0.0, (100.0, 50.0)), Allowed::Unlimited);
    }

    #[test]
    fn who_cannot_hold_itself_allows_nothing() {
        assert_eq!(allowed(-60.0, 2.0, (100.0, 50.0)), Allowed::NotEvenItself);
        assert_eq!(
            allowed(f64::NAN, 2.0, (100.0, 50.0)),
            Allowed::NotEvenItself
        );
        assert!(Allowed::NotEvenItself.rank() < Allowed::UpTo(0.0).rank());
    }
}
