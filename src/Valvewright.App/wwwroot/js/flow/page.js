// Opens the work at a controller at its address on the page: `sites/<id>/at?controller=<name>`. Answers whether it stands there.
import { at } from '../shelf.js';
import { startFlow } from './flow.js';
import { pageKeep } from './keep-page.js';

export async function openAt(site, name, language, start) {
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
  if (await startFlow(host, sheet, name, keep, links)) return true;
  host.remove();
  document.getElementById('app').hidden = false;
  return false;
}
