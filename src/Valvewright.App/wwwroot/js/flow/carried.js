// A site in one file: its controllers, their cards, a year of what runs when, and the work at a controller.
import { dayOf, isoOf, newId, siteTime } from './dates.js';
import { el, button, go, icon } from './dom.js';
import { rowsOf, rowShown } from './rows.js';
import { checkText } from './checktext.js';
import { Say } from './say.js';
import { cellsOf, nextVisit, plannedOn } from './settings.js';
import { startFlow } from './flow.js';

/** The storage of a carried file: what is begun, by controller, and what is recorded. Where the browser keeps nothing, it lasts as long as the page. */
function fileStore(sheet) {
  const name = `valvewright.carried.${sheet.site}`;
  const empty = { drafts: {}, records: [], given: [] };
  let memory = empty, isKept = true;
  try {
    const text = localStorage.getItem(name);
    if (text) memory = { ...empty, ...JSON.parse(text) };
    localStorage.setItem(name, JSON.stringify(memory));
  } catch { isKept = false; }
  const store = {
    get all() { return memory; },
    get isKept() { return isKept; },
    change(act) {
      memory = act(memory);
      try { localStorage.setItem(name, JSON.stringify(memory)); isKept = true; } catch { isKept = false; }
    },
  };
  return store;
}

