#!/usr/bin/env python3
"""Writes one invented station's days in the layouts of archives, as their public descriptions give them, and reads
each again with pandas, an independent parse, into expected.csv. Run in this folder; needs pandas (1.5.3 was used)
and openpyxl (3.0.9). The days are those of ../formats/plain.csv, which are invented."""
import csv, datetime as dt, io, json, math
import pandas as pd

days = [(dt.date.fromisoformat(r["date"]), r["tmin"], r["tmax"]) for r in csv.DictReader(open("../formats/plain.csv"))]
num = lambda s: float(s) if s not in ("", None) else math.nan
days = [(d, num(a), num(b)) for d, a, b in days]
few = days[:60]
manifest, expected = [], []


def say(v, missing="", f="{:.1f}", comma=False):
    s = missing if math.isnan(v) else f.format(v)
    return s.replace(".", ",") if comma else s


def tenths(v, missing="-9999"):
    return missing if math.isnan(v) else str(round(v * 10))


def fahr(v, missing=""):
    return missing if math.isnan(v) else str(round(v * 1.8 + 32))


def write(name, text, encoding="utf-8"):
    with open(name, "w", encoding=encoding, newline="") as f:
        f.write(text)


def layout(name, files, source, frame):
    """frame has date, tmin and tmax in °C, as pandas reads the files."""
    manifest.append((name, " ".join(files), source))
    for r in frame.itertuples():
        lo, hi = round(r.tmin, 3), round(r.tmax, 3)
        if not (math.isnan(lo) and math.isnan(hi)):
            expected.append((name, pd.Timestamp(r.date).date().isoformat(), "" if math.isnan(lo) else f"{lo:.3f}", "" if math.isnan(hi) else f"{hi:.3f}"))


def table(f, date="date", tmin="tmin", tmax="tmax", unit=lambda v: v, fmt=None, **kw):
    t = pd.read_csv(f, skipinitialspace=True, **kw)
    out = pd.DataFrame({"date": pd.to_datetime(t[date].astype(str).str.strip(), format=fmt)})
    for to, of in (("tmin", tmin), ("tmax", tmax)):
        v = t[of] if of else pd.Series([math.nan] * len(t))
        v = pd.to_numeric(v.astype(str).str.strip().str.replace(",", ".", regex=False), errors="coerce")
        out[to] = unit(v.where((v > -990) & (v < 990) | (v.abs() < 990) ))
    return out


def marry(a, b):
    m = a[["date", "tmin"]].merge(b[["date", "tmax"]], on="date", how="outer").sort_values("date")
    return m


F = lambda v: (v - 32) / 1.8
T = lambda v: v / 10

# Met Éireann: preamble, indicator columns, d-mmm-yyyy.
write("met-eireann.csv", "Station Name: NOWHERE\nStation Height: 20 M \nLatitude:51.500  ,Longitude: -0.100\n\n\ndate:   -  00 to 00 utc\nmaxtp:  -  Maximum Air Temperature (C)\t\nmintp:  -  Minimum  Air Temperature (C)\ngmin:   -  09utc Grass Minimum Temperature (C)\nind:    -  Indicator (i)\n\ndate,ind,maxtp,ind,mintp,igmin,gmin,ind,rain\n"
      + "".join(f"{d:%d-%b-%Y},0,{say(b,' ')},0,{say(a,' ')},0,{say(a-2,' ')},0,0.0\n".lower() for d, a, b in few))
layout("Met Éireann daily", ["met-eireann.csv"], "head of a real file; key in the file", table("met-eireann.csv", tmin="mintp", tmax="maxtp", skiprows=11, fmt="%d-%b-%Y"))

# Bureau of Meteorology: minimum and maximum apart.
for e, col in (("min", "Minimum"), ("max", "Maximum")):
    rows = f"Product code,Bureau of Meteorology station number,Year,Month,Day,{col} temperature (Degree C),Days of accumulation of {e}imum temperature,Quality\n"
    for i, (d, a, b) in enumerate(few):
        v = a if e == "min" else b
        rows += f"IDCJAC001{0 if e=='max' else 1},000001,{d.year},{d.month:02d},{d.day:02d},{say(v)},{2 if i == 30 else 1},{'S' if i == 31 else 'Y'}\n"
    write(f"bom-{e}.csv", rows)
