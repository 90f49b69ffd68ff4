"""The checks of climate/quality for one station, in its order: those of Durre et al. 2010 here,
its own in job_quality_own.py, _units.py and _lone.py."""
from functools import lru_cache
from types import SimpleNamespace

import numpy as np

import job_quality_own as own
from job_quality_lone import lone_values, lost_signs
from job_quality_units import other_units
from job_usual import ENOUGH, pad, runs, tenths

WORLD_LOW, WORLD_HIGH = -89.4, 57.7
MONTH_START = np.array([0, 0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334])


@lru_cache(8)
def calendar(first, n):
    """What hangs on a record's dates only: first is its first day (datetime64), n its length."""
    dates = first + np.arange(n)
    m = dates.astype("datetime64[M]")
    month, dom = m.astype(int) % 12 + 1, (dates - m).astype(int) + 1
    # 29 February is folded into the 28th
    day = MONTH_START[month] + np.where((month == 2) & (dom == 29), 28, dom) - 1
    starts = np.flatnonzero(np.append(True, m[1:] != m[:-1]))
    order = np.argsort(month, kind="stable")  # days by month of the year
    blocks = np.flatnonzero(np.append(True, np.diff(month[order]) > 0))
    lengths = np.diff(np.append(starts, n))
    return SimpleNamespace(year=dates.astype("datetime64[Y]").astype(int) + 1970, month=month, dom=dom, day=day,
                           starts=starts, lengths=lengths, span=np.repeat(np.arange(len(starts)), lengths),
                           order=order, blocks=blocks, ends=np.append(blocks[1:], n), present=month[order][blocks])


def check(cal, v):
    """Takes the doubtful values out of v (tmin and tmax) and returns how many there were of
    either by each rule."""
    r = SimpleNamespace(cal=cal, v=v)
    found = {}
    for name, rule in RULES:
        bad = rule(r)  # nothing for none
        if bad is not None and bad.any():
            found[name] = bad.sum(axis=1).tolist()
            v[bad] = np.nan
    return found


def days(bad):
    """Both values of some days."""
    return np.broadcast_to(bad, (2, len(bad)))


def naught(r):
    n, x = r.v
    return days((n == 0) & (x == 0) | (abs(n + 17.8) < 0.05) & (abs(x + 17.8) < 0.05))


def repeated_months(r):
    """A month may be the same month of another year, or another month of the same year."""
    c, bad = r.cal, np.zeros((2, len(r.cal.starts)), bool)
    known = np.isfinite(r.v)
    early = c.dom <= 28
    count = np.add.reduceat(known & early, c.starts, axis=1, dtype=int)
    total = np.round(np.add.reduceat(np.where(known & early, r.v, 0), c.starts, axis=1) * 1000)
    for e in (0, 1):
        enough = np.flatnonzero(count[e] >= 15)
        at = c.starts[enough]
        for group in (c.month[at], c.year[at]):
            # months of like sums are few; only they are compared day by day
            order = np.lexsort((total[e][enough], count[e][enough], group))
            key = np.array((group, count[e][enough], total[e][enough]))[:, order]
            for lag in range(1, len(order)):
                like = (key[:, lag:] == key[:, :-lag]).all(axis=0)
                if not like.any():
                    break
                a, b = enough[order[:-lag][like]], enough[order[lag:][like]]
                same = same_months(r.v[e], c, a, b)
                bad[e, a[same]] = bad[e, b[same]] = True
    return bad[:, c.span] & known if bad.any() else None


def same_months(x, c, a, b):
    """Which of some pairs of months agree on all days that both have, and are not all one value."""
    d = np.arange(1, 32)
    day = c.dom[c.starts]  # on which a month starts: the first may be cut
    both = (d >= np.maximum(day[a], day[b])[:, None]) & (d < np.minimum(day[a] + c.lengths[a], day[b] + c.lengths[b])[:, None])
    p, q = (np.where(both, x[np.clip(c.starts[m][:, None] + d - day[m][:, None], 0, len(x) - 1)], np.nan) for m in (a, b))
    gone = np.isnan(p)
    agree = ((p == q) | gone & np.isnan(q)).all(axis=1) & ((~gone).sum(axis=1) >= 15)
    agree[agree] = np.fmin.reduce(p[agree], axis=1) < np.fmax.reduce(p[agree], axis=1)
    return agree


def equal_months(r):
    same = r.v[0] == r.v[1]
    if not same.any():
        return None
    return days(same & (np.add.reduceat(same, r.cal.starts, dtype=int)[r.cal.span] >= 10))


