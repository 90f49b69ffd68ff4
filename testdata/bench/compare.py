"""Sets the frosts that job.py found beside those of the program: compare.py py.json out.jsonl."""
import datetime
import json
import math
import sys

WAYS, CHANCES = ("record", "curve"), (10, 20, 50, 80, 90)


def day(v):
    if v is None or math.isnan(v):
        return None
    if math.isinf(v):
        return "none"
    d = int(math.floor(abs(v) + 0.5) * (1 if v >= 0 else -1))  # halves away from 0, as the program rounds
    return (datetime.date(2001, 1, 1) + datetime.timedelta(d % 365)).strftime("%m-%d")


def key(t):
    return ("minus_" if t < 0 else "") + f"{abs(t):g}c"


def main():
    with open(sys.argv[1]) as f:
        python = json.load(f)
    compared = apart = 0
    for line in open(sys.argv[2]):
        row = json.loads(line)
        mine = python.get(row["source"])
        if mine is None:
            continue

        def same(name, a, b):
            nonlocal compared, apart
            compared += 1
            if a != b:
                apart += 1
                print(f"{row['source']} {name}: python {a}, program {b}"[:160])
        for t in (-4, -2, 0, 2):
            for half in ("spring", "autumn", "frost_free_days"):
                for way in WAYS:
                    for c in CHANCES:
                        values = mine[f"frosts {t}"][f"{half} {way} {c / 100:g}"]
                        for v, end in zip(values, ("", "_low", "_high")):
                            name = f"{half}_{key(t)}_{way}_{c}{end}"
                            got = row[name]
                            if half == "frost_free_days":
                                want = None if math.isnan(v) else "none" if math.isinf(v) else v
                                ok = want == got or isinstance(got, (int, float)) and not isinstance(want, (str, type(None))) and abs(want - got) <= 0.51
                                same(name, got if ok else want, got)
                            else:
                                # intervals are found to 1e-6 of a day; one that falls on a half may round either way
                                close = {day(v)} | ({day(v - 1e-4), day(v + 1e-4)} if math.isfinite(v) else set())
                                same(name, got if got in close else day(v), got)
    print(f"{compared} results compared, {apart} differ")
    sys.exit(apart > 0 or compared == 0)


if __name__ == "__main__":
    main()
