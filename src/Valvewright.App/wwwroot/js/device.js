// What only the browser can do: what it remembers, whether there is a signal, files in and out, the look of the page.
const names = { look: 'valvewright.look', language: 'valvewright.language', by: 'valvewright.by' };

export const remembered = name => { try { return localStorage.getItem(names[name]); } catch { return null; } };
export const remember = (name, value) => { try { value ? localStorage.setItem(names[name], value) : localStorage.removeItem(names[name]); } catch { } };
export const language = () => document.documentElement.lang;
export const setLanguage = code => { document.documentElement.lang = code; };
export const setLook = look => { if (look) document.documentElement.dataset.look = look; else delete document.documentElement.dataset.look; };
export const looksDark = () => document.documentElement.dataset.look === 'dark' || (document.documentElement.dataset.look !== 'light' && matchMedia('(prefers-color-scheme: dark)').matches);
// How the device shows times and amounts elsewhere: [whether hours count to twelve, whether units are those of the United States].
export const habits = () => { try { return [new Intl.DateTimeFormat(undefined, { hour: 'numeric' }).resolvedOptions().hour12 === true, new Intl.Locale(navigator.language).maximize().region === 'US']; } catch { return [false, false]; } };
// Whether the browser lets the page keep itself for use without a signal: over HTTPS, or on this machine.
export const isSafe = () => window.isSecureContext;
export const hasSignal = () => navigator.onLine;
export const print = () => window.print();
// A page that was gone to begins at its heading. The first one begins at its top, where the way past the frame is; and who is busy within a
// page that changes stays where they are.
let hasArrived = false;
export const arrive = () => {
  const at = document.activeElement;
  if (hasArrived && !(at?.closest('main') && at.id !== 'page')) document.querySelector('#app main h1')?.focus();
  hasArrived = true;
};

// Where what had the focus is gone, this has it, or the page's heading where there is nothing in it; else it stays.
export const regain = id => {
  const at = document.activeElement, here = document.getElementById(id);
  if (!at || at === document.body || at === here) (here?.offsetHeight ? here : document.querySelector('#app main h1'))?.focus();
};

// On a phone each row of a wide table is a list: every cell says the heading that it stands under.
const label = () => {
  for (const table of document.querySelectorAll('#app .wide table')) {
    const heads = [...table.querySelectorAll('thead th')].map(th => th.textContent.replace(/ [↑↓]/, ''));
    table.classList.toggle('rows', heads.length > 3);
    for (const row of table.tBodies[0]?.rows ?? []) [...row.cells].forEach((cell, i) => { cell.dataset.label = cell.colSpan > 1 ? '' : heads[i]; });
  }
};
let labeling;
new MutationObserver(() => { cancelAnimationFrame(labeling); labeling = requestAnimationFrame(label); })
  .observe(document.getElementById('app'), { childList: true, subtree: true, characterData: true });

export const focus = id => document.getElementById(id)?.focus();

// When nothing else is to be done; at the latest after a while.
export const idle = () => new Promise(done => { if (window.requestIdleCallback) requestIdleCallback(() => done(), { timeout: 5000 }); else setTimeout(done, 200); });

export function watchSignal(watcher) {
  const tell = () => watcher.invokeMethodAsync('SignalChanged', navigator.onLine);
  addEventListener('online', tell);
  addEventListener('offline', tell);
  document.addEventListener('visibilitychange', () => { if (!document.hidden) tell(); });
}

// Keeps what is on the device from being swept away when room is short; the browser may say no.
export const askToStay = async () => navigator.storage?.persist ? navigator.storage.persist() : false;

export function saveFile(name, type, bytes) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

// A photo is made as small as it can be and still show a terminal strip: it has to get through a weak signal.
export async function shrinkPhoto(input, longest) {
  const file = input.files[0];
  if (!file) return null;
  const picture = await createImageBitmap(file);
  const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
  const canvas = new OffscreenCanvas(Math.round(picture.width * scale), Math.round(picture.height * scale));
  canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.85 });
  return new Uint8Array(await blob.arrayBuffer());
}

// A picture that lies on the device, to be shown; and to be let go of.
export const pictureAddress = (bytes, type) => URL.createObjectURL(new Blob([bytes], { type }));
export const letGo = address => URL.revokeObjectURL(address);

let install = null;
addEventListener('beforeinstallprompt', event => { event.preventDefault(); install = event; });
export const canInstall = () => install !== null;
export const installPage = async () => { if (!install) return false; install.prompt(); const { outcome } = await install.userChoice; install = null; return outcome === 'accepted'; };

// Whether the work at a controller stands before the page.
export const isAtWork = () => document.getElementById('at') !== null;
// Opens the address once more, now that what it needs lies on the device; a second time in a row it does not help.
export function openAgain() {
  const mark = `valvewright.again ${location.href}`;
  try {
    if (sessionStorage.getItem(mark)) { sessionStorage.removeItem(mark); return false; }
    sessionStorage.setItem(mark, '1');
  } catch { return false; }
  location.reload();
  return true;
}

// Where the device is, as [latitude, longitude]; null where it will not say.
export const position = () => new Promise(resolve => {
  if (!navigator.geolocation) resolve(null);
  else navigator.geolocation.getCurrentPosition(p => resolve([p.coords.latitude, p.coords.longitude]), () => resolve(null), { enableHighAccuracy: true, timeout: 20000 });
});