def bounds(r):
    return (r.v < WORLD_LOW) | (r.v > WORLD_HIGH)


def streaks(r):
    """Missing days neither break a run nor count."""
    bad = None
    for e, x in enumerate(r.v):
        at = np.flatnonzero(x == x)
        y = x[at]
        for start, n in runs(y[1:] == y[:-1], 19):  # days like the day before
            bad = np.zeros(r.v.shape, bool) if bad is None else bad
            bad[e, at[start:start + n + 1]] = True
    return bad


def gaps(r):
    bad = None
    for e, x in enumerate(r.v):
        at = np.flatnonzero(x == x)
        b = tenths(x[at])
        n = np.bincount(r.cal.month[at] * 1500 + b, minlength=13 * 1500).reshape(13, 1500)
        used = np.flatnonzero(n)
        step = np.diff(used)
        for i in np.flatnonzero((step >= 100) & (used[:-1] // 1500 == used[1:] // 1500)):
            m = used[i] // 1500
            if n[m].sum() < ENOUGH:
                continue
            bad = np.zeros(r.v.shape, bool) if bad is None else bad
            median = np.searchsorted(np.cumsum(n[m]), n[m].sum() // 2 + 1)
            beyond = b >= used[i + 1] % 1500 if used[i] % 1500 >= median else b <= used[i] % 1500
            bad[e, at[beyond & (r.cal.month[at] == m)]] = True
    return bad


def outliers(r):
    return (np.abs(own.standard(r)) >= 6) & (r.v == r.v)


def internal(r):
    v, n = r.v, r.v.shape[1]
    crossed = np.flatnonzero((v[1] < v[0]) | (np.append(v[0, 1:], np.nan) > v[1] + 1))
    if not len(crossed):
        return None
    bad = np.zeros(v.shape, bool)
    v = pad(v).tolist()  # a day on either side
    for i in crossed + 1:  # few; the worst value of those that take part goes first
        while v[1][i] < v[0][i] or v[0][i + 1] > v[1][i] + 1:
            parts = [(j, e) for j in (i, i + 1, i - 1) if 1 <= j <= n for e in (0, 1)]
            counts = [contradictions(v, *p) for p in parts]
            most = max(counts)
            worst = parts[counts.index(most)]
            out = [worst]
            if counts.count(most) > 1 and worst[0] == i and v[0][i] > v[1][i]:
                out = [(i, 0), (i, 1)]
            for j, e in out:
                v[e][j], bad[e, j - 1] = np.nan, True
    return bad


def contradictions(v, i, e):
    x = v[e][i]
    if e == 0:
        return (x > v[1][i]) + (x > v[1][i - 1] + 1)
    return (x < v[0][i]) + (x < v[0][i + 1] - 1)


def spikes(r):
    p = pad(r.v)
    up, down = r.v - 25, r.v + 25  # a difference is taken where it is near
    before, after = p[:, :-2], p[:, 2:]
    near = (up > before - 1) & (up > after - 1) | (down < before + 1) & (down < after + 1)
    if not near.any():
        return None
    before, after = r.v - before, r.v - after
    return (before >= 25) & (after >= 25) | (before <= -25) & (after <= -25)


def lagged(r):
    (n, x), p = r.v, pad(r.v)
    high, low = (f(f(p[e, :-2], p[e, 1:-1]), p[e, 2:]) for f, e in ((np.fmax, 0), (np.fmin, 1)))
    return np.stack((n <= low - 40, x >= high + 40))


def mega(r):
    c = r.cal
    n, x = r.v[:, c.order]
    enough = np.add.reduceat((n == n) & (x == x), c.blocks, dtype=int) >= ENOUGH
    highest, lowest = np.full((2, 13), np.nan)
    highest[c.present] = np.where(enough, np.fmax.reduceat(x, c.blocks), np.nan)
    lowest[c.present] = np.where(enough, np.fmin.reduceat(n, c.blocks), np.nan)
    return np.stack((r.v[0] > highest[c.month], r.v[1] < lowest[c.month]))


RULES = [("naught", naught), ("repeated month", repeated_months), ("repeated stretch", own.repeated_stretches),
         ("tmax is tmin", equal_months), ("world bounds", bounds), ("streak", streaks), ("same value", own.same_value),
         ("same days", own.same_days), ("swapped", own.swapped), ("other units", other_units), ("gap", gaps),
         ("outlier", outliers), ("tmax below tmin", internal), ("lost sign", lost_signs), ("lone value", lone_values), ("spike", spikes),
         ("lagged range", lagged), ("mega", mega)]
