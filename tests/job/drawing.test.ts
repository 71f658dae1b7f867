import { describe, expect, it } from 'vitest';
import { drawingInput, partDrawings } from '../../src/job/drawing.ts';
import { make } from '../../src/job/make.ts';
import { sceneOf } from '../../src/job/scene.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { readSheet } from '../output/partDrawing/readSheet.ts';
import { footJob } from '../parts/footJob.ts';
import { demo, read } from './demo.ts';

const kernel = await loadKernel();
const prepared = read(demo());
const [result, scene] = [make(kernel, prepared), sceneOf(kernel, prepared)];
const [drawing] = partDrawings(result, scene, { author: 'A. Restorer', licence: 'CC-BY-4.0' });
const sheet = readSheet(drawing!.svg);
const words = sheet.texts.map((one) => one.words);

/** What callipers may show, as a reader of the sheet takes it: from a figure with deviations. */
function limitsOf(texts: readonly string[]): { nominal: number; least: number; most: number } {
  const number = (text: string): number => Number(text.replace('−', '-').replace('⌀', ''));
  const [figure, upper, lower] = texts as [string, string?, string?];
  const [nominal, both] = figure.split(' ±').map(number) as [number, number?];
  if (both !== undefined) return { nominal, least: nominal - both, most: nominal + both };
  return { nominal, least: nominal + number(lower!), most: nominal + number(upper!) };
}

describe('the drawing of the demo job', () => {
  it.each(result.interfaces.map((one) => [one.id, one] as const))(
    'allows %s just what fits the machine, and names the size expected',
    (id, { kind, host, predicted, window: [lo, hi] }) => {
      const { nominal, least, most } = limitsOf(
        sheet.texts.filter((one) => one.size === id).map((one) => one.words),
      );
      expect(Math.abs(nominal - predicted)).toBeLessThanOrEqual(0.005 + 1e-9);
      // Clearance at either limit is in the window, and next to its ends.
      const clearance = (size: number): number =>
        kind === 'post' || kind === 'rib' ? host - size : size - host;
      const ends = [clearance(least), clearance(most)].sort((a, b) => a - b) as [number, number];
      expect(ends[0]).toBeGreaterThanOrEqual(lo - 1e-9);
      expect(ends[1]).toBeLessThanOrEqual(hi + 1e-9);
      expect(ends[0] - lo + (hi - ends[1])).toBeLessThan(0.02);
    },
  );

  it('has a title block with what the result says', () => {
    const { title, quantity, material, printer, calibrated, hash } = result.job;
    for (const value of [
      title,
      String(quantity),
      material,
      `${printer}, calibrated ${calibrated}`,
      hash.slice(0, 12),
    ])
      expect(words).toContain(value);
    for (const value of ['A. Restorer', 'CC-BY-4.0', '1 of 1', 'mm', '5:1']) expect(words).toContain(value);
  });

  it('says at which temperature sizes hold (ISO 1) and how to use the sheet', () => {
    expect(words.join('; ')).toContain('20 °C');
    expect(words.join('; ')).toContain('Printed at 100 %');
  });

  it('shows the part without the relief of its first layer', () => {
    // Its lowest layer is drawn in; the part meant is 0.1 mm wider there.
    const { mesh, unrelieved } = scene[0]!;
    expect(unrelieved.triangles.length).toBeLessThan(mesh.triangles.length);
    expect(drawingInput(result, scene)[0]!.mesh).toBe(unrelieved);
  });

  it('is the same twice', () => {
    expect(
      partDrawings(make(kernel, prepared), sceneOf(kernel, prepared), {
        author: 'A. Restorer',
        licence: 'CC-BY-4.0',
      }),
    ).toEqual([drawing]);
  });
});

describe('windows with one end', () => {
  const withWindow = (window: readonly [number, number]): string[] => {
    const one = scene[0]!;
    const interfaces = one.interfaces.map((face) =>
      face.id === 'socket.width' ? { ...face, window } : face,
    );
    const svg = partDrawings(result, [{ ...one, interfaces }])[0]!.svg;
    return readSheet(svg)
      .texts.filter((text) => text.size === 'socket.width')
      .map((text) => text.words);
  };

  it('say max. of a post that only has to go in, and min. of one that only has to hold', () => {
    const { host } = result.interfaces.find(({ id }) => id === 'socket.width')!;
    expect(withWindow([0.02, Number.POSITIVE_INFINITY])).toEqual([
      `${(Math.floor((host - 0.02) * 100) / 100).toFixed(2)} max.`,
    ]);
    expect(withWindow([Number.NEGATIVE_INFINITY, 0.1])).toEqual([
      `${(Math.ceil((host - 0.1) * 100) / 100).toFixed(2)} min.`,
    ]);
  });
});

describe('a job that makes a set', () => {
  it('has a sheet a part, numbered and named', () => {
    const set = read(footJob({ kind: 'stick-on', feet: 'each' }));
    const parts = sceneOf(kernel, set);
    const sheets = partDrawings(result, parts, { projection: 'third' });
    expect(sheets.map(({ id }) => id)).toEqual(parts.map(({ id }) => id));
    expect(sheets.length).toBe(4);
    sheets.forEach(({ svg }, k) => {
      const texts = readSheet(svg).texts.map((one) => one.words);
      expect(texts).toContain(`${k + 1} of 4`);
      expect(texts.some((text) => text.endsWith(parts[k]!.name))).toBe(true);
      expect(texts).toContain('third angle');
    });
  });
});
