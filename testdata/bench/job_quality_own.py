"""The checks of climate/quality that are not published ones."""
import math

import numpy as np

from job_usual import ENOUGH, pad, runs, usual

BLOCK, STRETCH, KINDS = 8, 15, 6
BASE = 0x9E3779B97F4A7C15
# a value in other units: scale times it, plus offset; the evidence wanted
UNITS = ((1 / 1.8, -32 / 1.8, 70), (0.1, 0, 70), (1.8, 32, 150), (10, 0, 70), (-1, 0, 100))
DROP, JOIN = 25, 30
LONE = 5.5


def repeated_stretches(r):
    """Blocks of days are looked up by a number made of their values; one in eight is kept."""
    v, n = r.v, r.v.shape[1]
    if n < STRETCH + 1:
        return None
    whole = (v == v).all(axis=0)
    bits = (v + 0.0).view(np.uint64)
    key = bits[0] * np.uint64(31) + bits[1]
    key ^= key >> np.uint64(29)
    key *= np.uint64(BASE)
    base = BASE
    for k in (1, 2, 4):  # twice as many days each time
        key = key[:-k] * np.uint64(base) + key[k:]
        whole = whole[:-k] & whole[k:]
        base = base * base % 2 ** 64
    key ^= key >> np.uint64(31)
    kept = np.arange(0, len(key), BLOCK)
    kept = kept[whole[kept]]
    short = (key & np.uint64(0xFFFF)).astype(np.intp)
    might = np.zeros(1 << 16, np.uint8)  # by the key's low bits: nearly always tells there is no other
    might[short[kept]] = 1
    at = np.flatnonzero(might[short].view(bool) & whole)
    if not len(kept):
        return None
    seen, first = np.unique(key[kept], return_index=True)
    j = np.minimum(np.searchsorted(seen, key[at]), len(seen) - 1)
    match = (seen[j] == key[at]) & (kept[first[j]] != at)
    a, z = at[match], kept[first[j[match]]]
    a, z = np.minimum(a, z), np.maximum(a, z)
    if not len(a):
        return None
    bad = np.zeros(n, bool)
    before = days_before(v)
    for lag in np.unique(z - a):
        for start, m in runs((v[:, lag:] == v[:, :-lag]).all(axis=0), STRETCH):
            if (before[start:start + m] < start).sum() >= KINDS:
                bad[start:start + m] = bad[start + lag:start + lag + m] = True
    return np.broadcast_to(bad, v.shape)


def days_before(v):
    """The last day before each that had the same two values; -1 for none."""
    _, kind = np.unique(v[0] + 1j * v[1], return_inverse=True)
    order = np.argsort(kind, kind="stable")
    out = np.full(len(kind), -1)
    like = kind[order[1:]] == kind[order[:-1]]
    out[order[1:][like]] = order[:-1][like]
    return out


def same_value(r):
    """Runs of one value that chance would hardly make once in a record of this length."""
    bad = None
    same, known = r.v[:, 1:] == r.v[:, :-1], r.v == r.v
    for e in (0, 1):
        pairs = np.count_nonzero(known[e, 1:] & known[e, :-1])
        if pairs < ENOUGH:
            continue
        share = max(np.count_nonzero(same[e]), 1) / pairs
        long = 8 if share == 1 else max(8, 1 + math.ceil(math.log(1e-4 / pairs) / math.log(share)))
        for start, n in runs(same[e], long - 1):
            bad = np.zeros(r.v.shape, bool) if bad is None else bad
            bad[e, start:start + n + 1] = True
    return bad


def same_days(r):
    bad = None
    for start, n in runs((r.v[:, 1:] == r.v[:, :-1]).all(axis=0), 5):
        bad = np.zeros(r.v.shape, bool) if bad is None else bad
        bad[:, start:start + n + 1] = True
    return bad


def swapped(r):
    """Works out first what is usual, which is kept for the checks that follow."""
    v, day = r.v, r.cal.day
    mean, sd = usual(day, v)
    r.per = np.take(1 / sd, day, axis=1)
    r.mean = np.take(mean, day, axis=1)
    r.z = (v - r.mean) * r.per
    at = np.flatnonzero(v[1] < v[0])
    if not len(at):
        return None
    fit = (np.abs((v[::-1, at] - r.mean[:, at]) * r.per[:, at]) < 4).all(axis=0)
    bad = np.zeros(v.shape, bool)
    bad[:, at[fit]] = True
    return bad


def standard(r):
    """Distances from the usual in standard deviations, of the values that are left."""
    r.z[r.v != r.v] = np.nan
    return r.z


def other_units(r):
    """Stretches that another unit explains better: in both elements together, then in each."""
    z = standard(r)
    gone = z != z
    level, per = r.mean * r.per, r.per
    like = np.minimum(z * z * 0.5, 18)
    evidence, may = [], False
    for scale, offset, wanted in UNITS:
        x = z * scale
        x += (scale - 1) * level
        if offset:
            x += offset * per
        x *= x
        x *= 0.5
        np.minimum(x, 18, out=x)
        np.subtract(like, x, out=x)
        x += math.log(abs(scale))
        x[gone] = 0
        if scale < 0:
            x[r.v < 0] = -18  # it has its sign
        climbs = [most_climbed(y) >= wanted for y in (x[0] + x[1], x[0], x[1])]
        evidence.append((x, climbs))
        may |= any(climbs)
    if not may:
        return None
    bad, taken = np.zeros(r.v.shape, bool), []
    for k, elements in enumerate(([0, 1], [0], [1])):
        found = []
        for (x, climbs), (_, _, wanted) in zip(evidence, UNITS):
            if climbs[k]:
                found += joined(segments(x[elements].sum(axis=0), wanted, DROP))
        best = [f for f in found if all(apart(f, o) or o[2] <= f[2] for o in found)]
        for f in best:  # of two readings of the same days the likelier, and what takes both elements first
            if all(apart(f, o) for o in taken):
                taken.append(f)
                for e in elements:
                    bad[e, f[0]:f[1] + 1] = True
    return bad & (r.v == r.v)


