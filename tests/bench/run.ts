// Ratios measured side by side in one run: `npm run bench`. Times are shown for scale only; the ratios are the result.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { families } from '../../parts/index.ts';
import { layOnBed, make } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import { readJob } from '../../src/job/readJob.ts';
import { geometries } from '../../src/solid/jscad.ts';
import { loadKernel, withScope } from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/mesh.ts';
import { timeInside } from './countedKernel.ts';
import { realiseWithJscad } from './jscadBooleans.ts';
import { median, type Ratio, sideBySide } from './ratio.ts';

const text = readFileSync('parts/stabiliser-clip/demo.job.json', 'utf8');
const kernel = await loadKernel();
const prepared = readJob(text, families);
const ms = (value: number): string => `${value.toFixed(1)} ms`;

/** From the job's text to the mesh of the part as drawn on the bed, by this pipeline and with JSCAD's booleans. */
function remake(): Ratio {
  const ours = (): void => {
    const job = readJob(text, families);
    withScope(kernel, (scope) => meshOf(layOnBed(scope, job, plan(job)).solid));
  };
  const theirs = (): void => {
    const job = readJob(text, families);
    geometries.geom3.toPolygons(realiseWithJscad(job.family.shape(job.values, plan(job).drawn)));
  };
  const { ratio, a, b } = sideBySide(theirs, ours, { rounds: 7, eachB: 5 });
  return {
    name: 'remake of the clip, JSCAD booleans / this pipeline',
    ratio,
    goal: { side: 'at least', value: 20 },
    detail: `${ms(a)} / ${ms(b)}, same facets`,
  };
}

/** Only the joining of the solids: the descriptions are the same, made before the clock starts. */
function booleans(): Ratio {
  const shape = prepared.family.shape(prepared.values, plan(prepared).drawn);
  const ours = (): void =>
    withScope(kernel, (scope) => {
      meshOf(layOnBed(scope, prepared, plan(prepared)).turned);
    });
  const theirs = (): void => {
    geometries.geom3.toPolygons(realiseWithJscad(shape));
  };
  const { ratio, a, b } = sideBySide(theirs, ours, { rounds: 7, eachB: 5 });
  return {
    name: 'plan, shape and booleans, JSCAD / Manifold',
    ratio,
    goal: { side: 'at least', value: 20 },
    detail: `${ms(a)} / ${ms(b)}`,
  };
}

/** The whole pipeline with every check, against the time it spends inside Manifold in the same run. */
function overhead(): Ratio {
  for (let k = 0; k < 10; k++) make(kernel, readJob(text, families));
  const runs = Array.from({ length: 21 }, () =>
    timeInside(kernel, () => void make(kernel, readJob(text, families))),
  );
  return {
    name: 'whole pipeline / its bare Manifold calls',
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
  const { ratio, a, b } = sideBySide(run(['dist/src/cli/main.js', '--version']), run(['-e', '0']), {
    rounds: 15,
  });
  return {
    name: 'fettle --version / node -e 0',
    ratio,
    goal: { side: 'at most', value: 3 },
    detail: `${ms(a)} / ${ms(b)}`,
  };
}

for (const measure of [remake, booleans, overhead, startUp]) {
  const { name, ratio, goal, detail } = measure();
  const met = goal.side === 'at least' ? ratio >= goal.value : ratio <= goal.value;
  console.log(
    `${name.padEnd(52)} ${ratio.toFixed(2).padStart(7)}   goal ${goal.side} ${goal.value}   ${met ? 'met' : 'missed'}   ${detail}`,
  );
}
