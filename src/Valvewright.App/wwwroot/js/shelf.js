// The device's own database: sites carried along, cards that lie ready (js/ready.js shows them), what is recorded and not yet sent, its photos, and drafts.
const stores = ['sites', 'unsent', 'drafts', 'photos', 'ready'];
let opened = null;

function open() {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open('valvewright', 2);
    request.onupgradeneeded = () => { for (const name of stores) if (!request.result.objectStoreNames.contains(name)) request.result.createObjectStore(name); };
    request.onsuccess = () => { request.result.onversionchange = () => { request.result.close(); opened = null; }; resolve(request.result); };
    request.onerror = () => { opened = null; reject(request.error); };
  });
  return opened;
}

// Resolves when the device says that the change is on its disk, not when it has only been asked for.
async function within(store, mode, act) {
  const database = await open();
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(store, mode, { durability: 'strict' });
    const request = act(...[store].flat().map(name => transaction.objectStore(name)));
    transaction.oncomplete = () => resolve(request?.result ?? null);
    // The name tells a full device from any other fault.
    transaction.onabort = () => reject(new Error(`${transaction.error?.name ?? 'AbortError'}: ${transaction.error?.message ?? ''}`));
  });
}

export const get = (store, key) => within(store, 'readonly', s => s.get(key));
export const put = (store, key, value) => within(store, 'readwrite', s => s.put(value, key));
export const remove = (store, key) => within(store, 'readwrite', s => s.delete(key));

// Changes a value only where it is still the one that the change rests on: another window may have been first. Null is no value.
export function swap(store, key, expected, value) {
  let done = false;
  return within(store, 'readwrite', s => {
    const asked = s.get(key);
    asked.onsuccess = () => {
      if ((asked.result ?? null) !== expected) return;
      done = true;
      if (value === null) s.delete(key); else s.put(value, key);
    };
  }).then(() => done);
}

// A site with the cards that lie ready of it: under [site] the version that they are of, under [site, language] the controller whose card is the
// only one, under [site, language, controller] the cards. Another version of the site takes them away in the same step.
const cardsOf = site => IDBKeyRange.bound([site], [site, []]);

export const putSite = (site, value, version) => within(['sites', 'ready'], 'readwrite', (sites, ready) => {
  sites.put(value, site);
  ready.get([site]).onsuccess = event => { if (event.target.result !== version) { ready.delete(cardsOf(site)); ready.put(version, [site]); } };
});

// Sites lie there as bytes, which the engine takes over faster than text.
export const site = async key => { const kept = await get('sites', key); return typeof kept === 'string' ? new TextEncoder().encode(kept) : kept; };

export const removeSite = site => within(['sites', 'ready'], 'readwrite', (sites, ready) => {
  sites.delete(site);
  ready.delete(cardsOf(site));
  ready.delete(IDBKeyRange.bound(['at', site], ['at', `${site}~`]));
});

export const ready = (site, language, controller) => within('ready', 'readonly', s => s.get([site, language, controller]));

// A card is laid ready only where the site is on the device, in the version that the card is of.
export function putReady(site, language, controller, value, version, isOnly) {
  let done = false;
  return within(['sites', 'ready'], 'readwrite', (sites, ready) => {
    const lay = () => {
      done = true;
      ready.put(value, [site, language, controller]);
      if (isOnly) ready.put(controller, [site, language]); else ready.delete([site, language]);
    };
    sites.count(site).onsuccess = there => {
      if (there.target.result === 0) return;
      ready.get([site]).onsuccess = event => {
        if (event.target.result === undefined) ready.put(version, [site]);
        if ((event.target.result ?? version) === version) lay();
      };
    };
  }).then(() => done);
}

// What the work at a controller needs, in one language; it stays until a newer one takes its place, or the site goes.
export const putAt = (site, language, value) => within(['sites', 'ready'], 'readwrite', (sites, ready) => {
  sites.count(site).onsuccess = there => { if (there.target.result > 0) ready.put(value, ['at', `${site} ${language}`]); };
});
export const at = (site, language) => get('ready', ['at', `${site} ${language}`]);

// Records something that waits to be sent, behind all that waits already; the same id again changes nothing but what it says.
export const record = value => within('unsent', 'readwrite', unsent => {
  unsent.getAll().onsuccess = event => {
    const there = event.target.result.map(text => JSON.parse(text)), before = there.find(r => r.id === value.id);
    unsent.put(JSON.stringify({ ...value, number: before?.number ?? Math.max(0, ...there.map(r => r.number)) + 1 }), value.id);
  };
});

export const keys = store => within(store, 'readonly', s => s.getAllKeys());
export const all = store => within(store, 'readonly', s => s.getAll());

// One device may show the page in several windows: anyone who holds the lock sends, the others wait their turn.
export async function alone(name, holder) {
  if (!navigator.locks) return holder.invokeMethodAsync('Run');
  return navigator.locks.request(name, () => holder.invokeMethodAsync('Run'));
}

// What is written in one window at a time: a window holds it as long as it is open and no one takes it over. Answers whether it is held; a
// browser
// without locks (a page that did not come over a safe connection) holds everything.
const held = new Map();
export function take(name, holder, over) {
  if (!navigator.locks) return true;
  let mine = false;
  return new Promise(answer => navigator.locks.request(name, over ? { steal: true } : { ifAvailable: true }, lock => {
    mine = lock !== null;
    answer(mine);
    return lock && new Promise(release => held.set(name, release));
  }).catch(() => {
    if (!mine) { answer(true); return; }
    held.delete(name);
    return holder.invokeMethodAsync('Run');
  }));
}
export const letGo = name => { held.get(name)?.(); held.delete(name); };
