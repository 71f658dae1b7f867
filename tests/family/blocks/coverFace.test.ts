// Plates: Roark's Formulas, central load on simply supported plates (y = alpha P b^2 / (E t^3), alpha 0.16743 at a/b = 1.5 and
// nu = 0.3); Timoshenko and Woinowsky-Krieger for the round one. Voltages: see the block.
import { describe, expect, it } from 'vitest';
import { accessGaps } from '../../../src/family/blocks/accessGaps.ts';
import { connectorHole } from '../../../src/family/blocks/connectorHole.ts';
import { coverPlate, plateBand, plateSize } from '../../../src/family/blocks/coverPlate.ts';
import { faceLabel, fittingHeight } from '../../../src/family/blocks/faceLabel.ts';
import { fingerBending } from '../../../src/family/blocks/fingerPlate.ts';
import { glueBand } from '../../../src/family/blocks/glueBand.ts';
import { notFitFor } from '../../../src/family/blocks/notFitFor.ts';
import type { Made } from '../../../src/family/feature.ts';
import { loadKernel, withScope } from '../../../src/solid/kernel.ts';
import { letteringWidth } from '../../../src/solid/lettering.ts';
import { block } from '../../../src/solid/primitives.ts';
import { realise } from '../../../src/solid/realise.ts';
import { difference } from '../../../src/solid/shape.ts';
import { materials } from '../../../src/standards/materials.ts';

const PETG = materials.PETG;
const made: Made = { drawn: {}, prints: {}, material: PETG, known: {} };
const opening = (width: number, height: number) => ({
  form: 'rectangular' as const,
  width,
  height,
  corner: 0,
});
const plain = { thickness: 2, sunk: 0, hole: null, slots: null, material: PETG };

describe("a finger's push", () => {
  it('bends a rectangular plate as Roark has it', () => {
    const { bending } = fingerBending({ ...plain, opening: opening(90, 60) });
    const nu = PETG.poisson.value;
    const alpha = (0.16743 * (1 - nu ** 2)) / (1 - 0.3 ** 2);
    const point = (alpha * 10 * 60 ** 2) / (PETG.modulusAlong.value * 2 ** 3);
    // The push is on a pad of 10 mm and not at a point, so the plate gives a little less.
    expect(bending.deflection).toBeLessThan(point);
    expect(bending.deflection).toBeGreaterThan(0.95 * point);
  });

  it('bends a round plate as Timoshenko has it', () => {
    const round = { form: 'round' as const, width: 60, height: 60, corner: 0 };
    const { bending } = fingerBending({ ...plain, opening: round });
    const nu = PETG.poisson.value;
    const D = (PETG.modulusAlong.value * 2 ** 3) / (12 * (1 - nu ** 2));
    const point = ((3 + nu) / (16 * Math.PI * (1 + nu))) * ((10 * 30 ** 2) / D);
    expect(bending.deflection).toBeLessThan(point);
    expect(bending.deflection).toBeGreaterThan(0.93 * point);
  });

  it('is bounded by a strip where anything is cut through: softer than the whole plate, and softer still with more cut', () => {
    const of = { ...plain, opening: opening(40, 24) };
    const whole = fingerBending(of).bending.deflection;
    const slotted = fingerBending({ ...of, slots: { vent: 0.9, bar: 1.6 } }).bending;
    const holed = fingerBending({ ...of, hole: 8, slots: { vent: 0.9, bar: 1.6 } }).bending;
    const wide = fingerBending({ ...of, hole: 34, slots: { vent: 0.9, bar: 1.6 } }).bending;
    expect(slotted.deflection).toBeGreaterThan(whole);
    expect(holed.deflection).toBe(slotted.deflection);
    expect(wide.deflection).toBeGreaterThan(holed.deflection);
    // Bars of 1.6 in 2.5: the strip of 10 has 6.4 of plastic. A load over the middle 10 of 24 at simple ends: M = F (2 l - s) / 8.
    const moment = (10 * (2 * 24 - 10)) / 8;
    expect(slotted.stress).toBeCloseTo(moment / ((6.4 * 2 ** 2) / 6), 6);
  });

  it('meets letters where the plate is thin', () => {
    const of = { ...plain, opening: opening(40, 24) };
    const sunk = fingerBending({ ...of, sunk: 0.6 });
    expect(sunk.thickness).toBeCloseTo(1.4);
    expect(sunk.bending.deflection / fingerBending(of).bending.deflection).toBeCloseTo((2 / 1.4) ** 3, 6);
  });
});

describe('the flat of a connector', () => {
  it('lets it turn by as much as turning the outline finds', () => {
    const cell = { x: 0, y: 0, width: 20, height: 20 };
    const of = { cell, connectorDiameter: 8, connectorFlat: 7.2, through: 2 };
    const prints = { 'connector.body': 8.2, 'connector.flat': 7.4 };
    const [finding] = connectorHole(of, {}).findings!({ ...made, prints });
    // The body is let down against the round of the hole, 0.1 mm off its middle, and turned until the corner of its flat strikes.
    const level = 7.4 - 4.1 + 0.1;
    const half = Math.sqrt(4 ** 2 - 3.2 ** 2);
    let angle = 0;
    while (3.2 * Math.cos(angle) + half * Math.sin(angle) < level) angle += 1e-5;
    expect(finding!.value).toBeCloseTo((angle * 180) / Math.PI, 0);
  });
});

