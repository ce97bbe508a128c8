// Dates as days from 1970-01-01, times of day as seconds after midnight, by the site's own zone.
export const dayOf = iso => Math.round(Date.UTC(+iso.slice(0, 4), +iso.slice(5, 7) - 1, +iso.slice(8, 10)) / 864e5);
export const isoOf = day => new Date(day * 864e5).toISOString().slice(0, 10);
/** Whether a text is a date of the calendar as addresses write it. */
export const isDate = text => /^\d{4}-\d\d-\d\d$/.test(text ?? '') && !Number.isNaN(dayOf(text)) && isoOf(dayOf(text)) === text;
// 1 Monday to 7 Sunday.
export const weekdayOf = day => ((day + 3) % 7 + 7) % 7 + 1;
const remainder = (a, n) => ((a % n) + n) % n;

function partsAt(zone, instant) {
  const style = {
    timeZone: zone, calendar: 'gregory', numberingSystem: 'latn', hourCycle: 'h23',
    year: 'numeric', month: '2-digit', day: '2-digit', hour: '2-digit', minute: '2-digit', second: '2-digit',
  };
  return Object.fromEntries(new Intl.DateTimeFormat('en', style).formatToParts(instant).map(p => [p.type, p.value]));
}

/** What clocks at the site show: the day, and the second of it. */
export function siteTime(zone, instant) {
  const p = partsAt(zone, instant);
  return { day: dayOf(`${p.year}-${p.month}-${p.day}`), second: +p.hour * 3600 + +p.minute * 60 + +p.second };
}

/** How many minutes clocks at the site are ahead of UTC. */
export function offsetAt(zone, instant) {
  const { day, second } = siteTime(zone, instant);
  return Math.round((day * 86400 + second - instant / 1000) / 60);
}

/** What the controller's own clock should show: local time, or standard time all year. */
export function controllerTime(controller, zone, instant) {
  const at = controller.clock.standardMinutes === null ? siteTime(zone, instant) : null;
  if (at) return at;
  const minutes = Math.floor(instant / 60000) + controller.clock.standardMinutes;
  return { day: Math.floor(minutes / 1440), second: remainder(minutes, 1440) * 60 };
}

/** Days from a date to the next one on which an interval waters; 0: that same date. */
export const daysLeft = (rule, day) => remainder(rule.anchor - day, rule.n);

/** Whether a rule waters on a date, by a controller's calendar. */
export function watersOn(rule, day, profile) {
  if (!rule) return false;
  const date = new Date(day * 864e5), number = date.getUTCDate();
  if (rule.kind === 'week') return rule.days.includes(weekdayOf(day));
  if (rule.kind === 'odd') return number % 2 === 1 && !(profile.oddSkips31 && number === 31) && !(profile.oddSkips29February && number === 29 && date.getUTCMonth() === 1);
  if (rule.kind === 'even') return number % 2 === 0;
  return daysLeft(rule, day) === 0;
}

// Ids that rise with time (RFC 9562, version 7), as records have them.
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16)), now = Date.now();
  for (let i = 0; i < 6; i++) bytes[i] = Math.floor(now / 2 ** (8 * (5 - i))) & 0xff;
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map(b => b.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
