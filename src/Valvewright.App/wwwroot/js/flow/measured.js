// Measured: a number pad with the last value next to it, and what the new one means.
import { el, button, go, icon } from './dom.js';

const litresPerGallon = 3.785411784, mostVolts = 30;
const tabs = flow => ['battery', 'meter', 'coils', ...(flow.keep.canPhoto ? ['photo'] : [])];

/** What is being measured now: its entry as typed, the last value, what it comes to. */
function measureOf(flow) {
  const { say, visit, controller, sheet } = flow, last = controller.last, at = visit.measuring ?? 'battery';
  if (at === 'meter') {
    const unit = say.words[sheet.isUs ? 'unit.gallons' : 'flow.m3'], m3 = last?.meterM3?.[0], before = m3 === undefined ? null : sheet.isUs ? m3 * 1000 / litresPerGallon : m3;
    return { at, unit, before, on: last?.meterM3?.[1], toKeep: n => (sheet.isUs ? n * litresPerGallon / 1000 : n), judge: n => judgeMeter(say, n, before, unit), most: 1e9 };
  }
  if (at === 'coils') {
    const station = visit.coil ?? flow.stations()[0], coil = last?.coils[station];
    return { at, unit: 'Ω', before: coil?.[0] ?? null, on: coil?.[1], station, toKeep: n => n, judge: n => judgeCoil(say, sheet, n), most: 1e7 };
  }
  return { at, unit: 'V', before: last?.volts?.[0] ?? null, on: last?.volts?.[1], toKeep: n => n, judge: n => judgeBattery(say, sheet, controller, n), most: mostVolts };
}

function judgeBattery(say, sheet, controller, n) {
  const { cells } = controller, { most, fresh, least } = sheet.cellVolts;
  const volts = n_ => say.number(n_, 1);
  if (n > cells * most) return { mark: 'ask', text: say.text('flow.battery.high', { value: say.number(n, 2), cells, most: volts(cells * most) }), asks: true };
  if (n < cells * least) return { mark: 'bad', text: say.text('flow.battery.low', { least: volts(cells * least) }) };
  return { mark: 'pass', text: say.text(n >= cells * fresh ? 'flow.battery.fresh' : 'flow.battery.good', { least: volts(cells * least) }) };
}

function judgeMeter(say, n, before, unit) {
  if (before === null) return null;
  if (n < before) return { mark: 'ask', text: say.text('flow.meter.less', { before: `${say.number(before, 2)} ${unit}` }), asks: true };
  return { mark: 'pass', text: say.text('flow.meter.since', { used: `${say.number(n - before, 2)} ${unit}` }) };
}

function judgeCoil(say, sheet, n) {
  const [short, least, most, open] = sheet.coilOhms, range = { least: say.number(least), most: say.number(most) };
  if (n >= open) return { mark: 'bad', text: say.text('flow.coil.open') };
  if (n < short || n < least) return { mark: 'bad', text: say.text('flow.coil.short', range) };
  return n > most ? { mark: 'ask', text: say.text('flow.coil.high', range) } : { mark: 'pass', text: say.text('flow.coil.usual', range) };
}

/** The leading digits of a meter do not change from visit to visit: they stand there already. */
export function prefilled(before) {
  const whole = String(Math.floor(before ?? 0));
  return before !== null && whole.length > 2 ? whole.slice(0, -2) : '';
}

export function measuredScreen(flow) {
  const { say, visit } = flow, now = measureOf(flow), started = visit.entry !== null;
  const entry = started ? visit.entry : now.at === 'meter' ? prefilled(now.before) : '', isTyped = started && /\d/.test(entry);
  const number = isTyped ? Number(entry) : null, verdict = isTyped ? (number > now.most ? { mark: 'ask', text: say.text('flow.tooMuch'), asks: true, never: true } : now.judge(number)) : null;
  const type = sign => () => {
    const text = entry + sign;
    if (sign === '.' ? !entry.includes('.') : text.replace('.', '').length <= 9) flow.set({ entry: text === '.' ? '0.' : text });
  };
  const padKey = sign => el('button.key', { type: 'button', 'data-key': sign, onclick: type(sign) }, sign === '.' && say.sheet.language === 'es' ? ',' : sign);
  const tab = name => button(name === 'photo' ? [icon('cam'), say.text('flow.photo')] : say.text(`flow.${name}`), name === 'photo' ? () => flow.photo() : () => flow.set({ measuring: name, entry: null }),
    { class: name === now.at ? 'btn on' : 'btn', 'aria-pressed': String(name === now.at) });
  const shown = say.sheet.language === 'es' ? entry.replace('.', ',') : entry, next = nextOf(flow, now);
  const keep = () => flow.measured(now, now.toKeep(number), next);
  const keepText = isTyped ? say.text(verdict?.asks ? 'flow.keep.all' : next === 'done' ? 'flow.keep.done' : 'flow.keep', { value: `${shown} ${now.unit}`, next: next === 'done' ? '' : say.text(`flow.${next}`).toLowerCase() })
    : say.text(next === 'done' ? 'flow.finish' : 'flow.keep.none', { next: next === 'done' ? '' : say.text(`flow.${next}`).toLowerCase() });
  return {
    main: [
      el('div.what4', {}, tabs(flow).map(tab)),
      el('h2', { tabindex: '-1' }, now.at === 'coils' ? say.text('flow.coil.of', { n: now.station }) : say.text(`flow.${now.at}.title`)),
      el('p.s', {}, now.before === null ? say.text('flow.lastNone') : el('span', {}, `${say.text('flow.last')} `, el('b', {}, `${say.number(now.before, 2)} ${now.unit}`), ' ', el('span.me', {}, say.text('flow.measuredOn', { date: say.date(now.on) })))),
      now.at === 'coils' ? el('div.stations', {}, flow.stations().map(s => button(String(s), () => flow.set({ coil: s, entry: null }), { class: s === now.station ? 'btn on' : 'btn' }))) : null,
      el('div.reading', {}, isTyped ? el('span.me', {}, say.text('flow.measuredNow')) : null, el('output', { class: shown.length > 3 ? 'figure long' : 'figure' }, shown || '–'), el('b', {}, now.unit)),
      el('p.r.verdict', { 'aria-live': 'polite' }, verdict ? [icon(verdict.mark, 22), el('span', {}, verdict.text)] : el('span', {}, photoNote(flow))),
      el('div.pad', {}, ['1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '0'].map(padKey),
        el('button.key.word', { type: 'button', 'data-key': 'erase', onclick: () => flow.set({ entry: entry.slice(0, -1) }) }, say.text('flow.erase'))),
    ],
    foot: [el('div.r.pair', {},
      isTyped ? button(say.text('flow.notToday'), () => flow.measured(now, null, next)) : now.at === 'coils' ? button(say.text('flow.coil.none'), () => flow.measured(now, 1e7, next)) : null,
      go(keepText, next === 'done' ? 'tick' : 'arr', isTyped ? keep : () => flow.measured(now, undefined, next), null, { disabled: verdict?.never }))],
  };
}

const photoNote = flow => (flow.visit.photos.length ? flow.say.count('flow.photos', flow.visit.photos.length) : '');

// Battery, then meter, then the end; coils only on asking, one station after another.
function nextOf(flow, now) {
  if (now.at === 'battery') return 'meter';
  if (now.at === 'coils' && flow.stations().at(-1) !== now.station) return 'coils';
  return 'done';
}
