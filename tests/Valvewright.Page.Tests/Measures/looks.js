// What of the page breaks the rules of looks: contrast under 7:1, targets under 44 px, anything wider than the window, doubled ids, more than one h1.
window.openAll = () => { for (const d of document.querySelectorAll('main details')) d.open = true; };

window.looks = () => {
  const said = [];
  const name = e => `${e.tagName.toLowerCase()}${e.id && !/[0-9a-f]{16}/.test(e.id) ? '#' + e.id : ''}${typeof e.className === 'string' && e.className ? '.' + e.className.trim().replace(/\s+/g, '.') : ''}`;
  const shown = e => e.checkVisibility({ visibilityProperty: true, opacityProperty: true, contentVisibilityAuto: true });
  const text = e => e.textContent.trim().replace(/\s+/g, ' ').slice(0, 40);

  const { parse, over, ratio, behind } = window.colours;
  const contrast = (e, colour, words) => {
    const back = behind(e), fore = parse(colour);
    if (!fore || !back) { said.push(`contrast: cannot be told for ${name(e)} "${words}" (${colour})`); return; }
    const r = ratio(over(fore, back), back);
    if (r < 7) said.push(`contrast ${r.toFixed(2)}: ${name(e)} "${words}"`);
  };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node; (node = walker.nextNode());) {
    const e = node.parentElement;
    if (!node.data.trim() || ['SCRIPT', 'STYLE', 'NOSCRIPT', 'OPTION', 'TITLE', 'DESC'].includes(e.tagName) || !shown(e)) continue;
    const style = getComputedStyle(e);
    contrast(e, e.namespaceURI.endsWith('svg') ? style.fill : style.color, node.data.trim().slice(0, 40));
  }
  for (const e of document.querySelectorAll('input:not([type=radio]):not([type=checkbox]):not([type=hidden]), select, textarea')) {
    if (!shown(e)) continue;
    contrast(e, getComputedStyle(e).color, e.value.slice(0, 40));
    if (e.placeholder) contrast(e, getComputedStyle(e, '::placeholder').color, e.placeholder);
  }

  // Whatever is touched: a label counts with its field; a link within a sentence is excepted, as WCAG 2.2 (2.5.5) excepts it.
  for (const e of document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button], [role=tab], [role=link]')) {
    if (!shown(e) || e.matches('.skip:not(:focus)') || e.closest('.unseen')) continue;
    let box = (e.closest('label') ?? e).getBoundingClientRect();
    if (!box.width) continue;
    if (e.tagName === 'A' && getComputedStyle(e).display === 'inline') {
      const sentence = e.closest('p, li, td, dd, th, figcaption, small, span, label') ?? e.parentElement;
      if (sentence.textContent.trim().length > e.textContent.trim().length) continue;
    }
    if (box.width < 43.99 || box.height < 43.99) said.push(`target ${box.width.toFixed(1)} x ${box.height.toFixed(1)}: ${name(e)} "${text(e) || e.getAttribute('aria-label') || e.value || ''}"`);
  }

  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth) {
    const wide = [...document.querySelectorAll('body *')].filter(e => shown(e) && e.getBoundingClientRect().right > root.clientWidth + 0.5 && !e.closest('.wide'));
    said.push(`wider than the window by ${root.scrollWidth - root.clientWidth} px: ${wide.slice(0, 5).map(e => `${name(e)} "${text(e)}"`).join(', ')}`);
  }
  const heads = [...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].filter(shown);
  if (heads.filter(h => h.tagName === 'H1').length !== 1) said.push(`${heads.filter(h => h.tagName === 'H1').length} h1`);
  heads.reduce((level, h) => { const now = Number(h.tagName[1]); if (now > level + 1) said.push(`heading ${name(h)} "${text(h)}" skips a level`); return now; }, 0);
  const ids = new Map();
  for (const e of document.querySelectorAll('[id]')) ids.set(e.id, (ids.get(e.id) ?? 0) + 1);
  for (const [id, n] of ids) if (n > 1) said.push(`id ${id} stands there ${n} times`);
  return [...new Set(said)];
};
