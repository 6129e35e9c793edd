// Prints what ical.js or node-ical finds in a calendar: one object a UID.
import { readFileSync } from "node:fs";

const [library, file] = process.argv.slice(2);
const text = readFileSync(file, "utf8");
const out = {};

if (library === "ical.js") {
  const { default: ICAL } = await import("ical.js");
  const root = new ICAL.Component(ICAL.parse(text));
  for (const zone of root.getAllSubcomponents("vtimezone")) {
    ICAL.TimezoneService.register(new ICAL.Timezone(zone));
  }
  for (const component of root.getAllSubcomponents("vevent")) {
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
