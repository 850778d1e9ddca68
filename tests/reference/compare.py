"""Works the fits of 1,000 random swimmers again with numpy and scipy.

Usage: compare.py CASES.json. Exits 1 and names the first differences if any
number is off by more than 1e-9 of its size.
"""

import json
import sys

import numpy as np
from scipy import stats

TOLERANCE = 1e-9
# Chances and slopes near nought: there the absolute error counts.
NEAR_NOUGHT = {"faster", "slower", "faster_at_all", "fade"}
PRIOR_EXPONENT, PRIOR_SD, DOUBLING_DAYS = 1.07, 0.02, 56.0


def line(case):
    """Distance on time by ordinary least squares.

    `stats.linregress` takes its standard errors from 1 - r², which has few
    digits left in a fit this close, so they come from the residuals of lstsq.
    """
    t, d = np.array(case["times_s"]), np.array(case["distances_m"])
    fit = stats.linregress(t, d)
    out = {"slope": fit.slope, "intercept": fit.intercept}
    if len(t) > 2:
        design = np.column_stack([np.ones_like(t), t - t.mean()])
        beta, *_ = np.linalg.lstsq(design, d, rcond=None)
        scatter = np.sum((d - design @ beta) ** 2) / (len(t) - 2)
        covariance = scatter * np.linalg.inv(design.T @ design)
        back = np.array([1.0, -t.mean()])
        out |= {
            "slope_se": np.sqrt(covariance[1, 1]),
            "intercept_se": np.sqrt(back @ covariance @ back),
            "r_squared": fit.rvalue**2,
        }
    return out


def power_law(case):
    """The prior enters as one more observation, of the exponent alone."""
    variances = np.array(case["errors"]) ** 2 * (1.0 + np.array(case["ages_days"]) / DOUBLING_DAYS)
    weights = 1.0 / variances
    x, y = np.log(case["distances_m"]), np.log(case["times_s"])
    rows = np.column_stack([np.ones_like(x), x - x.mean()]) * np.sqrt(weights)[:, None]
    design = np.vstack([rows, [0.0, 1.0 / PRIOR_SD]])
    answers = np.append((y - y.mean()) * np.sqrt(weights), PRIOR_EXPONENT / PRIOR_SD)
    beta, *_ = np.linalg.lstsq(design, answers, rcond=None)
    misfit = float(np.sum((answers - design @ beta) ** 2))
    freedom = len(x) - 1
    birge = max(1.0, misfit / freedom) if freedom else 1.0
    covariance = birge * np.linalg.inv(design.T @ design)
    at = np.array([1.0, np.log(case["predicted_m"]) - x.mean()])
    # The crate holds the exponent at 1 or more; cases below are left out.
    if beta[1] < 1.0:
        return {}
    return {
        "exponent": beta[1],
        "exponent_sd": np.sqrt(covariance[1, 1]),
        "ln_time": at @ beta + y.mean(),
        "ln_time_variance": at @ covariance @ at,
    }


def change(case):
    """Chances of a worthwhile gain or loss, by the normal distribution."""
    gain, sd, worthwhile = case["gain"], case["gain_sd"], case["worthwhile"]
    return {
        "faster": stats.norm.sf(worthwhile, gain, sd),
        "slower": stats.norm.cdf(-worthwhile, gain, sd),
        "faster_at_all": stats.norm.sf(0.0, gain, sd),
    }


def fade(case):
    repeats = case["repeats_s"]
    return {"fade": stats.theilslopes(repeats, np.arange(len(repeats))).slope, "mean": np.mean(repeats)}


def load(case):
    days = np.array(case["loads"])
    week = days[-7:]
    out = {"monotony": week.mean() / week.std(ddof=1)}
    for name, span in (("recent", 7), ("usual", 28)):
        # The closed form: powers of 1 - lambda as weights, the first day taking the rest.
        keep = 1.0 - 2.0 / (span + 1)
        weights = (1.0 - keep) * keep ** np.arange(len(days))[::-1]
        weights[0] = keep ** (len(days) - 1)
        out[name] = float(weights @ days)
    return out


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        cases = json.load(file)
    compared, wrong = 0, []
    for number, case in enumerate(cases):
        for part in (line, power_law, change, fade, load):
            for name, wanted in part(case).items():
                found = case["ours"][name]
                compared += 1
                floor = 1e-3 if name in NEAR_NOUGHT else 0.0
                if abs(found - wanted) > TOLERANCE * max(abs(wanted), floor):
                    wrong.append(f"case {number}: {name} ours {found!r}, reference {wanted!r}")
    print(f"{compared} numbers of {len(cases)} swimmers compared, {len(wrong)} differ")
    print("\n".join(wrong[:20]))
    sys.exit(1 if wrong or not compared else 0)


if __name__ == "__main__":
    main()
