"""The checks of climate/quality for values that nothing beside them bears out."""
import math

import numpy as np

from job_quality_own import standard
from job_usual import ENOUGH, pad

LONE, ALONE = 5.5, 5


def counted(r):
    """How the six values of a day and the days beside go together, by month, and those of every
    day in the order of the months; the first is counted once."""
    c, n = r.cal, r.v.shape[1]
    z = pad(standard(r))
    hood = np.stack([z[e, k:k + n] for k in range(3) for e in (0, 1)], axis=1)[c.order]
    if not hasattr(r, "cov"):
        small = (np.abs(z) < 5).all(axis=0)
        fit = small[:-2] & small[1:-1] & small[2:]
        step = max(1, n // 20000)
        if step > 1:
            fit &= (np.arange(n) - 1) % step == 0
        fit = fit[c.order]
        r.cov = np.full((13, 6, 6), np.nan)
        for m, a, b in zip(c.present, c.blocks, c.ends):
            h = hood[a:b][fit[a:b]]
            if len(h) >= ENOUGH:
                r.cov[m] = h.T @ h / len(h)
    return z, hood


def offs(r, z, hood):
    """How far the values of every day are from their expectations, and what a step of tmin by a
    standard deviation of its own adds to that."""
    c, n, cov = r.cal, r.v.shape[1], r.cov
    weights = residuals(cov[1:].repeat(2, axis=0), np.tile((0, 1), 12), np.ones((24, 6), bool)).reshape(12, 2, 6)
    off, own = np.empty((n, 2)), weights[c.month[c.order] - 1, 0, 2]
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
        own[row[e == 0]] = w[which[e == 0], 2]
    return off, own


def lost_signs(r):
    """A minimum above naught that is far from its expectation, while its negative is not: the
    farthest first, after which those beside are looked at without it."""
    c = r.cal
    z, hood = counted(r)
    off, own = offs(r, z, hood)
    below = -2 * r.v[0] * r.per[0]  # a step to the negative
    with np.errstate(invalid="ignore"):
        far = off[:, 0] >= math.sqrt(2 * ALONE)
    at = np.flatnonzero(far & (r.v[0][c.order] > 0))
    as_it = off[at, 0] + below[c.order[at]] * own[at]
    if not len(at) or not signless(off[at, 0], as_it).any():
        return None
    bad = np.zeros(r.v.shape, bool)
    days = c.order[at]
    todo = days[np.lexsort((days, -off[at, 0]))].tolist()
    for i in todo:
        if not 0 <= i < r.v.shape[1] or not r.v[0, i] > 0 or z[0, i + 1] != z[0, i + 1]:
            continue
        h = z[:, i:i + 3].T.ravel()
        w = residuals(r.cov[None, c.month[i]], np.array([0]), (h == h)[None])[0]
        o = np.where(h == h, h, 0) @ w
        if signless(o, o + below[i] * w[2]):
            bad[0, i], z[0, i + 1] = True, np.nan
            todo += [i - 1, i + 1]
    return bad


def signless(off, as_it):
    return ((off * off - as_it * as_it) / 2 >= ALONE) & (abs(as_it) <= 3)


def lone_values(r):
    """A value's expectation is the conditional mean of a multivariate normal distribution of the
    two values of the day before, of the day and of the day after, standardised."""
    z, hood = counted(r)
    c, cov = r.cal, r.cov
    off, _ = offs(r, z, hood)
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
