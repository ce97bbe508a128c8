// Opens the work at a controller at its address on the page: `sites/<id>/at?controller=<name>`, `&from=<date>` where a card of a
// date led here. Answers whether it stands there.
import { newId } from './dates.js';
import { startFlow } from './flow.js';
import { at, get, put, putAt, record, remove } from '../shelf.js';

const remembered = name => { try { return localStorage.getItem(name) ?? ''; } catch { return ''; } };

// Keeps what is said on the device, and records the visit where all records wait to be sent (js/shelf.js, Outbox).
function pageKeep(sheet, started) {
  const name = () => `at ${sheet.site} ${keep.controller}`;
  const waiting = (id, kind, address, type, body, after = null) => ({
    id, site: sheet.site, kind, address, type, body, version: null, madeAt: new Date().toISOString(), by: remembered('valvewright.by'), siteName: sheet.siteName,
    units: sheet.isUs ? 'usCustomary' : 'metric', clock: sheet.hours24 ? 'hours24' : 'hours12', number: 0, after, tried: [], refusal: null, problem: null,
  });
  const keep = {
    controller: '', said: 'flow.kept', saidAtEnd: 'flow.keptEnd', canPhoto: true, newId: () => newId(),
    load: async () => { const text = await get('drafts', name()); return text ? JSON.parse(text) : null; },
    save: visit => put('drafts', name(), JSON.stringify(visit)),
    async photo() {
      const input = document.createElement('input');
      Object.assign(input, { type: 'file', accept: 'image/*', capture: 'environment' });
      const chosen = await new Promise(done => { input.addEventListener('change', () => done(true)); input.addEventListener('cancel', () => done(false)); input.click(); });
      if (!chosen || !input.files[0]) return null;
      const { shrinkPhoto } = await import('../device.js'), bytes = await shrinkPhoto(input, 1600), id = newId();
      await put('photos', id, bytes);
      return id;
    },
    // The record and its photos first, then the draft: whatever stops it half way leaves the draft, to be finished under the same ids.
    async finish(visit, value) {
      const address = `api/sites/${sheet.site}/visits/${visit.id}`;
      await record(waiting(visit.id, 'visit', address, 'application/json', JSON.stringify(value)));
      for (const photo of visit.photos) await record(waiting(photo, 'photo', `${address}/photos/${photo}`, 'image/jpeg', null, visit.id));
      await remove('drafts', name());
    },
    async discard(visit) {
      for (const photo of visit.photos) await remove('photos', photo);
      await remove('drafts', name());
    },
    saveSheet: changed => putAt(sheet.site, sheet.language, JSON.stringify(changed)).catch(() => null),
    finished: started,
  };
  return keep;
}

export async function openAt(site, name, language, start, from) {
  const text = await at(site, language);
  if (!text) return false;
  const sheet = JSON.parse(text), host = document.createElement('div');
  host.id = 'at';
  const links = {
    site: `sites/${site}`, at: controller => `sites/${site}/at?controller=${encodeURIComponent(controller)}`,
    leave: () => { location.href = new URL(`sites/${site}/cards?controller=${encodeURIComponent(keep.controller)}`, document.baseURI).href; },
  };
  const keep = pageKeep(sheet, start);
  document.body.prepend(host);
  document.getElementById('app').hidden = true;
  if (await startFlow(host, sheet, name, keep, links, undefined, from)) return true;
  host.remove();
  document.getElementById('app').hidden = false;
  return false;
}
