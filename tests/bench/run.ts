// Ratios measured side by side in one run: `npm run bench`. Times are shown for scale only; the ratios are the result.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import modeling from '@jscad/modeling';
import type { Geom3 } from '@jscad/modeling/src/geometries/geom3/index.js';
import { families } from '../../parts/index.ts';
import { make } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import { readJob } from '../../src/job/readJob.ts';
import { coupon } from '../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { loadKernel, withScope } from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { block, prism } from '../../src/solid/primitives.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, type Shape, union } from '../../src/solid/shape.ts';
import type { Contour } from '../../src/solid/vector.ts';
import { randomness } from '../simulation/randomness.ts';
import { drawPrinter, print } from '../simulation/truePrinter.ts';
import { timeInside } from './countedKernel.ts';
import { donorRefitRatios } from './donorRefit.ts';
import { realiseWithJscad } from './jscadBooleans.ts';
import { pageRatios } from './page.ts';
import { predictedPrintRatios } from './predictedPrint.ts';
import { median, type Ratio, sideBySide } from './ratio.ts';
import { printReliability, printSecondPrints } from './reliability.ts';
import { remakeTable } from './remake.ts';

const text = readFileSync('parts/stabiliser-clip/demo.job.json', 'utf8');
/** No arms to solve by finite elements, which Manifold has no part in. */
const closed = text.replace('"mouth": "open"', '"mouth": "closed"');
const kernel = await loadKernel();
const ms = (value: number): string => `${value.toFixed(1)} ms`;

/** Declared as a module with a default export, but is the function itself. */
const generalize = modeling.modifiers.generalize as unknown as (options: object, of: Geom3) => Geom3;

/** JSCAD's result as a mesh that closes, if it can. */
const mended = (shape: Shape): unknown =>
  generalize({ snap: true, triangulate: true }, realiseWithJscad(shape));

/** Body with round bore, mouth and round post with a cone at its tip; sizes as a common clip's, mm. */
function roundClip(n: number): Shape {
  const ring = (radius: number, x: number, y: number): Contour =>
    Array.from({ length: n }, (_, k) => {
      const angle = (2 * Math.PI * k) / n;
      return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
    });
  return difference(
    union(
      prism('x', ring(2.2, 0, -5), -2, 2),
      block([-2, -2.2, -5], [2, 2.2, 0]),
      prism('z', ring(2, 0, 0), -1, 4),
    ),
    prism('x', ring(1, 0, -5), -3, 3),
    block([-3, -0.7, -8], [3, 0.7, -5]),
  );
}

/** From the job's text to the closed mesh of the part as drawn, by this pipeline and with JSCAD's booleans. JSCAD's raw
 *  result has T-junctions and is refused as a mesh, so what mends them (`generalize`) belongs to its side; the relief of
 *  the first layer, which JSCAD's side does not have, is left out of ours. */
function remake(): Ratio {
  const ours = (): void => {
    const job = readJob(text, families);
    const { drawn } = plan(job);
    withScope(kernel, (scope) => meshOf(realise(scope, job.family.shape(job.values, drawn))));
  };
  const theirs = (): void => {
    const job = readJob(text, families);
    mended(job.family.shape(job.values, plan(job).drawn));
  };
  const { ratio, a, b } = sideBySide(theirs, ours, { rounds: 9, eachA: 3, eachB: 3 });
  return {
    name: 'remake of the clip, JSCAD booleans / this pipeline',
    ratio,
    goal: { side: 'at least', value: 20 },
    detail: `${ms(a)} / ${ms(b)}, same facets`,
  };
}

/** Only the joining, for a clip with a round post whose every circle has `n` facets: how the two grow apart. */
function booleans(n: number): Ratio {
  const shape = roundClip(n);
  const ours = (): void => withScope(kernel, (scope) => void meshOf(realise(scope, shape)));
  const { ratio, a, b } = sideBySide(() => mended(shape), ours, { rounds: 5, eachB: 3 });
  return {
    name: `booleans of a round clip, ${n} facets, JSCAD / Manifold`,
    ratio,
    goal: { side: 'at least', value: 20 },
    detail: `${ms(a)} / ${ms(b)}`,
  };
}

/** The whole pipeline with every check, against the time it spends inside Manifold in the same run. */
function overhead(of: string, text: string): Ratio {
  for (let k = 0; k < 10; k++) make(kernel, readJob(text, families));
  const runs = Array.from({ length: 21 }, () =>
    timeInside(kernel, () => void make(kernel, readJob(text, families))),
  );
  return {
    name: `whole pipeline / its bare Manifold calls, ${of}`,
    ratio: median(runs.map(({ total, inside }) => total / inside)),
    goal: { side: 'at most', value: 1.3 },
    detail: `${ms(median(runs.map(({ total }) => total)))} / ${ms(median(runs.map(({ inside }) => inside)))}, ${runs[0]!.calls} calls`,
  };
}

/** Start of the built command against the start of Node itself. */
function startUp(): Ratio {
  const run = (args: readonly string[]) => (): void => {
    execFileSync(process.execPath, args, { stdio: 'ignore' });
  };
  const { ratio, a, b } = sideBySide(run(['dist/bin/fettle.js', '--version']), run(['-e', '0']), {
    rounds: 15,
  });
  return {
    name: 'fettle --version / node -e 0',
    ratio,
    goal: { side: 'at most', value: 3 },
    detail: `${ms(a)} / ${ms(b)}`,
  };
}

/** From the readings of a whole coupon in a file to the written profile, against the start of Node itself. */
function calibrateOnce(): Ratio {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-bench-'));
  const [profile, readings] = [join(folder, 'bench.printer.json'), join(folder, 'readings.csv')];
  writeFileSync(profile, JSON.stringify({ ...defaultPrinter, name: 'bench printer' }));
  const random = randomness(7);
  const printer = drawPrinter(random);
  const rows = coupon(defaultPrinter).features.map(({ id, nominal, measurand }) =>
    [id, ...[1, 2].map(() => print(printer, nominal, measurand, random).toFixed(2))].join(','),
  );
  writeFileSync(readings, rows.join('\n'));
  const run = (args: readonly string[]) => (): void => {
    execFileSync(process.execPath, args, { stdio: 'ignore' });
  };
  const whole = run(['dist/bin/fettle.js', 'calibrate', profile, readings]);
  const { ratio, a, b } = sideBySide(whole, run(['-e', '0']), { rounds: 9 });
  rmSync(folder, { recursive: true });
  return {
    name: 'fettle calibrate, CSV to profile / node -e 0',
    ratio,
    goal: { side: 'at most', value: 10 },
    detail: `${ms(a)} / ${ms(b)}`,
  };
}

const rows = [
  remake(),
  ...[16, 32, 64, 128].map(booleans),
  overhead('open mouth', text),
  overhead('closed', closed),
  ...predictedPrintRatios(kernel),
  startUp(),
  calibrateOnce(),
  ...donorRefitRatios(kernel),
  ...(await pageRatios(kernel, families, text)),
];
for (const { name, ratio, goal, detail } of rows) {
  const met = goal.side === 'at least' ? ratio >= goal.value : ratio <= goal.value;
  console.log(
    `${name.padEnd(58)} ${ratio.toFixed(2).padStart(7)}   goal ${goal.side} ${goal.value}   ${met ? 'met' : 'missed'}   ${detail}`,
  );
}
console.log(remakeTable(kernel));
printReliability(1500);
printSecondPrints(400);
