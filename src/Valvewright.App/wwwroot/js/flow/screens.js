// The screens of the work at a controller, in its order: found, change, left.
import { offsetAt, watersOn } from './dates.js';
import { el, button, go, icon } from './dom.js';
import { begin, editor } from './edit.js';
import { differs, rowButton, rowsOf, rowShown, standing } from './rows.js';
import { checkText } from './checktext.js';
import { effect } from './say.js';
import { changes, found, left, plannedOn, programsLeft, same } from './settings.js';

/** A visit that was begun on another day and not finished: today's is begun, or that one finished under its date. */
export function oldScreen(flow) {
  const { say } = flow, date = say.date(flow.day);
  return {
    main: [el('h2', { 'data-old': '' }, say.text('flow.old.title', { date })), el('p.s', {}, say.text('flow.old.help'))],
    foot: [button(say.text('flow.old.goOn', { date }), () => flow.goOn()), go(say.text('flow.old.again'), 'arr', () => flow.restart())],
  };
}

/** Found: every row of the card; one touch says that all is as shown. */
export function foundScreen(flow) {
  const { say, visit, cells, controller } = flow, rows = rowsOf(visit, cells, controller);
  const open = row => () => flow.edit(row);
  const list = el('div.rows', {}, rows.map(row => rowButton(say, visit, row, open(row), flow.clockNow(), percentNote(flow, row))));
  const n = rows.filter(r => differs(visit, r.cell)).length, isAny = Object.keys(visit.answers).length > 0;
  const missing = rows.filter(r => r.cell.kind !== 'clock' && r.cell.seen === undefined && !visit.answers[r.cell.key]);
  return {
    main: [
      ...flow.doubts().map(d => el('div.asks', { role: 'status' }, d)),
      el('h2', {}, say.text('flow.found.title')), el('p.s', {}, say.text(missing.length ? 'flow.found.some' : 'flow.found.help')),
      flow.dayOf(flow.iso) === flow.day ? null : el('p.s', { 'data-card': flow.iso }, say.text('flow.cardOf', { date: say.date(flow.dayOf(flow.iso)) })), list,
    ],
    foot: [
      el('div.r.sp.s.status', {}, el('span', { 'data-below': '' }), el('b', { role: 'status' }, say.text('flow.found.count', { n, of: rows.length }))),
      go(say.text(isAny ? 'flow.found.rest' : 'flow.found.all'), 'tick', () => flow.confirm()),
    ],
  };
}

const percentNote = (flow, { cell }) => (cell.kind === 'percent' && !same(cell.seen, cell.want) ? flow.say.text('flow.today', { value: flow.say.value(cell, cell.want) }) : null);

/** One setting: what the display shows of it, and at once what that would do. */
export function editScreen(flow, row) {
  const { say, visit, cells } = flow, { cell } = row, before = cells[cells.findIndex(c => c.key === cell.key) - 1];
  const told = el('div', { 'aria-live': 'polite' }), act = go('', 'tick', () => flow.answer(row, { v: panel.current() }));
  const tell = (value, hasMoved) => {
    act.firstChild.replaceChildren(say.text('flow.shows', { value: say.value(cell, value) }));
    told.replaceChildren(...(hasMoved ? [whatItDoes(flow, cell, value)].filter(Boolean) : []));
  };
  const all = v => () => flow.answer(row, v, true);
  const others = [
    cell.kind === 'start' ? button(say.text('flow.clear'), all({ v: null })) : null,
    cell.kind === 'percent' ? button(say.text('flow.off'), all({ v: 0 })) : null,
    button(say.text('flow.unread.say'), all({ unread: true })),
  ].filter(Boolean);
  const panel = editor(say, { ...cell, last: cell.index }, begin(cell, found(visit, cell), flow.clockNow()), tell, others);
  const first = before ? rowsOf(visit, [before], flow.controller)[0] : null;
  return { main: [first ? rowButton(say, visit, first, () => flow.edit(first), flow.clockNow()) : null, panel.box, told], foot: [act] };
}