def bom(f, col, to):
    t = pd.read_csv(f)
    n = [c for c in t.columns if "accumulation" in c][0]
    v = t[col].where((t[n] <= 1) & (t["Quality"] != "S"))
    return pd.DataFrame({"date": pd.to_datetime(t[["Year", "Month", "Day"]]), to: v})
layout("Bureau of Meteorology", ["bom-min.csv", "bom-max.csv"], "head of a real file; notes to accompany daily data", marry(bom("bom-min.csv", "Minimum temperature (Degree C)", "tmin"), bom("bom-max.csv", "Maximum temperature (Degree C)", "tmax")))

# Environment Canada: a year a file, preamble repeated, byte order mark.
pre = '"Station Name","NOWHERE"\n"Province","BRITISH COLUMBIA"\n"Latitude","51.50"\n"Longitude","-0.10"\n"Elevation","20.00"\n\n"Legend"\n"M","Missing"\n"N","Temperature missing but known to be > 0"\n\n"Date/Time","Year","Month","Day","Data Quality","Max Temp (°C)","Max Temp Flag","Min Temp (°C)","Min Temp Flag","Mean Temp (°C)","Mean Temp Flag"\n'
years = {}
for d, a, b in days:
    years.setdefault(d.year, []).append(f'"{d}","{d.year}","{d.month:02d}","{d.day:02d}","","{say(b)}","{"M" if math.isnan(b) else ""}","{say(a)}","","{say((a+b)/2)}",""\n')
for y, rows in years.items():
    write(f"canada-{y}.csv", "\ufeff" + pre + "".join(rows))
layout("Environment Canada", [f"canada-{y}.csv" for y in years], "head of a real file", pd.concat([table(f"canada-{y}.csv", "Date/Time", "Min Temp (°C)", "Max Temp (°C)", skiprows=9, encoding="utf-8-sig") for y in years]))

# Climate Data Online in three units, with and without attributes.
for u, fn, back, name in (("c", say, lambda v: v, "°C"), ("f", fahr, F, "°F"), ("tenths", tenths, T, "tenths of °C")):
    for att in (False, True):
        f = f"cdo-{u}{'-attributes' if att else ''}.csv"
        head = '"STATION","NAME","DATE","PRCP"' + ('"PRCP_ATTRIBUTES",' if False else "") + (',"TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"' if att else ',"TMAX","TMIN"') + "\n"
        rows = ""
        for d, a, b in days:
            m = lambda v: (f'"{fn(v)}"' if not math.isnan(v) else "") + ((',",,7,0700"' if not math.isnan(v) else ",") if att else "")
            rows += f'"XX000000001","NOWHERE, XX US","{d}","0.00",{m(b)},{m(a)}\n'
        write(f, head + rows)
        layout(f"Climate Data Online, {name}{', attributes' if att else ''}", [f], "NOAA GHCND documentation; head of a real file for °F", table(f, "DATE", "TMIN", "TMAX", back))

# GSOD.
write("gsod.csv", '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","TEMP","TEMP_ATTRIBUTES","DEWP","DEWP_ATTRIBUTES","MAX","MAX_ATTRIBUTES","MIN","MIN_ATTRIBUTES","PRCP"\n'
      + "".join(f'"00000100001","{d}","51.5","-0.1","20.0","NOWHERE, XX","  44.2","24","  40.1","24","{fahr(b,"9999.9"):>6}"," ","{fahr(a,"9999.9"):>6}","*"," 0.00"\n' for d, a, b in few))
layout("NOAA Global Summary of the Day", ["gsod.csv"], "NOAA GSOD readme", table("gsod.csv", "DATE", "MIN", "MAX", F))