/** Saves all records as one file. It may be saved, and taken in, as often as one likes: each record counts once. */
function giveRecords(sheet, store, now) {
  const { records } = store.all, at = siteTime(sheet.zone, now());
  const text = JSON.stringify({ form: 1, site: sheet.site, siteName: sheet.siteName, records }, null, 1);
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = `valvewright-records-${isoOf(at.day)}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  store.change(all => ({ ...all, given: records.map(r => r.id) }));
}

function fileKeep(sheet, store, now) {
  const keep = {
    controller: '', said: 'flow.kept', saidAtEnd: 'flow.kept', canPhoto: false, newId,
    load: async () => store.all.drafts[keep.controller] ?? null,
    save: async visit => { store.change(all => ({ ...all, drafts: { ...all.drafts, [keep.controller]: visit } })); },
    async finish(visit, value) {
      store.change(all => {
        const { [keep.controller]: gone, ...drafts } = all.drafts;
        return { ...all, drafts, records: [...all.records.filter(r => r.id !== visit.id), { id: visit.id, by: '', value }] };
      });
    },
    async discard() {
      store.change(all => {
        const { [keep.controller]: gone, ...drafts } = all.drafts;
        return { ...all, drafts };
      });
    },
    note: say => (store.isKept ? say.count('flow.given', store.all.records.length) : say.text('flow.unsafe')),
    give: () => giveRecords(sheet, store, now),
  };
  return keep;
}

const part = id => JSON.parse(document.getElementById(id).textContent);
const sheet = part('sheet'), year = part('year'), verdict = part('verdict'), now = () => Date.now();
const store = fileStore(sheet), host = document.getElementById('at'), words = new Say(sheet, sheet.controllers[0]);
const today = () => Math.max(siteTime(sheet.zone, now()).day, dayOf(sheet.from));

function show(title, back, main, foot) {
  host.replaceChildren(
    el('header.at-top', {}, back ? el('button.back', { type: 'button', 'aria-label': words.text('flow.back'), onclick: back }, icon('lt', 24)) : el('span.edge'), el('h1', {}, title),
      el('span.s.kept', { role: 'status' }, words.text('flow.asOf', { date: words.date(siteTime(sheet.zone, sheet.madeAt).day) }))),
    el('main.at-main', {}, main.filter(Boolean)), foot ? el('footer.at-foot', {}, foot.filter(Boolean)) : '');
  host.querySelector('main').scrollTop = 0;
  document.title = `${title} – Valvewright`;
}

const verdictHead = () => (verdict === true ? el('div.r', {}, icon('pass', 34), el('b.h', {}, words.text('flow.verdict.passes')))
  : verdict === false ? el('div.fails', {}, icon('bad', 30), el('div', {}, el('b', {}, words.text('flow.verdict.fails')), el('div', {}, words.text('flow.verdict.advice'))))
    : el('div.asks', {}, words.text('flow.verdict.none')));

function home() {
  const records = store.all.records, notGiven = records.filter(r => !store.all.given.includes(r.id)).length, iso = isoOf(today());
  const rows = sheet.controllers.map(c => {
    const say = new Say(sheet, c), next = nextVisit(c, iso), want = plannedOn(c, iso);
    return el('button.row', { type: 'button', onclick: () => card(c) }, el('span.l', {}, el('b', {}, c.name),
      el('small', {}, next ? say.text('flow.nextOn', { date: say.date(dayOf(next.iso)), percent: say.percent(next.percent) }) : '')), el('span.v', {}, say.percent(want.percent)));
  });
  show(sheet.siteName, null, [verdictHead(), el('div.rows', {}, rows),
    store.isKept ? null : el('div.asks', { role: 'alert' }, words.text('flow.unsafe')),
    records.length ? el('div.note', { role: 'status' }, el('div', {}, el('b', {}, words.text('flow.givenTitle')), el('div', {}, words.count('flow.given', records.length)))) : null],
  [el('div.r', {}, button(words.text('flow.runs'), () => day(today())), records.length ? button(words.text('flow.give'), () => { giveRecords(sheet, store, now); home(); }) : null),
    notGiven && sheet.controllers.length === 0 ? null : go(sheet.controllers.length === 1 ? words.text('flow.at') : words.text('flow.atAny'), 'arr', () => (sheet.controllers.length === 1 ? work(sheet.controllers[0].name) : which()))]);
}

function which() {
  show(words.text('flow.atAny'), home, [el('div.rows', {}, sheet.controllers.map(c => el('button.row', { type: 'button', 'data-at': c.name, onclick: () => work(c.name) }, el('span.l', {}, el('b', {}, c.name)))))], null);
}

function card(c) {
  const say = new Say(sheet, c), date = today(), iso = isoOf(date), visit = { answers: {}, ticks: {}, confirmed: false };
  const cells = cellsOf(c, iso, date, isoOf(date - 1)).filter(x => x.kind !== 'clock').map(x => ({ ...x, seen: x.want }));
  show(c.name, home, [verdictHead(), el('p.s', {}, words.text('flow.cardOf', { date: say.date(date) })),
    el('div.rows', {}, rowsOf(visit, cells, c).map(r => rowShown(say, r.cell, say.value(r.cell, r.cell.want)))),
    el('div.check', {}, el('b', {}, say.text('flow.check')), el('output.signs', {}, checkText(plannedOn(c, iso).programs)))],
  [go(say.text('flow.at'), 'arr', () => work(c.name))]);
}

function day(date) {
  const first = dayOf(year.from), at = Math.min(first + year.days - 1, Math.max(first, date)), from = (at - first) * 1440;
  const runs = year.runs.filter(r => r[0] + r[1] / 60 > from && r[0] < from + 1440);
  const line = ([minute, seconds, index, station]) => {
    const c = sheet.controllers[index], zone = c?.zones.find(z => z[0] === station)?.[1];
    return el('div.row', {}, el('div.when', {}, el('b', {}, words.time((minute - from) * 60))), el('span.n', {}, String(station)),
      el('span.l', {}, zone ?? '', el('small', {}, c?.name ?? '')), el('span.v.clear', {}, new Say(sheet, c).run(seconds)));
  };
  const step = n => button(n < 0 ? `−${-n}` : `+${n}`, () => day(at + n), { 'aria-label': words.text('flow.daysOn', { n }) });
  show(words.date(at), home, [el('h2', {}, words.text('flow.runs')), el('div.rows', {}, runs.length ? runs.map(line) : el('p', {}, words.text('flow.nothing')))],
    [el('div.r', {}, [-7, -1, 1, 7].map(step))]);
}

async function work(name) {
  const links = { site: '#', at: other => `#${encodeURIComponent(other)}`, leave: home };
  await startFlow(host, sheet, name, fileKeep(sheet, store, now), links, now);
}

// Links within the file: the site, or the work at another controller.
addEventListener('hashchange', () => {
  const name = decodeURIComponent(location.hash.slice(1));
  if (name) work(name); else home();
});
if (location.hash.length > 1) work(decodeURIComponent(location.hash.slice(1))); else home();
