import { describe, expect, it } from 'vitest';
import { block, byRule, depth, family, line, up, weighed } from '../../src/family/index.ts';
import { Refused } from '../../src/job/problem.ts';
import { readJob } from '../../src/job/readJob.ts';

const foot = family({
  id: 'foot',
  title: 'Foot',
  version: 1,
  summary: 'a foot',
  readings: {
    weight: weighed('weight', { from: 200, to: 60_000, typical: 7000, u: 100, tip: 'On the kitchen scale' }),
    spacing: byRule('spacing', { from: 50, to: 600, typical: 200, tip: 'By rule, middle to middle' }),
    height: depth('height', { from: 2, to: 60, typical: 10, optional: true, tip: 'Underside to the desk' }),
  },
  choices: {},
  sizes: {},
  normalSizes: () => ({}),
  callouts: () => ({}),
  features: () => [{ add: () => block([0, 0, 0], [1, 1, 1]) }],
  lay: () => ({ name: 'flat', turn: up.z }),
});

const read = (readings: object) =>
  readJob(JSON.stringify({ fettle: 1, family: 'foot', unit: 'in', material: 'TPU', readings }), [foot]);

it('takes masses and rule lengths in their own units, whatever the unit of lengths is', () => {
  const { dimensions, values } = read({ weight: ['7.4 kg'], spacing: ['10'], height: ['1/2'] });
  expect(dimensions.weight).toMatchObject({ value: 7400, u: 100, unit: 'g' });
  expect(dimensions.spacing).toMatchObject({ value: 254, u: 0.5, unit: 'mm' });
  expect(dimensions.height!.value).toBe(12.7);
  expect(values.material.name).toBe('TPU');
});

it('lets an optional reading be missing', () => {
  const { dimensions, values } = read({ weight: ['950'], spacing: ['10'] });
  expect(dimensions.weight!.value).toBe(950);
  expect(dimensions).not.toHaveProperty('height');
  expect((values as unknown as Record<string, number>).height).toBeNaN();
});

it('refuses a mass out of range or in no unit of mass, in its unit', () => {
  const problems = (readings: object): string[] => {
    try {
      read(readings);
    } catch (error) {
      if (error instanceof Refused) return error.problems.map(({ field, allowed }) => `${field}: ${allowed}`);
    }
    return [];
  };
  expect(problems({ weight: ['90 g'], spacing: ['10'] })).toEqual(['readings.weight[0]: 200 to 60000 g']);
  expect(problems({ weight: ['7 mm'], spacing: ['10'] })[0]).toMatch(/^readings\.weight\[0\]: .*g/);
  expect(problems({ spacing: ['10'] })).toEqual(['readings.weight: a reading from 200 to 60000 g']);
});

describe('texts', () => {
  const plate = family({
    ...{ id: 'plate', title: 'Plate', version: 1, summary: 'a plate', readings: {}, choices: {}, sizes: {} },
    ...{ normalSizes: () => ({}), callouts: () => ({}) },
    texts: { label: line('label', 8, 'Written on it') },
    features: () => [{ add: () => block([0, 0, 0], [1, 1, 1]) }],
    lay: () => ({ name: 'flat', turn: up.z }),
  });
  const texts = (told: object) =>
    readJob(JSON.stringify({ fettle: 1, family: 'plate', ...told }), [plate]).values.texts;

  it('reach the family, and are empty when nobody writes one', () => {
    expect(texts({ texts: { label: ' PORT 2 ' } })).toEqual({ label: 'PORT 2' });
    expect(texts({})).toEqual({ label: '' });
  });

  it.each([
    [{ label: 'NINE SIGN' }, 'texts.label', 'up to 8 letters, digits and signs of ASCII'],
    [{ label: 'Größe' }, 'texts.label', 'up to 8 letters, digits and signs of ASCII'],
    [{ lable: 'A' }, 'texts.lable', 'one of label. Did you mean label?'],
  ])('refuses %j', (told, field, allowed) => {
    try {
      texts({ texts: told });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(Refused);
      expect((error as Refused).problems).toMatchObject([{ field, allowed }]);
    }
  });
});
