// Solves the clip profiles with gmsh and CalculiX and records what they say. See README.md.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openMouth } from '../../../src/strength/openMouth.ts';
import { calculixResults } from '../calculixResults.ts';
import type { ClipProfile } from './clipProfile.ts';
import { clipProfiles, drawClip, halfOutline } from './clipProfile.ts';
import type { Recorded } from './recorded.ts';

const MODULUS = 1000;
const POISSON = 0.35;
/** Each lip is pushed aside this far, mm. */
const OPEN = 0.1;
/** Half-width of the loaded patch of boundary, mm. */
const PATCH = 0.02;
/** Depth of the solved slice, mm. CalculiX makes solids of plane elements and keeps their faces flat, which hinders the
 *  sideways curvature of a bent arm: thin arms come out 5 % too stiff at a depth of 1 mm, not at this one. */
const DEPTH = 0.02;
/** Element edge at the lip, mm; the single-node load has no finite limit, so it is tied to this. */
const AT_LIP = 0.01;
/** Strain counts from here on around sharp re-entrant corners and the ends of the held face, mm. */
const SAMPLING = 0.2;
/** Element edge at the bore over the smaller of arm and bore radius: halved until strain changes by less than 1 %. */
const FINENESS = [1 / 8, 1 / 16, 1 / 32, 1 / 64];

interface Mesh {
  x: Map<number, [number, number]>;
  elements: number[][];
}

function geometry(clip: ClipProfile, fineness: number): string {
  const { lip, steps, axis } = halfOutline(clip);
  const h = Math.min(clip.arm, clip.bore / 2) * fineness;
  const lines = [`SetFactory("Built-in");`, `Point(1) = {${lip[0]}, ${lip[1]}, 0};`];
  let centres = 1000;
  const curves: number[] = [];
  const fine: number[] = [];
  steps.forEach((step, i) => {
    const last = i === steps.length - 1;
    const [from, to] = [i + 1, last ? 1 : i + 2];
    if (!last) lines.push(`Point(${to}) = {${step.to[0]}, ${step.to[1]}, 0};`);
    if (step.centre === undefined) lines.push(`Line(${i + 1}) = {${from}, ${to}};`);
    else {
      centres++;
      lines.push(`Point(${centres}) = {${step.centre[0]}, ${step.centre[1]}, 0};`);
      lines.push(`Circle(${i + 1}) = {${from}, ${centres}, ${to}};`);
    }
    curves.push(i + 1);
    if (i > axis) fine.push(i + 1);
  });
  lines.push(
    `Curve Loop(1) = {${curves.join(', ')}};`,
    'Plane Surface(1) = {1};',
    `Physical Surface("body") = {1};`,
    `Field[1] = Distance; Field[1].CurvesList = {${fine.join(', ')}}; Field[1].NumPointsPerCurve = 400;`,
    'Field[2] = Distance; Field[2].PointsList = {1};',
    `Field[3] = MathEval; Field[3].F = "${h} + 0.12*F1";`,
    `Field[4] = MathEval; Field[4].F = "${Math.min(AT_LIP, h)} + 0.12*F2";`,
    'Field[5] = Min; Field[5].FieldsList = {3, 4};',
    'Background Field = 5;',
    'Mesh.MeshSizeExtendFromBoundary = 0; Mesh.MeshSizeFromPoints = 0; Mesh.MeshSizeFromCurvature = 0;',
    `Mesh.MeshSizeMax = ${Math.min(0.15, clip.arm / 6)};`,
    'Mesh.ElementOrder = 2; Mesh.SecondOrderLinear = 0; Mesh.Algorithm = 6;',
  );
  return `${lines.join('\n')}\n`;
}

function readMesh(path: string): Mesh {
  const x: Mesh['x'] = new Map();
  const elements: number[][] = [];
  let section = '';
  for (const line of readFileSync(path, 'utf8').split('\n')) {
    if (line.startsWith('*')) section = line;
    else if (section.startsWith('*NODE')) {
      const [id, a, b] = line.split(',').map(Number);
      if (id) x.set(id, [a!, b!]);
    } else if (/CPS6/.test(section)) {
      const ids = line.split(',').map(Number);
      if (ids.length === 7) elements.push(ids.slice(1));
    }
  }
  const used = new Set(elements.flat());
  for (const id of [...x.keys()]) if (!used.has(id)) x.delete(id);
  return { x, elements };
}

