"""Crops one planting-out day after another, each for all seasons at once: the way a careful
script is written at first, and what the goal of the program's speed was set by. job_crops.py is
the same tuned: all planting-out days at once, with what crops share kept between them."""
import numpy as np

from job_frosts import SPAN_FROM, MIDSUMMER
from job_crops import CHILL_DAYS, WORTH


def degree_days(lo, hi, base, upper):
    """Single sine (Baskerville and Emin 1969) with a horizontal upper limit."""
    lo, hi = np.minimum(lo, hi), np.maximum(lo, hi)
    mid, half = (lo + hi) / 2, (hi - lo) / 2

    def above(t):
        with np.errstate(invalid="ignore", divide="ignore"):
            x = np.clip((t - mid) / half, -1, 1)
            part = ((mid - t) * np.arccos(x) + half * np.sqrt(1 - x * x)) / np.pi
        return np.where(hi <= t, 0, np.where(lo >= t, mid - t, part)) + 0 * mid
    d = above(base)
    return d if np.isnan(upper) else d - above(upper)


def last_true(mask):
    """Index of the last true value up to each day, -1000 before the first."""
    return np.maximum.accumulate(np.where(mask, np.arange(mask.shape[1]), -1000), axis=1)


def score(c, nights, warmth, light, first, last):
    """Seasons that can be played, survive, ripen and succeed, by planting-out day.

    For each day out, all seasons at once over all days. What does not hang on the day out is
    worked out before the loop."""
    at0 = first - SPAN_FROM
    nights, warmth, light = nights[:, at0:], warmth[:, at0:], light[at0:]
    n, days = nights.shape
    day = np.arange(days)
    with np.errstate(invalid="ignore"):
        kills = nights <= c["kill"]
        harms = kills | (nights <= c["set_back"])
        chilly = nights <= c["chill"]
    gone = np.isnan(nights) | np.isnan(warmth)
    any_gone = gone.any()
    filled = warmth
    if any_gone:
        known = np.maximum.accumulate(np.where(gone, -1, day), axis=1)
        filled = np.where(np.isnan(warmth), np.where(known >= 0, np.take_along_axis(warmth, np.maximum(known, 0), 1), 0), warmth)
        since = np.cumsum(gone, axis=1)
        in_row = day - known
    bolts = min(c["bolts"] - first, days)
    lit = filled * np.where(day < bolts, light, 0)
    last_harm = last_true(harms)
    worth, tender, midsummer = min(c["picking"], WORTH), c["kill"] > -2.5, MIDSUMMER - first
    # the next deadly night after each day
    deadly = np.where(kills, day, days)
    next_kill = np.append(np.minimum.accumulate(deadly[:, ::-1], axis=1)[:, ::-1][:, 1:], np.full((n, 1), days), axis=1)
    rows = np.arange(n)
    # after the first weeks, days lost do not hang on the day out
    lost_later = last_harm >= day + 1 - c["delay"]
    later = np.cumsum(np.where(lost_later, 0, lit), axis=1)
    apart = np.arange(n) * (later.max() + c["need"] + 1e4)  # all seasons in one rising row
    row = (later + apart[:, None]).ravel()
    out = np.zeros((4, last - first + 1), int)
    for s in range(last - first + 1):
        near = slice(s, s + max(CHILL_DAYS, c["delay"]) + 1)  # the days that hang on it
        d = day[near]
        lost = (last_harm[:, near] > s) & lost_later[:, near] | chilly[:, near] & (d > s) & (d <= s + CHILL_DAYS)
        if any_gone and gone[:, s].any():  # no day before the first to take warmth from
            lost |= np.logical_and.accumulate(gone[:, near], axis=1)
        begun = np.cumsum(np.where(lost, 0, lit[:, near]), axis=1)
        end = min(near.stop, days) - 1
        # ready: the first day by whose end the sum is there
        reached = begun >= c["need"]
        soon = reached.any(axis=1)
        target = c["need"] - begun[:, -1] + later[:, end]
        ready = np.minimum(np.searchsorted(row, target + apart) - rows * days, days)
        if soon.any():
            ready = np.where(soon, s + reached.argmax(axis=1), ready)
        over = np.full(n, days)
        if tender:
            over = next_kill[:, max(s, midsummer - 1)]
        ready = np.where(ready >= over, days, ready)
        picked = np.ceil(ready + c["picking"]).astype(int)
        ended = np.where(ready < days, np.minimum(next_kill[rows, np.minimum(ready, days - 1)], np.minimum(picked, days)), over)
        ended = np.minimum(ended, bolts)
        known = np.ones(n, bool)
        if any_gone:
            row_from = np.minimum(in_row, day - s + 1)
            bad = gone & (day >= s) & ((row_from >= 5) | (since - (since[:, s - 1:s] if s else 0) >= 11))
            fail = np.where(bad.any(axis=1), bad.argmax(axis=1), days)
            early = fail < ended
            known = ~early | (ready < fail) & (fail >= ready + worth)  # else it is picked until the record ends
            ended = np.where(early, fail, ended)
        k = next_kill[:, s]
        survives = (k > ready) | (k >= ended)
        ripens = (ready < days) & (ready + np.where(ended == days, 1, worth) <= ended)
        out[:, s] = known.sum(), (known & survives).sum(), (known & ripens).sum(), (known & survives & ripens).sum()
    return out
