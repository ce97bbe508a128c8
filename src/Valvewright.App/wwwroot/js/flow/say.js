// How values are said to the person: in the language, the clock style and the units of the site.
import { isoOf, watersOn, weekdayOf } from './dates.js';

const space = '\u00a0';
const two = n => String(n).padStart(2, '0');

export class Say {
  constructor(sheet, controller) {
    this.sheet = sheet;
    this.controller = controller;
    this.words = sheet.words;
  }

  /** A text with its places filled. */
  text(name, values = {}) {
    const text = this.words[name];
    if (text === undefined) throw new Error(`No text is named ${name}`);
    return text.replace(/\{(\w+)\}/g, (whole, place) => (place in values ? String(values[place]) : whole));
  }

  count(name, n, values = {}) { return this.text(`${name}.${n === 1 ? 'one' : 'other'}`, { n, ...values }); }

  time(second) {
    const s = ((second % 86400) + 86400) % 86400, hour = Math.floor(s / 3600), minute = two(Math.floor(s / 60) % 60);
    return this.sheet.hours24 ? `${two(hour)}:${minute}` : `${hour % 12 || 12}:${minute}${space}${hour < 12 ? 'am' : 'pm'}`;
  }

  weekday(n) { return this.words[`day.${n}`]; }
  date(day) { const iso = isoOf(day); return `${this.weekday(weekdayOf(day))} ${+iso.slice(8)} ${this.words[`month.${+iso.slice(5, 7)}`]}`; }
  dayOfYear(monthDay) { return `${+monthDay.slice(3)} ${this.words[`month.${+monthDay.slice(0, 2)}`]}`; }
  percent(n) { return n === 0 ? this.text('flow.off') : this.sheet.language === 'es' ? `${n}${space}%` : `${n}%`; }

  run(seconds) {
    if (seconds === 0) return '0';
    const unit = name => this.words[`unit.${name}`], hours = Math.floor(seconds / 3600), minutes = Math.floor(seconds / 60) % 60, rest = seconds % 60;
    const isLong = hours > 0 && this.controller.profile.runLimit > 99 * 60;
    const parts = isLong ? [[hours, 'h'], [minutes, 'min']] : [[Math.floor(seconds / 60), 'min']];
    if (rest) parts.push([rest, 's']);
    return parts.filter((p, i) => p[0] > 0 || i === parts.length - 1).map(p => `${p[0]}${space}${unit(p[1])}`).join(space);
  }

  days(rule) {
    if (!rule) return this.text('flow.days.none');
    if (rule.kind === 'week') return rule.days.length === 7 ? this.text('flow.days.every') : rule.days.map(d => this.weekday(d)).join(', ');
    return rule.kind === 'interval' ? (rule.n === 1 ? this.text('flow.days.every') : this.text('flow.days.interval', { n: rule.n })) : this.text(`flow.days.${rule.kind}`);
  }

  /** The value of a setting. */
  value(cell, v) {
    if (v === undefined) return '–';
    switch (cell.kind) {
      case 'clock': return v ? `${this.weekday(v.weekday)} ${this.time(v.second)}` : '';
      case 'percent': return this.percent(v);
      case 'days': return this.days(v);
      case 'left': return v === null ? '–' : String(v);
      case 'start': return v === null ? this.text('flow.clear') : this.time(v);
      default: return this.run(v);
    }
  }

  /** What a setting is called; its second line, if any. */
  name(cell) {
    switch (cell.kind) {
      case 'clock': return this.text('flow.clock');
      case 'percent': return this.text('flow.percent');
      case 'days': return this.text('flow.days');
      case 'left': return this.text(this.controller.profile.countsDaysLeft ? 'flow.left' : 'flow.left.until');
      case 'start': return this.text('flow.start', { n: cell.last > cell.index ? this.slots(cell) : cell.index });
      default: return this.text('flow.station', { n: cell.last > cell.index ? this.slots(cell) : cell.index });
    }
  }

  slots(cell) { return cell.last === cell.index + 1 ? `${cell.index}, ${cell.last}` : `${cell.index}–${cell.last}`; }
  zone(cell) { return cell.kind === 'run' && !(cell.last > cell.index) ? this.controller.zones.find(z => z[0] === cell.index)?.[1] ?? null : null; }

  /** A name to be read by itself: "A, Start 2". */
  full(cell) { return cell.letter ? `${cell.letter}, ${this.name(cell)}` : this.name(cell); }

  /** A number as the language writes it. */
  number(n, digits = 1) {
    const text = String(+n.toFixed(digits));
    return this.sheet.language === 'es' ? text.replace('.', ',') : text;
  }

