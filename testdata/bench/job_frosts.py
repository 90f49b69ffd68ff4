"""Frost dates at a threshold and their quantiles, counted and by curve, with 90 % intervals."""
from functools import lru_cache

import numpy as np
from scipy import optimize, special, stats

SPAN_FROM, SPAN, MIDSUMMER, LEVEL = -153, 730, 212, 0.90
CHANCES = (0.1, 0.2, 0.5, 0.8, 0.9)
HALF = MIDSUMMER - SPAN_FROM


def dates(tmin, threshold, month, bad):
    """Last spring and first autumn frosts, by season; tmin is seasons by days of the span, bad how
    many months before each are spoiled."""
    with np.errstate(invalid="ignore"):
        frost = tmin <= threshold
    spring_days, autumn_days = frost[:, :HALF], frost[:, HALF:]
    spring = np.where(spring_days.any(1), SPAN_FROM + HALF - 1 - spring_days[:, ::-1].argmax(1), np.inf)
    autumn = np.where(autumn_days.any(1), MIDSUMMER + autumn_days.argmax(1), np.inf)
    for d, lo, hi, midwinter in ((spring, 0, HALF - 1, 0), (autumn, HALF, SPAN - 1, 334)):
        first, last = window(d, bad, month, lo, hi, midwinter)
        d[bad[:, month[last] + 1] > bad[:, month[first]]] = np.nan
    free = np.where(np.isnan(spring) | np.isnan(autumn), np.nan, np.inf)
    both = np.isfinite(spring) & np.isfinite(autumn)
    free[both] = autumn[both] - spring[both] - 1
    return spring, autumn, free


def spoiled_months(tmin, month):
    """How many months, numbered along the span, have 11 days missing or 5 in a row, by season:
    sums over the months before each, and over all."""
    missing = np.isnan(tmin)
    n = month[-1] + 1
    out = np.zeros((len(tmin), n + 1), int)
    if not missing.any():
        return out
    starts = np.searchsorted(month, np.arange(n))
    bad = np.add.reduceat(missing, starts, axis=1) >= 11
    c = np.cumsum(missing, axis=1)
    run5 = np.zeros_like(missing)
    run5[:, 4:] = c[:, 4:] - np.pad(c, ((0, 0), (1, 0)))[:, :-5] == 5
    run5[:, 1:] &= month[1:] == month[:-1]
    for back in range(1, 5):  # the run lies within one month
        run5[:, back:] &= month[back:] == month[:-back]
    bad |= np.logical_or.reduceat(run5, starts, axis=1)
    np.cumsum(bad, axis=1, out=out[:, 1:])
    return out


def window(d, bad, month, lo, hi, midwinter):
    """Whole months from the earliest to the latest date of seasons complete around their own."""
    i = np.flatnonzero(np.isfinite(d))
    at = d[i].astype(int) - SPAN_FROM
    at = at[bad[i, month[np.minimum(hi, at + 30)] + 1] == bad[i, month[np.maximum(lo, at - 30)]]]
    if len(at):
        first, last = at.min(), at.max()
    else:
        first, last = midwinter - SPAN_FROM, midwinter + 58 - SPAN_FROM
    return max(first, lo), min(last, hi)


def order_statistic(s, k):
    """The k-th smallest, between whole k by interpolation; half way to never is never."""
    n = len(s)
    if k <= 1 or k >= n:
        return s[0] if k <= 1 else s[-1]
    i, f = int(k), k - int(k)
    lo, hi = s[i - 1], s[i]
    if f < 1e-9 or lo == hi or np.isneginf(lo):
        return lo
    return hi if f > 1 - 1e-9 else lo + f * (hi - lo)


@lru_cache(None)
def rank(n, p, prob):
    return optimize.brentq(lambda k: special.betainc(k, n + 1 - k, p) - prob, 1e-9, n + 1 - 1e-9)