/** Writes and runs one CalculiX job; returns displacement and strain by node. */
function run(dir: string, name: string, mesh: Mesh, top: number, load: string) {
  const ids = [...mesh.x.keys()];
  const axis = ids.filter((i) => Math.abs(mesh.x.get(i)![0]) < 1e-7);
  const held = ids.filter((i) => mesh.x.get(i)![1] > top - 1e-7);
  const list = (set: number[]) => set.map((i) => `${i},`).join('\n');
  const deck = [
    '*NODE, NSET=ALL',
    ...ids.map((i) => `${i}, ${mesh.x.get(i)!.join(', ')}, 0`),
    '*ELEMENT, TYPE=CPS6, ELSET=BODY',
    ...mesh.elements.map((e, k) => `${k + 1}, ${e.join(', ')}`),
    `*NSET, NSET=AXIS\n${list(axis.filter((i) => !held.includes(i)))}`,
    `*NSET, NSET=HELD\n${list(held)}`,
    `*MATERIAL, NAME=M\n*ELASTIC\n${MODULUS}, ${POISSON}`,
    `*SOLID SECTION, ELSET=BODY, MATERIAL=M\n${DEPTH}`,
    '*STEP\n*STATIC',
    '*BOUNDARY\nAXIS, 1, 1, 0.\nHELD, 1, 2, 0.',
    load,
    '*NODE FILE, OUTPUT=2D\nU, RF',
    '*EL FILE, OUTPUT=2D\nE',
    '*END STEP',
  ].join('\n');
  writeFileSync(join(dir, `${name}.inp`), `${deck}\n`);
  execFileSync('ccx', [name], { cwd: dir, stdio: 'pipe' });
  return calculixResults(join(dir, `${name}.frd`));
}

function principal([xx, yy, , xy]: number[]): [number, number] {
  const radius = Math.hypot((xx! - yy!) / 2, xy!); // CalculiX writes tensor shear
  return [(xx! + yy!) / 2 + radius, (xx! + yy!) / 2 - radius];
}

function solve(clip: ClipProfile, fineness: number) {
  const dir = mkdtempSync(join(tmpdir(), 'finite-elements-'));
  try {
    const { lip, steps, axis, top } = halfOutline(clip);
    writeFileSync(join(dir, 'clip.geo'), geometry(clip, fineness));
    execFileSync('gmsh', ['-2', '-format', 'inp', '-o', 'clip.msh.inp', 'clip.geo'], {
      cwd: dir,
      stdio: 'pipe',
    });
    const mesh = readMesh(join(dir, 'clip.msh.inp'));
    const near = [...mesh.x].map(([id, p]) => ({ id, d: Math.hypot(p[0] - lip[0], p[1] - lip[1]) }));
    const corner = near.reduce((a, b) => (b.d < a.d ? b : a)).id;

    // Corners of the outline where the linear solution has no finite strain.
    const keepOff: [number, number, number][] = [[lip[0], lip[1], clip.mouth / 4]];
    const topCorner = steps[axis - 2]!.to;
    keepOff.push([topCorner[0], topCorner[1], SAMPLING]);
    if (clip.shape === 'post') {
      const neck = steps[axis - 3]!.to;
      keepOff.push([neck[0], neck[1], SAMPLING]);
    }
    const peak = (strain: ReadonlyMap<number, number[]>) => {
      const best = { tension: 0, compression: 0, at: [0, 0] as [number, number] };
      for (const [id, p] of mesh.x) {
        if (keepOff.some(([x, y, r]) => Math.hypot(p[0] - x, p[1] - y) < r)) continue;
        const [major, minor] = principal(strain.get(id)!);
        if (major > best.tension) Object.assign(best, { tension: major, at: p });
        best.compression = Math.max(best.compression, -minor);
      }
      return best;
    };

    // The lip's corner node moved.
    const single = run(dir, 'single', mesh, top, `*BOUNDARY\n${corner}, 1, 1, ${OPEN}`);
    const force = single.FORC.get(corner)![0]! / DEPTH;

    // The same force spread over the boundary next to the lip, and what that patch moves in the mean.
    const edges = boundaryEdges(mesh);
    const share = new Map<number, number>();
    let total = 0;
    for (const [a, b, m] of edges) {
      const [pa, pb, pm] = [mesh.x.get(a)!, mesh.x.get(b)!, mesh.x.get(m)!];
      const length = Math.hypot(pb[0] - pa[0], pb[1] - pa[1]);
      if (Math.hypot(pm[0] - lip[0], pm[1] - lip[1]) > PATCH + length) continue;
      for (let k = 0; k < 20; k++) {
        const u = (k + 0.5) / 20;
        const n = [(1 - u) * (1 - 2 * u), u * (2 * u - 1), 4 * u * (1 - u)] as const;
        const p = [0, 1].map((c) => n[0] * pa[c]! + n[1] * pb[c]! + n[2] * pm[c]!);
        const w = Math.max(0, 1 - Math.hypot(p[0]! - lip[0], p[1]! - lip[1]) / PATCH) * length;
        total += w;
        [a, b, m].forEach((id, i) => {
          share.set(id, (share.get(id) ?? 0) + w * n[i]!);
        });
      }
    }
    const loads = [...share]
      .filter(([, w]) => w !== 0)
      .map(([id, w]) => `${id}, 1, ${(w / total) * force * DEPTH}`);
    const spread = run(dir, 'spread', mesh, top, `*CLOAD\n${loads.join('\n')}`);
    const moved = [...share].reduce((sum, [id, w]) => sum + (w / total) * spread.DISP.get(id)![0]!, 0);
    const patchPeak = peak(spread.TOSTRAIN);
    const factor = OPEN / moved;
    return {
      nodes: mesh.x.size,
      single: { force, ...peak(single.TOSTRAIN) },
      patch: {
        force: force * factor,
        tension: patchPeak.tension * factor,
        compression: patchPeak.compression * factor,
        at: patchPeak.at,
      },
    };
  } finally {
    rmSync(dir, { recursive: true });
  }
}