  /** Water, from litres. */
  volume(litres) {
    const amount = this.sheet.isUs ? litres / 3.785411784 : litres, grouped = String(Math.round(amount)).replace(/\B(?=(\d{3})+$)/g, this.sheet.isUs ? ',' : space);
    return `${grouped}${space}${this.words[this.sheet.isUs ? 'unit.gallons' : 'unit.litres']}`;
  }
}

// What a program does by itself at a percent: each start with its runs one after another. Other programs that run then are not looked at.
export function runsOf(program, percent, pause) {
  if (percent === 0) return [];
  return program.starts.map(start => {
    let at = start;
    const runs = program.runs.filter(r => r[1] > 0).map(([station, seconds]) => {
      const length = Math.round(seconds * percent / 100), run = { station, from: at, to: at + length };
      at += length + pause;
      return run;
    });
    return { start, runs, end: runs.length ? runs.at(-1).to : start };
  });
}

// Whether a span of the site's day lies within the hours in which its water may be used.
function isPermitted(hours, from, to) {
  if (hours.length === 0) return true;
  return hours.some(([a, b]) => {
    const length = b > a ? b - a : b - a + 86400, since = ((from - a) % 86400 + 86400) % 86400;
    return since + (to - from) <= length;
  });
}

/**
 * What a program would do with a value in it: what it waters and when, whether that is permitted, how its week's water compares with the card's.
 * Null where it never runs.
 */
export function effect(say, sheet, cell, program, wanted, percent, day, shiftMinutes) {
  const c = say.controller, shift = shiftMinutes * 60, isDrip = station => c.permitted.dripIsExempt && c.drip.includes(station);
  const all = runsOf(program, percent, c.profile.pause).filter(r => r.runs.length > 0);
  if (all.length === 0 || !program.days) return { kind: 'note', title: say.text('flow.effect.never', { letter: program.letter }), lines: [] };
  const shown = cell.kind === 'start' ? all.filter(r => r.start === program.changed) : all;
  const spans = (shown.length ? shown : all).map(r => say.text('flow.effect.span', { from: say.time(r.start), to: say.time(r.end) }));
  const at = percent === 100 ? '' : ` ${say.text('flow.effect.at', { percent: say.percent(percent) })}`;
  const lines = [`${say.days(program.days)} ${spans.join(', ')}.${at}`];
  const bad = all.flatMap(r => r.runs).find(r => !isDrip(r.station) && !isPermitted(c.permitted.hours, r.from + shift, r.to + shift));
  const badDay = Array.from({ length: 14 }, (_, i) => day + i).find(d => watersOn(program.days, d, c.profile) && !datePermitted(c.permitted, d));
  const difference = weekly(say, sheet, program) - weekly(say, sheet, wanted);
  if (Math.abs(difference) >= 1) lines.push(say.text(difference > 0 ? 'flow.effect.more' : 'flow.effect.less', { water: say.volume(Math.abs(difference)) }));
  if (bad) {
    const [one, ...more] = c.permitted.hours;
    if (more.length === 0) {
      const barred = say.text('flow.effect.span', { from: say.time(one[1]), to: say.time(one[0]) });
      return { kind: 'fails', title: say.text('flow.effect.hours'), lines: [...lines, say.text('flow.effect.barred', { hours: barred })] };
    }
    const hours = c.permitted.hours.map(([a, b]) => say.text('flow.effect.span', { from: say.time(a), to: say.time(b) })).join(', ');
    return { kind: 'fails', title: say.text('flow.effect.hours'), lines: [...lines, say.text('flow.effect.permitted', { hours })] };
  }
  if (badDay !== undefined) return { kind: 'fails', title: say.text('flow.effect.day', { date: say.date(badDay) }), lines };
  return { kind: 'note', title: say.text('flow.effect.would'), lines };
}

function datePermitted(permitted, day) {
  const number = +isoOf(day).slice(8), parity = permitted.parity;
  return permitted.weekdays.includes(weekdayOf(day)) && (parity === 'any' || (number % 2 === 1) === (parity === 'odd'));
}

// Litres of a mean week at 100 percent; 0 where a flow is not known.
function weekly(say, sheet, program) {
  if (!program?.days) return 0;
  const flows = new Map(say.controller.flows), rule = program.days;
  const perWeek = rule.kind === 'week' ? rule.days.length : rule.kind === 'interval' ? 7 / rule.n : 3.5;
  if (program.runs.some(r => r[1] > 0 && !flows.has(r[0]))) return 0;
  return perWeek * program.starts.length * program.runs.reduce((sum, [station, seconds]) => sum + flows.get(station) * seconds / 60, 0);
}
