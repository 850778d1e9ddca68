"""Reads a calendar with the icalendar package; a line an event, and no id twice.

    read_calendar.py FILE"""

import pathlib
import sys

import icalendar

calendar = icalendar.Calendar.from_ical(pathlib.Path(sys.argv[1]).read_bytes())
assert not calendar.errors, calendar.errors
events = list(calendar.walk("VEVENT"))
assert all(not event.errors for event in events)
assert len({str(event["uid"]) for event in events}) == len(events)
for event in events:
    start, end = event.decoded("dtstart"), event.decoded("dtend")
    print(start.isoformat(), end.isoformat(), event["status"], event["summary"])
