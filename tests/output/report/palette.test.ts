import { describe, expect, it } from 'vitest';
import { palette } from '../../../src/output/report/palette.ts';

/** Relative luminance and contrast of sRGB colours, WCAG 2.2, definitions. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((k) => {
    const c = Number.parseInt(hex.slice(k, k + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}
function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light! + 0.05) / (dark! + 0.05);
}

it('reckons contrast as published', () => {
  // Technique G18: black on white is 21:1. #767676 is the lightest grey that passes on white, 4.54:1; from memory.
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
});

describe.each(['day', 'night'] as const)('by %s', (time) => {
  const { paper, rule, line, ...texts } = palette[time];
  it.each(Object.entries(texts))('%s can be read', (_, colour) => {
    expect(contrast(colour, paper)).toBeGreaterThanOrEqual(4.5);
  });
  it.each(Object.entries({ rule, line }))('%s can be seen', (_, colour) => {
    expect(contrast(colour, paper)).toBeGreaterThanOrEqual(3);
  });
});
