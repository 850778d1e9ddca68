//! The shape that most swimmers' curves have: how the exponent falls with the
//! distance.

use std::sync::LazyLock;

/// The exponent of the law from one distance to another for whom no second
/// distance is known. Ours: world championship standards from 200 m to 1500 m
/// give 1.05 to 1.06, single swimmers between 200 m and 400 m about 1.09. The
/// power law itself: Riegel 1981, American Scientist 69:285-290.
pub const LAW_EXPONENT: f64 = 1.07;
/// Standard deviation of that exponent. Ours.
pub const LAW_EXPONENT_SD: f64 = 0.02;

/// Up to which distance which exponent holds. Long-course world records of 2024
/// give 1.14 from 50 to 100, 1.13 to 200, 1.09 to 400 and 1.04 beyond, the means
/// of men's and women's freestyle (computed from [`BaseTimes::shipped`]; the
/// test beside it has each). The first two are theirs. From 200 to 400 it is
/// [`EXPONENT`], at which critical speed is the published share of the 400's
/// speed. Beyond, records fall further than any one swimmer, as other people
/// hold them: there it is that of one test, [`LAW_EXPONENT`].
///
/// [`BaseTimes::shipped`]: crate::swim::points::BaseTimes::shipped
/// [`EXPONENT`]: crate::swim::critical_speed::EXPONENT
const PIECES: [(f64, f64); 4] = [
    (100.0, 1.14),
    (200.0, 1.125),
    (400.0, crate::swim::critical_speed::EXPONENT),
    (f64::INFINITY, LAW_EXPONENT),
];

/// `ln T(amount) - ln T(400)` of the population: continuous, and rising with a
/// slope of [`local_exponent`]. `amount` in units of the course, above nought.
///
/// ```
/// use lapwing::swim::curve::shape;
/// assert_eq!(shape(400.0), 0.0);
/// assert!((shape(800.0) - 1.07 * 2f64.ln()).abs() < 1e-12);
/// assert!((shape(200.0) + 1.095 * 2f64.ln()).abs() < 1e-12);
/// ```
pub fn shape(amount: f64) -> f64 {
    shape_at(amount, libm::log(amount))
}

/// [`shape`] of `amount`, the logarithm of which is `at`: it is asked for with each
/// result of each swimmer.
pub(super) fn shape_at(amount: f64, at: f64) -> f64 {
    let knots = &*KNOTS;
    knots.beyond_nearest(amount, at) - knots.at_400
}

/// What the pieces come to at their ends, worked out once.
static KNOTS: LazyLock<Knots> = LazyLock::new(Knots::new);

struct Knots {
    /// The logarithm of where each piece begins, and the sum of all before it.
    begins: [(f64, f64); PIECES.len()],
    at_400: f64,
}

impl Knots {
    fn new() -> Knots {
        let mut next = (0.0, 0.0);
        let begins = PIECES.map(|(upto, exponent)| {
            let (below, sum) = next;
            let at = libm::log(upto);
            next = (at, sum + exponent * (at - below));
            (below, sum)
        });
        let mut knots = Knots { begins, at_400: 0.0 };
        knots.at_400 = knots.beyond_nearest(400.0, libm::log(400.0));
        knots
    }

    fn beyond_nearest(&self, amount: f64, at: f64) -> f64 {
        let of = PIECES.iter().zip(&self.begins).find(|((upto, _), _)| amount <= *upto);
        of.map_or(f64::NAN, |((_, exponent), (below, sum))| sum + exponent * (at - below))
    }
}

/// The population's exponent at `amount`.
pub fn local_exponent(amount: f64) -> f64 {
    PIECES.into_iter().find(|(upto, _)| amount <= *upto).map_or(LAW_EXPONENT, |(_, k)| k)
}
