import { describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { askedReadings as asked } from '../../src/family/family.ts';
import {
  block,
  bore,
  cylinder,
  type Family,
  type FamilyFinding,
  type Feature,
  family,
  type Made,
  oneOf,
  outside,
  ratio,
  sane,
  size,
  up,
  type Values,
} from '../../src/family/index.ts';
import { loadKernel, withScope } from '../../src/solid/kernel.ts';
import { realise } from '../../src/solid/realise.ts';
import { findMaterial } from '../../src/standards/materials.ts';

type Told = Parameters<typeof family>[0];
const nothing = () => [];
/** The least a declaration can say; its functions are not called here. */
const declaration = (told: Partial<Told>): Told =>
  ({
    ...{ id: 'foot', title: 'Foot', version: 1, summary: 'a foot', readings: {}, choices: {}, sizes: {} },
    ...{ normalSizes: () => ({}), callouts: () => ({}), rules: nothing, interfaces: nothing, host: nothing },
    ...{ motion: nothing, assembly: nothing, loads: nothing, genus: () => 0 },
    shape: () => undefined,
    ...told,
  }) as unknown as Told;
const unmade: Made = { drawn: {}, prints: {}, material: findMaterial('PLA')!, known: {} };
const width = outside('width', { from: 1, to: 9, typical: 4, tip: 'across' });

describe('family', () => {
  it.each(['Foot', '1foot', 'foot_2', '', 'foot clip', '../foot'])('refuses the id "%s"', (id) => {
    expect(() => family(declaration({ id }))).toThrow(
      new RangeError(`family requires an id of lower case letters, digits and hyphens (id ${id})`),
    );
  });

  it('refuses a name that is reading and size at once', () => {
    const told = { readings: { width }, sizes: { width: size('width', { from: 1, to: 2, tip: '' }) } };
    expect(() => family(declaration(told))).toThrow(/requires each name once \(width is used twice\)/);
  });

  it('has no findings of its own unless it says so', () => {
    const made: Family = family(declaration({}));
    expect(made.findings({} as never, unmade)).toEqual([]);
    const finding = { id: 'binding' } as never;
    expect(family(declaration({ findings: () => [finding] })).findings({} as never, unmade)).toEqual([
      finding,
    ]);
  });
});

describe('features', () => {
  const foot: Feature = {
    add: () => block([0, 0, 0], [10, 10, 2]),
    rules: [sane(true, 'width', 'is narrow')],
    steps: [{ kind: 'place', sentence: 'set it down' }],
  };
  const hole: Feature = {
    cut: () => cylinder({ axis: 'z', diameter: 4, from: [5, 5, -1], length: 4, sense: 'bore' }),
    interfaces: [
      bore('screw', {
        name: 'screw in hole',
        ...{ host: 3, fit: 'free', at: [5, 5, 1], axis: [0, 0, 1], length: 2, across: [1, 0, 0] },
      }),
    ],
    hosts: () => [{ id: 'screw', name: 'screw', shape: block([4, 4, 0], [6, 6, 9]), keepOff: 0 }],
    findings: ({ known }) => [{ id: 'grip', value: known.width!.u } as FamilyFinding],
    cautions: ['Mind the driver'],
    holes: 1,
  };
  const bare = {
    ...{
      id: 'foot',
      title: 'Foot',
      version: 1,
      summary: 'a foot',
      readings: { width },
      choices: {},
      sizes: {},
    },
    ...{
      normalSizes: () => ({}),
      callouts: () => ({
        width: [
          [0, 0, 0],
          [1, 0, 0],
        ] as never,
      }),
    },
    lay: () => ({ name: 'flat', turn: up.z }),
  } as const;
  const d = { width: 4, choices: {} } as unknown as Values;

  it('make the part, and bring all there is to say about it', async () => {
    const made = family({ ...bare, features: () => [foot, hole] });
    const kernel = await loadKernel();
    withScope(kernel, (scope) => {
      const solid = realise(scope, made.shape(d, {}));
      expect(solid.genus()).toBe(made.genus(d));
      // A facet lies outside the circle it stands for, by less than the chord error all round.
      const removed = 10 * 10 * 2 - solid.volume();
      expect(removed).toBeGreaterThan(2 * Math.PI * 4);
      expect(removed).toBeLessThan(2 * Math.PI * 4.03);
    });
    expect(made.interfaces(d, {}).map(({ id }) => id)).toEqual(['screw']);
    expect(made.host(d).map(({ id }) => id)).toEqual(['screw']);
    expect(made.rules(d)).toHaveLength(1);
    expect(made.cautions(d)).toEqual(['Mind the driver']);
    expect(made.assembly(d).map(({ steps }) => steps.length)).toEqual([1]);
    expect(made.motion(d)).toHaveLength(1);
    const known = { width: { value: 4, u: 0.25 } };
    expect(made.findings(d, { ...unmade, known }).map(({ value }) => value)).toEqual([0.25]);
  });

  it('are added to what the declaration says itself', () => {
    const made = family({ ...bare, features: () => [hole], cautions: () => ['Unplug it'], genus: () => 3 });
    expect(made.cautions(d)).toEqual(['Unplug it', 'Mind the driver']);
    expect(made.genus(d)).toBe(3);
  });

  it('move the machine, but only one of them', () => {
    const moving: Feature = { motion: () => [{ name: 'up', placements: {} }] };
    const names = (...features: Feature[]) =>
      family({ ...bare, features: () => features })
        .motion(d)
        .map(({ name }) => name);
    expect(names(foot)).toEqual(['in place']);
    expect(names(foot, moving)).toEqual(['up']);
    expect(() => names(moving, moving)).toThrow('requires at most one feature that moves the machine');
  });

  it('or a shape: one must draw the part', () => {
    expect(() => family({ ...bare })).toThrow('requires a shape or features that draw it');
    expect(() => family({ ...bare, features: () => [hole] }).shape(d, {})).toThrow(RangeError);
  });
});

describe('what is asked', () => {
  it('hangs on the choices', () => {
    const made = family(
      declaration({
        readings: { width, depth: outside('depth', { ...width, when: (c) => c.deep === 'yes' }) },
        choices: { deep: oneOf('deep', ['no', 'yes'], 'no', '') },
      }),
    );
    expect(asked(made, { deep: 'no' }).map(([id]) => id)).toEqual(['width']);
    expect(asked(made, { deep: 'yes' }).map(([id]) => id)).toEqual(['width', 'depth']);
  });
});

it('oneOf refuses a normal choice that is no option', () => {
  expect(() => oneOf('lay', ['side', 'upright'], 'flat', '')).toThrow(
    /normal among its options \(normal flat\)/,
  );
});

it('sizes say their unit', () => {
  expect(size('arm', { from: 1, to: 2, tip: '' }).unit).toBe('mm');
  expect(ratio('share', { from: 0, to: 1, tip: '' }).unit).toBe('1');
  expect(sane(false, 'arm', 'is thin')).toEqual({ ok: false, field: 'arm', reason: 'is thin' });
});

describe.each(families.map((one) => [one.id, one] as const))('%s', (_, one) => {
  it('names everything, with a typical value inside its range', () => {
    for (const [id, spec] of Object.entries(one.readings)) {
      expect(spec.name, id).toMatch(/^[a-z][a-z ]+$/);
      expect(spec.from, id).toBeLessThan(spec.to);
      expect(spec.typical, id).toBeGreaterThanOrEqual(spec.from);
      expect(spec.typical, id).toBeLessThanOrEqual(spec.to);
      expect(spec.times, id).toBeGreaterThan(0);
      expect(spec.tip, id).toMatch(/^[A-Z].{20,}[^.]$/);
    }
    for (const [id, choice] of Object.entries(one.choices))
      expect(choice.options, id).toContain(choice.normal);
  });

  it('can be made at its typical sizes, with every choice', () => {
    const options = Object.entries(one.choices);
    for (let k = 0; k < Math.max(...options.map(([, choice]) => choice.options.length)); k++) {
      const choices = Object.fromEntries(
        options.map(([id, choice]) => [id, choice.options[Math.min(k, choice.options.length - 1)]!]),
      );
      const askedFor = new Set(asked(one, choices).map(([id]) => id));
      const typical = Object.entries(one.readings).map(([id, { typical: mm }]) => [
        id,
        askedFor.has(id) ? mm : Number.NaN,
      ]);
      const known = { choices, texts: {}, material: findMaterial('PETG')! };
      const values = { ...Object.fromEntries(typical), ...known } as unknown as Values;
      Object.assign(values, one.normalSizes(values));
      expect(one.rules(values).filter(({ ok }) => !ok)).toEqual([]);
      for (const [id, spec] of Object.entries(one.sizes)) {
        expect(values[id], id).toBeGreaterThanOrEqual(spec.from);
        expect(values[id], id).toBeLessThanOrEqual(spec.to);
      }
    }
  });
});
