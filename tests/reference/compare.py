"""Works the fits of 1,000 random swimmers again with numpy and scipy.

Usage: compare.py CASES.json. Exits 1 and names the first differences if any
number is off by more than 1e-9 of its size.
"""

import json
import sys

import numpy as np
from scipy import optimize, stats

TOLERANCE = 1e-9
# Chances and slopes near nought: there the absolute error counts.
NEAR_NOUGHT = {"faster", "slower", "faster_at_all", "fade"}
WALK, TREND, HELD_DAYS, PER_LN, LIFT_MOST = 0.011, 0.003, 28.0, 0.03, 0.01


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


def curve(case):
    """The chain as one regression, solved dense: a row a result, a row a pair of
    neighbours, both divided by their errors; kept within its bounds by a general
    solver. The place asked for and 400 m are places without a result.
    """
    x, days = np.log(case["distances_m"]), np.array(case["ages_days"], dtype=float)
    deviations = np.log(case["times_s"]) - np.array(case["usual"])
    errors, weeks = np.array(case["errors"]), days / 7.0
    sds = np.sqrt(errors**2 + WALK**2 * weeks + (TREND * weeks) ** 2)
    there, at_400 = np.log(case["predicted_m"]), np.log(400.0)
    places = np.unique(np.concatenate([x, [there, at_400]]))
    index = np.searchsorted(places, x)
    low, high = np.full(len(places), -np.inf), np.full(len(places), np.inf)
    for place, deviation, error, age, time in zip(index, deviations, errors, days, case["times_s"]):
        slack = error * (1.0 + age / HELD_DAYS)
        below = deviation + np.log(1.0 - slack) + 0.005 / time
        above = deviation + np.log(1.0 + slack) - 0.005 / time
        low[place] = min(max(low[place], below), above)
        high[place] = min(max(high[place], below), above)
    rows = np.zeros((len(x), len(places)))
    rows[np.arange(len(x)), index] = 1.0 / sds
    ties = np.diff(np.eye(len(places)), axis=0) / (PER_LN * np.sqrt(np.diff(places)))[:, None]
    design = np.vstack([rows, ties])
    answers = np.concatenate([deviations / sds, np.zeros(len(ties))])

    def solved(high):
        # A bound of no width is none that the solver takes.
        bounds = (low, np.maximum(high, low + 1e-13))
        return optimize.lsq_linear(design, answers, bounds, method="bvls", tol=1e-15).x

    covariance = np.linalg.inv(design.T @ design)
    asked, four = np.searchsorted(places, [there, at_400])
    free = solved(high)
    # 400 m in itself is shape 0: a set's deviation is its logarithm.
    shown, pressed = np.log(case["shown_s"]), high.copy()
    if shown < free[four]:
        most = max(free[four] + 0.5 * (shown - free[four]), free[four] - LIFT_MOST)
        pressed[four] = max(min(pressed[four], most), low[four])
    return {
        "ln_time": case["usual_there"] + free[asked],
        "sd": np.sqrt(covariance[asked, asked]),
        "with_set": case["usual_there"] + solved(pressed)[asked],
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
        for part in (line, curve, change, fade, load):
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