# MIDAS Open: BADC-CSV with rows of 24 and of 12 hours; a maximum at 09 is that of the day before.
badc = "Conventions,G,BADC-CSV,1\ntitle,G,uk-daily-temperature-obs\nlocation,G,51.5,-0.1\nheight,G,20,m\nlong_name,max_air_temp,maximum air temperature,degC\ndata\nob_end_time,id_type,id,ob_hour_count,met_domain_name,version_num,src_id,rec_st_ind,max_air_temp,min_air_temp,min_grss_temp\n"
def midas(name, hours):
    rows = badc
    for i, (d, a, b) in enumerate(few):
        before = few[i - 1][2] if i else math.nan
        for v in (0, 1):
            if hours == 24:
                rows += f"{d} 09:00:00,DCNN,1,24,NCM,{v},1,1,{say(before + (5 if v == 0 else 0),'NA')},{say(a,'NA')},NA\n"
            elif v == 1:
                rows += f"{d} 09:00:00,DCNN,1,12,SYNOP,1,1,1,{say(before-2,'NA')},{say(a,'NA')},NA\n{d} 21:00:00,DCNN,1,12,SYNOP,1,1,1,{say(b,'NA')},{say(a+1.5,'NA')},NA\n"
    write(name, rows + "end data\n")
    t = pd.read_csv(name, skiprows=6, skipfooter=1, engine="python", parse_dates=["ob_end_time"])
    t = t[t.version_num == 1]
    t["night"] = (t.ob_end_time - pd.Timedelta(hours=9)).dt.ceil("D")
    lo = t.groupby("night").min_air_temp.min()
    hi = t.groupby(t.night - pd.Timedelta(days=1)).max_air_temp.max()
    whole = t.groupby(t.night - pd.Timedelta(days=1)).ob_end_time.apply(lambda x: (x.dt.hour == 21).any()) | (hours == 24)
    morning = t.groupby("night").ob_end_time.apply(lambda x: (x.dt.hour == 9).any())
    m = pd.DataFrame({"tmin": lo.where(morning), "tmax": hi.where(whole)}).reset_index().rename(columns={"index": "date", "night": "date"})
    layout(f"MIDAS Open, {hours}-hour rows", [name], "MIDAS user guide, table TD; BADC-CSV guide", m)
midas("midas-24.csv", 24)
midas("midas-12.csv", 12)

# Météo-France.
write("meteo-france.csv", "NUM_POSTE;NOM_USUEL;LAT;LON;ALTI;AAAAMMJJ;RR;QRR;TN;QTN;HTN;QHTN;TX;QTX;HTX;QHTX;TM;QTM\n"
      + "".join(f"01000001;NOWHERE;51.5;-0.1;20;{d:%Y%m%d};0.0;1;{say(a)};{2 if i == 5 else 1};0500;9;{say(b)};1;1500;9;;\n" for i, (d, a, b) in enumerate(few)))
t = table("meteo-france.csv", "AAAAMMJJ", "TN", "TX", sep=";"); t.loc[pd.read_csv("meteo-france.csv", sep=";").QTN == 2, "tmin"] = math.nan
layout("Météo-France daily", ["meteo-france.csv"], "descriptif des champs, données quotidiennes", t)

# MeteoSwiss, the open data of today and the older network file.
write("meteoswiss.csv", "station_abbreviation;reference_timestamp;tre200d0;tre200dx;tre200dn;rre150d0\n" + "".join(f"XXX;{d:%d.%m.%Y} 00:00;{say((a+b)/2)};{say(b)};{say(a)};0\n" for d, a, b in few))
layout("MeteoSwiss daily", ["meteoswiss.csv"], "MeteoSwiss open data, parameter list", table("meteoswiss.csv", "reference_timestamp", "tre200dn", "tre200dx", sep=";", fmt="%d.%m.%Y %H:%M"))
write("meteoswiss-nbcn.csv", "station/location;date;gre000d0;hto000d0;tre200d0;tre200dn;tre200dx;ure200d0\n" + "".join(f"XXX;{d:%Y%m%d};1;-;{say((a+b)/2,'-')};{say(a,'-')};{say(b,'-')};80\n" for d, a, b in few))
layout("MeteoSwiss NBCN", ["meteoswiss-nbcn.csv"], "legend of the NBCN daily files", table("meteoswiss-nbcn.csv", "date", "tre200dn", "tre200dx", sep=";"))

# SMHI: minimum and maximum apart.
for e in ("min", "max"):
    write(f"smhi-{e}.csv", f"Stationsnamn;Stationsnummer;Stationsnät;Mäthöjd (meter över marken)\nNowhere;1;SMHIs stationsnät;2.0\n\nParameternamn;Beskrivning;Enhet\nLufttemperatur;{e}, 1 gång per dygn;celsius\n\nTidsperiod (fr.o.m);Tidsperiod (t.o.m);Höjd (meter över havet);Latitud (decimalgrader);Longitud (decimalgrader)\n2001-01-01 00:00:00;2001-03-01 00:00:00;20;51.5000;-0.1000\n\nFrån Datum Tid (UTC);Till Datum Tid (UTC);Representativt dygn;Lufttemperatur;Kvalitet;;Tidsutsnitt:\n"
          + "".join(f"{d-dt.timedelta(1)} 18:00:01;{d} 18:00:00;{d};{v:.1f};G;;\n" for d, a, b in few for v in [a if e == "min" else b] if not math.isnan(v)))