@lru_cache(None)
def noncentral(prob, nu, delta):
    return stats.nct.ppf(prob, nu, delta)


def by_record(s, p, moments):
    """Quantile of sorted values with its distribution-free interval (Hutson 1999)."""
    n, a = len(s), (1 - LEVEL) / 2
    value = order_statistic(s, p * (n - 1) + 1)
    k_low, k_high = rank(n, p, 1 - a), rank(n, p, a)
    low, high = order_statistic(s, k_low), order_statistic(s, k_high)
    if k_low < 1 or k_high > n:
        _, l, h = by_curve(s, p, moments)
        low = min(low, l) if k_low < 1 else low
        high = max(high, h) if k_high > n else high
    return value, low, high


def normal_interval(mean, sd, n, p):
    root, a = np.sqrt(n), (1 - LEVEL) / 2
    delta = round(special.ndtri(p) * root, 12)
    return tuple(mean + sd * noncentral(q, n - 1, delta) / root for q in (a, 1 - a))


def wilson(k, n):
    z = special.ndtri(0.5 + LEVEL / 2)
    p = k / n
    mid, half = (p + z * z / (2 * n)) / (1 + z * z / n), z / (1 + z * z / n) * np.sqrt(p * (1 - p) / n + z * z / (4 * n * n))
    return (0.0 if k == 0 else max(0, mid - half)), (1.0 if k == n else min(1, mid + half))


def moments(s):
    """How many, before all and after all, those between, their mean and standard deviation."""
    x = s[np.isfinite(s)]
    m = len(x)
    return len(s), int(np.isneginf(s).sum()), int(np.isposinf(s).sum()), m, x.mean() if m else np.nan, x.std(ddof=1) if m > 1 else np.nan


def by_curve(s, p, moments):
    """Quantile of a normal curve with atoms at never (Thom 1959), its interval exact without
    them and joined with Wilson's for their share with them."""
    n, below, above, m, mean, sd = moments
    if m == 1:
        return np.nan, np.nan, np.nan

    def quantile(b, f):
        if f == 0:
            return np.inf if p >= b else -np.inf
        u = (p - b) / f
        return np.inf if u >= 1 else -np.inf if u <= 0 else mean + sd * special.ndtri(u)

    b, f = below / n, m / n
    q = quantile(b, f)
    if m < 2:
        l, h = wilson(below, n)
        return q, (-np.inf if p < h else np.inf), (np.inf if p >= l else -np.inf)
    low = high = q
    if np.isfinite(q):
        low, high = normal_interval(mean, sd, m, (p - b) / f)
    ends = []
    if below:
        ends += [(w, max(0, f + b - w)) for w in wilson(below, n)]
    if above:
        ends += [(b, max(0, 1 - w - b)) for w in wilson(above, n)]
    for eb, ef in ends:
        v = quantile(eb, ef)
        if np.isneginf(v):
            low = v
        elif np.isposinf(v):
            high = v
        elif np.isinf(q):
            l, h = normal_interval(mean, sd, m, (p - eb) / ef)
            low, high = min(low, l), max(high, h)
        elif v < q:
            low = q - np.hypot(q - low, q - v)
        elif v > q:
            high = q + np.hypot(high - q, v - q)
    return q, low, high


def tables(tmin, threshold, month, bad):
    """The date and its interval at each chance, by half and way."""
    spring, autumn, free = dates(tmin, threshold, month, bad)
    out = {}
    for name, d in (("spring", np.where(np.isinf(spring), -np.inf, spring)), ("autumn", autumn), ("frost_free_days", free)):
        s = np.sort(d[~np.isnan(d)])
        m = moments(s)
        for way, quantile in (("record", by_record), ("curve", by_curve)):
            for c in CHANCES:
                p = c if name == "autumn" else 1 - c
                q = quantile(s, p, m) if len(s) >= 5 else (np.nan,) * 3
                out[name, way, c] = tuple(np.maximum(0, q)) if name == "frost_free_days" else q
    return out
