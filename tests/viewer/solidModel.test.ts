import { type Signal, signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../src/solid/vector.ts';
import type { Bench } from '../../viewer/bench/bench.ts';
import { alongPicture } from '../../viewer/solid/bands/alongPicture.ts';
import { home, namedViews } from '../../viewer/solid/camera.ts';
import type { PrintSource } from '../../viewer/solid/printSource.ts';
import { onPicture } from '../../viewer/solid/sight.ts';
import { type ModelDesk, SolidState } from '../../viewer/solid/solidState.ts';
import type { ShownModel } from '../../viewer/spine/answers.ts';

/** A model in a box 10 mm wide and deep and so many high, with one stretch along z. */
function tower(high: number): ShownModel {
  const z: Vec3 = [0, 0, 1];
  const mesh = {
    positions: Float32Array.of(0, 0, 0, 10, 0, 0, 0, 10, high),
    triangles: Uint32Array.of(0, 1, 2),
  };
  const span = { from: 0, to: high, length: high, was: high, available: high - 0.2, distorts: [] };
  return {
    ...{ axes: [{ axis: z, name: 'z', was: high, now: high, low: 0 }], shown: 0, mirror: null, changes: [] },
    spans: [{ ...span, partner: null, change: null }],
    round: { mesh, stretches: [{ around: [[0, 0, 0]], step: 0 }], sameSection: 1e-3 },
  } as unknown as ShownModel;
}

function pictureOf(model: ShownModel) {
  const desk = {
    ...{ sheet: signal<ShownModel | null>(model), draft: signal(null), at: signal(null), lit: signal(null) },
  } as ModelDesk & { readonly sheet: Signal<ShownModel | null> };
  const bench = { made: signal(null), stale: signal(true), outcome: signal(null) };
  const source = { shown: signal(null) };
  const state = new SolidState(
    bench as unknown as Bench,
    source as unknown as PrintSource,
    signal<ModelDesk | null>(desk),
  );
  state.size.value = [600, 400];
  return { state, desk };
}

describe('a model in the picture', () => {
  it('is there before its part is made, and is never stale', () => {
    const { state, desk } = pictureOf(tower(30));
    expect(state.model.value).toBe(desk.sheet.value);
    expect(state.part.value).toBeNull();
    expect(state.stale.value).toBe(false);
    expect(state.bands.value!.bands.map(({ name }) => name)).toEqual(['A']);
  });

  it('gives way to the part where that is asked for, and where there is no picture of solids', () => {
    const { state } = pictureOf(tower(30));
    state.stretches.value = false;
    expect(state.model.value).toBeNull();
    expect(state.bands.value).toBeNull();
    state.stretches.value = true;
    state.solids.value = false;
    expect(state.model.value).toBeNull();
  });

  it('stays where it is as a stretch is let go, unless it no longer fits', () => {
    const { state, desk } = pictureOf(tower(30));
    const before = state.sight.value!;
    desk.sheet.value = tower(34);
    expect(state.sight.value).toEqual(before);
    desk.sheet.value = tower(26.6);
    expect(state.sight.value).toEqual(before);
    // Then as one that is seen for the first time.
    desk.sheet.value = tower(70);
    expect(state.sight.value).toEqual(pictureOf(tower(70)).state.sight.value);
    expect(state.sight.value!.scale).toBeLessThan(before.scale);
  });
});

describe('an axis in the picture', () => {
  it.each(['front', 'right', 'round'] as const)('is as long as it is seen, from %s', (name) => {
    const { state } = pictureOf(tower(30));
    state.camera.value = { ...home, ...namedViews[name] };
    const sight = state.sight.value!;
    const { along, perMm, isEndOn } = alongPicture(sight, [0, 0, 1]);
    const [low, high] = [0, 30].map((z) => onPicture(sight, [600, 400], [3, 4, z]));
    expect(isEndOn).toBe(false);
    expect(high![0] - low![0]).toBeCloseTo(30 * perMm * along[0], 6);
    expect(high![1] - low![1]).toBeCloseTo(30 * perMm * along[1], 6);
    // Isometric views shorten all three axes by the root of two thirds (ISO 5456-3).
    expect(perMm / sight.scale).toBeCloseTo(name === 'round' ? Math.sqrt(2 / 3) : 1, 6);
  });

  it('that points at the reader is pulled upwards', () => {
    const { state } = pictureOf(tower(30));
    state.camera.value = { ...home, ...namedViews.top };
    expect(alongPicture(state.sight.value!, [0, 0, 1])).toEqual({
      ...{ along: [0, -1], perMm: state.sight.value!.scale, isEndOn: true },
    });
  });
});
