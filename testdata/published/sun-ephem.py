"""Writes sun-ephem.csv: sunrise and sunset from PyEphem, as an oracle for climate/sun.go.

Run with Debian's python3-ephem 4.1.4:  python3 testdata/published/sun-ephem.py > testdata/published/sun-ephem.csv
"""
import ephem

PLACES = [(0, 0), (-41.3, 174.8), (-33.0, -71.0), (35.0, 136.0), (40.0, -105.0), (52.0, 5.0), (57.5, -4.0), (60.0, 25.0),
          (64.14, -21.9), (65.0, 25.0), (69.65, 18.96), (-54.8, -68.3)]
DATES = ["2026-%02d-15" % m for m in range(1, 13)] + ["2026-06-21", "2026-12-21", "2028-02-29", "1955-05-24", "2026-03-21"]

print("# Sunrise and sunset as hours from 0 h UTC of the date, made by testdata/published/sun-ephem.py with Debian's")
print("# python3-ephem %s: horizon -0.833 degrees to the sun's centre, pressure 0. The rising before and the setting after" % ephem.__version__)
print("# the sun's transit nearest to 12 h local mean time. up: above all day; down: below all day.")
print("date,latitude,longitude,state,rise,set,source")
for lat, lon in PLACES:
    for date in DATES:
        o = ephem.Observer()
        o.lat, o.lon, o.pressure, o.horizon = str(lat), str(lon), 0, "-0.833"
        start = ephem.Date(date.replace("-", "/"))
        o.date = start + (12 - lon / 15) / 24 - 0.3
        noon = o.next_transit(ephem.Sun())
        o.date = noon
        try:
            rise = o.previous_rising(ephem.Sun(), use_center=True)
            o.date = noon
            sett = o.next_setting(ephem.Sun(), use_center=True)
            print("%s,%s,%s,ordinary,%.5f,%.5f,PyEphem" % (date, lat, lon, (rise - start) * 24, (sett - start) * 24))
        except ephem.AlwaysUpError:
            print("%s,%s,%s,up,,,PyEphem" % (date, lat, lon))
        except ephem.NeverUpError:
            print("%s,%s,%s,down,,,PyEphem" % (date, lat, lon))
