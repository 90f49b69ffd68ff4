"""Crops on every planting-out day, as the program's day loop plays them."""
import csv

import numpy as np

from job_frosts import SPAN, SPAN_FROM, MIDSUMMER
from scipy import special

CHILL_DAYS, WORTH, LEVEL = 14, 14, 0.90
INLAND, CLEAR, FULL, WEIGHT = 0.16, 0.75, 18.0, 0.35


def read_crops(path, names):
    facts = {}
    with open(path) as f:
        for r in csv.DictReader(line for line in f if not line.startswith("#")):
            facts.setdefault((r["crop"], r["class"]), {})[r["key"]] = r["value"]
    out = []
    for name in names:
        crop, _, cls = name.partition(", ")
        f = {**facts.get((crop, ""), {}), **facts.get((crop, cls), {})}
        g = lambda k, f=f: float(f[k]) if f.get(k) else np.nan
        c = dict(name=name, need=g("warmth_planted"), base=g("base_c"), upper=g("upper_c"), kill=g("kill_hardened_c"),
                 set_back=g("setback_hardened_c"), chill=g("chill_c"), delay=int(g("setback_days") if f.get("setback_days") else 7),
                 picking=g("picking_days") if f.get("picking_days") else 14.0, out_from=g("out_from"), out_to=g("out_to"))
        c["home"], c["bolts"] = home(c, f.get("kind"))
        out.append(c)
    return out


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


def radiation(latitude, year_day):
    """FAO-56 eqs. 21 and 23 to 25."""
    phi, decl = np.radians(latitude), 0.409 * np.sin(2 * np.pi * year_day / 365 - 1.39)
    ws = np.arccos(np.clip(-np.tan(phi) * np.tan(decl), -1, 1))
    dr = 1 + 0.033 * np.cos(2 * np.pi * year_day / 365)
    return np.maximum(0, 24 * 60 / np.pi * 0.0820 * dr * (ws * np.sin(phi) * np.sin(decl) + np.cos(phi) * np.cos(decl) * np.sin(ws)))


def light_factor(lo, hi, ra):
    with np.errstate(invalid="ignore"):
        rs = np.where(hi < lo, 0, np.minimum(INLAND * np.sqrt(np.abs(hi - lo)), CLEAR) * ra)
        mean = (lo + hi) / 2
        f = np.minimum(1, rs * (FULL + WEIGHT * mean) / (FULL * (rs + WEIGHT * mean)))
    return np.where(mean <= 0, 1, f)


HIGHS = np.array([7.8, 8.2, 11, 14, 17.3, 20.3, 22.6, 22.3, 19.2, 15.2, 10.9, 8.3])
LOWS = np.array([2.2, 2.1, 3.5, 5, 8, 11, 13, 12.9, 10.6, 8, 4.6, 2.6])
FOLD = (SPAN_FROM + np.arange(SPAN)) % 365


def southern(latitude):
    """Southern England's mean climate by day of the year, and its light at a latitude."""
    x = (np.arange(365) + 0.5) * 12 / 365 + 11.5
    k, f = x.astype(int), x - np.floor(x)
    lo, hi = (v[k % 12] * (1 - f) + v[(k + 1) % 12] * f for v in (LOWS, HIGHS))
    return lo, hi, light_factor(lo, hi, radiation(latitude, np.arange(365) + 1))


def home(c, kind):
    """Mean light of the days a crop gets its warmth in at its customary time, and the day from
    which it runs to seed."""
    if np.isnan(c["out_from"]) or np.isnan(c["need"]):
        return 1.0, SPAN_FROM + SPAN
    lo, hi, light = southern(51)
    start = int(c["out_from"]) + (int(c["out_to"]) - int(c["out_from"])) % 365 // 2
    days = (start + np.arange(365)) % 365
    warm = degree_days(lo, hi, c["base"], c["upper"])[days]
    n = min(365, np.searchsorted(np.cumsum(warm), c["need"]) + 1)
    stands = kind in ("leaf", "root", "bulb") and not c["kill"] > -2.5 and start + n < 365 + 59
    return (warm[:n] * light[days[:n]]).sum() / warm[:n].sum(), 365 + 120 if stands else SPAN_FROM + SPAN


def wilson(k, n):
    z = special.ndtri(0.5 + LEVEL / 2)
    p = k / n
    mid, half = (p + z * z / (2 * n)) / (1 + z * z / n), z / (1 + z * z / n) * np.sqrt(p * (1 - p) / n + z * z / (4 * n * n))
    return np.where(k == 0, 0, np.maximum(0, mid - half)), np.where(k == n, 1, np.minimum(1, mid + half))


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
