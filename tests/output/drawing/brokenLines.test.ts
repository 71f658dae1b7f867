import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import {
  fittedDashes,
  fittedText,
  lineType,
  sharpEdges,
  text,
  textWidth,
} from '../../../src/output/drawing/index.ts';
import { block, cylinder } from '../../../src/solid/primitives.ts';
import { difference } from '../../../src/solid/shape.ts';
import { meshOfShape } from '../solids.ts';

describe('fittedDashes', () => {
  const ends = (dashes: readonly number[], length: number): number => {
    // Where the line ends within its pattern: in the first element, a dash, at its end.
    const period = dashes.reduce((sum, part) => sum + part, 0);
    return ((length % period) + period) % period;
  };

  it.each([4, 7.3, 18, 55.5, 140])('lets dashed and centre lines of %d mm end with a dash', (length) => {
    for (const style of [lineType.hiddenEdge, lineType.centreLine]) {
      const { dashes, width } = fittedDashes(style, length);
      expect(width).toBe(style.width);
      if (dashes.length === 0) continue;
      expect(ends(dashes, length)).toBeCloseTo(dashes[0]!, 6);
      expect(dashes[0]! / style.dashes[0]!).toBeGreaterThan(0.3);
      expect(dashes[0]! / style.dashes[0]!).toBeLessThan(2);
    }
  });

  it('draws what is too short for two dashes through', () => {
    expect(fittedDashes(lineType.hiddenEdge, 1.5).dashes).toEqual([]);
    expect(fittedDashes(lineType.centreLine, 5).dashes).toEqual([]);
    expect(fittedDashes(lineType.visibleEdge, 50).dashes).toEqual([]);
  });

  it('gives 18 mm five dashes and four gaps', () => {
    expect(fittedDashes(lineType.hiddenEdge, 18).dashes).toEqual([3, 0.75]);
  });
});

describe('textWidth', () => {
  /** Width as an independent renderer draws it; null without any face at hand. */
  const drawn = (words: string): number | null => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="400" height="20" font-family="DejaVu Sans, Arial, sans-serif">${text([5, -10], words, { height: 3.5, mark: 'words', anchor: 'start' })}</svg>`;
    return new Resvg(svg).getBBox()?.width ?? null;
  };

  it
    .skipIf(drawn('0') === null)
    .each([
      '⌀6.31 ±0.10',
      '2× ⌀4.34 −0.09',
      '(43.1) max. min.',
      'Enter key clips, Halden 80 terminal',
      'WWWWiiii....mmmm@@@',
      'Größe åäöé',
      'printed by A. Restorer, CC-BY-SA-4.0 OR MIT',
    ])('is no less than "%s" takes, and not much more', (words) => {
    const width = drawn(words)!;
    expect(textWidth(words, 3.5)).toBeGreaterThan(width - 0.2);
    expect(textWidth(words, 3.5)).toBeLessThan(1.25 * width + 1);
  });

  it('cuts what does not fit, and nothing else', () => {
    expect(fittedText('Enter key clips', 2.5, 100)).toBe('Enter key clips');
    const cut = fittedText('Enter key clips', 2.5, 20);
    expect(cut).toMatch(/^Ente.*…$/);
    expect(textWidth(cut, 2.5)).toBeLessThanOrEqual(20);
    expect(fittedText('Enter', 2.5, 0)).toBe('…');
  });
});

describe('sharpEdges', () => {
  it('of a cube are twelve; a view along an axis shows those of its face', () => {
    const { lengths, shownIn } = sharpEdges(meshOfShape(block([0, 0, 0], [10, 10, 10])));
    expect(lengths.map((length) => length.toFixed(4))).toEqual(Array(12).fill('10.0000'));
    // Near and far ones fall together; the four that point at the reader do not show.
    expect(shownIn('front').filter(Boolean).length).toBe(8);
    expect(shownIn('isometric').filter(Boolean).length).toBe(9);
  });

  it('of a hole in the floor of a pocket show from the open side alone', () => {
    const dish = meshOfShape(
      difference(
        block([0, 0, 0], [20, 20, 10]),
        block([4, 4, 4], [16, 16, 11]),
        cylinder({ axis: 'z', diameter: 6, from: [10, 10, 2], length: 3, sense: 'bore' }),
      ),
    );
    const { lengths, shownIn } = sharpEdges(dish);
    const total = (direction: 'top' | 'bottom' | 'front'): number => {
      const shown = shownIn(direction);
      return lengths.reduce((sum, length, k) => sum + (shown[k] ? length : 0), 0);
    };
    // From above: outline twice, pocket at rim and floor, hole at rim and floor; from below the outline alone.
    const round = 6 * Math.PI;
    expect(Math.abs(total('top') - (2 * 80 + 2 * 48 + 2 * round))).toBeLessThan(0.5);
    expect(total('bottom')).toBeCloseTo(160, 3);
    expect(total('front')).toBeCloseTo(2 * (20 + 20 + 10 + 10), 3);
  });
});
