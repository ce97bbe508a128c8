// Draws charts with Observable Plot on D3 (lib/). Colours come from the page's style sheet, so that light, dark and print each have their
// own; each series also has its own dashes or hatching, so that none is told by its colour alone.
let library = null;
const shown = new Map();

function script(address) {
  return new Promise((resolve, reject) => {
    const element = document.createElement('script');
    element.src = address;
    element.onload = resolve;
    element.onerror = () => { library = null; reject(new Error(`${address} is not there`)); };
    document.head.append(element);
  });
}

const load = () => library ??= script('lib/d3.min.js').then(() => script('lib/plot.umd.min.js'));

export async function draw(id, text) {
  await load();
  const host = document.getElementById(id);
  if (!host) return;
  const chart = JSON.parse(text);
  shown.get(id)?.disconnect();
  const paint = () => { if (host.clientWidth > 0) host.replaceChildren(picture(chart, host.clientWidth, id)); };
  paint();
  let width = host.clientWidth;
  const watcher = new ResizeObserver(() => { if (Math.abs(host.clientWidth - width) > 4) { width = host.clientWidth; paint(); } });
  watcher.observe(host);
  shown.set(id, watcher);
}

export function forget(id) {
  shown.get(id)?.disconnect();
  shown.delete(id);
}

const colour = series => series === 0 ? 'var(--band)' : `var(--series-${series})`;
const dashes = series => [null, null, '7 4', '2 4', '10 3 2 3', '1 3'][series];
const day = number => new Date(number * 86400000);

function picture(chart, width, id) {
  const small = width < 480;
  const across = chart.across === 'date' ? day : x => x;
  const lanes = chart.lanes.length > 0;
  const options = {
    width,
    height: lanes ? 60 + chart.lanes.length * (small ? 26 : 30) : Math.max(small ? 230 : 260, Math.round(width * chart.shape)),
    marginLeft: lanes ? Math.min(width * 0.36, 12 + 8 * Math.max(...chart.lanes.map(l => l.length))) : 52,
    marginTop: lanes ? 20 : 30,
    marginRight: 20,
    marginBottom: 44,
    style: { fontSize: '16px', background: 'transparent', color: 'var(--ink)' },
    x: { label: chart.xLabel, grid: false, ...xScale(chart, small) },
    y: lanes
      ? { domain: chart.lanes.map((_, i) => i), type: 'band', tickFormat: i => chart.lanes[i], label: null, padding: 0.18 }
      : { label: chart.yLabel, grid: true, nice: true, zero: true },
    marks: [...chart.layers.flatMap(layer => marks(layer, across, id)), ...(lanes ? [] : [Plot.ruleY([0], { stroke: 'var(--ink)' })])],
  };
  const drawn = Plot.plot(options);
  const svg = drawn.tagName === 'svg' ? drawn : drawn.querySelector('svg');
  svg.querySelectorAll('style').forEach(style => style.remove());
  svg.setAttribute('aria-hidden', 'true');
  svg.prepend(hatching(id));
  const names = chart.layers.filter(layer => layer.name && layer.kind !== 'words');
  if (names.length < 2) return svg;
  const whole = document.createElement('div');
  whole.append(key(names, id), svg);
  return whole;
}

function xScale(chart, small) {
  if (chart.across === 'hour') return { domain: [0, 24], ticks: small ? [0, 6, 12, 18, 24] : [0, 3, 6, 9, 12, 15, 18, 21, 24] };
  if (chart.across === 'date') return { type: 'utc', ticks: small ? 'quarter' : 'month', tickFormat: date => chart.months[date.getUTCMonth()] ?? '' };
  return { ticks: small ? 6 : 12, tickFormat: x => Number.isInteger(x) ? String(x) : '' };
}

