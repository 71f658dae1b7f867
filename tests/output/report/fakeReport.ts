import { defaultCallipers } from '../../../src/measure/index.ts';
import type { Dimension } from '../../../src/measure/types.ts';
import type { ReportFinding, ReportFit, ReportInput } from '../../../src/output/report/reportInput.ts';
import { up } from '../../../src/solid/placement.ts';
import { block } from '../../../src/solid/primitives.ts';
import { meshOfShape } from '../solids.ts';

const wall: Dimension = {
  ...{ id: 'wall', name: 'wall', value: 2.456, u: 0.016, dof: 40, unit: 'mm', n: 2, k: 2.02, U: 0.0323 },
  contributors: [],
  remarks: [{ kind: 'nominal', value: 2.456, expected: '2.5 mm', sentence: 'the maker likely meant 2.5 mm' }],
};

export const fit: ReportFit = {
  ...{ id: 'peg', name: 'peg in hole', kind: 'post', readTo: 'face', host: 4.02, drawn: 3.84 },
  ...{ predicted: 3.94, clearance: 0.08, u: 0.02, window: [0, 0.15], chance: 0.95 },
  shares: [
    { id: 'a', label: 'hole width', share: 0.7 },
    { id: 'b', label: 'printer', share: 0.3 },
  ],
  ...{ number: 2, part: 0, at: [0, 0, 5], across: [1, 0, 0] },
};

const holds: ReportFinding = {
  ...{
    id: 'wall',
    title: 'thinnest wall',
    verdict: 'holds',
    value: 0.9,
    limit: 0.42,
    unit: 'mm',
    margin: 0.48,
  },
  ...{
    because: 'two lines are 0.84 mm',
    source: 'common practice, no source',
    remedy: '',
    at: null,
    part: 0,
  },
};
const caution: ReportFinding = {
  ...holds,
  ...{ id: 'strain', title: 'strain of the arms', verdict: 'caution', value: 1.9, limit: 2.1, unit: '%' },
  ...{ margin: 0.2, because: 'printed on its side', source: 'design guide', remedy: 'print it upright' },
  ...{ at: [1, 2, 3], details: { 'force, N': 12.3456 } },
};

/** A small report of everything a report can hold. */
export const fakeReport: ReportInput = {
  title: 'Pegs, Halden 80 terminal',
  family: { id: 'peg', title: 'Peg', version: 3 },
  summary: 'fills a hole',
  quantity: 2,
  material: 'PETG',
  printer: { name: 'printer 1', calibrated: '2026-11-20', lineWidth: 0.42, layer: 0.2, firstLayer: 0.24 },
  chance: 0.93,
  shares: fit.shares,
  advice: { sentence: 'three more readings of the hole width', minutes: 2, from: 0.93, to: 0.97 },
  callipers: defaultCallipers,
  readings: [
    { id: 'wall', name: 'wall', jaw: 'outside', typed: ['2.46', '2,45'], dimension: wall },
    { id: 'rim', name: 'rim', jaw: 'depth', typed: [], dimension: null },
  ],
  fits: [fit],
  findings: [caution, { ...holds, id: 'clearance.peg', title: 'peg in hole' }, holds],
  print: {
    ...{ lay: 'standing', mass: 0.65, minutes: 41, method: 'by the clock', layers: 41, relieved: true },
  },
  parts: [
    {
      name: '',
      mesh: meshOfShape(block([-2, -2, 0], [2, 2, 10])),
      hosts: [{ name: 'plate', mesh: meshOfShape(block([-9, -9, 4], [9, 9, 6])) }],
      onBed: up.z,
      mass: 0.65,
      extents: [4, 4, 10],
    },
  ],
  assembly: { name: 'by thumb', steps: ['Push the peg in', 'Press the cap on'] },
  cautions: ['Unplug it first'],
  refits: [{ by: -3.4, exact: false, because: 'taken up behind the flange' }],
  changes: [{ what: 'hole width', before: '3.84 mm', after: '3.80 mm', why: 'it felt tight' }],
  again: {
    ...{ file: 'peg.job.json', hash: 'ab'.repeat(32), version: '9.8.7', note: 'From the attic.' },
    ...{ author: 'K. Ahlers', licence: 'CC-BY-4.0' },
    settings: [
      { name: 'shape', value: 'round', told: true },
      { name: 'lead-in', value: '0.40 mm', told: false },
    ],
  },
};
