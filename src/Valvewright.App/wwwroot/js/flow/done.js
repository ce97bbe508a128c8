// Done: what to expect here, in the order in which it happens, then the next visit and the next stop.
import { watersOn } from './dates.js';
import { el, go, icon } from './dom.js';
import { putRight, standing } from './rows.js';
import { runsOf } from './say.js';
import { left, nextVisit, programsLeft } from './settings.js';

const daysAhead = 14, mostLines = 4;

/** What runs next as it was left: [{day, from, letter, station, seconds}]; null where programs meet and only the engine can tell. */
export function expected(flow, programs, percent) {
  const { controller } = flow, start = flow.clockAt(), out = [];
  if (percent === 0) return [];
  for (let day = start.day - 1; day < start.day + daysAhead; day++) {
    for (const program of programs.filter(p => watersOn(p.days, day, controller.profile))) {
      for (const run of runsOf(program, percent, controller.profile.pause).flatMap(r => r.runs)) {
        out.push({ at: day * 86400 + run.from, end: day * 86400 + run.to, letter: program.letter, station: run.station, seconds: run.to - run.from });
      }
    }
  }
  const later = out.filter(r => r.at >= start.day * 86400 + start.second && r.seconds > 0).sort((a, b) => a.at - b.at);
  const near = later.slice(0, 8);
  return near.some((run, i) => i > 0 && run.at < near[i - 1].end) ? null : later;
}

/** The screen; the visit is recorded by then. */
export function doneScreen(flow) {
  const { say, visit, cells, controller, sheet } = flow, counts = standing(visit, cells, controller), programs = programsLeft(visit, cells, flow.day);
  const isCard = counts.open.length + counts.unread.length === 0;
  const how = isCard ? say.text('flow.done.card', { check: flow.cardCheck() })
    : [counts.unread.length ? say.count('flow.done.unread', counts.unread.length) : '', counts.open.length ? say.count('flow.done.open', counts.open.length) : ''].filter(Boolean).join(' ');
  const percentCell = cells.find(c => c.kind === 'percent'), percent = percentCell ? left(visit, percentCell)?.v : 100;
  const runs = programs && typeof percent === 'number' ? expected(flow, programs, percent) : null;
  const next = nextVisit(controller, flow.iso), repaired = putRight(say, visit, cells), others = flow.others();
  return {
    main: [
      el('div.r.verdict-big', {}, icon(isCard ? 'pass' : 'ask', 62), el('div', {}, el('h2', { tabindex: '-1' }, say.text('flow.done.title')), el('div', {}, how))),
      el('div.rows', {}, el('b', {}, say.text('flow.expect')), runs === null ? el('p', {}, say.text(programs ? 'flow.expect.engine' : 'flow.expect.unread'))
        : runs.length === 0 ? el('p', {}, say.text(percent === 0 ? 'flow.expect.off' : 'flow.expect.none', { n: daysAhead })) : runs.slice(0, mostLines).map(r => expectLine(flow, r))),
      next ? el('div.rows', {}, el('div.s', {}, say.text('flow.nextVisit', { name: controller.name })),
        el('div.r.sp', {}, el('b.h', {}, say.date(flow.dayOf(next.iso))), el('span', {}, `${say.text('flow.setPercent')} `, el('b', {}, say.percent(next.percent))))) : null,
      repaired.length ? el('p.s', {}, el('b', {}, `${say.text('flow.repaired')} `), repaired.join('; ')) : null,
      flow.keep.note ? el('div.note', { role: 'status' }, flow.keep.note(say)) : null,
    ],
    foot: [
      el('div.r', {}, flow.keep.give ? el('button.btn', { type: 'button', onclick: () => flow.keep.give() }, say.text('flow.give')) : null,
        others.length ? el('a.btn', { href: flow.links.site, target: '_top' }, say.text('flow.site')) : null),
      others.length ? el('a.go', { href: flow.links.at(others[0].name), target: '_top', 'data-go': '' }, el('span', {}, say.text('flow.nextStop', { name: others[0].name })), el('i', {}, icon('arr', 30)))
        : el('a.go', { href: flow.links.site, target: '_top', 'data-go': '' }, el('span', {}, say.text('flow.site')), el('i', {}, icon('arr', 30))),
    ],
  };
}

function expectLine(flow, run) {
  const { say } = flow, day = Math.floor(run.at / 86400), zone = flow.controller.zones.find(z => z[0] === run.station)?.[1];
  const when = day === flow.clockAt().day ? say.text('flow.expect.today') : say.date(day);
  return el('div.row', {}, el('div.when', {}, el('small', {}, when), el('b', {}, say.time(run.at % 86400))), el('span.n', {}, String(run.station)),
    el('span.l', {}, zone ? `${zone}, ` : '', el('b', {}, say.run(run.seconds))));
}

/** Notes that go with the record: what no one can tell from the settings alone. */
export function notesOf(flow) {
  const { say, visit, cells, controller } = flow, notes = [];
  const unread = standing(visit, cells, controller).unread.filter(r => r.cell.kind !== 'clock').map(r => say.full(r.cell));
  if (unread.length) notes.push(say.text('flow.note.unread', { rows: unread.join('; ') }));
  const refused = cells.filter(c => visit.refused[c.key]).map(c => `${say.full(c)}: ${say.value(c, c.want)}`);
  if (refused.length) notes.push(say.text('flow.note.refused', { rows: refused.join('; ') }));
  if (visit.compared === 'different') notes.push(say.text('flow.note.different'));
  return notes.join(' ');
}
