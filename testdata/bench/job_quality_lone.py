"""The check of climate/quality for values that nothing beside them bears out."""
import numpy as np

from job_quality_own import standard
from job_usual import ENOUGH, pad

LONE = 5.5


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
