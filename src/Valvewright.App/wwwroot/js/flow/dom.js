// Elements, marks and keys that repeat while they are held.

/** An element: `el('p.s', { id }, 'text', child)`; what is null is left out. */
export function el(kind, attributes = {}, ...children) {
  const [tag, ...classes] = kind.split('.'), element = document.createElement(tag);
  if (classes.length) element.className = classes.join(' ');
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? '' : value);
  }
  element.append(...children.flat().filter(c => c !== null && c !== undefined && c !== false));
  return element;
}

export const icon = (name, size) => {
  const mark = el('i', { class: `m m-${name}`, 'aria-hidden': 'true' });
  if (size) mark.style.fontSize = `${size}px`;
  return mark;
};

/** The one act of a screen: a solid block with a yellow end. */
export const go = (text, mark, act, small = null, attributes = {}) => el('button.go', { type: 'button', 'data-go': '', onclick: act, ...attributes },
  el('span', {}, text, small ? el('small', {}, small) : null), el('i', {}, icon(mark, mark === 'tick' ? 36 : 30)));

/** Another answer. */
export const button = (text, act, attributes = {}) => el('button.btn', { type: 'button', onclick: act, ...attributes }, text);

const holdAfterMs = 450, repeatMs = 90;

/** A key that repeats while it is held. */
export function key(label, name, act) {
  const made = el('button.key', { type: 'button', 'aria-label': name }, label);
  let timer = null, hasRun = false;
  const stop = () => { clearTimeout(timer); clearInterval(timer); timer = null; };
  made.addEventListener('pointerdown', () => {
    hasRun = false;
    stop();
    timer = setTimeout(() => { timer = setInterval(() => { hasRun = true; act(); }, repeatMs); }, holdAfterMs);
  });
  for (const end of ['pointerup', 'pointercancel', 'pointerleave']) made.addEventListener(end, stop);
  made.addEventListener('contextmenu', event => event.preventDefault());
  made.addEventListener('click', () => { stop(); if (!hasRun) act(); hasRun = false; });
  return made;
}