def apart(a, b):
    return b[0] > a[1] or b[1] < a[0]


def climbed(x):
    """How far the running sum of evidence stands above its lowest so far."""
    total = np.cumsum(x)
    low = np.minimum.accumulate(total)
    return total, np.minimum(low, 0, out=low)


def most_climbed(x):
    total, low = climbed(x)
    return np.subtract(total, low, out=total).max()


def segments(x, wanted, drop):
    """Stretches in which a running sum of evidence climbs far enough (Page 1954): from where it
    leaves naught to its peak, once it has fallen from there by more than drop."""
    out, at = [], 0
    while at < len(x):
        total, low = climbed(x[at:])
        high = total - low >= wanted
        if not high.any():
            break
        cross = high.argmax()
        at_low = np.flatnonzero(total[:cross] <= low[:cross])
        start = at_low[-1] + 1 if len(at_low) else 0
        rest = total[start:]
        fallen = np.maximum.accumulate(rest) - rest > drop
        fallen[:cross - start] = False
        stop = fallen.argmax() + 1 if fallen.any() else len(rest)
        top = start + rest[:stop].argmax()
        out.append([at + start, at + top, total[top] - low[cross]])
        at += top + 1
    return out


def joined(found):
    """Stretches with few days between them are one."""
    out = []
    for f in found:
        if out and f[0] - out[-1][1] <= JOIN:
            out[-1][1:] = f[1], out[-1][2] + f[2]
        else:
            out.append(f)
    return out


def lone_values(r):
    """A value's expectation is the conditional mean of a multivariate normal distribution of the
    two values of the day before, of the day and of the day after, standardised."""
    c, n = r.cal, r.v.shape[1]
    z = pad(standard(r))
    small = (np.abs(z) < 5).all(axis=0)
    counted = small[:-2] & small[1:-1] & small[2:]
    step = max(1, n // 20000)
    if step > 1:
        counted &= (np.arange(n) - 1) % step == 0
    hood = np.stack([z[e, k:k + n] for k in range(3) for e in (0, 1)], axis=1)[c.order]
    counted = counted[c.order]
    cov = np.full((13, 6, 6), np.nan)
    for m, a, b in zip(c.present, c.blocks, c.ends):
        h = hood[a:b][counted[a:b]]
        if len(h) >= ENOUGH:
            cov[m] = h.T @ h / len(h)
    weights = residuals(cov[1:].repeat(2, axis=0), np.tile((0, 1), 12), np.ones((24, 6), bool)).reshape(12, 2, 6)
    off = np.empty((n, 2))
    for m, a, b in zip(c.present, c.blocks, c.ends):
        np.matmul(hood[a:b], weights[m - 1].T, out=off[a:b])
    # days with something missing beside them: each set of what is known once
    known = z == z
    some = ~known.all(axis=0)
    row, e = np.nonzero((some[:-2] | some[1:-1] | some[2:])[c.order][:, None] & known[:, 1:-1].T[c.order])
    if len(row):
        h = hood[row]
        have = h == h
        code = (c.month[c.order[row]] * 2 + e) * 64 + have @ (1 << np.arange(6))
        _, first, which = np.unique(code, return_index=True, return_inverse=True)
        w = residuals(cov[c.month[c.order[row[first]]]], e[first], have[first])
        off[row, e] = (np.where(have, h, 0) * w[which]).sum(axis=1)
    at, e = np.nonzero(np.abs(off) >= LONE)
    if not len(at):
        return None
    bad = np.zeros(r.v.shape, bool)
    doubts = sorted(zip(c.order[at].tolist(), e.tolist(), np.abs(off[at, e]).tolist()))
    while doubts:  # few; the worst first, then those beside it are looked at again
        doubts.sort(key=lambda d: -d[2])
        day, el, _ = doubts.pop(0)
        bad[el, day] = True
        z[el, day + 1] = np.nan
        again = [(i, k, again_off(z, cov[c.month[i]], i, k) if abs(i - day) <= 1 else o) for i, k, o in doubts]
        doubts = [d for d in again if d[2] >= LONE]
    return bad


def again_off(z, cov, i, e):
    h = z[:, i:i + 3].T.ravel()
    have = h == h
    return abs((np.where(have, h, 0) * residuals(cov[None], np.array([e]), have[None])[0]).sum()) if have[2 + e] else 0


def residuals(cov, e, have):
    """What the six values are multiplied by for how far the day's value of an element is from
    its expectation, in standard deviations, from those known: 1 for itself, less weights."""
    k, own = np.arange(len(e)), 2 + e
    have = have.copy()
    have[k, own] = False
    a = np.where(have[:, :, None] & have[:, None, :], cov, 0)
    a[:, range(6), range(6)] += np.where(have, 1e-6, 1)  # two values that always agree must not stop it
    c = np.where(have, cov[k, own], 0)
    w = np.linalg.solve(a, c[:, :, None])[:, :, 0]
    sd = np.sqrt(np.maximum(cov[k, own, own] - (w * c).sum(axis=1), 1e-6))
    w = -w
    w[k, own] = np.where(have.any(axis=1), 1, np.nan)
    return w / sd[:, None]
