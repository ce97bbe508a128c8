// The work at a controller: found, change, left, measured, done. It runs without the engine, from what was prepared when the site came to the
// device; whatever is said is kept at once. What was neither found nor ticked is not recorded.
import { controllerTime, dayOf, isDate, isoOf, siteTime } from './dates.js';
import { el, icon } from './dom.js';
import { checkText } from './checktext.js';
import { doneScreen, notesOf } from './done.js';
import { measuredScreen } from './measured.js';
import { changeScreen, editScreen, foundScreen, leftScreen, oldScreen } from './screens.js';
import { clockShown, readingText } from './reading.js';
import { Say } from './say.js';
import { cellsOf, changes, found, left, plannedOn } from './settings.js';

const steps = ['found', 'change', 'left', 'measured'], staleMs = 864e5;
const two = n => String(n).padStart(2, '0');

class Flow {
  constructor(host, sheet, controller, keep, links, visit, now, from) {
    Object.assign(this, { host, sheet, controller, keep, links, now, editing: null });
    this.say = new Say(sheet, controller);
    const site = siteTime(sheet.zone, now());
    this.visit = visit ?? {
      form: 1, id: keep.newId(), begun: `${isoOf(site.day)}T${two(Math.floor(site.second / 3600))}:${two(Math.floor(site.second / 60) % 60)}:00`, step: 'found',
      answers: {}, confirmed: false, ticks: {}, skipped: {}, refused: {}, compared: null, measuring: null, coil: null, entry: null, volts: null, meterM3: null, coils: {}, photos: [],
    };
    // The day of the visit, and the date of the card that is set from: a card of days to come holds from its day on, one of the past is today's.
    const today = this.visit.begun.slice(0, 10);
    this.day = dayOf(today);
    this.visit.card ??= [today, sheet.from, isDate(from) ? from : today].sort().at(-1);
    this.iso = this.visit.card;
    this.cells = cellsOf(controller, this.iso, this.day, isoOf(this.day - 1));
  }

  clockAt() { return controllerTime(this.controller, this.sheet.zone, this.now()); }
  clockNow() { return clockShown(this.clockAt()); }
  dayOf(iso) { return dayOf(iso); }
  cardCheck() { return checkText(plannedOn(this.controller, this.iso).programs); }
  stations() { return this.controller.zones.map(z => z[0]); }
  others() { return this.sheet.controllers.filter(c => c.name !== this.controller.name); }

  /** What is doubtful about the date, or about what lies on the device. */
  doubts() {
    const { say, sheet } = this, site = siteTime(sheet.zone, this.now());
    return this.now() < sheet.madeAt - staleMs || this.now() > sheet.madeAt + 400 * staleMs ? [say.text('flow.clockDoubt', { date: `${say.date(site.day)} ${isoOf(site.day).slice(0, 4)}` })] : [];
  }

  async set(change) {
    Object.assign(this.visit, change);
    this.draw();
    await this.save();
  }

  async save() {
    try {
      await this.keep.save(this.visit);
      this.isKept = true;
    } catch (reason) {
      console.error(reason);
      this.isKept = false;
    }
    this.drawKept();
  }

  to(step) { this.editing = null; return this.set({ step }); }
  edit(row) { this.editing = row; this.draw(); }

  /** One row answered; the whole row of several slots where they are all the same. */
  answer(row, value, isWhole = false) {
    const cells = isWhole ? row.cells : row.cells.slice(0, 1), answers = { ...this.visit.answers }, ticks = { ...this.visit.ticks };
    for (const cell of cells) {
      answers[cell.key] = value;
      delete ticks[cell.key];
    }
    this.editing = null;
    const isLater = this.visit.confirmed, visit = { ...this.visit, answers, ticks, compared: null };
    return this.set({ answers, ticks, compared: null, step: isLater ? this.after(visit) : 'found' });
  }

  after(visit) { return changes(visit, this.cells).some(c => !(c.key in visit.ticks) && !visit.skipped[c.key]) ? 'change' : 'left'; }
  confirm() { return this.set({ confirmed: true, step: this.after({ ...this.visit, confirmed: true }) }); }

  tick(cell, value) {
    const ticks = { ...this.visit.ticks, [cell.key]: value };
    return this.set({ ticks, step: this.after({ ...this.visit, ticks }) });
  }

  skip(cell, isRefused) {
    const skipped = { ...this.visit.skipped, [cell.key]: true }, refused = isRefused ? { ...this.visit.refused, [cell.key]: true } : this.visit.refused;
    return this.set({ skipped, refused, step: this.after({ ...this.visit, skipped }) });
  }

