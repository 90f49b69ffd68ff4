"""The checks of climate/quality's own for values copied, held on to or exchanged."""
import math

import numpy as np

from job_usual import ENOUGH, runs, usual

BLOCK, STRETCH, KINDS, LEAST = 8, 15, 6, 3
BASE = 0x9E3779B97F4A7C15


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
    # a block that hardly changes is like others anywhere in a record that stands still
    block = v[:, kept[:, None] + np.arange(BLOCK)]
    kept = kept[different(block) >= LEAST]
    short = (key & np.uint64(0xFFFF)).astype(np.intp)
    might = np.zeros(1 << 16, np.uint8)  # by the key's low bits: nearly always tells there is no other
    might[short[kept]] = 1
    at = np.flatnonzero(might[short].view(bool) & whole)
    if not len(kept):
        return None
    kept = kept[np.argsort(key[kept], kind="stable")]
    left, right = (np.searchsorted(key[kept], key[at], side) for side in ("left", "right"))
    many = right - left
    place = np.repeat(left, many) + np.arange(many.sum()) - np.repeat(np.cumsum(many) - many, many)
    lags = np.unique(np.abs(np.repeat(at, many) - kept[place]))
    lags = lags[lags > 0]
    if not len(lags):
        return None
    bad = np.zeros(n, bool)
    before = days_before(v)
    for lag in lags:
        for start, m in runs((v[:, lag:] == v[:, :-lag]).all(axis=0), STRETCH):
            if (before[start:start + m] < start).sum() >= KINDS:
                bad[start:start + m] = bad[start + lag:start + lag + m] = True
    return np.broadcast_to(bad, v.shape)


def different(block):
    """How many different days each block has."""
    alike = (block[:, :, :, None] == block[:, :, None, :]).all(axis=0)
    return BLOCK - np.tril(alike, -1).any(axis=2).sum(axis=1)


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
        if pairs < ENOUGH or np.count_nonzero(same[e]) == pairs:
            continue
        share = max(np.count_nonzero(same[e]), 1) / pairs
        long = max(8, 1 + math.ceil(math.log(1e-4 / pairs) / math.log(share)))
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
