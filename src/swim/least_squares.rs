//! A straight line through points, with standard errors.
//!
//! Plain statistics: knows nothing of swimming.

/// An ordinary least-squares line `y = intercept + slope * x`.
///
/// Formulas: with means `mx`, `my` and `Sxx`, `Sxy` the centred sums,
/// `slope = Sxy/Sxx`, `intercept = my - slope*mx`,
/// `s = sqrt(SSE/(n-2))`, `SE(slope) = s/sqrt(Sxx)`,
/// `SE(intercept) = s*sqrt(1/n + mx²/Sxx)`, `R² = 1 - SSE/Syy`.
/// Checked against the certified values of NIST StRD, dataset Norris.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Change of y for one of x.
    pub slope: f64,
    /// y where x is nought.
    pub intercept: f64,
    /// How many points made it.
    pub points: usize,
    /// What the residuals say; `None` for two points, which leave none.
    pub errors: Option<Errors>,
}

/// The errors of a [`Line`] through three points or more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Errors {
    /// Residual standard deviation, n - 2 degrees of freedom.
    pub residual_sd: f64,
    /// Standard error of the slope.
    pub slope: f64,
    /// Standard error of the intercept.
    pub intercept: f64,
    /// Share of the variance explained. Near 1 for almost any set of swims, so
    /// no proof of a good fit.
    pub r_squared: f64,
}

impl Line {
    /// The line through `points`, each `(x, y)`; `None` for fewer than two
    /// different x or for numbers that are not finite.
    pub fn through(points: &[(f64, f64)]) -> Option<Line> {
        let n = points.len() as f64;
        let mean_x = points.iter().map(|(x, _)| x).sum::<f64>() / n;
        let mean_y = points.iter().map(|(_, y)| y).sum::<f64>() / n;
        let centred = |f: fn(f64, f64) -> f64| -> f64 {
            points.iter().map(|(x, y)| f(x - mean_x, y - mean_y)).sum()
        };
        let sxx = centred(|x, _| x * x);
        let slope = centred(|x, y| x * y) / sxx;
        let intercept = mean_y - slope * mean_x;
        if !(slope.is_finite() && intercept.is_finite()) {
            return None;
        }
        let errors = (points.len() > 2).then(|| {
            // Centred residuals keep the digits that `y - intercept - slope*x` would lose.
            let sse: f64 = points
                .iter()
                .map(|(x, y)| (y - mean_y) - slope * (x - mean_x))
                .map(|residual| residual * residual)
                .sum();
            let residual_sd = (sse / (n - 2.0)).sqrt();
            Errors {
                residual_sd,
                slope: residual_sd / sxx.sqrt(),
                intercept: residual_sd * (1.0 / n + mean_x * mean_x / sxx).sqrt(),
                r_squared: 1.0 - sse / centred(|_, y| y * y),
            }
        });
        Some(Line { slope, intercept, points: points.len(), errors })
    }

    /// y on the line at `x`.
    pub fn at(&self, x: f64) -> f64 {
        self.intercept + self.slope * x
    }
}