  keyIn(row) {
    const ticks = { ...this.visit.ticks };
    for (const cell of row.cells) ticks[cell.key] = cell.kind === 'clock' ? this.clockNow() : cell.want;
    return this.set({ ticks });
  }

  compare(compared) { return this.set({ compared, step: compared === 'different' ? 'left' : 'measured' }); }

  /** A measured value: a number, null where one is taken back, undefined where nothing was measured. */
  async measured(what, value, next) {
    const change = { entry: null };
    if (value !== undefined && what.at === 'battery') change.volts = value;
    if (value !== undefined && what.at === 'meter') change.meterM3 = value;
    if (value !== undefined && what.at === 'coils') change.coils = { ...this.visit.coils, [what.station]: value };
    if (next === 'coils') change.coil = this.stations()[this.stations().indexOf(what.station) + 1];
    if (next !== 'done') return this.set({ ...change, measuring: next });
    Object.assign(this.visit, change);
    await this.save();
    return this.finish();
  }

  async photo() {
    const added = await this.keep.photo();
    if (added) await this.set({ photos: [...this.visit.photos, added] });
  }

  /** The record as the server takes it. */
  record() {
    const { visit, cells, controller, sheet } = this, text = valueOf => readingText(cells, valueOf, controller, sheet.language, this.day);
    const seenClock = cell => (cell.kind === 'clock' && visit.confirmed && !visit.answers.clock ? { v: this.clockNow() } : null);
    return {
      controller: controller.name, at: visit.begun, asFound: text(c => seenClock(c) ?? found(visit, c)), asLeft: text(c => seenClock(c) ?? left(visit, c)),
      batteryVolts: visit.volts, coilOhms: Object.entries(visit.coils).filter(c => c[1] !== null).map(([station, ohms]) => ({ station: +station, ohms })),
      meterM3: visit.meterM3, notes: notesOf(this),
    };
  }

  /** What the next visit finds, should it come before the site is brought up to date. */
  lastLeft() {
    const { visit, cells, controller, day } = this, before = controller.last, at = dayOf(visit.begun.slice(0, 10)), read = c => c && left(visit, c)?.v;
    const percent = read(cells.find(c => c.kind === 'percent')), programs = [];
    for (const letter of new Set(cells.map(c => c.letter).filter(Boolean))) {
      const own = cells.filter(c => c.letter === letter), program = { letter }, rule = read(own.find(c => c.kind === 'days'));
      const starts = own.filter(c => c.kind === 'start').map(read), toNext = read(own.find(c => c.kind === 'left'));
      if (rule !== undefined) program.days = rule?.kind === 'interval' ? { ...rule, anchor: typeof toNext === 'number' ? day + toNext : null } : rule;
      if (!starts.includes(undefined)) program.starts = starts.filter(s => s !== null);
      program.runs = own.filter(c => c.kind === 'run').map(c => [c.index, read(c)]).filter(r => r[1] !== undefined);
      programs.push(program);
    }
    const measured = (value, old) => (value === null ? old ?? null : [value, at]);
    return {
      day: at, percent: percent || null, off: percent === 0, programs, volts: measured(visit.volts, before?.volts), meterM3: measured(visit.meterM3, before?.meterM3),
      coils: { ...before?.coils, ...Object.fromEntries(Object.entries(visit.coils).filter(c => c[1] !== null).map(c => [c[0], [c[1], at]])) },
    };
  }

  async finish() {
    try {
      await this.keep.finish(this.visit, this.record());
    } catch (reason) {
      console.error(reason);
      this.isKept = false;
      this.drawKept();
      return;
    }
    this.controller.last = this.lastLeft();
    await this.keep.saveSheet?.(this.sheet);
    this.visit.step = 'done';
    this.draw();
    this.keep.finished?.();
  }

  /** Goes on with a visit that was begun on another day, under its date. */
  goOn() { this.restart = null; this.draw(); }

  back() {
    const { visit } = this;
    if (this.restart) { this.links.leave(); return; }
    if (this.editing) { this.editing = null; this.draw(); return; }
    if (visit.step === 'found' || visit.step === 'done') { this.links.leave(); return; }
    if (visit.step === 'change') {
      const ticked = changes(visit, this.cells).filter(c => c.key in visit.ticks || visit.skipped[c.key]).at(-1), { ticks, skipped } = visit;
      if (!ticked) { this.set({ step: 'found', confirmed: false }); return; }
      this.set({ ticks: without(ticks, ticked.key), skipped: without(skipped, ticked.key) });
      return;
    }
    if (visit.step === 'measured') { this.set({ step: 'left', compared: null, entry: null }); return; }
    const last = changes(visit, this.cells).at(-1);
    if (last) this.set({ step: 'change', ticks: without(visit.ticks, last.key), skipped: without(visit.skipped, last.key), compared: null });
    else this.set({ step: 'found', confirmed: false, compared: null });
  }

