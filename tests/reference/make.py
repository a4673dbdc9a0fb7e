"""Values of the statistics by SciPy over random inputs (writes statistics-scipy.json beside itself):
python3 tests/reference/make.py
"""

import itertools
import json
import os
import platform

import numpy as np
import scipy
from scipy import stats
from scipy.stats import mstats

random = np.random.default_rng(20261125)
cases = {}


def case(name, given, expected):
    cases[name] = {"input": given, "expected": expected}


x = np.round(random.normal(45, 3, 24), 3)
skewed = np.round(random.gamma(2, 1, 40), 4)
case("moments", {"x": skewed.tolist()}, {
    "skewness": stats.skew(skewed), "skewnessCorrected": stats.skew(skewed, bias=False),
    "excessKurtosis": stats.kurtosis(skewed)})
case("harrellDavis", {"x": x.tolist(), "p": [0.1, 0.25, 0.5, 0.9]}, {
    "values": [float(v) for v in mstats.hdquantiles(x, [0.1, 0.25, 0.5, 0.9])]})


def anderson(sample):
    """Statistic with estimated mean and sd, and the p-value of D'Agostino and Stephens, table 4.9."""
    z = np.sort((sample - sample.mean()) / sample.std(ddof=1))
    n = len(z)
    i = np.arange(1, n + 1)
    a2 = -n - np.mean((2 * i - 1) * (stats.norm.logcdf(z) + stats.norm.logsf(z[::-1])))
    a = a2 * (1 + 0.75 / n + 2.25 / n**2)
    if a < 0.2:
        p = 1 - np.exp(-13.436 + 101.14 * a - 223.73 * a * a)
    elif a < 0.34:
        p = 1 - np.exp(-8.318 + 42.796 * a - 59.938 * a * a)
    elif a < 0.6:
        p = np.exp(0.9177 - 4.279 * a - 1.38 * a * a)
    else:
        p = np.exp(1.2937 - 5.709 * a + 0.0186 * a * a)
    return float(a2), float(p)


samples = [x, skewed, np.round(random.normal(size=10), 3), np.round(random.exponential(size=15), 3)]
case("andersonDarling", {"samples": [s.tolist() for s in samples]}, {
    "statistic": [anderson(s)[0] for s in samples], "pValue": [anderson(s)[1] for s in samples]})

boot = stats.bootstrap((skewed,), np.median, n_resamples=50000, method="percentile", rng=random, vectorized=True)
bca = stats.bootstrap((skewed,), np.mean, n_resamples=50000, method="BCa", rng=random, vectorized=True)
case("bootstrapInterval", {"x": skewed.tolist()}, {
    "percentileMedian": [boot.confidence_interval.low, boot.confidence_interval.high],
    "bcaMean": [bca.confidence_interval.low, bca.confidence_interval.high],
    "standardErrorMean": float(skewed.std() / np.sqrt(len(skewed)))})

first = np.array([3, 1, 4, 1, 5, 9, 2], dtype=float)
second = np.array([6, 5, 3, 5, 8, 9], dtype=float)
pooled = np.concatenate([first, second])
ranks = stats.rankdata(pooled)
sums = np.array([ranks[list(c)].sum() for c in itertools.combinations(range(13), 6)])
seen = ranks[7:].sum()
case("mannWhitneyTied", {"x": first.tolist(), "y": second.tolist()}, {
    "statistic": float(stats.mannwhitneyu(second, first).statistic),
    "pValue": float(min(1, 2 * min((sums <= seen).mean(), (sums >= seen).mean())))})
differences = np.array([0.5, -1.0, 1.0, 2.0, 2.0, -0.5, 3.0, 1.5])
ranks = stats.rankdata(abs(differences))
signs = np.array(list(itertools.product([0, 1], repeat=8)))
sums = signs @ ranks
seen = ranks[differences > 0].sum()
case("signedRankTied", {"d": differences.tolist()}, {
    "statistic": float(seen), "pValue": float(min(1, 2 * min((sums <= seen).mean(), (sums >= seen).mean())))})

y = np.round(x + random.normal(0.4, 1.2, 24), 3)
case("spearmanLarge", {"x": x.tolist(), "y": y.tolist()}, {
    "value": float(stats.spearmanr(x, y).statistic), "pValue": float(stats.spearmanr(x, y).pvalue)})
case("proportion", {"successes": 37, "n": 111, "level": 0.99}, {
    "wilson": list(stats.binomtest(37, 111).proportion_ci(0.99, "wilson")),
    "exact": list(stats.binomtest(37, 111).proportion_ci(0.99, "exact"))})
case("noncentralT", {"t": [0.5, 3.0, 9.0], "dof": [4, 7, 30], "shift": [1.0, 2.5, 8.0]}, {
    "cdf": [float(stats.nct.cdf(t, d, s)) for t, d, s in zip([0.5, 3.0, 9.0], [4, 7, 30], [1.0, 2.5, 8.0])]})
case("zeta", {"d": -0.83, "a": 0.31, "b": 0.42}, {"zeta": -0.83 / float(np.hypot(0.31, 0.42))})



def order_error(sample, p):
    """Sd of order statistic k = [np + 1/2] under resampling (Maritz and Jarrett); mstats.mjci takes other parameters."""
    n = len(sample)
    k = int(n * p + 0.5)
    weights = np.diff(stats.beta.cdf(np.arange(n + 1) / n, k, n - k + 1))
    values = np.sort(sample)
    return float(np.sqrt(weights @ values**2 - (weights @ values) ** 2))


case("quantileError", {"x": x.tolist(), "p": [0.1, 0.5, 0.8]}, {"errors": [order_error(x, p) for p in [0.1, 0.5, 0.8]]})

here = os.path.dirname(os.path.abspath(__file__))
with open(os.path.join(here, "statistics-scipy.json"), "w", encoding="utf-8") as out:
    json.dump({
        "made": f"Python {platform.python_version()}, SciPy {scipy.__version__}, NumPy {np.__version__}",
        "command": "python3 tests/reference/make.py",
        "cases": cases,
    }, out, default=float)
    out.write("\n")
