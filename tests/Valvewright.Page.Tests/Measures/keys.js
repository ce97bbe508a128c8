// What somebody without a pointer has before them: where the focus is, whether it can be seen, and where it can go.
{
  const ids = new WeakMap(), atRest = new WeakMap();
  let count = 0;
  const idOf = e => { if (!ids.has(e)) ids.set(e, ++count); return ids.get(e); };
  const shown = e => e.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const nameOf = e => (e.getAttribute('aria-label') ?? e.labels?.[0]?.innerText ?? e.innerText ?? '').trim().replace(/\s+/g, ' ').slice(0, 80);
  const outline = e => { const s = getComputedStyle(e); return `${s.outlineStyle} ${s.outlineWidth} ${s.outlineColor} ${s.boxShadow}`; };
  const canStop = () => [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex]')].filter(e => {
    if (e.disabled || e.tabIndex < 0 || !shown(e)) return false;
    if (e.type !== 'radio' || e.checked) return true;
    const group = [...document.querySelectorAll(`input[type=radio][name="${CSS.escape(e.name)}"]`)];
    return !group.some(r => r.checked) && group[0] === e;
  });

  // What everything looks like without the focus.
  window.noteRest = () => { for (const e of canStop()) if (e !== document.activeElement) atRest.set(e, outline(e)); };

  // Places in the page itself that the tabulator must come to.
  window.stops = () => canStop().filter(e => e.closest('main')).map(e => ({ id: idOf(e), name: `${e.tagName.toLowerCase()} "${nameOf(e)}"` }));

  // Where the focus is; null where it is nowhere.
  window.atFocus = () => {
    const e = document.activeElement;
    if (!e || e === document.body || e === document.documentElement) return null;
    const faults = [], name = nameOf(e), said = `${e.tagName.toLowerCase()} "${name}"`, box = e.getBoundingClientRect();
    if (!shown(e) || box.width < 1 || box.height < 1) faults.push(`${said} has the focus and is not shown`);
    else if (box.bottom <= 0 || box.top >= innerHeight || box.right <= 0 || box.left >= innerWidth) faults.push(`${said} has the focus out of sight (${box.left.toFixed()}, ${box.top.toFixed()})`);
    else {
      const x = Math.min(Math.max(box.left + box.width / 2, 1), innerWidth - 2), y = Math.min(Math.max((Math.max(box.top, 0) + Math.min(box.bottom, innerHeight)) / 2, 1), innerHeight - 2);
      const there = document.elementFromPoint(x, y);
      if (there && !e.contains(there) && !there.contains(e)) faults.push(`${said} has the focus behind ${there.tagName.toLowerCase()}`);
    }
    const style = getComputedStyle(e), width = style.outlineStyle === 'none' ? 0 : parseFloat(style.outlineWidth);
    if (width < 2) faults.push(`${said} does not show that it has the focus (outline ${width} px)`);
    else {
      const { parse, over, ratio, behind } = window.colours;
      // An outline set off from its element lies on what is behind it; one drawn inwards on the element itself.
      const back = behind(parseFloat(style.outlineOffset) < 0 ? e : e.parentElement ?? e), fore = parse(style.outlineColor);
      const contrast = back && fore ? ratio(over(fore, back), back) : 0;
      if (contrast < 3) faults.push(`${said} shows its focus with a contrast of ${contrast.toFixed(2)} only`);
    }
    if (atRest.get(e) === outline(e)) faults.push(`${said} looks the same with and without the focus`);
    return {
      id: idOf(e), name, tag: e.tagName.toLowerCase(), kind: e.type ?? '', place: e.id, isSkip: e.matches('.skip'), isHead: e.matches('h1, h2'), inMain: !!e.closest('main'),
      value: e.value === undefined ? '' : String(e.value), isOpen: e.parentElement?.open === true || e.getAttribute('aria-expanded') === 'true', isTicked: e.checked === true,
      left: box.left, top: box.top + scrollY, right: box.right, bottom: box.bottom + scrollY, faults
    };
  };
}
