"""Reads an iCalendar file from standard input with the icalendar package and prints
its events as JSON, for the tests of package calendar."""
import json
import sys

import icalendar

cal = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
events = []
for e in cal.walk("VEVENT"):
    cats = e.get("CATEGORIES")
    events.append({
        "UID": str(e["UID"]),
        "Start": e["DTSTART"].dt.isoformat(),
        "End": e["DTEND"].dt.isoformat(),
        "Stamp": e["DTSTAMP"].dt.isoformat(),
        "Title": str(e["SUMMARY"]),
        "Text": str(e.get("DESCRIPTION", "")),
        "Place": str(e.get("LOCATION", "")),
        "Status": str(e.get("STATUS", "")),
        "Sequence": int(e["SEQUENCE"]),
        "Categories": [str(c) for c in cats.cats] if cats is not None else [],
    })
json.dump(events, sys.stdout)
