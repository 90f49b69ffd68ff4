"""A job like that of "frostward stations" for one CSV file after another, in pandas, numpy and
scipy: the same frosts, and crops by plain degree-days; no checks of doubtful values.

Written with care: no loop over days, seasons or planting-out days, and results that do not change
are kept. It prints the seconds of processor time a station took (reading included, the imports
not), and with --out writes the frosts, which compare.py sets beside the program's own, given the same values (--check).

    /usr/bin/python3 job.py --latitude 52 FILE...
"""
import argparse
import ctypes
import json
import os
import subprocess
import time
from types import SimpleNamespace

import numpy as np
import pandas as pd

import job_crops
import job_frosts

THRESHOLDS = (-4.0, -2.0, 0.0, 2.0)
CROPS = ["courgette", "winter squash, early", "cucumber, outdoor", "tomato, early", "sweet pepper", "sweet corn, early",
         "French bean, dwarf", "runner bean", "pea, early", "calabrese", "cabbage, summer", "leek, early"]
FIRST, LAST, AIM = 90, 211, 0.8  # 1 April to 31 July
SPAN, SPAN_FROM = job_frosts.SPAN, job_frosts.SPAN_FROM
MONTH_START = np.array([0, 0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334])
MONTHS = np.repeat(np.arange(12), np.diff(np.append(MONTH_START[1:], 365)))


def read(path, doubtful=()):
    """The calendar of a record and its values, tmin and tmax by days without a break; without the doubtful ones."""
    f = pd.read_csv(path, dtype={"date": "S10", "tmin_c": float, "tmax_c": float}, float_precision="round_trip")
    dates = f["date"].to_numpy().astype("S10").astype("datetime64[D]")
    n = (dates - dates[0]).astype(int)
    v = np.full((2, n[-1] + 1), np.nan)
    v[:, n] = f["tmin_c"], f["tmax_c"]
    for flag in doubtful:
        rows = {"tmin": 0, "tmax": 1}.get(flag["element"], slice(2))  # else both
        v[rows, (np.datetime64(flag["date"]) - dates[0]).astype(int)] = np.nan
    return calendar(dates[0], n[-1] + 1), v


def calendar(first, n):
    """Year, month, day of the month and day of the year (29 February folded into the 28th) of each day."""
    dates = first + np.arange(n)
    m = dates.astype("datetime64[M]")
    month, dom = m.astype(int) % 12 + 1, (dates - m).astype(int) + 1
    day = MONTH_START[month] + np.where((month == 2) & (dom == 29), 28, dom) - 1
    return SimpleNamespace(year=dates.astype("datetime64[Y]").astype(int) + 1970, month=month, dom=dom, day=day)


def seasons(cal, tmin, tmax):
    """Days of years of 365, 29 February folded into the 28th (the colder minimum, the warmer
    maximum), and where among them the seasons' days are, by days of the span."""
    years = cal.year
    leap = np.flatnonzero((cal.month == 2) & (cal.dom == 29))
    lo, hi = tmin.copy(), tmax.copy()
    lo[leap - 1], hi[leap - 1] = np.fmin(lo[leap - 1], lo[leap]), np.fmax(hi[leap - 1], hi[leap])
    keep = np.ones(len(lo), bool)
    keep[leap] = False
    at = (years - years[0])[keep] * 365 + cal.day[keep]
    n = years[-1] - years[0] + 1
    table = np.full((2, (n + 2) * 365), np.nan)
    table[0, at + 365], table[1, at + 365] = lo[keep], hi[keep]
    index = (np.arange(n)[:, None] + 1) * 365 + SPAN_FROM + np.arange(SPAN)
    return table, index


def station(path, crops, latitude, doubtful=()):
    cal, v = read(path, doubtful)
    (lo, hi), index = seasons(cal, *v)
    nights, gone = lo[index], np.isnan(lo + hi)[index]
    # months of the span, numbered along it
    fold = (SPAN_FROM + np.arange(SPAN)) % 365
    month = np.cumsum(np.append(0, np.diff(MONTHS[fold]) != 0))
    result = {}
    bad = job_frosts.spoiled_months(nights, month)
    for t in THRESHOLDS:
        result[f"frosts {t:g}"] = {" ".join(map(str, k)): v for k, v in job_frosts.tables(nights, t, month, bad).items()}
    usual = job_crops.southern(latitude)[2][job_crops.FOLD]
    degree_days, shared = job_crops.DegreeDays(lo, hi), job_crops.Seasons(nights, gone, FIRST, LAST)
    for c in crops:
        counts = job_crops.score(c, shared, degree_days.between(c["base"], c["upper"])[index], usual / c["home"])
        known, _, _, succeeds = counts
        with np.errstate(invalid="ignore", divide="ignore"):
            share = succeeds / known
            low, high = job_crops.wilson(succeeds, known)
        enough = known >= 5
        sound = np.flatnonzero(enough & (low >= AIM))
        best, most = -1, -1.0
        for i, p in enumerate(np.where(enough, share, -1).tolist()):
            if p >= 0 and (best < 0 or p > most + 0.02):
                best, most = i, p
        result[c["name"]] = dict(best=best, first=int(sound[0]) if len(sound) else -1, last=int(sound[-1]) if len(sound) else -1,
                                 by_day=succeeds.tolist(), survives=counts[1].tolist(), ripens=counts[2].tolist(),
                                 low=low[best] if best >= 0 else None, high=high[best] if best >= 0 else None)
    return result


def flags(program, path, latitude):
    found = subprocess.run([program, "check", "--history", path, "--latitude", str(latitude), "--format", "json"], stdout=subprocess.PIPE)
    return json.loads(found.stdout)["flags"]


def keep_memory():
    """Large arrays come and go all the time: without this glibc hands each back to the system,
    which then clears pages anew, a third of all time (M_TRIM_THRESHOLD and M_MMAP_THRESHOLD)."""
    mallopt = getattr(ctypes.CDLL(None), "mallopt", None)
    if mallopt:
        mallopt(-1, 1 << 30)
        mallopt(-3, 32 << 20)


def main():
    p = argparse.ArgumentParser()
    p.add_argument("files", nargs="+")
    p.add_argument("--latitude", type=float, default=52)
    p.add_argument("--catalogue", default=os.path.join(os.path.dirname(__file__), "../../crops/catalogue.csv"))
    p.add_argument("--out")
    p.add_argument("--check", metavar="PROGRAM", help="leave out the values that PROGRAM check doubts, so that results can be compared")
    a = p.parse_args()
    keep_memory()
    crops = job_crops.read_crops(a.catalogue, CROPS)
    station(a.files[0], crops, a.latitude)  # what is kept from station to station is there
    results, begun = {}, time.process_time()
    for path in a.files:
        results[os.path.basename(path)] = station(path, crops, a.latitude, flags(a.check, path, a.latitude) if a.check else ())
    spent = time.process_time() - begun
    if a.out:
        with open(a.out, "w") as f:
            json.dump(results, f, default=float)
    print(f"{spent / len(a.files):.6f}")


if __name__ == "__main__":
    main()