  draw() {
    const { say, visit, host, editing } = this, at = visit.step, screens = { found: foundScreen, change: changeScreen, left: leftScreen, measured: measuredScreen, done: doneScreen };
    const { main, foot } = this.restart ? oldScreen(this) : editing ? editScreen(this, editing) : screens[at](this), here = editing ? 'found' : at, number = steps.indexOf(here);
    const where = host.querySelector('.at-main'), isSame = where?.dataset.screen === at + (editing ? editing.cell.key : '');
    const focus = document.activeElement?.dataset?.key, scrolled = isSame ? where.scrollTop : at === 'found' && !editing ? this.foundScroll ?? 0 : 0;
    if (where?.dataset.screen === 'found') this.foundScroll = where.scrollTop;
    const body = el('main.at-main', { 'data-screen': at + (editing ? editing.cell.key : '') }, main.filter(Boolean));
    host.replaceChildren(
      el('header.at-top', {}, el('button.back', { type: 'button', 'aria-label': say.text('flow.back'), onclick: () => this.back() }, icon('lt', 24)), el('h1', {}, this.controller.name), el('span.s.kept', { role: 'status' })),
      ...(at === 'done' ? [] : [el('nav', { 'aria-label': say.text('flow.steps') }, el('ol.at-way', {}, steps.map((step, i) => el('li', { class: i === number ? 'on' : i < number ? 'was' : null, 'aria-current': i === number ? 'step' : null },
        i < number ? icon('tick') : `${i + 1} `, say.text(`flow.step.${step}`)))))]),
      body, el('footer.at-foot', {}, foot));
    this.drawKept();
    body.scrollTop = scrolled;
    host.querySelector(focus ? `[data-key="${CSS.escape(focus)}"]` : isSame ? 'nothing' : 'h2[tabindex]')?.focus({ preventScroll: true });
    this.watchBelow(body);
  }

  drawKept() {
    const place = this.host.querySelector('.kept');
    if (!place || this.isKept === undefined) return;
    place.replaceChildren(this.isKept ? icon('hold') : icon('bad'), ` ${this.say.text(this.isKept ? (this.visit.step === 'done' ? this.keep.saidAtEnd : this.keep.said) : 'flow.notKept')}`);
  }

  // How many rows lie below what is seen.
  watchBelow(body) {
    const place = this.host.querySelector('[data-below]'), rows = [...body.querySelectorAll('.row')];
    if (!place) return;
    const count = () => {
      const bottom = body.getBoundingClientRect().bottom, n = rows.filter(r => r.getBoundingClientRect().top > bottom - 24).length;
      place.textContent = n ? this.say.count('flow.below', n) : '';
    };
    body.addEventListener('scroll', count, { passive: true });
    count();
  }
}

const without = (values, key) => Object.fromEntries(Object.entries(values).filter(e => e[0] !== key));

/** The screen stays on while a person works; where the browser has no lock for it, it goes as the phone has it. */
function stayAwake() {
  const ask = () => { if (!document.hidden) navigator.wakeLock?.request('screen').catch(() => null); };
  document.addEventListener('visibilitychange', ask);
  ask();
}

/** Starts the work at a controller in an element, from the card of a date where one is given. Answers whether the sheet knows the controller. */
export async function startFlow(host, sheet, name, keep, links, now = () => Date.now(), from = null) {
  const controller = sheet.controllers.find(c => c.name === name) ?? (sheet.controllers.length === 1 ? sheet.controllers[0] : null);
  if (!controller) return false;
  keep.controller = controller.name;
  const kept = await keep.load();
  const begin = visit => {
    const flow = new Flow(host, sheet, controller, keep, links, visit, now, from);
    flow.isKept = visit ? true : undefined;
    // What was begun on another day is not taken for today's: a person says whose it is.
    flow.restart = visit && flow.day !== siteTime(sheet.zone, now()).day ? async () => { await keep.discard(visit); begin(null); } : null;
    flow.draw();
  };
  document.title = `${controller.name} – Valvewright`;
  begin(kept?.form === 1 ? kept : null);
  stayAwake();
  return true;
}
