// Colours as they are seen: what lies behind an element, and contrasts.
window.colours = (() => {
  // Relative luminance and contrast ratio as WCAG 2.2 defines them.
  const parse = c => { const m = c.match(/rgba?\(([^)]+)\)/); if (!m) return null; const [r, g, b, a = 1] = m[1].split(/[ ,/]+/).map(Number); return { r, g, b, a }; };
  const over = (top, under) => ({ r: top.r * top.a + under.r * (1 - top.a), g: top.g * top.a + under.g * (1 - top.a), b: top.b * top.a + under.b * (1 - top.a), a: 1 });
  const channel = v => { const s = v / 255; return s <= 0.04045 ? s / 12.92 : ((s + 0.055) / 1.055) ** 2.4; };
  const luminance = c => 0.2126 * channel(c.r) + 0.7152 * channel(c.g) + 0.0722 * channel(c.b);
  const ratio = (a, b) => { const [hi, lo] = [luminance(a), luminance(b)].sort((x, y) => y - x); return (hi + 0.05) / (lo + 0.05); };
  const canvas = () => { const probe = document.createElement('i'); probe.style.backgroundColor = 'Canvas'; document.body.append(probe); const c = parse(getComputedStyle(probe).backgroundColor); probe.remove(); return c; };
  const behind = e => {
    const layers = [];
    for (let at = e; at; at = at.parentElement) {
      const style = getComputedStyle(at);
      if (style.backgroundImage !== 'none') return null;
      const c = parse(style.backgroundColor);
      if (c && c.a > 0) { layers.push(c); if (c.a === 1) break; }
    }
    return layers.reduceRight((under, top) => over(top, under), canvas());
  };
  return { parse, over, ratio, behind };
})();
