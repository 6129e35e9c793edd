// Prints what ical.js or node-ical finds in a calendar: one object a UID. With
// "series" as a third argument, what ical.js makes of its series: a list of starts
// and ends a UID.
import { readFileSync } from "node:fs";

const [library, file, series] = process.argv.slice(2);
const text = readFileSync(file, "utf8");
const out = {};

if (library === "ical.js") {
  const { default: ICAL } = await import("ical.js");
  const root = new ICAL.Component(ICAL.parse(text));
  for (const zone of root.getAllSubcomponents("vtimezone")) {
    ICAL.TimezoneService.register(new ICAL.Timezone(zone));
  }
  for (const component of root.getAllSubcomponents("vevent")) {
    if (series) {
      if (component.hasProperty("recurrence-id")) continue;
      const uid = component.getFirstPropertyValue("uid");
      const exceptions = root
        .getAllSubcomponents("vevent")
        .filter((c) => c.hasProperty("recurrence-id") && c.getFirstPropertyValue("uid") === uid);
      const event = new ICAL.Event(component, { exceptions });
      const list = (out[event.uid] = []);
      const times = event.iterator();
      for (let t = times.next(); t && list.length < 500; t = times.next()) {
        const { startDate, endDate } = event.getOccurrenceDetails(t);
        const show = (t) => new Date(t.toUnixTime() * 1000).toISOString();
        list.push(show(startDate) + " " + show(endDate));
      }
      continue;
    }
    const event = new ICAL.Event(component);
    const show = (t) => (t.isDate ? t.toString() : new Date(t.toUnixTime() * 1000).toISOString());
    out[event.uid] = {
      start: show(event.startDate),
      end: component.hasProperty("dtend") ? show(event.endDate) : "",
      summary: event.summary ?? "",
      description: event.description ?? "",
      status: component.getFirstPropertyValue("status"),
      sequence: event.sequence,
    };
  }
} else {
  const { default: ical } = await import("node-ical");
  for (const event of Object.values(ical.sync.parseICS(text))) {
    if (event.type !== "VEVENT") continue;
    const two = (n) => String(n).padStart(2, "0");
    const show = (d) =>
      event.datetype === "date"
        ? `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}`
        : new Date(d).toISOString();
    out[event.uid] = {
      start: show(event.start),
      end: event.end ? show(event.end) : "",
      summary: event.summary ?? "",
      description: event.description ?? "",
      status: event.status,
      sequence: Number(event.sequence),
    };
  }
}
process.stdout.write(JSON.stringify(out));
