// Keeps what is said at a controller in the storage of a carried file, and gives the records back as a file.
import { newId } from './ids.js';
import { isoOf, siteTime } from './dates.js';

/** The storage of a carried file: what is begun, by controller, and what is recorded. Where the browser keeps nothing, it lasts as long as the page. */
export function fileStore(sheet) {
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
export function giveRecords(sheet, store, now) {
  const { records } = store.all, at = siteTime(sheet.zone, now());
  const text = JSON.stringify({ form: 1, site: sheet.site, siteName: sheet.siteName, records }, null, 1);
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = `valvewright-records-${isoOf(at.day)}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  store.change(all => ({ ...all, given: records.map(r => r.id) }));
}

export function fileKeep(sheet, store, now) {
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
    note: say => (store.isKept ? say.count('flow.given', store.all.records.length) : say.text('flow.unsafe')),
    give: () => giveRecords(sheet, store, now),
  };
  return keep;
}
