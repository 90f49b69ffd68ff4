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


class DegreeDays:
    """Single sine (Baskerville and Emin 1969) with a horizontal upper limit. The warmth above a
    temperature, and that of a base and limit, are kept: crops share them."""

    def __init__(self, lo, hi):
        self.lo, self.hi = np.minimum(lo, hi), np.maximum(lo, hi)
        self.mid, self.half = (self.lo + self.hi) / 2, (self.hi - self.lo) / 2
        self.kept, self.parts = {}, {}

    def above(self, t):
        if t not in self.parts:
            out = np.maximum(self.mid - t, 0)  # of days wholly above, or below
            at = np.flatnonzero((self.lo < t) & (self.hi > t))
            m, h = t - self.mid[at], self.half[at]
            x = m / h
            out[at] = (h * np.sqrt(1 - x * x) - m * np.arccos(x)) / np.pi
            self.parts[t] = out
        return self.parts[t]

    def between(self, base, upper):
        if (base, upper) not in self.kept:
            self.kept[base, upper] = self.above(base) - (0 if np.isnan(upper) else self.above(upper))
        return self.kept[base, upper]


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
    warm = DegreeDays(lo, hi).between(c["base"], c["upper"])[days]
    n = min(365, np.searchsorted(np.cumsum(warm), c["need"]) + 1)
    stands = kind in ("leaf", "root", "bulb") and not c["kill"] > -2.5 and start + n < 365 + 59
    return (warm[:n] * light[days[:n]]).sum() / warm[:n].sum(), 365 + 120 if stands else SPAN_FROM + SPAN


def wilson(k, n):
    z = special.ndtri(0.5 + LEVEL / 2)
    p = k / n
    mid, half = (p + z * z / (2 * n)) / (1 + z * z / n), z / (1 + z * z / n) * np.sqrt(p * (1 - p) / n + z * z / (4 * n * n))
    return np.where(k == 0, 0, np.maximum(0, mid - half)), np.where(k == n, 1, np.minimum(1, mid + half))


class Seasons:
    """What the crops of a station share: its nights, and the days on which a planting-out day's
    season can no longer be told."""

    def __init__(self, nights, days_gone, first, last):
        at0 = first - SPAN_FROM
        self.first, self.at0, self.starts = first, at0, last - first + 1
        self.nights = np.ascontiguousarray(nights[:, at0:])
        self.gone = gone = np.ascontiguousarray(days_gone[:, at0:])
        self.any_gone = gone.any()
        n, days = self.shape = gone.shape
        self.day, self.start = np.arange(days), np.arange(self.starts)
        self.most_leading = 0
        if not self.any_gone:
            return
        known = np.maximum.accumulate(np.where(gone, -1, self.day), axis=1)
        here = next_true(~gone, days)[:, :self.starts]
        self.leading = here - self.start  # days gone from the start on
        self.most_leading = self.leading.max()
        # it fails on the fifth day gone in a row, or the eleventh in all
        five = next_true(gone & (self.day - known >= 5), days)
        since = np.cumsum(gone, axis=1)
        apart = np.arange(n)[:, None] * (days + 20)
        before = np.zeros((n, self.starts), int)
        before[:, 1:] = since[:, :self.starts - 1]
        eleven = np.searchsorted((since + apart).ravel(), (before + 11 + apart).ravel()).reshape(n, -1) - np.arange(n)[:, None] * days
        self.holes = np.nonzero(gone)
        self.before = known[self.holes]  # the last day that is there
        self.fails = np.minimum(five[:, 4:4 + self.starts], np.minimum(eleven, days))

    def filled(self, warmth):
        """Warmth with that of the last day known where it is missing; none before the first."""
        warmth = warmth[:, self.at0:]
        if not self.any_gone:
            return warmth
        out = warmth.copy()
        out[self.holes] = np.where(self.before < 0, 0, warmth[self.holes[0], self.before])
        return out


def next_true(mask, none):
    """Index of the first true value from each day on."""
    at = np.where(mask, np.arange(mask.shape[1]), none)
    return np.minimum.accumulate(at[:, ::-1], axis=1)[:, ::-1]


def score(c, seasons, warmth, light):
    """Seasons that can be played, survive, ripen and succeed, by planting-out day: all seasons
    and planting-out days at once."""
    nights, day, start, s = seasons.nights, seasons.day, seasons.start, seasons.starts
    n, days = seasons.shape
    kills, chilly = nights <= c["kill"], nights <= c["chill"]
    harms = kills | (nights <= c["set_back"])
    last_harm = np.maximum.accumulate(np.where(harms, day, -1000), axis=1)
    bolts = min(c["bolts"] - seasons.first, days)
    lit = seasons.filled(warmth) * np.where(day < bolts, light[seasons.at0:], 0)
    worth, tender, midsummer = min(c["picking"], WORTH), c["kill"] > -2.5, MIDSUMMER - seasons.first
    # the next deadly night after each day
    next_kill = np.full((n, days), days)
    next_kill[:, :-1] = next_true(kills, days)[:, 1:]
    # after the first weeks, days lost do not hang on the day out
    lost_later = last_harm >= day + 1 - c["delay"]
    later = np.cumsum(np.where(lost_later, 0, lit), axis=1)
    near = max(CHILL_DAYS, c["delay"]) + 1  # the days that hang on it
    begun, soon = np.zeros((n, s)), np.full((n, s), -1)
    enough = np.max(lit) * near >= c["need"]
    for k in range(near):
        at = slice(k, k + s)
        lost = lost_later[:, at] & (last_harm[:, at] > start)
        if 0 < k <= CHILL_DAYS:
            lost |= chilly[:, at]
        if k < seasons.most_leading:
            lost |= seasons.leading > k  # no day before the first to take warmth from
        begun += lit[:, at] * ~lost
        if enough:
            soon[(begun >= c["need"]) & (soon < 0)] = k
    # ready: the first day by whose end the sum is there
    apart = np.arange(n)[:, None] * (later.max() + c["need"] + 1e4)  # all seasons in one rising row
    target = c["need"] - begun + later[:, near - 1:near - 1 + s] + apart
    ready = np.searchsorted((later + apart).ravel(), target.ravel()).reshape(n, s) - np.arange(n)[:, None] * days
    ready = np.where(soon >= 0, start + soon, np.minimum(ready, days))
    over = next_kill[:, np.maximum(start, midsummer - 1)] if tender else np.full((n, s), days)
    ready = np.where(ready >= over, days, ready)
    picked = np.minimum(np.ceil(ready + c["picking"]).astype(int), days)
    killed = np.take_along_axis(next_kill, np.minimum(ready, days - 1), axis=1)
    ended = np.minimum(np.where(ready < days, np.minimum(killed, picked), over), bolts)
    known = np.ones((n, s), bool)
    if seasons.any_gone:
        fails = seasons.fails
        early = fails < ended
        known = ~early | (ready < fails) & (fails >= ready + worth)  # else it is picked until the record ends
        ended = np.where(early, fails, ended)
    k = next_kill[:, :s]
    survives = known & ((k > ready) | (k >= ended))
    ripens = known & (ready < days) & (ready + np.where(ended == days, 1, worth) <= ended)
    return np.stack([x.sum(axis=0) for x in (known, survives, ripens, survives & ripens)])
