import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import type { JobFile } from '../../src/job/schema.ts';
import type { Bench } from '../../viewer/bench/bench.ts';
import { RefitDesk } from '../../viewer/donor/refitDesk.ts';
import type { ShownModel } from '../../viewer/spine/answers.ts';

/** A sheet of a block so many mm long; of one and the same length every mesh is new but alike. */
function sheetOf(long: number, shown: number): ShownModel {
  const axes = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ].map((axis) => ({ axis, name: 'x', was: 10, now: long, low: 0 }));
  const span = {
    from: 0,
    to: long,
    length: long,
    was: 10,
    available: long - 0.2,
    partner: null,
    change: null,
  };
  const mesh = {
    positions: Float32Array.of(0, 0, 0, long, 0, 0, 0, 1, 0),
    triangles: Uint32Array.of(0, 1, 2),
  };
  const round = { mesh, stretches: [null], sameSection: 1e-3 };
  return { axes, shown, spans: [span], changes: [], mirror: null, round } as unknown as ShownModel;
}

/** A desk whose worker answers with these sheets one after the other, and notes which axis was asked for. */
function deskOf(answers: readonly (() => ShownModel)[]) {
  const asked: unknown[] = [];
  const job = signal<JobFile>({ fettle: 1, family: 'donor', donor: { file: 'block.stl', changes: [] } });
  const spine = {
    modelSheet: async (_: JobFile, { axis, roll }: { axis: number | null; roll: number }) => {
      asked.push([axis, roll]);
      return answers[asked.length - 1]!();
    },
  };
  const bench = {
    ...{ job, outcome: signal(null) },
    spine: { ask: (_: string, task: (there: typeof spine) => unknown) => task(spine) },
  };
  return { desk: new RefitDesk(bench as unknown as Bench), asked, job };
}

const rested = () => new Promise((resolve) => setTimeout(resolve));

describe('the desk of a model', () => {
  it('asks once, and takes the axis it is told', async () => {
    const { desk, asked } = deskOf([() => sheetOf(10, 2)]);
    await rested();
    expect(desk.sheet.value!.shown).toBe(2);
    expect(desk.axis.value).toBe(2);
    expect(asked).toEqual([[null, 0]]);
    desk.leave();
  });

  it('leaves a stretch in the hand that pulls it while the same part is drawn anew', async () => {
    const { desk, asked } = deskOf([() => sheetOf(10, 0), () => sheetOf(10, 0)]);
    await rested();
    const { mesh } = desk.sheet.value!.round;
    desk.draft.value = { span: 0, by: 1.5 };
    desk.roll.value = 1;
    await rested();
    expect(asked).toHaveLength(2);
    expect(desk.draft.value).toEqual({ span: 0, by: 1.5 });
    // What was made of the mesh for the picture is good for the new sheet too.
    expect(desk.sheet.value!.round.mesh).toBe(mesh);
    desk.leave();
  });

  it('takes it out of the hand when the part is another', async () => {
    const { desk, job } = deskOf([() => sheetOf(10, 0), () => sheetOf(12, 0)]);
    await rested();
    const { mesh } = desk.sheet.value!.round;
    desk.draft.value = { span: 0, by: 1.5 };
    job.value = { ...job.value, donor: { file: 'block.stl', changes: [{ axis: 'x', by: 2 }] } };
    await rested();
    expect(desk.sheet.value!.spans[0]!.length).toBe(12);
    expect(desk.draft.value).toBeNull();
    expect(desk.sheet.value!.round.mesh).not.toBe(mesh);
    desk.leave();
  });
});