s = [table(f"smhi-{e}.csv", "Representativt dygn", "Lufttemperatur", "Lufttemperatur", sep=";", skiprows=9) for e in ("min", "max")]
layout("SMHI daily", ["smhi-min.csv", "smhi-max.csv"], "SMHI open data, metobs CSV", marry(*s))

# met.no.
write("met-no.csv", "Navn;Stasjon;Tid(norsk normaltid);Maksimumstemperatur (døgn);Minimumstemperatur (døgn)\n" + "".join(f"Nowhere;SN1;{d:%d.%m.%Y};{say(b,'-',comma=True)};{say(a,'-',comma=True)}\n" for d, a, b in few) + "Data er gyldig per 01.03.2001 (CC BY 4.0), Meteorologisk institutt (MET);;;;\n")
t = table("met-no.csv", "Tid(norsk normaltid)", "Minimumstemperatur (døgn)", "Maksimumstemperatur (døgn)", sep=";", skipfooter=1, engine="python", fmt="%d.%m.%Y")
layout("met.no daily", ["met-no.csv"], "Norwegian climate service, export", t)

# FMI in English and Finnish.
write("fmi-en.csv", "Observation station,Year,Month,Day,Time [Local time],Maximum temperature [°C],Minimum temperature [°C]\n" + "".join(f"Nowhere,{d.year},{d.month},{d.day},00:00,{say(b,'-')},{say(a,'-')}\n" for d, a, b in few))
write("fmi-fi.csv", "Havaintoasema,Vuosi,Kuukausi,Päivä,Aika [Paikallinen aika],Ylin lämpötila [°C],Alin lämpötila [°C]\n" + "".join(f"Nowhere,{d.year},{d.month},{d.day},00:00,{say(b,'-')},{say(a,'-')}\n" for d, a, b in few))
for f, y, lo, hi in (("fmi-en.csv", ["Year", "Month", "Day"], "Minimum temperature [°C]", "Maximum temperature [°C]"), ("fmi-fi.csv", ["Vuosi", "Kuukausi", "Päivä"], "Alin lämpötila [°C]", "Ylin lämpötila [°C]")):
    t = pd.read_csv(f); t["d"] = pd.to_datetime(t[y].rename(columns=dict(zip(y, ["year", "month", "day"]))))
    t.to_csv("/tmp/fmi.csv", index=False)
    layout(f"FMI daily ({f[4:6]})", [f], "FMI download of observations", table("/tmp/fmi.csv", "d", lo, hi))

# IMGW: no heading, Windows-1250 names, status 8 is "not measured".
write("imgw.csv", "".join(f'"249200150","NIGDZIE","{d.year}","{d.month:02d}","{d.day:02d}",{say(b,"0")},"{"8" if math.isnan(b) else ""}",{say(a,"0")},"{"8" if math.isnan(a) else ""}",1.0,"",-2.0,"",0,"9","",0,"9"\n' for d, a, b in few), "cp1250")
t = pd.read_csv("imgw.csv", header=None, encoding="cp1250"); t["date"] = pd.to_datetime(dict(year=t[2], month=t[3], day=t[4]))
layout("IMGW daily", ["imgw.csv"], "IMGW k_d_format.txt", pd.DataFrame({"date": t.date, "tmin": t[7].where(t[8] != 8), "tmax": t[5].where(t[6] != 8)}))

# ECA&D blended: quality codes, tenths.
for e, w in (("TN", "minimum"), ("TX", "maximum")):
    write(f"ecad-{e.lower()}.txt", f"EUROPEAN CLIMATE ASSESSMENT & DATASET (ECA&D), file created on: 01-01-2026\n\nFILE FORMAT (MISSING VALUE CODE IS -9999):\n\n01-06 STAID: Station identifier\n08-13 SOUID: Source identifier\n15-22 DATE : Date YYYYMMDD\n24-28 {e}   : {w} temperature in 0.1 &#176;C\n30-34 Q_{e} : Quality code for {e} (0='valid'; 1='suspect'; 9='missing')\n\nThis is the blended series of station NOWHERE (STAID: 1)\n\nSTAID, SOUID,    DATE,   {e}, Q_{e}\n"
          + "".join(f"     1,     7,{d:%Y%m%d},{tenths(v):>5},{9 if math.isnan(v) else 1 if i == 9 else 0:>5}\n" for i, (d, a, b) in enumerate(few) for v in [a if e == "TN" else b]))
