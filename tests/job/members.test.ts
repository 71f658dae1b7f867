import { beforeAll, describe, expect, it } from 'vitest';
import { block, depth, family, insideRound, post, up } from '../../src/family/index.ts';
import { make } from '../../src/job/make.ts';
import { readJob } from '../../src/job/readJob.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import { soundnessOf } from '../../src/solid/soundness.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Pegs of two heights for two holes of one size. */
const pegs = family({
  id: 'pegs',
  title: 'Pegs',
  version: 1,
  summary: 'two pegs',
  readings: {
    hole: insideRound('hole', { from: 2, to: 20, typical: 6, tip: 'Small jaws in the hole' }),
    low: depth('low one', { from: 2, to: 20, typical: 4, tip: 'Depth rod in the low one' }),
    high: depth('high one', { from: 2, to: 20, typical: 9, tip: 'Depth rod in the high one' }),
  },
  choices: {},
  sizes: {},
  normalSizes: () => ({}),
  callouts: () => ({
    hole: [
      [0, 0, 0],
      [1, 0, 0],
    ],
    low: [
      [0, 0, 0],
      [0, 0, 1],
    ],
    high: [
      [0, 0, 0],
      [0, 0, 1],
    ],
  }),
  members: () => [
    { id: 'low', name: 'low peg', choices: { which: 'low' } },
    { id: 'high', name: 'high peg', choices: { which: 'high' } },
  ],
  features: (d, drawn) => {
    const { which } = d.choices as Readonly<Record<string, string>>;
    const [tall, width] = [which === 'high' ? d.high : d.low, drawn.stem ?? d.hole];
    return [
      {
        add: () => block([-width / 2, -3, 0], [width / 2, 3, tall]),
        interfaces: [
          post('stem', {
            ...{ name: 'stem in hole', host: d.hole, fit: 'snug', at: [0, 0, tall / 2], axis: [0, 0, 1] },
            ...{ length: tall, across: [1, 0, 0] },
          }),
        ],
        cautions: ['Mind the case'],
      },
    ];
  },
  lay: () => ({ name: 'upright', turn: up.z }),
});

const job = {
  fettle: 1,
  family: 'pegs',
  readings: { hole: ['6.01', '6.02', '6.00', '6.12'], low: ['4.00'], high: ['9.02'] },
};

describe('a set', () => {
  const result = () => make(kernel, readJob(JSON.stringify(job), [pegs]));

  it('makes each part with its own choices', () => {
    const { parts, print } = result();
    expect(parts.map(({ id, name }) => [id, name])).toEqual([
      ['low', 'low peg'],
      ['high', 'high peg'],
    ]);
    expect(parts[0]!.print.extents[2]).toBeCloseTo(4, 6);
    expect(parts[1]!.print.extents[2]).toBeCloseTo(9.02, 6);
    for (const { mesh, print: own } of parts) expect(soundnessOf(mesh).volume).toBeCloseTo(own.volume, 3);
    expect(print.volume).toBeCloseTo(parts[0]!.print.volume + parts[1]!.print.volume, 9);
    expect(print.extents[2]).toBe(parts[1]!.print.extents[2]);
  });

  it('names interfaces and findings by part, and what is common once', () => {
    const { interfaces, findings, cautions } = result();
    expect(interfaces.map(({ id, name }) => [id, name])).toEqual([
      ['low.stem', 'low peg: stem in hole'],
      ['high.stem', 'high peg: stem in hole'],
    ]);
    expect(findings.filter(({ id }) => id === 'low.bed' || id === 'high.bed')).toHaveLength(2);
    expect(new Set(findings.map(({ id }) => id)).size).toBe(findings.length);
    // The last reading of the hole is an outlier, whichever peg goes in.
    expect(findings.filter(({ id }) => id.includes('reading.hole.outlier'))).toHaveLength(1);
    expect(cautions.filter((caution) => caution === 'Mind the case')).toHaveLength(1);
  });

  it('fits only when every part does: sharing what is not known of hole and printer', () => {
    const { chance, interfaces, shares } = result();
    const [low, high] = interfaces.map((one) => one.chance) as [number, number];
    expect(low).toBeCloseTo(high, 9);
    // Doubts are shared, so that the second fits more likely once the first does; but each print scatters alone.
    expect(chance).toBeGreaterThan(low * high);
    expect(chance).toBeLessThan(low);
    expect(shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  });
});
