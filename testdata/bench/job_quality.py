"""The published single-station checks (Durre et al. 2010), as climate/quality makes them."""
import numpy as np

WORLD_LOW, WORLD_HIGH, ENOUGH = -89.4, 57.7, 100


def check(years, months, days, tmin, tmax):
    """Returns copies of tmin and tmax without the doubtful values, and how many there were."""
    v = [tmin.copy(), tmax.copy()]
    n0 = sum(np.isfinite(x).sum() for x in v)
    naught(v)
    repeated_months(years, months, days, v)
    equal_months(years, months, v)
    for e in (0, 1):
        v[e][(v[e] < WORLD_LOW) | (v[e] > WORLD_HIGH)] = np.nan
    for e in (0, 1):
        streaks(v[e])
    for e in (0, 1):
        gaps(months, v[e])
    day = folded_days(months, days)
    for e in (0, 1):
        outliers(day, v[e])
    internal(v)
    for e in (0, 1):
        spikes(v[e])
    lagged(v)
    mega(months, v)
    return v[0], v[1], n0 - sum(np.isfinite(x).sum() for x in v)


MONTH_START = np.array([0, 0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334])


def folded_days(months, days):
    """Day of a year of 365 days, 29 February folded into the 28th."""
    return MONTH_START[months] + np.where((months == 2) & (days == 29), 28, days) - 1


def naught(v):
    both = (v[0] == 0) & (v[1] == 0) | (abs(v[0] + 17.8) < 0.05) & (abs(v[1] + 17.8) < 0.05)
    v[0][both] = v[1][both] = np.nan


def repeated_months(years, months, days, v):
    key = years * 12 + months - 1
    row = key - key[0]
    n = row[-1] + 1
    month = (key[0] + np.arange(n)) % 12
    year = (key[0] + np.arange(n)) // 12
    for e in (0, 1):
        table = np.full((n, 31), np.nan)
        table[row, days - 1] = v[e]
        count = np.isfinite(table[:, :28]).sum(axis=1)
        total = np.round(np.nansum(table[:, :28], axis=1) * 1000)
        bad = np.zeros(n, bool)
        for group in (month, year):
            # months of like sums are few; only they are compared day by day
            order = np.lexsort((total, count, group))
            a, b = order[:-1], order[1:]
            like = (group[a] == group[b]) & (count[a] == count[b]) & (total[a] == total[b]) & (count[a] >= 15)
            for i, j in zip(a[like], b[like]):
                x, y = table[i, :28], table[j, :28]
                if np.array_equal(x, y, equal_nan=True) and np.nanmin(x) < np.nanmax(x):
                    bad[[i, j]] = True
        v[e][bad[row]] = np.nan


def equal_months(years, months, v):
    same = v[0] == v[1]
    key = years * 12 + months
    key = key - key[0]
    bad = same & (np.bincount(key, same)[key] >= 10)
    v[0][bad] = v[1][bad] = np.nan


def streaks(x):
    ok = np.flatnonzero(np.isfinite(x))
    y = x[ok]
    ends = np.flatnonzero(np.diff(y) != 0)
    start = np.concatenate(([0], ends + 1))
    length = np.diff(np.concatenate((start, [len(y)])))
    for s, n in zip(start[length >= 20], length[length >= 20]):
        x[ok[s:s + n]] = np.nan


def gaps(months, x):
    for m in range(1, 13):
        at = np.flatnonzero((months == m) & np.isfinite(x))
        if len(at) < ENOUGH:
            continue
        order = at[np.argsort(x[at], kind="stable")]
        step = np.diff(np.round(x[order], 1))
        mid = len(order) // 2
        above = np.flatnonzero(step[mid:] >= 10 - 1e-9)
        below = np.flatnonzero(step[:mid] >= 10 - 1e-9)
        if len(above):
            x[order[mid + above[0] + 1:]] = np.nan
        if len(below):
            x[order[:below[-1] + 1]] = np.nan