def eca(e, to):
    t = pd.read_csv(f"ecad-{e.lower()}.txt", skiprows=12, skipinitialspace=True); t.columns = [c.strip() for c in t.columns]
    return pd.DataFrame({"date": pd.to_datetime(t.DATE.astype(str)), to: (t[e] / 10).where(t[f"Q_{e}"] == 0)})
layout("ECA&D blended", ["ecad-tn.txt", "ecad-tx.txt"], "key in the file's own preamble", marry(eca("TN", "tmin"), eca("TX", "tmax")))

# DWD.
head = "STATIONS_ID;MESS_DATUM;QN_3;  FX;  FM;QN_4; RSK;RSKF; SDK;SHK_TAG;  NM; VPM;  PM; TMK; UPM; TXK; TNK; TGK;eor\n"
write("dwd.txt", head + "".join(f"       1;{d:%Y%m%d};-999;-999;-999;   10; 0.0;   6;-999;   0;-999;-999;-999; 1.0;80.00;{say(b,'-999'):>5};{say(a,'-999'):>5};-2.0;eor\n" for d, a, b in few))
t = pd.read_csv("dwd.txt", sep=";", skipinitialspace=True); t.columns = [c.strip() for c in t.columns]; t.to_csv("/tmp/dwd.csv", index=False)
layout("DWD daily", ["dwd.txt"], "DWD description of daily KL", table("/tmp/dwd.csv", "MESS_DATUM", "TNK", "TXK"))
write("dwd-comma.csv", "Datum;Höchsttemperatur in °C;Tiefsttemperatur in °C;Tagesmittel\n" + "".join(f"{d:%d.%m.%Y};{say(b,comma=True)};{say(a,comma=True)};{say((a+b)/2,comma=True)}\n" for d, a, b in few), "latin-1")
layout("German table, decimal commas, Latin-1", ["dwd-comma.csv"], "common practice, no source", table("dwd-comma.csv", "Datum", "Tiefsttemperatur in °C", "Höchsttemperatur in °C", sep=";", encoding="latin-1", fmt="%d.%m.%Y"))

# AEMET.
cols = ["fecha", "indicativo", "nombre", "provincia", "altitud", "tmed", "prec", "tmin", "horatmin", "tmax", "horatmax"]
rows = [dict(zip(cols, [str(d), "0000X", "NOWHERE", "NADA", "20", say((a + b) / 2, comma=True), "0,0", say(a, comma=True), "05:00", say(b, comma=True), "15:00"])) for d, a, b in few]
write("aemet.csv", ",".join(f'"{c}"' for c in cols) + "\n" + "".join(",".join(f'"{r[c]}"' for c in cols) + "\n" for r in rows))
layout("AEMET CSV", ["aemet.csv"], "AEMET OpenData metadata", table("aemet.csv", "fecha"))
write("aemet.json", json.dumps([{k: v for k, v in r.items() if v} for r in rows], indent=1, ensure_ascii=False))
pd.DataFrame(json.load(open("aemet.json"))).to_csv("/tmp/aemet.csv", index=False)
layout("AEMET JSON", ["aemet.json"], "AEMET OpenData metadata", table("/tmp/aemet.csv", "fecha"))

# Meteostat with and without a heading.
body = "".join(f"{d},{say((a+b)/2)},{say(a)},{say(b)},0.0,,,,,,\n" for d, a, b in few)
write("meteostat.csv", "date,tavg,tmin,tmax,prcp,snow,wdir,wspd,wpgt,pres,tsun\n" + body)
layout("Meteostat daily", ["meteostat.csv"], "Meteostat bulk data documentation", table("meteostat.csv"))
write("meteostat-bulk.csv", body)
layout("Meteostat, no heading", ["meteostat-bulk.csv"], "Meteostat bulk data documentation", table("meteostat-bulk.csv", 0, 2, 3, header=None))

