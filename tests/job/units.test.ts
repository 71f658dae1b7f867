import { describe, expect, it } from 'vitest';
import { plan } from '../../src/job/plan.ts';
import { demo, type PlainJob, read, reversed } from './demo.ts';

/** mm as text in inches, to as many digits as are read: to 3e-10 mm. */
const inches = (mm: number): string => (mm / 25.4).toFixed(10);
/** The demo's readings in mm. */
const millimetres = (text: string | number): number => {
  const typed = String(text).replace(',', '.');
  return typed.endsWith('in') ? Number.parseFloat(typed) * 25.4 : Number(typed);
};

/** The demo job with every reading typed anew. Callipers and sizes keep their own units. */
function retyped(
  type: (mm: number, k: number) => string | number,
  change: (job: PlainJob) => void = () => undefined,
) {
  return demo((job) => {
    job.callipers = { scale: 'digital', resolution: '0.01 mm', zero: '0.01 mm' };
    job.sizes.arm = '1.3 mm';
    for (const texts of Object.values(job.readings))
      texts.forEach((text, k) => {
        texts[k] = type(millimetres(text), k);
      });
    change(job);
  });
}

const sizes = (job: PlainJob) => plan(read(job));

describe('units', () => {
  const expected = sizes(retyped((mm) => mm.toFixed(6)));

  it.each([
    [
      'inches by the job’s unit',
      retyped(inches, (job) => {
        job.unit = 'in';
      }),
    ],
    ['inches by their mark', retyped((mm) => `${inches(mm)}"`)],
    ['in by name', retyped((mm) => `${inches(mm)} in`)],
    ['numbers', retyped((mm) => Number(mm.toFixed(6)))],
    ['decimal comma', retyped((mm) => mm.toFixed(6).replace('.', ','))],
    [
      'centimetres and thou',
      retyped((mm, k) => (k % 2 ? `${(mm / 10).toFixed(7)} cm` : `${(mm / 0.0254).toFixed(6)} thou`)),
    ],
    [
      'all mixed',
      retyped(
        (mm, k) =>
          [
            mm.toFixed(6),
            `${inches(mm)}in`,
            `${mm.toFixed(6).replace('.', ',')} mm`,
            `${(mm / 10).toFixed(7)}cm`,
          ][k % 4]!,
      ),
    ],
    [
      'mixed under inches',
      retyped(
        (mm, k) => (k % 2 ? inches(mm) : `${mm.toFixed(6)} mm`),
        (job) => {
          job.unit = 'in';
        },
      ),
    ],
  ])('%s give the same part', (_, job) => {
    const got = sizes(job);
    expect(Object.keys(got.drawn)).toEqual(Object.keys(expected.drawn));
    for (const [id, size] of Object.entries(expected.drawn))
      expect(Math.abs(got.drawn[id]! - size), id).toBeLessThan(1e-6);
    expect(Math.abs(got.chance.part - expected.chance.part)).toBeLessThan(1e-6);
  });

  it('a fraction of an inch is its decimal', () => {
    const as = (text: string) =>
      sizes(
        demo((job) => {
          job.readings.barDiameter = [text, text];
        }),
      ).drawn.bar;
    expect(as('1/16 in')).toBe(as('1.5875'));
    expect(as('1/16"')).toBe(as('0.0625"'));
  });

  it('the unit matters', () => {
    const got = sizes(retyped((mm) => (mm * 1.001).toFixed(6)));
    expect(Math.abs(got.drawn['socket.width']! - expected.drawn['socket.width']!)).toBeGreaterThan(1e-3);
  });
});

describe('order', () => {
  it('of readings in a set makes no difference', () => {
    const plain = sizes(demo());
    const turned = sizes(
      demo((job) => {
        for (const texts of Object.values(job.readings)) texts.reverse();
      }),
    );
    for (const [id, size] of Object.entries(plain.drawn)) expect(turned.drawn[id]).toBeCloseTo(size, 9);
    expect(turned.chance.part).toBeCloseTo(plain.chance.part, 9);
  });

  it('of the fields of the file makes no difference', () => {
    expect(sizes(reversed(demo()))).toEqual(sizes(demo()));
  });
});
