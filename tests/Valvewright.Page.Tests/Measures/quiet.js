// Resolves when the page is at rest: no request and no transaction of the device's database is under way, no short timer runs, and nothing has changed for a moment.
{
  // The real ones: a test may put a clock of its own in their place, which is itself driven by timers.
  const shortMs = 450, later = window.setTimeout, never = window.clearTimeout, time = performance.now.bind(performance);
  let asked = 0, last = time();
  const kept = new Set(), timers = new Map();
  const end = () => { asked--; last = time(); };

  const ask = window.fetch;
  window.fetch = (...given) => { asked++; return ask(...given).finally(end); };

  const open = IDBFactory.prototype.open, transact = IDBDatabase.prototype.transaction;
  IDBFactory.prototype.open = function (...given) {
    const request = open.apply(this, given);
    asked++;
    for (const event of ['success', 'error']) request.addEventListener(event, end, { once: true });
    return request;
  };
  IDBDatabase.prototype.transaction = function (...given) {
    const transaction = transact.apply(this, given);
    asked++;
    for (const event of ['complete', 'abort']) transaction.addEventListener(event, () => { end(); if (transaction.mode === 'readwrite') for (const act of kept) act(); }, { once: true });
    return transaction;
  };

  const setTimer = (act, ms, ...given) => {
    if (typeof act !== 'function' || ms > shortMs) return later(act, ms, ...given);
    const timer = later(() => { timers.delete(timer); if (isRealClock()) last = time(); act(...given); }, ms);
    timers.set(timer, time() + (ms ?? 0));
    return timer;
  };
  window.setTimeout = setTimer;
  window.clearTimeout = timer => { timers.delete(timer); never(timer); };

  // A clock that a test puts in the place of the real one has timers of its own, which are never at rest: there, longer stillness tells.
  const isRealClock = () => window.__pwClock === undefined && window.setTimeout === setTimer;

  window.untilQuiet = (quietMs = isRealClock() ? 100 : 350, longestMs = 60000) => new Promise((resolve, reject) => {
    const begun = time();
    last = begun;
    const watch = new MutationObserver(() => { last = time(); });
    watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
    const look = () => {
      const now = time();
      // One that is long overdue was taken back in a way that is not seen here.
      for (const [timer, due] of timers) if (due < now - shortMs) timers.delete(timer);
      if (asked > 0 || (timers.size > 0 && isRealClock())) last = now;
      if (now - last >= quietMs) { watch.disconnect(); resolve(); }
      else if (now - begun > longestMs) { watch.disconnect(); reject(new Error(`The page does not come to rest: ${asked} requests, ${timers.size} timers.`)); }
      else later(look, 20);
    };
    look();
  });

  // Resolves when so many cards lie ready on the device; looked at whenever something has been kept there.
  window.untilReady = (cards, longestMs = 60000) => new Promise((resolve, reject) => {
    let count = null;
    const stop = later(() => { kept.delete(look); reject(new Error(`${count} cards lie ready, not ${cards}.`)); }, longestMs);
    const look = () => {
      const opening = open.call(indexedDB, 'valvewright');
      opening.onsuccess = () => {
        const keys = transact.call(opening.result, 'ready').objectStore('ready').getAllKeys();
        keys.onsuccess = () => {
          opening.result.close();
          count = keys.result.filter(k => k.length === 3).length;
          if (count === cards) { kept.delete(look); never(stop); resolve(); }
        };
      };
    };
    kept.add(look);
    look();
  });
}
