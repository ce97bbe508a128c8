// The five signs that stand for all programs of a controller (docs/card.md), worked out without the engine.
import { dayOf } from './dates.js';

const signs = '34679ACDEFHJKMNPRTWX';
const two = n => String(n).padStart(2, '0');
const canRun = p => p.starts.length > 0 && p.runs.some(r => r[1] > 0) && p.days && !(p.days.kind === 'week' && p.days.days.length === 0);

function ruleText(rule) {
  if (rule.kind === 'week') return 'W' + [...new Set(rule.days)].sort((a, b) => a - b).join('');
  if (rule.kind === 'interval') return `I${rule.n}+${(((rule.anchor - dayOf('2000-01-01')) % rule.n) + rule.n) % rule.n}`;
  return rule.kind.toUpperCase();
}

const startText = s => two(Math.floor(s / 3600)) + two(Math.floor(s / 60) % 60) + (s % 60 ? two(s % 60) : '');
const runText = ([station, s]) => `${station}:${Math.floor(s / 60)}${s % 60 ? `.${two(s % 60)}` : ''}`;

function programText(p) {
  const starts = [...new Set(p.starts)].sort((a, b) => a - b).map(startText), runs = p.runs.filter(r => r[1] > 0).sort((a, b) => a[0] - b[0]).map(runText);
  return `${p.letter} ${ruleText(p.days)} T${starts.join(' ')} S${runs.join(' ')}`;
}

/** The check text of programs. */
export function checkText(programs) {
  const text = [...programs].filter(canRun).sort((a, b) => (a.letter < b.letter ? -1 : 1)).map(programText).join('/');
  const hash = sha256(Uint8Array.from(text, sign => sign.charCodeAt(0)));
  let number = (BigInt(hash[0]) << 32n) | BigInt(hash[1]), out = '';
  for (let i = 0; i < 5; i++) {
    out += signs[Number(number % 20n)];
    number /= 20n;
  }
  return out;
}

// SHA-256 (FIPS 180-4) as eight words. The browser's own gives its answer later and only on safe connections.
function sha256(bytes) {
  const primes = [];
  for (let n = 2; primes.length < 64; n++) if (primes.every(p => n % p !== 0)) primes.push(n);
  // The first 32 bits behind the point of a root: taken as whole numbers, so that no digit is lost.
  const root = (p, k) => {
    const wanted = BigInt(p) << BigInt(32 * k);
    let low = 0n, high = 1n << 48n;
    while (high - low > 1n) {
      const middle = (low + high) >> 1n;
      if (middle ** BigInt(k) <= wanted) low = middle; else high = middle;
    }
    return Number(low & 0xffffffffn);
  };
  const k = primes.map(p => root(p, 3)), h = primes.slice(0, 8).map(p => root(p, 2));
  const padded = new Uint8Array((((bytes.length + 8) >> 6) + 1) << 6);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 4, bytes.length * 8);
  const turn = (x, n) => (x >>> n) | (x << (32 - n));
  for (let at = 0; at < padded.length; at += 64) {
    const w = Array.from({ length: 16 }, (_, i) => view.getUint32(at + i * 4));
    for (let i = 16; i < 64; i++) {
      const a = w[i - 15], b = w[i - 2];
      w[i] = (w[i - 16] + (turn(a, 7) ^ turn(a, 18) ^ (a >>> 3)) + w[i - 7] + (turn(b, 17) ^ turn(b, 19) ^ (b >>> 10))) | 0;
    }
    let [a, b, c, d, e, f, g, j] = h;
    for (let i = 0; i < 64; i++) {
      const one = (j + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + k[i] + w[i]) | 0;
      const other = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      [j, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + other) | 0];
    }
    [a, b, c, d, e, f, g, j].forEach((word, i) => { h[i] = (h[i] + word) | 0; });
  }
  return h.map(word => word >>> 0);
}
