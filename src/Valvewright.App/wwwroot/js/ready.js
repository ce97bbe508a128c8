// A card that lies ready on the device stands before the engine has started, which takes seconds on a phone. Then the page starts out of sight,
// and takes the card's place when it has the card itself. At every other address the page is started at once.
(() => {
  const longestLookMs = 3000;
  const element = id => document.getElementById(id);
  const answered = request => new Promise((resolve, reject) => { request.onsuccess = () => resolve(request.result); request.onerror = () => reject(request.error); });
  const later = ms => new Promise(done => setTimeout(done, ms, null));
  const touched = new Set();
  let database = null;

  // The date at the site; an unknown time zone is an error, and then nothing is shown early.
  function today(zone) {
    const style = { timeZone: zone, calendar: 'gregory', numberingSystem: 'latn', year: 'numeric', month: '2-digit', day: '2-digit' };
    const part = Object.fromEntries(new Intl.DateTimeFormat('en', style).formatToParts(new Date()).map(p => [p.type, p.value]));
    return `${part.year}-${part.month}-${part.day}`;
  }

  // 'same': it is for the day asked for. 'other': it still holds, but what it says of days is of another one. null: it may be wrong.
  function standing(card, query) {
    const usual = today(card.zone) > card.first ? today(card.zone) : card.first;
    const day = query.get('from') ?? usual;
    if ((query.get('plan') ?? card.plan).toLowerCase() !== card.plan || !/^\d{4}-\d\d-\d\d$/.test(day)) return null;
    return day === card.day ? 'same' : day > card.day && day <= card.until ? 'other' : null;
  }

  async function find() {
    const at = location.pathname.match(/^\/sites\/([0-9a-f-]{36})\/cards\/?$/i);
    if (!at) return null;
    const query = new URLSearchParams(location.search), site = at[1].toLowerCase(), language = document.documentElement.lang;
    const request = indexedDB.open('valvewright');
    // Nothing lies there yet: laying the database out is left to those who keep something in it.
    request.onupgradeneeded = () => request.transaction.abort();
    database = await answered(request);
    database.onversionchange = () => database.close();
    const ready = database.transaction('ready').objectStore('ready');
    const controller = query.get('controller') ?? await answered(ready.get([site, language]));
    const text = controller && await answered(database.transaction('ready').objectStore('ready').get([site, language, controller]));
    if (!text) return null;
    const card = JSON.parse(text), stands = standing(card, query);
    return stands && { ...card, stands, ticked: await ticked(card) };
  }

  async function ticked(card) {
    const text = await answered(database.transaction('drafts').objectStore('drafts').get(card.ticks));
    return new Set(text ? JSON.parse(text).keys : []);
  }

  // As the live card keeps them, so that it finds them.
  const keep = (card, key, isTicked) => new Promise((resolve, reject) => {
    const transaction = database.transaction('drafts', 'readwrite', { durability: 'strict' });
    const drafts = transaction.objectStore('drafts');
    drafts.get(card.ticks).onsuccess = event => {
      const keys = new Set(event.target.result ? JSON.parse(event.target.result).keys : []);
      if (isTicked) keys.add(key); else keys.delete(key);
      drafts.put(JSON.stringify({ keys: [...keys].sort() }), card.ticks);
    };
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error);
  });

  // What is next, and how far one has come.
  function mark(box, progress) {
    const lines = [...box.querySelectorAll('input[data-key]')], next = lines.find(l => !l.checked);
    box.querySelectorAll('.keyed.next').forEach(line => { line.classList.remove('next'); line.querySelector('.what').lastElementChild.remove(); });
    if (next) {
      next.closest('.keyed').classList.add('next');
      next.closest('.keyed').querySelector('.what').append(box.querySelector('template[data-next]').content.cloneNode(true));
    }
    box.querySelector('[data-progress]').textContent = progress.replace('{n}', lines.filter(l => l.checked).length).replace('{of}', lines.length);
  }

  function show(card) {
    const box = document.createElement('div');
    box.id = 'ready';
    // Drawn by this page's own parts when the site was last opened here; names stand in it as text.
    box.innerHTML = card.html;
    const progress = box.querySelector('[data-progress]').textContent;
    if (card.stands === 'other') {
      box.querySelectorAll('[data-day]').forEach(part => { part.textContent = '…'; });
      box.querySelector('[data-other-day]').hidden = false;
    }
    for (const line of box.querySelectorAll('input[data-key]')) {
      line.disabled = card.stands === 'other' && 'ofDay' in line.dataset;
      line.checked = card.ticked.has(line.dataset.key);
    }
    mark(box, progress);
    box.addEventListener('change', async event => {
      const line = event.target, key = line.dataset.key;
      if (key === undefined) return;
      touched.add(line);
      mark(box, progress);
      try { await keep(card, key, line.checked); } catch { line.checked = !line.checked; mark(box, progress); }
    });
    box.addEventListener('click', event => {
      const opener = event.target.closest('.opener button');
      if (opener) opener.setAttribute('aria-expanded', String(!(element(opener.getAttribute('aria-controls')).hidden = opener.getAttribute('aria-expanded') === 'true')));
      // Who goes elsewhere does not wait for a card.
      else if (event.target.closest('a') && element('app').querySelector('.body')) takeOver(box);
    });
    document.title = card.title;
    element('app').hidden = true;
    element('app').before(box);
    const watch = new MutationObserver(() => { if (element('app').querySelector('main h1')) { watch.disconnect(); takeOver(box); } });
    watch.observe(element('app'), { childList: true, subtree: true });
  }

  // The page takes the card's place: the same line stays at the same height, the same box has the focus, and no tick is lost.
  function takeOver(box) {
    if (!box.isConnected) return;
    const app = element('app'), lines = [...box.querySelectorAll('input[data-key]')];
    const live = line => line && app.querySelector(`input[data-key="${CSS.escape(line.dataset.key)}"]`);
    const topOf = line => line.closest('.keyed').getBoundingClientRect().top;
    const sight = scrollY > 0 ? lines.find(l => topOf(l) >= 0 && live(l) !== null) : undefined, at = sight && topOf(sight);
    const focused = box.contains(document.activeElement) ? document.activeElement : null;
    app.hidden = false;
    // In one step, so that the page is never shorter than where one has got to.
    box.remove();
    if (sight && live(sight)) scrollBy({ top: topOf(live(sight)) - at, behavior: 'instant' });
    if (focused?.dataset.key !== undefined) live(focused)?.focus({ preventScroll: true });
    // A tick that was made while the page was already reading them.
    for (const line of touched) { const same = live(line); if (same && !same.disabled && same.checked !== line.checked) same.click(); }
    database.close();
  }

  // The work at a controller needs no engine: the page starts behind it when it is done, to send what was recorded. All its modules are asked
  // for at once, not each when the one before has come.
  const at = location.pathname.match(/^\/sites\/([0-9a-f-]{36})\/at\/?$/i), own = document.currentScript.src;
  const parts = at ? ['page', 'flow', '../shelf', 'dates', 'dom', 'checktext', 'done', 'rows', 'say', 'settings', 'measured', 'screens', 'edit', 'reading'] : [];
  const begun = parts.map(name => import(new URL(`flow/${name}.js`, own).href));
  begun.forEach(module => module.catch(() => null));
  async function work() {
    const query = new URLSearchParams(location.search), name = query.get('controller');
    try {
      const { openAt } = await begun[0];
      return await Promise.race([openAt(at[1].toLowerCase(), name, document.documentElement.lang, () => parsed.then(() => Blazor.start()), query.get('from')), later(longestLookMs)]);
    } catch (reason) {
      console.error(reason);
      return false;
    }
  }

  const drawn = () => Promise.race([new Promise(done => requestAnimationFrame(() => setTimeout(done))), later(300)]);
  const parsed = new Promise(done => addEventListener('DOMContentLoaded', done));
  // The place that is shown in is there before the engine's script has been read.
  const placed = new Promise(done => {
    const watch = new MutationObserver(() => { if (element('app')) { watch.disconnect(); done(); } });
    watch.observe(document, { childList: true, subtree: true });
  });
  const found = find().catch(() => null);
  (async () => {
    await placed;
    if (at && await work()) return;
    const card = await Promise.race([found, later(longestLookMs)]);
    if (card) {
      try { show(card); } catch (reason) { console.error(reason); element('ready')?.remove(); element('app').hidden = false; }
      await drawn();
    }
    await parsed;
    await Blazor.start();
  })();
})();
