// What was found and what was left, in the quick form that readings are kept in (docs/readings.md): only what a person read or ticked.
import { isoOf, weekdayOf } from './dates.js';

const terms = {
  en: {
    clock: 'clock', percent: 'percent', off: 'off', on: 'on', none: 'none', starts: 'starts', station: 'st', days: 'days', day: 'day', odd: 'odd', even: 'even', every: 'every',
    left: 'left', next: 'next', weekdays: 'Mon Tue Wed Thu Fri Sat Sun',
  },
  es: {
    clock: 'reloj', percent: 'ajuste', off: 'apagado', on: 'encendido', none: 'nada', starts: 'inicios', station: 'est', days: 'días', day: 'día', odd: 'impares', even: 'pares',
    every: 'cada', left: 'faltan', next: 'próximo', weekdays: 'lun mar mié jue vie sáb dom',
  },
};
const two = n => String(n).padStart(2, '0');
const time = s => `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}`;
const length = s => (s === 0 ? '0m' : s % 60 === 0 ? `${s / 60}m` : s < 60 ? `${s}s` : `${Math.floor(s / 60)}m${s % 60}s`);

function daysText(t, rule, toNext, counts, day) {
  const names = t.weekdays.split(' ');
  if (!rule) return `${t.days} ${t.none}`;
  if (rule.kind === 'week') return `${t.days} ${rule.days.map(d => names[d - 1]).join(' ')}`;
  if (rule.kind !== 'interval') return t[rule.kind];
  const next = toNext === undefined ? '' : counts ? ` ${toNext} ${t.left}` : ` ${t.next} ${isoOf(day + toNext)}`;
  return `${t.every} ${rule.n} ${rule.n === 1 ? t.day : t.days}${next}`;
}

/** The text of a reading: `valueOf` gives {v} for what was read, anything else for what was not. */
export function readingText(cells, valueOf, controller, language, day) {
  const t = terms[language] ?? terms.en, lines = [];
  const read = cell => { const value = cell && valueOf(cell); return value && !value.unread ? value : null; };
  const clock = read(cells.find(c => c.kind === 'clock'));
  if (clock) lines.push(`${t.clock} ${t.weekdays.split(' ')[clock.v.weekday - 1]} ${time(clock.v.second)}`);
  const percent = read(cells.find(c => c.kind === 'percent'));
  if (percent) lines.push(...(percent.v === 0 ? [t.off] : [`${t.percent} ${percent.v}`, t.on]));
  for (const letter of [...new Set(cells.map(c => c.letter).filter(Boolean))]) {
    const own = cells.filter(c => c.letter === letter), parts = [];
    const days = read(own.find(c => c.kind === 'days'));
    if (days) parts.push(daysText(t, days.v, read(own.find(c => c.kind === 'left'))?.v ?? undefined, controller.profile.countsDaysLeft, day));
    // A list of start times with a hole in it would be taken for the whole list.
    const starts = own.filter(c => c.kind === 'start').map(read);
    if (starts.every(s => s)) {
      const set = [...new Set(starts.map(s => s.v).filter(s => s !== null))].sort((a, b) => a - b);
      parts.push(`${t.starts} ${set.length ? set.map(time).join(' ') : t.none}`);
    }
    const runs = own.filter(c => c.kind === 'run').map(c => [c.index, read(c)]).filter(r => r[1]);
    if (runs.length) parts.push(runs.map(([station, value]) => `${t.station}${station}=${length(value.v)}`).join(' '));
    if (parts.length) lines.push(`${letter}: ${parts.join('; ')}`);
  }
  return lines.join('\n');
}

/** The weekday and time that a clock shows. */
export const clockShown = at => ({ weekday: weekdayOf(at.day), second: Math.floor(at.second / 60) * 60 });
