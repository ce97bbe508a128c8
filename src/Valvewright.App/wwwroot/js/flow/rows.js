// The rows of a card as they are read off: like settings next to each other that are all clear stand in one row.
import { el, icon } from './dom.js';
import { changes, found, left, same } from './settings.js';

const isEmpty = (visit, cell) => {
  const answer = visit.answers[cell.key], value = answer ? answer.v : cell.seen;
  return !(cell.key in visit.ticks) && !answer?.unread && (cell.kind === 'start' ? value === null && cell.want === null : cell.kind === 'run' && value === 0 && cell.want === 0);
};

/** Rows: {cell, cells}; `cell.last` is the last slot of a row of several. */
export function rowsOf(visit, cells, controller) {
  const rows = [], hasZone = c => c.kind === 'run' && controller.zones.some(z => z[0] === c.index);
  for (const cell of cells) {
    const row = rows.at(-1), before = row?.cells.at(-1);
    const joins = before && before.letter === cell.letter && before.kind === cell.kind && cell.index > 1 && !hasZone(cell) && !hasZone(before)
      && ((isEmpty(visit, before) && isEmpty(visit, cell)) || (visit.answers[before.key]?.unread && visit.answers[cell.key]?.unread));
    if (joins) row.cells.push(cell); else rows.push({ cells: [cell] });
  }
  return rows.map(row => ({ ...row, cell: { ...row.cells[0], last: row.cells.at(-1).index } }));
}

export const differs = (visit, cell) => { const answer = visit.answers[cell.key]; return !!answer && (answer.unread || !same(answer.v, cell.seen) || cell.kind === 'clock'); };

/** How the rows of a card stand: right, ticked, not read, and read but not as on the card. */
export function standing(visit, cells, controller) {
  const result = { right: [], ticked: [], unread: [], open: [] };
  const toChange = new Set(changes(visit, cells).map(c => c.key));
  for (const row of rowsOf(visit, cells, controller)) {
    const key = row.cell.key, there = left(visit, row.cell);
    if (row.cell.kind === 'clock') {
      const kind = key in visit.ticks ? 'ticked' : visit.answers.clock?.unread ? 'unread' : toChange.has('clock') ? 'open' : visit.confirmed ? 'right' : 'unread';
      result[kind].push(row);
    } else if (row.cells.some(c => c.key in visit.ticks)) result.ticked.push(row);
    else if (!there || there.unread) result.unread.push(row);
    else result[same(there.v, row.cell.want) ? 'right' : 'open'].push(row);
  }
  return result;
}

/** A row to touch. */
export function rowButton(say, visit, row, act, clockNow, note = null) {
  const { cell } = row, answer = visit.answers[cell.key], isUnread = answer?.unread, isOther = differs(visit, cell);
  const there = cell.kind === 'clock' ? answer?.v ?? clockNow : answer ? answer.v : cell.seen;
  const small = isUnread ? say.text('flow.unread') : isOther && cell.kind !== 'clock' ? `${say.text('flow.card')} ${say.value(cell, cell.want)}` : say.zone(cell) ?? note;
  const value = isUnread ? el('span.blind') : el('span.v', { class: there === null || there === 0 ? 'v clear' : 'v' }, say.value(cell, there));
  return el('button.row', { type: 'button', 'data-row': cell.key, class: isOther ? 'row other' : 'row', onclick: act },
    cell.letter ? el('span.p', {}, cell.letter) : null, el('span.l', {}, say.name(cell), small ? el('small', {}, small) : null), value);
}

/** A row that is only looked at. */
export const rowShown = (say, cell, value, mark) => el('div.row', {},
  cell.letter ? el('span.p', {}, cell.letter) : null, el('span.l', {}, say.name(cell), say.zone(cell) ? el('small', {}, say.zone(cell)) : null),
  value === null ? el('span.blind', {}) : el('span.v', {}, value), mark ? icon(mark, 24) : null);

/** What was found wrong and put right, in words. */
export const putRight = (say, visit, cells) => cells.filter(c => c.key in visit.ticks && c.kind !== 'clock' && differs(visit, c) && !visit.answers[c.key].unread)
  .map(c => `${say.full(c)}: ${say.value(c, found(visit, c).v)} → ${say.value(c, visit.ticks[c.key])}`);
