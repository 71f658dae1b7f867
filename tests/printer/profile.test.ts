import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, expectTypeOf, test } from 'vitest';
import { z } from 'zod';
import { calibratedLike } from '../../src/printer/calibratedLike.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { printerProfileSchema } from '../../src/printer/profile.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';

test('schema and type say the same', () => {
  expectTypeOf<z.infer<typeof printerProfileSchema>>().toExtend<PrinterProfile>();
  // Arrays of the calibration are read-only in the type alone.
  type Plain = Omit<z.infer<typeof printerProfileSchema>, 'calibration'>;
  expectTypeOf<Omit<PrinterProfile, 'calibration'>>().toExtend<Plain>();
  expectTypeOf<keyof z.infer<typeof printerProfileSchema>>().toEqualTypeOf<keyof PrinterProfile>();
});

test('the default printer passes its own schema', () => {
  expect(printerProfileSchema.parse(defaultPrinter)).toEqual(defaultPrinter);
});

// JCGM 100:2008, 4.3.7: half range over root 3. The ranges themselves: common practice, no source.
test('the default printer is as doubtful as its ranges are wide', () => {
  expect(defaultPrinter.calibrated).toBeNull();
  expect(defaultPrinter.outerGrowth.value).toBeCloseTo(0.05, 12);
  expect(defaultPrinter.outerGrowth.u).toBeCloseTo(0.1 / Math.sqrt(3), 12);
  expect(defaultPrinter.boreShrink.value).toBeCloseTo(0.085, 12);
  expect(defaultPrinter.scale.x.value).toBeCloseTo(0.998, 12);
  expect(defaultPrinter.scale.x.u).toBeCloseTo(0.004 / Math.sqrt(3), 12);
  expect(defaultPrinter.scale.z.value).toBeCloseTo(1, 12);
});

describe('refuses', () => {
  test.each<[string, unknown]>([
    ['an unknown key', { ...defaultPrinter, nozle: 0.4 }],
    ['an unknown key deep inside', { ...defaultPrinter, bed: { x: 220, y: 220, z: 220, w: 1 } }],
    ['another version', { ...defaultPrinter, fettlePrinter: 1 }],
    [
      'a scale in per cent',
      { ...defaultPrinter, scale: { ...defaultPrinter.scale, x: { value: 99.8, u: 0.1 } } },
    ],
    ['a negative uncertainty', { ...defaultPrinter, outerGrowth: { value: 0, u: -0.01 } }],
    ['a layer of nothing', { ...defaultPrinter, layer: 0 }],
    ['NaN', { ...defaultPrinter, layer: Number.NaN }],
    ['no repeatability at all', { ...defaultPrinter, repeatability: 0 }],
    ['a blank name', { ...defaultPrinter, name: '  ' }],
    ['a date that is none', { ...defaultPrinter, calibrated: '2024-02-30' }],
    ['a missing field', { ...defaultPrinter, bridge: undefined }],
    ['an array', []],
  ])('%s', (_, value) => {
    expect(printerProfileSchema.safeParse(value).success).toBe(false);
  });
});

test('its JSON Schema agrees, by an independent validator', () => {
  const validate = new Ajv2020({ formats: { date: /^\d{4}-\d\d-\d\d$/ } }).compile(
    z.toJSONSchema(printerProfileSchema),
  );
  expect(validate(defaultPrinter)).toBe(true);
  expect(validate({ ...defaultPrinter, calibrated: '2024-11-20' })).toBe(true);
  expect(validate({ ...defaultPrinter, nozle: 0.4 })).toBe(false);
  expect(validate({ ...defaultPrinter, layer: 20 })).toBe(false);
});

test('a coupon sharpens every doubt, changes no value and claims no date', () => {
  const better = calibratedLike(defaultPrinter);
  for (const key of ['outerGrowth', 'boreShrink', 'boreCurvature', 'firstLayerSpread'] as const) {
    expect(better[key].u).toBeLessThan(defaultPrinter[key].u);
    expect(better[key].value).toBe(defaultPrinter[key].value);
  }
  for (const axis of ['x', 'y', 'z'] as const) {
    expect(better.scale[axis].u).toBeLessThan(defaultPrinter.scale[axis].u);
    expect(better.scale[axis].value).toBe(defaultPrinter.scale[axis].value);
  }
  expect(better.calibrated).toBeNull();
  expect(better.repeatability).toBe(defaultPrinter.repeatability);
  expect(calibratedLike(better)).toEqual(better);
  const best: PrinterProfile = { ...defaultPrinter, outerGrowth: { value: 0.03, u: 0.004 } };
  expect(calibratedLike(best).outerGrowth).toEqual({ value: 0.03, u: 0.004 });
});
