import { describe, expect, it } from 'vitest';
import { landCorrection, rectangular } from '../../src/measure/index.ts';
import { permissibleError } from '../../src/standards/callipers.ts';

describe('permissible error of callipers, DIN 862', () => {
  it.each([
    // length mm, error limit in micrometres for steps of 0.05, 0.02, 0.01 mm
    [10, 50, 20, 20],
    [50, 50, 20, 20],
    [100, 50, 20, 20],
    [200, 50, 30, 30],
    [300, 50, 30, 30],
    [400, 60, 30, 30],
    [500, 70, 30, 30],
    [600, 80, 30, 30],
    [700, 90, 40, 40],
    [1000, 120, 40, 40],
  ])('at %d mm', (length, coarse, middle, digital) => {
    expect(permissibleError({ resolution: 0.1, jaw: 'outside', length })).toBe(coarse / 1000);
    expect(permissibleError({ resolution: 0.05, jaw: 'outside', length })).toBe(coarse / 1000);
    expect(permissibleError({ resolution: 0.02, jaw: 'outside', length })).toBe(middle / 1000);
    expect(permissibleError({ resolution: 0.01, jaw: 'outside', length })).toBe(digital / 1000);
  });

  it('takes the longer row between two', () => {
    expect(permissibleError({ resolution: 0.01, jaw: 'outside', length: 150 })).toBe(0.03);
    expect(permissibleError({ resolution: 0.05, jaw: 'outside', length: 300.01 })).toBe(0.06);
  });

  it('adds 20 micrometres inside and in depth', () => {
    expect(permissibleError({ resolution: 0.01, jaw: 'inside', length: 25 })).toBe(0.04);
    expect(permissibleError({ resolution: 0.01, jaw: 'depth', length: 150 })).toBe(0.05);
    expect(permissibleError({ resolution: 0.05, jaw: 'depth', length: 25 })).toBe(0.07);
  });

  it('never falls with length, and refuses what is outside the table', () => {
    for (const resolution of [0.01, 0.02, 0.05]) {
      let last = 0;
      for (let length = 1; length <= 1000; length += 1) {
        const error = permissibleError({ resolution, jaw: 'outside', length });
        expect(error).toBeGreaterThanOrEqual(last);
        last = error;
      }
    }
    for (const length of [0, -1, 1000.01, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => permissibleError({ resolution: 0.01, jaw: 'outside', length })).toThrow(RangeError);
    }
    expect(() => permissibleError({ resolution: 0, jaw: 'outside', length: 1 })).toThrow(
      'resolution above 0',
    );
  });

  it('becomes a standard uncertainty as a rectangle, a / sqrt(3), JCGM 100:2008 4.3.7', () => {
    expect(rectangular(0.02)).toBeCloseTo(0.011547, 7);
    expect(rectangular(0.03)).toBeCloseTo(0.0173205, 7);
    expect(rectangular(0.04)).toBeCloseTo(0.023094, 7);
  });
});

describe('small bores read with flat inside jaws', () => {
  it.each([
    // Plane geometry: chord of a circle D whose ends stand w apart across; D, w, reading to 6 decimals.
    [3.0, 0.5, 2.95804],
    [3.0, 0.3, 2.984962],
    [3.4, 0.4, 3.376389],
    [5.0, 0.5, 4.974937],
    [10.0, 0.5, 9.987492],
  ])('bore %d with lands of %d reads %d', (diameter, landWidth, reading) => {
    expect(landCorrection(reading, landWidth)).toBeCloseTo(diameter, 6);
    // The rule of thumb of the trade, error = -w^2 / (2 D), is good to a few per cent here.
    const error = reading - landCorrection(reading, landWidth);
    expect(error).toBeCloseTo(-(landWidth ** 2) / (2 * diameter), 3);
  });

  it('leaves the reading of knife edges alone', () => {
    expect(landCorrection(3, 0)).toBe(3);
  });
});