def outliers(day, x):
    # one row a day of the year, all values within a week of it
    order = np.argsort(day, kind="stable")
    order = order[np.isfinite(x[order])]
    bounds = np.searchsorted(day[order], np.arange(366))
    values = x[order]
    per_day = [values[bounds[d]:bounds[d + 1]] for d in range(365)]
    mean, sd = np.full(365, np.nan), np.full(365, np.nan)
    for d in range(365):
        w = np.concatenate([per_day[(d + k) % 365] for k in range(-7, 8)])
        n = len(w)
        if n < ENOUGH:
            continue
        median = np.partition(w, n // 2)[n // 2]
        dist = np.abs(w - median)
        mad = np.partition(dist, n // 2)[n // 2]
        if mad == 0:
            continue
        u = (w - median) / (7.5 * mad)
        v = np.maximum(0, 1 - u * u)
        vv = v * v
        mean[d] = median + (vv * (w - median)).sum() / vv.sum()
        sd[d] = np.sqrt(n * ((w - median) ** 2 * vv * vv).sum()) / abs((v * (1 - 5 * u * u)).sum())
    with np.errstate(invalid="ignore"):
        x[np.abs(x - mean[day]) / sd[day] >= 6] = np.nan


def internal(v):
    nxt = np.append(v[0][1:], np.nan)
    with np.errstate(invalid="ignore"):
        crossed = np.flatnonzero((v[1] < v[0]) | (nxt > v[1] + 1))
    for i in crossed:  # few; the worst value of those that take part goes first
        while True:
            if not (v[1][i] < v[0][i] or at(v[0], i + 1) > v[1][i] + 1):
                break
            parts = [(i, 0), (i, 1), (i + 1, 0), (i + 1, 1), (i - 1, 0), (i - 1, 1)]
            counts = [contradictions(v, *p) for p in parts]
            most = max(counts)
            worst = parts[counts.index(most)]
            if counts.count(most) > 1 and worst[0] == i and v[0][i] > v[1][i]:
                v[0][i] = v[1][i] = np.nan
            else:
                v[worst[1]][worst[0]] = np.nan


def at(x, i):
    return x[i] if 0 <= i < len(x) else np.nan


def contradictions(v, i, e):
    x = at(v[e], i)
    if e == 0:
        return int(x > at(v[1], i)) + int(x > at(v[1], i - 1) + 1)
    return int(x < at(v[0], i)) + int(x < at(v[0], i + 1) - 1)


def spikes(x):
    before, after = np.append(np.nan, x[:-1]), np.append(x[1:], np.nan)
    with np.errstate(invalid="ignore"):
        x[(x - before >= 25) & (x - after >= 25) | (before - x >= 25) & (after - x >= 25)] = np.nan


def lagged(v):
    def around(x, pick, none):
        y = np.where(np.isfinite(x), x, none)
        y = np.concatenate(([none], y, [none]))
        return pick(pick(y[:-2], y[1:-1]), y[2:])
    high, low = around(v[0], np.maximum, -np.inf), around(v[1], np.minimum, np.inf)
    with np.errstate(invalid="ignore"):
        bad_max = (v[1] >= high + 40) & np.isfinite(high)
        bad_min = (v[0] <= low - 40) & np.isfinite(low)
    v[1][bad_max] = np.nan
    v[0][bad_min] = np.nan


def mega(months, v):
    for m in range(1, 13):
        at_m = months == m
        n, x = v[0][at_m], v[1][at_m]
        if (np.isfinite(n) & np.isfinite(x)).sum() < ENOUGH:
            continue
        with np.errstate(invalid="ignore"):
            bad_n, bad_x = n > np.nanmax(x), x < np.nanmin(n)
        if bad_n.any() or bad_x.any():
            n[bad_n], x[bad_x] = np.nan, np.nan
            v[0][at_m], v[1][at_m] = n, x