describe('the plate', () => {
  const row = { opening: opening(34, 22), count: 2, pitch: 42 };
  const of = { row, thickness: 2, overlap: 3, recess: null, flush: false, screws: null };

  it('lies on the panel with what is around the openings', () => {
    expect(plateSize(of, {})).toEqual([82, 28]);
    // Corners of 1.5 mm are rounded off.
    expect(plateBand(of, {})).toBeCloseTo(82 * 28 - (4 - Math.PI) * 1.5 ** 2 - 2 * 34 * 22, 1);
    const [glue] = glueBand(400, [0, 0, 0]).findings!(made);
    // 5 N at the lower end of what tape bears for seconds, 0.01 MPa.
    expect(glue!.limit).toBeCloseTo(500, 9);
  });

  it('reaches over the panel by what play, readings and print leave', () => {
    const prints = { 'plug1.width': 33.8, 'plug1.height': 21.8, 'plug2.width': 33.8, 'plug2.height': 21.8 };
    const known = {
      openingWidth: { value: 34, u: 0.05 },
      openingHeight: { value: 22, u: 0.02 },
      pitch: { value: 42, u: 0.1 },
    };
    const [finding] = coverPlate(of, {}).findings!({ ...made, prints, known });
    // Left and right: 3, less half the play 0.1, half of 2 u 0.05, half of the doubt of the pitch 0.1, and 0.5 % of 82.
    expect(finding!.details!['left and right, mm']).toBeCloseTo(3 - 0.1 - 0.05 - 0.1 - 0.41, 6);
    expect(finding!.details!['above and below, mm']).toBeCloseTo(3 - 0.1 - 0.02 - 0.14, 6);
    expect(finding!.value).toBe(finding!.details!['left and right, mm']);
  });
});

describe('probes of IEC 60529', () => {
  it.each([
    [0.99, true, true],
    [1.01, false, true],
    [11.9, false, true],
    [12.1, false, false],
  ])('%d mm: keeps a wire out %s, a finger %s', (width, wire, finger) => {
    const found = accessGaps(() => [{ name: 'slots', width }], [0, 0, 0]).findings!(made);
    const out = (id: string) =>
      found.filter((one) => one.id === id).every(({ value, limit }) => value <= limit);
    expect(out('probe.wire')).toBe(wire);
    expect(out('probe.finger')).toBe(finger);
    expect(found.find(({ id }) => id === 'probe.finger')!.missed).toBeUndefined();
    expect(found.every(({ because }) => because.includes('no type test'))).toBe(true);
  });
});

describe('what a part is not fit for', () => {
  it.each(['mains or unknown', 'picture tube', 'hot parts', 'a word nobody knows'])(
    '%s: beyond its limit',
    (danger) => {
      for (const name of ['PETG', 'PA12', 'ASA'] as const) {
        const feature = notFitFor(danger, materials[name], [0, 0, 0]);
        const [finding] = feature.findings!(made);
        expect(finding!.value).toBeGreaterThan(finding!.limit);
        expect(finding!.missed).toBeUndefined();
        expect(finding!.because).toContain('Fettle does not call this part fit for it');
        expect(feature.cautions!.join()).toMatch(/no rated enclosure.*qualified person/s);
      }
    },
  );
});

describe('letters', () => {
  it('are as large as the cell takes, and no larger', () => {
    const cell = { x: 0, y: 0, width: 30, height: 12 };
    for (const text of ['LINE', 'A', 'gy(8)', '0.5 A T']) {
      const height = fittingHeight(cell, text, 8);
      const rule = (letterHeight: number) =>
        faceLabel({ cell, text, style: 'sunk', letterHeight, face: 2 }).rules![0]!.ok;
      expect(rule(height), text).toBe(true);
      expect(height === 8 || !rule(height + 0.2), text).toBe(true);
    }
    expect(fittingHeight(cell, '', 8)).toBe(8);
    expect(fittingHeight(cell, 'LINE', 8)).toBe(8);
  });

  it('take away what they cover: sunk the strokes, raised the field around them', async () => {
    const cell = { x: 3, y: -2, width: 40, height: 14 };
    const kernel = await loadKernel();
    const removed = (style: string): number =>
      withScope(kernel, (scope) => {
        const label = faceLabel({ cell, text: 'AUX', style, letterHeight: 6, face: 2 });
        const body = block([-30, -15, 0], [30, 15, 2]);
        return 60 * 30 * 2 - realise(scope, difference(body, label.cut!())).volume();
      });
    const field = (letteringWidth('AUX', 6, 0.9) + 2.4) * (6 + 2.4) * 0.6;
    expect(removed('sunk')).toBeGreaterThan(5);
    // The same letters stand in the field as are sunk without it.
    expect(removed('sunk') + removed('raised')).toBeCloseTo(field, 3);
  });
});
