"""The check of climate/quality for stretches of values in other units."""
import math

import numpy as np

from job_quality_own import standard

# a value in other units: scale times it, plus offset; the evidence wanted
UNITS = ((1 / 1.8, -32 / 1.8, 70), (0.1, 0, 70), (1.8, 32, 150), (10, 0, 70), (-1, 0, 100))
DROP, JOIN = 25, 30


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
