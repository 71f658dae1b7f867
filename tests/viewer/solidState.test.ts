import { effect } from '@preact/signals';
import { beforeAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import type { JobFile } from '../../src/job/schema.ts';
import type { PartInTheRound } from '../../src/job/solidView.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { MeshIndex } from '../../src/solid/meshIndex.ts';
import type { Vec3 } from '../../src/solid/vector.ts';
import { Bench } from '../../viewer/bench/bench.ts';
import { freshHistory, JobHistory } from '../../viewer/bench/jobHistory.ts';
import { PrintSource } from '../../viewer/solid/printSource.ts';
import { onPicture } from '../../viewer/solid/sight.ts';
import { plasticAlong, SolidState } from '../../viewer/solid/solidState.ts';
import type { Made } from '../../viewer/spine/answers.ts';
import { SpineClient } from '../../viewer/spine/spineClient.ts';
import { solidViewOf } from '../../viewer/spine/tasks/solidView.ts';
import { work } from '../../viewer/spine/tasks/work.ts';
import { exampleJob } from '../../viewer/start/exampleJob.ts';
import { FakeWorker } from './fakeWorker.ts';

let made: Made;
let parts: readonly PartInTheRound[];
beforeAll(async () => {
  const kernel = await loadKernel();
  made = work(kernel, families, exampleJob) as Made;
  parts = solidViewOf(kernel, families, exampleJob) as readonly PartInTheRound[];
});

/** Resolves when it holds. */
const until = (holds: () => boolean): Promise<void> =>
  new Promise((resolve) => {
    const stop = effect(() => {
      if (!holds()) return;
      // Not stopped from within: at the first run there is nothing to stop yet.
      queueMicrotask(() => {
        stop();
        resolve();
      });
    });
  });

interface Asked {
  jobs: JobFile[];
}

function aBench(view: (job: JobFile) => Promise<readonly PartInTheRound[]>) {
  const asked: Asked = { jobs: [] };
  const opened = (spine: ConstructorParameters<typeof FakeWorker>[0]) => () =>
    new FakeWorker(spine) as unknown as Worker;
  // A result of its own each time, as every version of a job has.
  const bench = new Bench(
    new JobHistory(freshHistory(exampleJob)),
    new SpineClient(opened({ work: async () => ({ ...made }) })),
  );
  const source = new PrintSource(
    opened({
      solidView: async (job) => {
        asked.jobs.push(job);
        return view(job);
      },
    }),
  );
  return { bench, source, asked, state: new SolidState(bench, source) };
}

const title = (bench: Bench, words: string): void =>
  bench.change('title', (job) => ({ ...job, title: words }), true);

describe('the print that is shown', () => {
  it('comes after the part as drawn, and is asked for once typing rests', async () => {
    const { bench, source, asked, state } = aBench(async () => parts);
    const stop = source.follow(bench);
    await until(() => state.part.value !== null);
    expect(state.part.value!.manner).toBe('drawn');
    title(bench, 'a');
    title(bench, 'ab');
    title(bench, 'abc');
    await until(() => source.shown.value?.of === bench.made.value && !bench.stale.value);
    expect(asked.jobs.map((job) => job.title)).toEqual(['abc']);
    expect(state.part.value!.manner).toBe('gaps');
    expect(state.stale.value).toBe(false);
    stop();
  });

  it('stays, marked stale, while a newer one is worked out', async () => {
    const { bench, source, state } = aBench(async (job) => {
      if (job.title !== exampleJob.title) await new Promise(() => {});
      return parts;
    });
    const stop = source.follow(bench);
    await until(() => source.shown.value !== null);
    const before = bench.made.value;
    title(bench, 'newer');
    await until(() => bench.made.value !== before && !bench.stale.value);
    expect(state.part.value!.manner).toBe('gaps');
    expect(state.stale.value).toBe(true);
    // As drawn the newest part is there at once.
    state.manner.value = 'drawn';
    expect(bench.made.value!.scene).toContain(state.part.value!.scene);
    expect(state.stale.value).toBe(false);
    stop();
  });

  it('says what went wrong, keeps the part as drawn, and tries again when asked', async () => {
    let broken = true;
    const { bench, source, state } = aBench(async () => {
      if (broken) throw new Error('memory is full');
      return parts;
    });
    const stop = source.follow(bench);
    await until(() => source.trouble.value !== null);
    expect(source.trouble.value).toMatch(/memory is full/);
    expect(state.part.value!.manner).toBe('drawn');
    broken = false;
    source.again();
    await until(() => source.shown.value !== null);
    expect(source.trouble.value).toBeNull();
    stop();
  });
});

describe('the picture', () => {
  async function shown() {
    const { bench, source, state } = aBench(async () => parts);
    const stop = source.follow(bench);
    await until(() => source.shown.value !== null);
    state.size.value = [600, 400];
    return { state, stop };
  }

  it('cuts at the heights of layers as they lie on the bed', async () => {
    const { state, stop } = await shown();
    state.cut.value = 'layers';
    state.share.value = 0;
    const first = state.plane.value!;
    state.share.value = 1;
    const last = state.plane.value!;
    const { layers } = parts[0]!;
    expect(last.level - first.level).toBeCloseTo(layers.at(-1)!.middle - layers[0]!.middle, 9);
    expect(last.normal.map(Math.abs)).toEqual([1, 0, 0]);
    // The clip is printed on its side; on the bed its own x points up.
    expect(state.view({ azimuth: 0, elevation: 0, zoom: 1, pan: [0, 0] }).up.map(Math.round)).toEqual([
      1, 0, 0,
    ]);
    stop();
  });

  it('takes away the half towards the reader, from whichever side they look', async () => {
    const { state, stop } = await shown();
    state.cut.value = 'x';
    state.camera.value = { ...state.camera.value, azimuth: Math.PI / 2, elevation: 0 };
    expect(state.plane.value!.below).toBe(true);
    state.camera.value = { ...state.camera.value, azimuth: -Math.PI / 2 };
    expect(state.plane.value!.below).toBe(false);
    stop();
  });

  it('turns to where a spot is seen, and finds under the pointer what it shows there', async () => {
    const { state, stop } = await shown();
    const index = new MeshIndex(state.part.value!.mesh);
    const corner = state.spots.value.find(({ findings }) => findings.some(({ number }) => number === 29))!;
    for (const azimuth of [0, 1, 2, 3]) {
      state.camera.value = { ...state.camera.value, azimuth, elevation: -0.4 };
      state.camera.value = state.seeing(corner.at);
      expect(plasticAlong(index, corner.at, [...state.view(state.camera.value).toward] as Vec3)).toBeLessThan(
        0.6,
      );
    }
    const sight = state.sight.value!;
    const top = { ...state.bounds.value!.middle } as unknown as Vec3;
    const under = state.under(onPicture(sight, [600, 400], [top[0], top[1], top[2]]))!;
    expect(index.nearest(under)!.distance).toBeLessThan(1e-3);
    expect(state.under([2, 2])).toBeNull();
    stop();
  });

  it('plays the motion and shows all of the machine at rest', async () => {
    const { state, stop } = await shown();
    expect(state.frame.value).toBeNull();
    state.play.value = { id: 'motion', frame: 99 };
    expect(state.frame.value!.name).toMatch(/3\.79 mm down/);
    state.play.value = { id: 'no such play', frame: 0 };
    expect(state.frame.value).toBeNull();
    stop();
  });
});