function whatItDoes(flow, cell, value) {
  const { say, visit, sheet, controller } = flow;
  if (!['start', 'run', 'days'].includes(cell.kind)) return null;
  const own = flow.cells.filter(c => c.letter === cell.letter), read = c => (c.key === cell.key ? value : (left(visit, c) ?? { v: c.seen }).v);
  const starts = own.filter(c => c.kind === 'start').map(read).filter(s => typeof s === 'number').sort((a, b) => a - b);
  const rule = read(own.find(c => c.kind === 'days') ?? { key: '' }) ?? null, leftCell = own.find(c => c.kind === 'left');
  const days = rule?.kind === 'interval' ? { ...rule, anchor: flow.day + ((leftCell && read(leftCell)) || 0) } : rule;
  const program = { letter: cell.letter, days, starts, runs: own.filter(c => c.kind === 'run').map(c => [c.index, read(c) ?? 0]), changed: cell.kind === 'start' ? value : null };
  const wanted = plannedOn(controller, flow.iso), percentCell = flow.cells.find(c => c.kind === 'percent'), percent = percentCell ? read(percentCell) ?? 100 : 100;
  const shift = controller.clock.standardMinutes === null ? 0 : offsetAt(sheet.zone, flow.now()) - controller.clock.standardMinutes;
  const said = effect(say, sheet, cell, program, wanted.programs.find(p => p.letter === cell.letter), percent, flow.day, shift);
  const isFail = said.kind === 'fails', next = isFail ? null : Array.from({ length: 40 }, (_, i) => flow.day + i).find(d => watersOn(days, d, controller.profile));
  return el(isFail ? 'div.fails' : 'div.note', {}, isFail ? icon('bad', 30) : null,
    el('div', {}, el('b', {}, said.title), said.lines.map(l => el('div', {}, l)), next ? el('div', {}, say.text('flow.effect.next', { date: say.date(next) })) : null));
}

/** Change: one setting at a time, old above new, nothing else. */
export function changeScreen(flow) {
  const { say, visit, cells, controller } = flow, list = changes(visit, cells), open = list.filter(c => !(c.key in visit.ticks) && !visit.skipped[c.key]);
  const cell = open[0], at = list.indexOf(cell), want = cell.kind === 'clock' ? flow.clockNow() : cell.want, there = found(visit, cell);
  const right = standing(visit, cells, controller).right.length, next = open[1];
  const value = say.value(cell, want), isWide = value.length > 5;
  const put = isRefused => () => flow.skip(cell, isRefused);
  return {
    main: [
      el('div.r.sp', {}, el('b.h', {}, say.text('flow.change.at', { n: at + 1, of: list.length })), el('span.s', {}, say.count('flow.change.right', right))),
      el('div.bars', { 'aria-hidden': 'true' }, list.map(c => el('i', { class: c.key in visit.ticks ? 'done' : c === cell ? 'now' : '' }))),
      el('div.r.what', {}, cell.letter ? el('span.p', {}, cell.letter) : null, cell.kind === 'run' ? el('span.n', {}, String(cell.index)) : null,
        el('div', {}, el('h2', { tabindex: '-1' }, cell.kind === 'run' ? say.text('flow.run') : say.name(cell)), el('span.s', {}, say.zone(cell) ?? ''))),
      el('div.swap', {}, el('div.old', {}, say.text('flow.now', { value: there && !there.unread ? say.value(cell, there.v) : '–' })), icon('dn', 56),
        el('div', { class: isWide ? 'new wide' : 'new', 'data-new': cell.key }, value)),
      el('p.s.then', {}, next ? say.text('flow.change.then', { what: say.full(next) }) : say.text('flow.change.last')),
    ],
    foot: [
      el('div.r', {}, button(say.text('flow.skip'), put(false)), button(say.text('flow.refused'), put(true))),
      go(say.text('flow.shows', { value }), 'tick', () => flow.tick(cell, want), null, { class: 'go huge' }),
    ],
  };
}

