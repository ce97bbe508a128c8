// What the display shows of one setting, said by steps instead of letters: as many columns as the thing has parts, days as keys of their own.
import { el, button, key } from './dom.js';
import { same } from './settings.js';

const wrap = (n, most) => ((n % most) + most) % most;

// The parts of a time of day. Minutes go by the display's own steps.
function timeColumns(say, get, set, stepMinutes) {
  const half = !say.sheet.hours24, hourOf = s => Math.floor(s / 3600), minuteOf = s => Math.floor(s / 60) % 60;
  const at = (hour, minute) => set(hour * 3600 + minute * 60);
  const hour = {
    name: say.text('flow.hour'), show: () => (half ? hourOf(get()) % 12 || 12 : String(hourOf(get())).padStart(2, '0')),
    step: n => {
      const now = hourOf(get()), base = half ? Math.floor(now / 12) * 12 : 0;
      at(base + wrap(now - base + n, half ? 12 : 24), minuteOf(get()));
    },
  };
  const step = stepMinutes > 30 ? 0 : stepMinutes;
  const minute = { name: say.text('flow.minute'), show: () => String(minuteOf(get())).padStart(2, '0'), step: n => at(hourOf(get()), wrap(minuteOf(get()) + n * step, 60)) };
  const day = { name: 'am / pm', show: () => (hourOf(get()) < 12 ? 'am' : 'pm'), step: () => at(wrap(hourOf(get()) + 12, 24), minuteOf(get())) };
  return [hour, ...(step ? [minute] : []), ...(half ? [day] : [])];
}

// The parts of a run time: hours where the display has them, minutes, seconds where its step is finer than a minute.
function runColumns(say, get, set) {
  const { runStep, runLimit } = say.controller.profile, unit = name => say.words[`unit.${name}`];
  const clamp = s => set(Math.min(runLimit, Math.max(0, s)));
  const isLong = runLimit > 99 * 60, isFine = runStep % 60 !== 0, minuteStep = Math.max(60, runStep);
  const columns = [];
  if (isLong) columns.push({ name: unit('h'), show: () => Math.floor(get() / 3600), step: n => clamp(get() + n * 3600) });
  columns.push({ name: unit('min'), show: () => (isLong ? Math.floor(get() / 60) % 60 : Math.floor(get() / 60)), step: n => clamp(get() + n * minuteStep) });
  if (isFine) columns.push({ name: unit('s'), show: () => String(get() % 60).padStart(2, '0'), step: n => clamp(get() + n * runStep) });
  return columns;
}

function percentColumns(say, get, set) {
  const [least, largest, step] = say.controller.profile.percent;
  return [{ name: say.text('flow.percent'), show: () => say.percent(get()), step: n => set(get() === 0 ? (n > 0 ? least : 0) : Math.min(largest, get() + n * step) < least ? 0 : Math.min(largest, get() + n * step)) }];
}

const plain = (say, name, get, set, least, most) => [{ name, show: () => String(get()), step: n => set(Math.min(most, Math.max(least, get() + n))) }];

function stepper(column, redraw) {
  const value = el('output.big', {}, String(column.show()));
  const move = n => () => { column.step(n); redraw(); };
  return el('div.column', {}, key('+', `${column.name} +`, move(1)), value, key('−', `${column.name} −`, move(-1)), el('small', {}, column.name));
}

/**
 * The panel of a setting. `value` is what it begins with, `done` is told what the display shows ({v}) or that it can't be read ({unread}); `tell`
 * hears every step, to say at once what it would do; `others` are answers besides.
 */
export function editor(say, cell, value, tell, others) {
  const box = el('div.editor', { 'data-editor': cell.key });
  let now = value;
  const set = v => { now = v; };
  const take = v => { set(v); draw(); };
  const current = () => now;
  function columns() {
    const get = () => now ?? 0, profile = say.controller.profile;
    if (cell.kind === 'start') return timeColumns(say, () => now ?? 0, set, profile.startStep);
    if (cell.kind === 'run') return runColumns(say, get, set);
    if (cell.kind === 'percent') return percentColumns(say, get, set);
    if (cell.kind === 'left') return plain(say, say.text('flow.day'), get, set, 0, Math.max(1, profile.longestInterval));
    const weekday = { name: say.text('flow.weekday'), show: () => say.weekday(now.weekday), step: n => set({ ...now, weekday: wrap(now.weekday - 1 + n, 7) + 1 }) };
    return [weekday, ...timeColumns(say, () => now.second, s => set({ ...now, second: s }), 1)];
  }

  function draw(hasMoved = true) {
    const focus = document.activeElement?.closest?.('.editor') ? document.activeElement.getAttribute('aria-label') : null;
    box.replaceChildren(head(), ...(cell.kind === 'days' ? daysKeys() : [el('div.steps', {}, columns().map(c => stepper(c, draw)))]), el('div.r.others', {}, others));
    if (focus) box.querySelector(`[aria-label="${CSS.escape(focus)}"]`)?.focus();
    tell(now, hasMoved);
  }

  const head = () => el('div.r.sp', {}, el('span.r', {}, cell.letter ? el('span.p', {}, cell.letter) : null, el('b', {}, say.name(cell))),
    cell.kind === 'clock' ? null : el('span', {}, `${say.text('flow.card')} `, el('b', {}, say.value(cell, cell.want))));

  function daysKeys() {
    const rules = say.controller.profile.rules, kind = now?.kind ?? null;
    const choice = (text, is, act) => button(text, act, { 'aria-pressed': String(is), class: is ? 'btn on' : 'btn' });
    const kinds = [
      rules.includes('week') ? choice(say.text('flow.days.week'), kind === 'week', () => take({ kind: 'week', days: now?.days ?? [] })) : null,
      rules.includes('interval') ? choice(say.text('flow.days.some'), kind === 'interval', () => take({ kind: 'interval', n: now?.n ?? 2 })) : null,
      rules.includes('odd') ? choice(say.text('flow.days.odd'), kind === 'odd', () => take({ kind: 'odd' })) : null,
      rules.includes('even') ? choice(say.text('flow.days.even'), kind === 'even', () => take({ kind: 'even' })) : null,
      choice(say.text('flow.days.none'), kind === null, () => take(null)),
    ];
    const parts = [el('div.kinds', {}, kinds)];
    if (kind === 'week') {
      const toggle = d => () => take({ kind: 'week', days: now.days.includes(d) ? now.days.filter(x => x !== d) : [...now.days, d].sort((a, b) => a - b) });
      parts.push(el('div.weekdays', {}, [1, 2, 3, 4, 5, 6, 7].map(d => choice(say.weekday(d), now.days.includes(d), toggle(d)))));
    } else if (kind === 'interval') {
      const set_ = n => set({ kind: 'interval', n });
      parts.push(el('div.steps', {}, plain(say, say.text('flow.days.between'), () => now.n, set_, 1, say.controller.profile.longestInterval).map(c => stepper(c, draw))));
    }
    return parts;
  }

  draw(false);
  return { box, current, set: take, isSame: other => same(now, other) };
}

/** Where a setting's steps begin: at what is expected there, or at the card's value. */
export function begin(cell, there, clockNow) {
  if (cell.kind === 'clock') return there?.v ?? clockNow;
  const v = there && !there.unread ? there.v : cell.seen ?? cell.want;
  if (cell.kind === 'start') return v ?? cell.want ?? 21600;
  return cell.kind === 'days' ? v ?? null : v ?? cell.want ?? 0;
}
