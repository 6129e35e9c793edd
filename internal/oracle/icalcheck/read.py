"""Prints what icalendar finds in a calendar: one object a UID."""
import datetime
import json
import sys

import icalendar


def show(value):
    if not isinstance(value, datetime.datetime):
        return value.isoformat()
    utc = value.astimezone(datetime.timezone.utc)
    return utc.strftime("%Y-%m-%dT%H:%M:%S.000Z")


out = {}
with open(sys.argv[1], "rb") as f:
    calendar = icalendar.Calendar.from_ical(f.read())
for event in calendar.walk("VEVENT"):
    out[str(event["UID"])] = {
        "start": show(event["DTSTART"].dt),
        "end": show(event["DTEND"].dt) if "DTEND" in event else "",
        "summary": str(event.get("SUMMARY", "")),
        "description": str(event.get("DESCRIPTION", "")),
        "status": str(event["STATUS"]),
        "sequence": int(event["SEQUENCE"]),
    }
json.dump(out, sys.stdout)