/** Left: found plus ticks, and the check text to compare; none where a row was not read. */
export function leftScreen(flow) {
  const { say, visit, cells, controller } = flow, counts = standing(visit, cells, controller);
  const line = (n, name, mark) => el('div.row.short', {}, el('b.n-of', {}, String(n)), el('span.l', {}, say.text(name)), n > 0 && mark ? icon(mark, 24) : null);
  const head = [el('h2', { tabindex: '-1' }, say.text('flow.left.title')), el('div.rows', {},
    line(counts.right.length, 'flow.left.right', 'pass'), line(counts.ticked.length, 'flow.left.ticked', 'pass'),
    counts.open.length ? line(counts.open.length, 'flow.left.open', 'ask') : null, line(counts.unread.length, 'flow.left.unread', 'ask'))];
  const programs = programsLeft(visit, cells, flow.day);
  if (!programs) return unreadScreen(flow, head, counts.unread);
  const check = checkText(programs), isCard = check === flow.cardCheck(), open = counts.open.map(r => say.full(r.cell)).join('; ');
  if (visit.compared === 'different') return differentScreen(flow, head, check, counts.ticked);
  const old = otherCards(flow, check), lastTicked = cells.findLast(c => c.key in visit.ticks && c.letter);
  return {
    main: [...head,
      el('div.check', {}, el('b', {}, say.text('flow.check.title')), el('output.signs', { 'data-check': check }, check),
        el('div', {}, say.text(isCard ? 'flow.check.ask' : 'flow.check.other', { card: flow.cardCheck() }))),
      open ? el('p.s', {}, say.text('flow.left.which', { rows: open })) : null,
      el('div.rows.else', {}, el('b', {}, say.text('flow.check.else')), el('table', {},
        old.map(o => el('tr', {}, el('th', {}, o.check), el('td', {}, say.text('flow.check.old', { date: say.dayOfYear(o.on) })))),
        el('tr', {}, el('th', {}, say.text('flow.check.others')), el('td', {}, lastTicked ? say.text('flow.check.look', { what: say.full(lastTicked) }) : say.text('flow.check.read')))))],
    foot: [
      el('div.r', {}, button(say.text('flow.different'), () => flow.compare('different')), button(say.text('flow.noCard'), () => flow.compare('none'))),
      go(say.text('flow.same'), 'tick', () => flow.compare('same')),
    ],
  };
}

// Cards of other times of the year, by the check text that they show.
function otherCards(flow, check) {
  const seen = new Set([check]);
  return flow.controller.visits.map(v => ({ on: v.on, check: checkText(flow.controller.sets[v.set]) })).filter(o => !seen.has(o.check) && seen.add(o.check)).slice(0, 2);
}

function unreadScreen(flow, head, rows) {
  const { say } = flow, first = rows[0];
  return {
    main: [...head,
      el('div.asks.check', {}, el('b', {}, say.text('flow.check.none')), el('output.signs.none', {}, '–––––'), el('div', {}, say.text('flow.check.needs'))),
      el('div.rows', {}, rows.slice(0, 3).map(row => rowShown(say, row.cell, null)), rows.length > 3 ? el('p.s', {}, say.text('flow.left.more', { n: rows.length - 3 })) : null),
      el('p.s', {}, say.count('flow.left.claim', rows.length))],
    foot: [
      el('div.r', {}, button(say.text('flow.left.leave'), () => flow.to('measured')),
        first ? button(say.text('flow.left.key', { value: say.value(first.cell, first.cell.kind === 'clock' ? flow.clockNow() : first.cell.want) }), () => flow.keyIn(first)) : null),
      first ? go(say.text('flow.left.read'), 'arr', () => flow.edit(first)) : go(say.text('flow.next'), 'arr', () => flow.to('measured')),
    ],
  };
}

function differentScreen(flow, head, check, ticked) {
  const { say, visit } = flow, last = [...ticked].reverse();
  return {
    main: [...head, el('div.asks', {}, el('b', {}, say.text('flow.differs.title', { check })), el('div', {}, say.text('flow.differs.help'))),
      el('div.rows', {}, (last.length ? last : rowsOf(visit, flow.cells, flow.controller)).slice(0, 6).map(row => rowButton(say, { ...visit, answers: answersLeft(visit, row) }, row, () => flow.edit(row), flow.clockNow())))],
    foot: [el('div.r', {}, button(say.text('flow.differs.leave'), () => flow.to('measured'))), go(say.text('flow.differs.now'), 'tick', () => flow.compare('same'))],
  };
}

const answersLeft = (visit, row) => ({ ...visit.answers, ...Object.fromEntries(row.cells.filter(c => c.key in visit.ticks).map(c => [c.key, { v: visit.ticks[c.key] }])) });