function boundaryEdges(mesh: Mesh): [number, number, number][] {
  const seen = new Map<string, [number, number, number] | null>();
  for (const e of mesh.elements) {
    for (const [i, j, m] of [
      [0, 1, 3],
      [1, 2, 4],
      [2, 0, 5],
    ] as const) {
      const [a, b] = [e[i]!, e[j]!];
      const key = a < b ? `${a} ${b}` : `${b} ${a}`;
      seen.set(key, seen.has(key) ? null : [a, b, e[m]!]);
    }
  }
  return [...seen.values()].filter((e) => e !== null);
}

const rounded = (value: number, digits = 5) => Number(value.toPrecision(digits));
const records: Recorded[] = [];
for (const clip of clipProfiles) {
  let before: ReturnType<typeof solve> | undefined;
  let now: ReturnType<typeof solve> | undefined;
  let change = Infinity;
  for (const fineness of FINENESS) {
    before = now;
    now = solve(clip, fineness);
    if (before === undefined) continue;
    change = Math.max(
      Math.abs(now.patch.tension / before.patch.tension - 1),
      Math.abs(now.patch.force / before.patch.force - 1),
    );
    if (change < 0.01) break;
  }
  if (now === undefined) throw new Error('FINENESS requires at least one entry');
  const part = (r: typeof now.patch) => ({
    force: rounded(r.force),
    tension: rounded(r.tension),
    compression: rounded(r.compression),
    at: [rounded(r.at[0], 4), rounded(r.at[1], 4)] as [number, number],
  });
  records.push({
    clip,
    nodes: now.nodes,
    change: rounded(change, 2),
    patch: part(now.patch),
    single: part(now.single),
  });
  console.error(clip.name, now.nodes, change.toFixed(4));
}

const here = process.argv[2] ?? 'tests/outside/finiteElements/fixtures';
const setting = {
  modulus: MODULUS,
  poisson: POISSON,
  openEachSide: OPEN,
  patch: PATCH,
  atLip: AT_LIP,
  sampling: SAMPLING,
};
writeFileSync(join(here, 'recorded.json'), `${JSON.stringify({ setting, records }, null, 1)}\n`);
const rows = records.map(({ clip, nodes, change, patch, single }) => {
  const ours = openMouth({ ...drawClip(clip), openEachSide: OPEN, modulus: MODULUS, poisson: POISSON });
  if (!ours.ok) return `| ${clip.name} | ${ours.problem.sentence} |`;
  const fe = patch.tension;
  const feSingle = single.tension;
  const percent = (v: number) => (100 * v).toFixed(2);
  return `| ${[
    clip.name,
    `${clip.bore} / ${clip.slot} / ${clip.mouth} / ${clip.arm} ${clip.shape}`,
    nodes,
    percent(change),
    percent(fe),
    percent(ours.strain),
    (ours.strain / fe).toFixed(3),
    (ours.strain / feSingle).toFixed(3),
    patch.force.toFixed(3),
    ours.force.toFixed(3),
    (ours.force / patch.force).toFixed(3),
    (ours.force / single.force).toFixed(3),
  ].join(' | ')} |`;
});
writeFileSync(
  join(here, 'recorded.md'),
  [
    '# Recorded comparison',
    '',
    `Written by compare.ts; not edited by hand. E ${MODULUS} MPa, Poisson ${POISSON}, each lip moved ${OPEN} mm; strain %, force N per mm of depth.`,
    '"spread": load over a patch of the boundary, as the solver has it; "node": the lip\'s corner node alone moved.',
    '',
    '| clip | bore / slot / mouth / arm, mm | nodes | last change % | strain, FE | strain, ours | ratio, spread | ratio, node | force, FE | force, ours | ratio, spread | ratio, node |',
    '|---|---|---|---|---|---|---|---|---|---|---|---|',
    ...rows,
    '',
  ].join('\n'),
);
