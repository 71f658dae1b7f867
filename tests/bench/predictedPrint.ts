// The predicted print of the demo clip against the Manifold calls it rests on: `npx tsx tests/bench/predictedPrint.ts`,
// and part of `npm run bench`.
import { readFileSync } from 'node:fs';
import { families } from '../../parts/index.ts';
import { layOnBed } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import { readJob } from '../../src/job/readJob.ts';
import { predictedPrint } from '../../src/printer/predictedPrint.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../src/solid/kernel.ts';
import { layersOf } from '../../src/solid/layers.ts';
import { type Ratio, sideBySide } from './ratio.ts';
import { recordedCalls } from './recordedCalls.ts';

const text = readFileSync('parts/stabiliser-clip/demo.job.json', 'utf8');
const lays = {
  side: text,
  upright: text.replace('"lay": "side"', '"lay": "upright"'),
} as const;

/** From the drawn solid on the bed to the predicted print, against the same slices, offsets, extrusions and union with
 *  nothing in between, both ways the clip is laid. */
export function predictedPrintRatios(kernel: ManifoldToplevel): Ratio[] {
  return (['side', 'upright'] as const).map((lay) => {
    const prepared = readJob(lays[lay], families);
    const planned = plan(prepared);
    const { printer } = prepared;
    return withScope(kernel, (outer): Ratio => {
      const { solid } = layOnBed(outer, prepared, planned);
      const ours = (): void =>
        withScope(kernel, (scope) => {
          const layers = layersOf(scope, solid, printer.firstLayer, printer.layer);
          predictedPrint(scope, layers, printer);
        });
      ours();
      const bare = recordedCalls(kernel, ours);
      const { ratio, a, b } = sideBySide(ours, bare, { rounds: 15, eachA: 3, eachB: 3 });
      return {
        name: `predicted print / its bare slices, offsets, union, ${lay}`,
        ratio,
        goal: { side: 'at most', value: 1.3 },
        detail: `${a.toFixed(1)} ms / ${b.toFixed(1)} ms`,
      };
    });
  });
}

if (import.meta.url === `file://${process.argv[1]}`) {
  for (const { name, ratio, detail } of predictedPrintRatios(await loadKernel()))
    console.log(`${name}: ${ratio.toFixed(2)} (goal at most 1.3), ${detail}`);
}