function marks(layer, across, id) {
  const rows = layer.x.map((x, i) => ({ x: across(x), y: layer.y[i], x2: layer.x2.length ? across(layer.x2[i]) : undefined, y2: layer.y2[i], text: layer.texts[i] }));
  const stroke = colour(layer.series);
  switch (layer.kind) {
    case 'line': case 'steps':
      return [Plot.line(rows, { x: 'x', y: 'y', stroke, strokeWidth: 2.5, strokeDasharray: dashes(layer.series), curve: layer.kind === 'steps' ? 'step-after' : 'linear' })];
    case 'bars':
      return [Plot.rect(rows, { x1: 'x', x2: 'x2', y1: 0, y2: 'y', fill: hatched(layer.series, id), stroke, strokeWidth: 1 })];
    case 'band':
      return [Plot.areaY(rows, { x: 'x', y1: 'y', y2: 'y2', fill: stroke, fillOpacity: 0.75 })];
    case 'dots':
      return [Plot.dot(rows, { x: 'x', y: 'y', fill: stroke, r: 5, symbol: ['circle', 'circle', 'square', 'triangle', 'diamond', 'star'][layer.series] })];
    case 'rule':
      return [Plot.ruleY(layer.y, { stroke, strokeWidth: 2.5, strokeDasharray: dashes(layer.series) })];
    case 'spans':
      return [Plot.barX(rows, { x1: 'x', x2: 'x2', y: 'y', fill: hatched(layer.series, id), stroke, strokeWidth: 1 })];
    case 'words':
      return [Plot.text(rows, { x: 'x', y: 'y', text: 'text', textAnchor: rows.some(r => r.x > 8) ? 'end' : 'start', dx: 6, dy: -12, fill: 'var(--ink)', stroke: 'var(--paper)', strokeWidth: 4 })];
    default:
      return [];
  }
}

const hatched = (series, id) => series <= 1 ? colour(series) : `url(#${id}-h${series})`;

function hatching(id) {
  const space = 'http://www.w3.org/2000/svg';
  const defs = document.createElementNS(space, 'defs');
  const turns = { 2: 45, 3: 135, 4: 0, 5: 90 };
  for (const [series, turn] of Object.entries(turns)) {
    const pattern = document.createElementNS(space, 'pattern');
    for (const [name, value] of Object.entries({ id: `${id}-h${series}`, width: 7, height: 7, patternUnits: 'userSpaceOnUse', patternTransform: `rotate(${turn})` })) pattern.setAttribute(name, value);
    const line = document.createElementNS(space, 'rect');
    line.setAttribute('width', 4.5);
    line.setAttribute('height', 7);
    line.style.fill = colour(series);
    pattern.append(line);
    defs.append(pattern);
  }
  return defs;
}

function key(layers, id) {
  const list = document.createElement('ul');
  list.className = 'key';
  list.setAttribute('aria-hidden', 'true');
  for (const layer of layers) {
    const item = document.createElement('li');
    const space = 'http://www.w3.org/2000/svg';
    const sample = document.createElementNS(space, 'svg');
    sample.setAttribute('width', 34);
    sample.setAttribute('height', 16);
    const flat = layer.kind === 'line' || layer.kind === 'steps' || layer.kind === 'rule';
    const shape = document.createElementNS(space, flat ? 'line' : 'rect');
    for (const [name, value] of Object.entries(flat ? { x1: 1, x2: 33, y1: 8, y2: 8 } : { x: 6, y: 1, width: 22, height: 14 })) shape.setAttribute(name, value);
    if (flat) {
      shape.style.stroke = colour(layer.series);
      shape.style.strokeWidth = '3';
      if (dashes(layer.series)) shape.style.strokeDasharray = dashes(layer.series);
    } else {
      if (layer.kind !== 'band' && layer.series > 1) sample.append(hatching(`${id}k${layer.series}`));
      shape.setAttribute('fill', layer.kind === 'band' ? colour(layer.series) : hatched(layer.series, `${id}k${layer.series}`));
      shape.style.fill = shape.getAttribute('fill');
      shape.style.stroke = colour(layer.series);
    }
    sample.append(shape);
    item.append(sample, layer.name);
    list.append(item);
  }
  return list;
}
