// Random pipe networks and their pressures by EPANET 2.2 (US EPA, public domain), by way of the package epanet-js (MIT).
// Run: npm install && npm run make. The same seeds give the same file.
import { Project, Workspace } from "epanet-js";

const Networks = 80;

/** A small, well known generator (mulberry32), so that the file can be made again. */
function randomOf(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const round = (value, digits) => Number(value.toFixed(digits));

function network(seed) {
  const random = randomOf(seed);
  const between = (low, high) => low + (high - low) * random();
  const whole = (low, high) => Math.floor(between(low, high + 1));
  const bores = [15.4, 20.6, 26.2, 34.6, 40.4, 52.0];
  const count = whole(4, 24);
  const looped = seed % 2 === 1;
  const emitters = seed % 4 >= 2;
  const points = [{ name: "S", elevationM: round(between(0, 5), 2) }];
  const pipes = [];
  const pipe = (from, to, least) =>
    pipes.push({ name: `p${pipes.length}`, from, to, lengthM: round(between(3, 60), 1), boreMm: bores[whole(least, 5)], roughness: whole(100, 150), lossK: random() < 0.4 ? round(between(0.2, 12), 1) : 0 });
  for (let i = 1; i <= count; i++) {
    const draws = random() < 0.6;
    const point = { name: `n${i}`, elevationM: round(between(0, 8), 2), drawLpm: 0 };
    if (draws && emitters) point.outlet = { flowLpm: round(between(2, 15), 2), pressureKpa: whole(150, 350) };
    else if (draws) point.drawLpm = round(between(0.5, 10), 2);
    points.push(point);
    const back = Math.max(0, i - whole(1, 4));
    pipe(points[back].name, point.name, i < 4 ? 3 : 0);
  }
  for (let extra = looped ? whole(1, Math.max(1, Math.floor(count / 3))) : 0; extra > 0; extra--) {
    const one = whole(1, count), other = whole(1, count);
    if (one !== other && !pipes.some(p => [p.from, p.to].includes(`n${one}`) && [p.from, p.to].includes(`n${other}`))) pipe(`n${one}`, `n${other}`, 0);
  }
  return { seed, looped: pipes.length > count, staticKpa: whole(350, 600), points, pipes };
}

const KpaPerM = 9.80665;

function inputOf(n) {
  // The reservoir's head carries the supply's pressure; flows are L/min, lengths m, bores mm.
  const source = n.points[0];
  const exponent = 0.5;
  return [
    "[JUNCTIONS]", ...n.points.slice(1).map(p => ` ${p.name} ${p.elevationM} ${p.drawLpm}`),
    "[RESERVOIRS]", ` S ${source.elevationM + n.staticKpa / KpaPerM}`,
    "[PIPES]", ...n.pipes.map(p => ` ${p.name} ${p.from} ${p.to} ${p.lengthM} ${p.boreMm} ${p.roughness} ${p.lossK} Open`),
    "[EMITTERS]", ...n.points.filter(p => p.outlet).map(p => ` ${p.name} ${p.outlet.flowLpm / Math.pow(p.outlet.pressureKpa / KpaPerM, exponent)}`),
    "[OPTIONS]", " Units LPM", " Headloss H-W", " Accuracy 0.000001", " Trials 1000", ` Emitter Exponent ${exponent}`,
    "[TIMES]", " Duration 0", "[END]", ""].join("\n");
}

// Warnings such as 'unbalanced' are said on the console only; a network with one is left out.
let warned = false;
console.warn = () => { warned = true; };

const workspace = new Workspace();
if (workspace.loadModule) await workspace.loadModule();
const made = [];
for (let seed = 1; made.length < Networks && seed < 1000; seed++) {
  const n = network(seed);
  warned = false;
  const model = new Project(workspace);
  workspace.writeFile("net.inp", inputOf(n));
  model.open("net.inp", "report.rpt", "out.bin");
  model.openH();
  model.initH(0);
  model.runH();
  const heads = n.points.slice(1).map(p => model.getNodeValue(model.getNodeIndex(p.name), 10));
  const flows = n.pipes.map(p => model.getLinkValue(model.getLinkIndex(p.name), 8));
  model.closeH();
  model.close();
  // A network that its supply cannot serve says nothing about sprinklers; it is left out.
  if (warned || n.points.slice(1).some((p, i) => (heads[i] - p.elevationM) * KpaPerM < 30)) continue;
  n.points.slice(1).forEach((p, i) => { p.headM = round(heads[i], 5); });
  n.pipes.forEach((p, i) => { p.flowLpm = round(flows[i], 5); });
  made.push(n);
}

const lines = made.map(n => "  " + JSON.stringify(n));
console.log(`{"madeBy": "EPANET 2.2 through epanet-js 0.9.0, bench/reference-networks/make.mjs", "networks": [\n${lines.join(",\n")}\n]}`);