# Archives with a preamble of metadata, daily and hourly, CSV and JSON.
meta = "latitude,longitude,elevation,utc_offset_seconds,timezone,timezone_abbreviation\n51.5,-0.1,20.0,0,GMT,GMT\n\n"
write("archive-daily.csv", meta + "time,temperature_2m_max (°C),temperature_2m_min (°C)\n" + "".join(f"{d},{say(b)},{say(a)}\n" for d, a, b in few))
layout("Archive daily CSV", ["archive-daily.csv"], "Open-Meteo documentation", table("archive-daily.csv", "time", "temperature_2m_min (°C)", "temperature_2m_max (°C)", skiprows=3))
none = lambda v: None if math.isnan(v) else v
write("archive-daily.json", json.dumps({"latitude": 51.5, "longitude": -0.1, "elevation": 20.0, "daily_units": {"time": "iso8601", "temperature_2m_max": "°F", "temperature_2m_min": "°F"}, "daily": {"time": [str(d) for d, a, b in few], "temperature_2m_max": [none(b * 1.8 + 32) for d, a, b in few], "temperature_2m_min": [none(a * 1.8 + 32) for d, a, b in few]}}))
t = pd.DataFrame(json.load(open("archive-daily.json"))["daily"]); t.to_csv("/tmp/om.csv", index=False)
layout("Archive daily JSON, °F", ["archive-daily.json"], "Open-Meteo documentation", table("/tmp/om.csv", "time", "temperature_2m_min", "temperature_2m_max", F))


def readings(step, days):
    """the minimum at 05:00, the maximum at 15:00, lines between; a day without both is left out"""
    at = []
    for d, a, b in days:
        if not (math.isnan(a) or math.isnan(b)):
            at += [(dt.datetime(d.year, d.month, d.day, 5), a), (dt.datetime(d.year, d.month, d.day, 15), b)]
    whole = {d for d, a, b in days if not (math.isnan(a) or math.isnan(b))}
    out, k = [], 0
    t = dt.datetime.combine(days[0][0], dt.time())
    while t < dt.datetime.combine(days[-1][0], dt.time()) + dt.timedelta(1):
        while k + 1 < len(at) and at[k + 1][0] <= t:
            k += 1
        (t0, v0), (t1, v1) = at[k], at[min(k + 1, len(at) - 1)]
        v = v0 if t <= t0 or t1 == t0 else v0 + (v1 - v0) * min(1, (t - t0) / (t1 - t0))
        if t.date() in whole and not (t.date() == days[20][0] and 2 <= t.hour < 10):
            out.append((t, v))
        t += dt.timedelta(minutes=step)
    return out


def byday(t, when, value, unit=lambda v: v):
    t = pd.DataFrame({"when": pd.to_datetime(t[when]).dt.tz_localize(None), "v": unit(pd.to_numeric(t[value], errors="coerce"))}).dropna().sort_values("when")
    def day(g):
        gap = g.when.diff().max()
        ok = g.when.dt.hour.nunique() >= 20 and not gap > pd.Timedelta(hours=3)
        return pd.Series({"tmin": g.v.min() if ok else math.nan, "tmax": g.v.max() if ok else math.nan})
    return t.groupby(t.when.dt.date).apply(day).reset_index().rename(columns={"when": "date"})


hourly = readings(60, few)
write("archive-hourly.csv", meta + "time,temperature_2m (°C)\n" + "".join(f"{t:%Y-%m-%dT%H:%M},{v:.1f}\n" for t, v in hourly))
layout("Archive hourly CSV", ["archive-hourly.csv"], "Open-Meteo documentation", byday(pd.read_csv("archive-hourly.csv", skiprows=3), "time", "temperature_2m (°C)"))
write("archive-hourly.json", json.dumps({"latitude": 51.5, "longitude": -0.1, "hourly_units": {"time": "iso8601", "temperature_2m": "°C"}, "hourly": {"time": [f"{t:%Y-%m-%dT%H:%M}" for t, v in hourly], "temperature_2m": [round(v, 1) for t, v in hourly]}}))
layout("Archive hourly JSON", ["archive-hourly.json"], "Open-Meteo documentation", byday(pd.DataFrame(json.load(open("archive-hourly.json"))["hourly"]), "time", "temperature_2m"))
fine = readings(30, few[:32])
write("weather-station.csv", "Date,Time,Outdoor Temperature (°F),Humidity (%)\n" + "".join(f"{t:%m/%d/%Y},{t:%I:%M %p},{v*1.8+32:.1f},80\n" for t, v in fine))
t = pd.read_csv("weather-station.csv"); t["when"] = pd.to_datetime(t.Date + " " + t.Time, format="%m/%d/%Y %I:%M %p")
layout("Weather station, half-hourly, °F", ["weather-station.csv"], "common practice, no source", byday(t, "when", "Outdoor Temperature (°F)", F))
write("home-history.csv", "entity_id,state,last_changed\n" + "".join(f"sensor.garden_temperature,{'unavailable' if i == 7 else format(v,'.1f')},{t:%Y-%m-%dT%H:%M:%S}.000Z\n" for i, (t, v) in enumerate(fine)))
layout("Home-automation history, UTC", ["home-history.csv"], "common practice, no source", byday(pd.read_csv("home-history.csv"), "last_changed", "state"))

