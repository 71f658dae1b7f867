import { describe, expect, it } from 'vitest';
import { beyond, type Colour, colourOf, colourText, gapColour } from '../../viewer/solid/gapColour.ts';

const wanted = { name: 'bar in slot', least: 0.05, most: 0.15 };

describe('beyond', () => {
  it.each([
    [0.05, 0],
    [0.15, 0],
    [0.2, 0.05],
    [0, -0.05],
    [-0.1, -0.15],
  ])('a gap of %s mm is out by %s', (gap, out) => {
    expect(beyond(gap, wanted)).toBeCloseTo(out, 12);
  });

  it('is never too loose where any gap will do', () => {
    expect(beyond(99, { ...wanted, most: Infinity })).toBe(0);
  });
});

/** How colours look to those without one kind of cone, linear red, green, blue: Machado, Oliveira, Fernandes, A physiologically-based model
 *  for simulation of color vision deficiency, IEEE TVCG 15 (2009), severity 1.0; numbers from memory. */
const blindness = {
  protanopia: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  deuteranopia: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
  tritanopia: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
  none: [1, 0, 0, 0, 1, 0, 0, 0, 1],
} as const;

const linear = (c: number): number => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);

/** CIE 1976 L*a*b* of a colour as it looks, white D65 (IEC 61966-2-1 for the primaries). */
function labOf(colour: Colour, kind: keyof typeof blindness): [number, number, number] {
  const m = blindness[kind];
  const [r, g, b] = colour.map(linear) as [number, number, number];
  const seen = [0, 3, 6].map((k) => Math.min(1, Math.max(0, m[k]! * r + m[k + 1]! * g + m[k + 2]! * b)));
  const [R, G, B] = seen as [number, number, number];
  const f = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const x = f((0.4124 * R + 0.3576 * G + 0.1805 * B) / 0.9505);
  const y = f(0.2126 * R + 0.7152 * G + 0.0722 * B);
  const z = f((0.0193 * R + 0.1192 * G + 0.9505 * B) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

// As in viewer/look/paper.css and viewer/solid/inks.ts.
const looks = {
  day: { tight: '#d55e00', asWanted: '#fcfbfa', loose: '#0072b2', plain: '#c1c2c1' },
  night: { tight: '#ff9d5c', asWanted: '#d1ddea', loose: '#6cc0f5', plain: '#4c5d6f' },
} as const;

describe.each(['day', 'night'] as const)('gap colours by %s', (time) => {
  const { plain, ...inks } = looks[time];
  const ink = {
    tight: colourOf(inks.tight),
    asWanted: colourOf(inks.asWanted),
    loose: colourOf(inks.loose),
  };

  it.each(Object.keys(blindness) as (keyof typeof blindness)[])(
    'tell tight, wanted and loose apart: %s',
    (kind) => {
      const shown = [gapColour(-0.1, ink), gapColour(0, ink), gapColour(0.1, ink), colourOf(plain)].map(
        (colour) => labOf(colour, kind),
      );
      for (let i = 0; i < shown.length; i++)
        for (let j = 0; j < i; j++)
          // About 2.3 is just noticeable (Mahy and others, 1994); several times that is seen at arm's length.
          expect(Math.hypot(...shown[i]!.map((value, k) => value - shown[j]![k]!))).toBeGreaterThan(10);
    },
  );
});

describe('colours as text', () => {
  it('read both ways of writing, and write one', () => {
    expect(colourOf('#ff0000')).toEqual([1, 0, 0]);
    expect(colourOf(' rgb(255 0 51 / 14%)')).toEqual([1, 0, 0.2]);
    expect(colourText(colourOf('#1f5fa8'))).toBe('#1f5fa8');
  });
});
