import fc from 'fast-check';
import { afterAll, expect, it } from 'vitest';
import { sha256Hex } from '../../src/job/hash.ts';
import { make } from '../../src/job/make.ts';
import { Refused } from '../../src/job/problem.ts';
import { sceneOf } from '../../src/job/scene.ts';
import { Remembered } from '../../src/remembered/remembered.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { demo, type PlainJob, read } from '../job/demo.ts';
import { coverJob } from '../parts/coverJob.ts';
import { footJob } from '../parts/footJob.ts';

const kernel = await loadKernel();
const SEED = 20261126;

/** Whatever can be typed, chosen or told about a job, one thing at a time. `at` says which, `by` how: 0 to 1. */
type Edit = { readonly kind: keyof typeof edits; readonly at: number; readonly by: number };

const pick = <T>(list: readonly T[], at: number): T => list[Math.floor(at * list.length) % list.length]!;

const edits = {
  reading: (job: PlainJob, at: number, by: number) => {
    const id = pick(Object.keys(job.readings), at);
    const [first] = job.readings[id]!;
    const value = Number.parseFloat(String(first).replace(',', '.'));
    job.readings[id] = [`${(value + (by - 0.5) / 10).toFixed(2)}${/kg/.test(String(first)) ? ' kg' : ''}`];
  },
  repeat: (job: PlainJob, at: number) => {
    const texts = job.readings[pick(Object.keys(job.readings), at)]!;
    texts.push(texts[0]!);
  },
  doubt: (job: PlainJob, at: number) => {
    job.callipers = { ...job.callipers, resolution: pick(['0.01', '0.02', '0.05'], at) };
  },
  fit: (job: PlainJob, at: number, by: number) => {
    const { family, values } = read(demoOf(job));
    job.fits[pick(family.interfaces(values, {}), at).id] = [by / 10, 0.2 + by / 10];
  },
  printer: (job: PlainJob, at: number, by: number) => {
    const field = pick(['outerGrowth', 'boreShrink', 'firstLayerSpread', 'levelSag', 'skew'] as const, at);
    const { value, u } = job.printer[field];
    job.printer = { ...job.printer, [field]: by < 0.5 ? { value: value * 1.1, u } : { value, u: u * 1.3 } };
  },
  settings: (job: PlainJob, at: number, by: number) => {
    const { printer } = job;
    job.printer = pick(
      [
        { ...printer, overhang: 40 + 20 * by },
        { ...printer, lineWidth: 0.4 + by / 10 },
        { ...printer, repeatability: 0.01 + by / 50 },
        { ...printer, name: `printer ${by.toFixed(2)}` },
        { ...printer, bridge: 4 + 8 * by },
        { ...printer, layer: 0.15 + Math.round(10 * by) / 100 },
      ],
      at,
    );
  },
  words: (job: PlainJob, at: number, by: number) => {
    if (at < 0.5) job.title = `called ${by.toFixed(3)}`;
    else if (at < 0.8) job.licence = by < 0.5 ? 'MIT' : 'CC0-1.0';
    else job.quantity = 1 + Math.floor(9 * by);
  },
  material: (job: PlainJob, at: number) => {
    job.material = pick(['PLA', 'PETG', 'ABS'], at);
  },
  warmth: (job: PlainJob, at: number) => {
    job.surroundings = { temperature: pick(['30 °C', '50 °C'], at) };
  },
} as const;

/** A job that can be read, to see which fits it has. */
const demoOf = (job: PlainJob): PlainJob => ({ ...structuredClone(job), fits: {} });

const edit = fc.record({
  kind: fc.constantFrom(...(Object.keys(edits) as Edit['kind'][])),
  at: fc.double({ min: 0, max: 0.999, noNaN: true }),
  by: fc.double({ min: 0, max: 0.999, noNaN: true }),
});

/** A result as text: meshes by their hash, numbers that JSON has no word for by name. */
const told = (value: unknown): string =>
  JSON.stringify(value, (_, inner: unknown) => {
    if (ArrayBuffer.isView(inner))
      return sha256Hex(new Uint8Array(inner.buffer, inner.byteOffset, inner.byteLength));
    return typeof inner === 'number' && (!Number.isFinite(inner) || Object.is(inner, -0))
      ? `${1 / inner} ${inner}`
      : inner;
  });

/** All that comes of a job, byte by byte; what it was refused for otherwise. */
function outcome(job: PlainJob, known?: Remembered): { readonly refused: boolean; readonly text: string } {
  try {
    const prepared = read(job);
    const all = { result: make(kernel, prepared, known), scene: sceneOf(kernel, prepared, known) };
    return { refused: false, text: told(all) };
  } catch (error) {
    if (error instanceof Refused) return { refused: true, text: told(error.problems) };
    throw error;
  }
}

let [found, refused, done] = [0, 0, 0];

it.each<[string, () => PlainJob, number, number, number | undefined]>([
  ['clips', () => demo(), 1, 9, undefined],
  ['clips, with little room to remember', () => demo(), 1, 4, 2 ** 20],
  ['feet', () => footJob(), 1, 6, undefined],
  ['four feet, with little room', () => footJob({ feet: 'each' }), 1, 1, 2 ** 21],
  ['covers', () => coverJob({ held: 'glue' }), 1, 4, undefined],
])(
  'changes one thing after another of %s to the same bytes as made afresh',
  (_, start, runs, steps, most) => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: steps, maxLength: steps }), (list) => {
        const known = new Remembered(most);
        try {
          let job = start();
          outcome(job, known);
          for (const { kind, at, by } of list) {
            const before = structuredClone(job);
            edits[kind](job, at, by);
            const fresh = outcome(job);
            expect(outcome(job, known), kind).toEqual(fresh);
            done++;
            // What cannot be made is taken back, as at the bench.
            if (fresh.refused) {
              refused++;
              job = before;
            }
          }
          found += known.tally.found;
        } finally {
          known.forget();
        }
      }),
      { seed: SEED, numRuns: runs },
    );
  },
);

afterAll(() => {
  if (done === 0) return;
  // Otherwise a memory that finds nothing, or jobs that are all refused, would pass.
  expect(found).toBeGreaterThan(10 * done);
  expect(refused / done).toBeLessThan(0.5);
});