# HadCET's daily tables, minimum and maximum apart, and its later lists.
for e in ("min", "max"):
    grid = {(d.year, d.month, d.day): (a if e == "min" else b) for d, a, b in days}
    rows = ""
    for y in sorted({k[0] for k in grid}):
        for day in range(1, 32):
            rows += f"{y:5d}{day:5d}" + "".join(f"{'-999' if math.isnan(grid.get((y, m, day), math.nan)) else round(grid[(y, m, day)] * 10):>5}" for m in range(1, 13)) + "\n"
    write(f"hadcet-{e}.txt", rows)
    write(f"{e}temp-daily-totals.txt", "Date         Value\n" + "".join(f"{d}  {v:6.1f}\n" for d, a, b in days for v in [a if e == "min" else b] if not math.isnan(v)))
def cet(f, to):
    t = pd.read_csv(f, sep=r"\s+", header=None).melt([0, 1]); t["date"] = pd.to_datetime(dict(year=t[0], month=t.variable - 1, day=t[1]), errors="coerce")
    return pd.DataFrame({"date": t.date, to: (t.value / 10).where(t.value > -999)}).dropna()
layout("HadCET tables", ["hadcet-min.txt", "hadcet-max.txt"], "HadCET format of daily tables", marry(cet("hadcet-min.txt", "tmin"), cet("hadcet-max.txt", "tmax")))
s = [pd.read_csv(f"{e}temp-daily-totals.txt", sep=r"\s+").rename(columns={"Date": "date", "Value": "t" + e}).assign(date=lambda t: pd.to_datetime(t.date)) for e in ("min", "max")]
layout("HadCET lists", ["mintemp-daily-totals.txt", "maxtemp-daily-totals.txt"], "HadCET data page", marry(*s))

# A spreadsheet, and a notebook typed by hand with blank days.
pd.DataFrame({"Date": [pd.Timestamp(d) for d, a, b in few], "Min (°C)": [a for d, a, b in few], "Max (°C)": [b for d, a, b in few]}).to_excel("sheet.xlsx", index=False)
x = pd.read_excel("sheet.xlsx")
layout("Spreadsheet (.xlsx)", ["sheet.xlsx"], "ECMA-376", pd.DataFrame({"date": x.Date, "tmin": x["Min (°C)"], "tmax": x["Max (°C)"]}))
write("notebook.txt", "My thermometer, in degrees Celsius, min and max\n\ndate   min  max  notes\n" + "".join(f"{d.day}/{d.month}/{d:%y}" + ("" if math.isnan(a) or math.isnan(b) else f"  {a:.1f}  {b:.1f}") + ("  hard frost" if a < -3 and not math.isnan(b) else "") + "\n" for d, a, b in few))
rows = [l.split() for l in open("notebook.txt").read().splitlines()[3:]]
layout("Notebook typed by hand", ["notebook.txt"], "invented", pd.DataFrame([(dt.datetime.strptime(r[0], "%d/%m/%y"), float(r[1]) if len(r) > 2 else math.nan, float(r[2]) if len(r) > 2 else math.nan) for r in rows], columns=["date", "tmin", "tmax"]))

with open("layouts.csv", "w", newline="") as f:
    csv.writer(f, lineterminator="\n").writerows([("layout", "files", "source")] + manifest)
with open("expected.csv", "w", newline="") as f:
    csv.writer(f, lineterminator="\n").writerows([("layout", "date", "tmin", "tmax")] + expected)
print(len(manifest), "layouts,", len(expected), "days")
