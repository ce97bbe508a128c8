// What a controller holds as single settings ("cells"), in the card's order: what the card wants, what was found there last time, what is left.
import { daysLeft } from './dates.js';

const range = (from, to) => Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);
const letters = profile => range(0, profile.programs - 1).map(i => String.fromCharCode(65 + i));
const programIn = (settings, letter) => settings?.programs.find(p => p.letter === letter);
export const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);
const holds = program => !!program && ((program.starts ?? []).length > 0 || (program.runs ?? []).some(r => r[1] > 0));

/** What the plan has set on a date: the visit that was last by then, over the new year if need be. */
export function plannedOn(controller, isoDate) {
  const visits = controller.visits, date = isoDate.slice(5);
  if (visits.length === 0) return { percent: controller.percent, programs: controller.sets[0], since: null };
  const last = visits.filter(v => v.on <= date).at(-1) ?? visits.at(-1);
  return { percent: last.percent, programs: controller.sets[last.set], since: last.on };
}

/** The next visit after a date, by its day of the year. */
export function nextVisit(controller, isoDate) {
  const date = isoDate.slice(5), later = controller.visits.find(v => v.on > date) ?? controller.visits[0];
  if (!later) return null;
  return { ...later, iso: `${later.on > date ? isoDate.slice(0, 4) : +isoDate.slice(0, 4) + 1}-${later.on}` };
}

// The rule as a display shows it: an interval without the date that it counts from.
const shown = rule => !rule || (rule.kind === 'week' && rule.days.length === 0) ? null : rule.kind === 'interval' ? { kind: 'interval', n: rule.n } : rule;
const startAt = (program, slot) => [...new Set(program?.starts ?? [])].sort((a, b) => a - b)[slot - 1] ?? null;
const runOf = (program, station) => program?.runs.find(r => r[0] === station)?.[1] ?? 0;

/** The value of a setting in a set of programs, as the display shows it on a day. */
function valueIn(settings, cell, day) {
  if (cell.kind === 'percent') return settings.percent;
  const program = programIn(settings, cell.letter);
  if (cell.kind === 'days') return shown(program?.days);
  if (cell.kind === 'left') return program?.days?.kind === 'interval' ? daysLeft(program.days, day) : undefined;
  return cell.kind === 'start' ? startAt(program, cell.index) : runOf(program, cell.index);
}

/**
 * Every setting of a controller in the order of its card. `want` is the card's value; `seen` is what the display should show before anything is
 * touched: what the last visit left where that was read, else what the plan had there the day before.
 */
export function cellsOf(controller, isoDate, day, dayBefore) {
  const profile = controller.profile, want = plannedOn(controller, isoDate), before = plannedOn(controller, dayBefore);
  const cells = [{ key: 'clock', kind: 'clock' }];
  for (const letter of letters(profile)) {
    const wanted = programIn(want, letter), isUsed = holds(wanted) || holds(programIn(before, letter)) || holds(controller.last?.programs.find(p => p.letter === letter));
    if (isUsed) {
      cells.push({ key: `${letter} days`, kind: 'days', letter });
      if (wanted?.days?.kind === 'interval' && wanted.days.n > 1) cells.push({ key: `${letter} left`, kind: 'left', letter });
    }
    cells.push(...range(1, profile.starts).map(index => ({ key: `${letter} start ${index}`, kind: 'start', letter, index, isUnused: !isUsed })));
    if (isUsed) cells.push(...range(1, profile.stations).map(index => ({ key: `${letter} station ${index}`, kind: 'run', letter, index })));
  }
  if (profile.percent[0] !== profile.percent[1] || controller.visits.length > 0) cells.push({ key: 'percent', kind: 'percent' });
  for (const cell of cells.filter(c => c.kind !== 'clock')) {
    cell.want = valueIn(want, cell, day) ?? null;
    const left = leftThen(controller.last, cell, day);
    cell.seen = left === undefined ? valueIn(before, cell, day) : left;
  }
  return cells;
}

/** What the last visit left in a setting; undefined where it did not read it. */
function leftThen(last, cell, day) {
  if (!last) return undefined;
  if (cell.kind === 'percent') return last.off ? 0 : last.percent ?? undefined;
  const program = last.programs.find(p => p.letter === cell.letter);
  if (!program) return undefined;
  if (cell.kind === 'days') return program.days === undefined ? undefined : shown(program.days);
  if (cell.kind === 'left') return program.days?.kind === 'interval' && program.days.anchor !== null ? daysLeft(program.days, day) : undefined;
  if (cell.kind === 'start') return program.starts ? startAt(program, cell.index) : undefined;
  return program.runs?.find(r => r[0] === cell.index)?.[1];
}

/** What was found in a setting: {v} as read, {unread}, or null where no one has said. */
export function found(visit, cell) {
  const answer = visit.answers[cell.key];
  if (answer) return answer;
  return visit.confirmed && cell.seen !== undefined ? { v: cell.seen } : null;
}

/** What is left in a setting: what was ticked, else what was found. */
export const left = (visit, cell) => (cell.key in visit.ticks ? { v: visit.ticks[cell.key] } : found(visit, cell));

/** What there is to change: what was found and differs from the card, the clock first. */
export const changes = (visit, cells) => cells.filter(cell => {
  if (cell.kind === 'clock') return visit.answers.clock !== undefined && !visit.answers.clock.unread;
  if (!visit.confirmed) return false;
  const there = found(visit, cell);
  // An interval's days that the display did not show are set with the interval.
  if (!there) return cell.kind === 'left';
  return !there.unread && !same(there.v, cell.want);
});

/** The programs as left; null where a setting that matters was not read. */
export function programsLeft(visit, cells, day) {
  const programs = [];
  for (const letter of [...new Set(cells.map(c => c.letter).filter(Boolean))]) {
    const own = cells.filter(c => c.letter === letter), values = new Map(own.map(c => [c.key, left(visit, c)]));
    const read = cell => values.get(cell.key)?.v;
    if (own.some(c => c.kind !== 'left' && (!values.get(c.key) || values.get(c.key).unread))) return null;
    const starts = own.filter(c => c.kind === 'start').map(read).filter(s => s !== null).sort((a, b) => a - b);
    if (own[0].isUnused) {
      if (starts.length > 0) return null;
      continue;
    }
    let days = read(own.find(c => c.kind === 'days'));
    if (days?.kind === 'interval') {
      const cell = own.find(c => c.kind === 'left'), to = cell ? values.get(cell.key) : { v: 0 };
      if (days.n > 1 && (!to || to.unread || typeof to.v !== 'number')) return null;
      days = { ...days, anchor: day + (days.n > 1 ? to.v : 0) };
    }
    programs.push({ letter, days, starts: [...new Set(starts)], runs: own.filter(c => c.kind === 'run').map(c => [c.index, read(c)]).filter(r => r[1] > 0) });
  }
  return programs;
}
