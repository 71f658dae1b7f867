import { describe, expect, it } from 'vitest';
import { line } from '../../../src/family/choice.ts';
import { askedReadings, type Family } from '../../../src/family/family.ts';
import type { Values } from '../../../src/family/values.ts';
import { project, viewOf } from '../../../src/output/drawing/index.ts';
import { chooseViews } from '../../../src/output/sheet/chooseViews.ts';
import { figures } from '../../../src/output/sheet/figures.ts';
import { type SheetInput, sheetPage } from '../../../src/output/sheet/index.ts';
import { type NumberedReading, numberedReadings } from '../../../src/output/sheet/numberedReadings.ts';
import { latchBracket, latchValues } from '../latchBracket.ts';
import { meshOfShape } from '../solids.ts';

function inputOf(family: Family, values: Values): SheetInput {
  return {
    family,
    values,
    meshes: {
      part: meshOfShape(family.shape(values, { rod: 2.7, pin: 4.93 })),
      hosts: family.host(values).map(({ id, name, shape }) => ({ id, name, mesh: meshOfShape(shape) })),
    },
  };
}

const withStop = inputOf(latchBracket, latchValues('with') as never);
const withoutStop = inputOf(latchBracket, latchValues() as never);

const count = (text: string, part: string | RegExp): number => text.split(part).length - 1;

/** The rows of the readings' table. */
const rows = (page: string): string[] => page.match(/<tr id="reading-[\s\S]*?<\/tr>/g) ?? [];

describe('sheetPage', () => {
  it.each([
    ['with', withStop, 6],
    ['without', withoutStop, 5],
  ] as const)('asks each reading of the choices once, %s stop', (_, input, asked) => {
    const page = sheetPage(input);
    const readings = askedReadings(input.family, input.values.choices);
    expect(readings.length).toBe(asked);
    const table = rows(page);
    expect(table.length).toBe(asked);
    readings.forEach(([key, spec], k) => {
      const row = table[k]!;
      expect(row).toContain(`id="reading-${key}"`);
      expect(row).toContain(`<span class="balloon-text">${k + 1}</span>`);
      expect(row).toContain(spec.name);
      expect(row).toContain(spec.tip);
      expect(count(row, 'class="box"')).toBe(spec.times);
      expect(row).toContain(`${spec.from} to ${spec.to}`);
      // The same number once on the drawings.
      expect(count(page, new RegExp(`<text class="number"[^>]*>${k + 1}</text>`))).toBe(1);
    });
    expect(count(page, '<text class="number"')).toBe(asked);
  });

  it('says whose sizes it draws, whatever was written down so far', () => {
    expect(sheetPage({ ...withoutStop, readings: { rod: ['2.4'] } })).toContain('Drawn with typical sizes');
    const measured = { ...withoutStop.values, rod: 2.6 } as unknown as Values;
    expect(sheetPage(inputOf(latchBracket, measured))).toContain('Drawn with sizes as measured');
  });

  it('shows which jaws go where', () => {
    const table = rows(sheetPage(withoutStop));
    expect(table.map((row) => /<title>(.*?)<\/title>/.exec(row)![1])).toEqual([
      'large jaws',
      'small jaws',
      'depth rod',
      'large jaws',
      'small jaws',
    ]);
    expect(table[1]).toContain('round hole');
  });

  it('puts what was read into the boxes, and adds boxes for more', () => {
    const readings = { rod: ['2,49', '0.099 in'], hole: ['5.0', '5.1', '5.0', '5.1', '5.0', '5.2'] };
    const table = rows(sheetPage({ ...withoutStop, readings }));
    expect(table[0]).toContain(
      '<span class="box">2,49</span><span class="box">0.099 in</span><span class="box"></span>',
    );
    expect(count(table[1]!, 'class="box"')).toBe(6);
  });

  it('names choices and sizes with what holds when nothing is said', () => {
    const page = sheetPage(withStop);
    expect(page).toContain('&#9633; without');
    expect(page).toContain('&#9632; with<');
    expect(page).toMatch(/wall around the rod<\/th>\s*<td>1\.6 <span class="tip">\(0\.8 to 5 mm\)/);
  });

  it('names the words a part can carry, and what they are where they are said', () => {
    expect(sheetPage(withStop)).not.toContain('Words you may set');
    const family: Family = { ...latchBracket, texts: { mark: line('mark', 24, 'What the letters say') } };
    const silent = { ...withStop, family };
    expect(sheetPage(silent)).toMatch(/mark<\/th>\s*<td>nothing <span class="tip">\(up to 24 characters\)/);
    const said = { ...silent, values: { ...silent.values, texts: { mark: 'L & R' } } as unknown as Values };
    expect(sheetPage(said)).toMatch(/mark<\/th>\s*<td>L &amp; R </);
  });

  it('has a rule of 50 mm to check the print by', () => {
    const page = sheetPage(withoutStop);
    const rule =
      /<svg[^>]*width="([\d.]+)mm"[^>]*viewBox="[-\d.]+ [-\d.]+ ([\d.]+) [^>]*>\s*<title>rule of 50 mm/.exec(
        page,
      )!;
    // One unit of the picture is one mm on paper, and the line runs from 0 to 50.
    expect(rule[1]).toBe(rule[2]);
    expect(page).toContain('M0 0L50 0');
    expect(page).toContain('This line must measure 50 mm');
  });

  it('is one page that fetches and runs nothing', () => {
    const page = sheetPage(withStop);
    expect(page).not.toMatch(/<script|<link|<img|@import|url\(|javascript:|\son\w+=/i);
    expect(
      page.match(/https?:\/\/[^"]*/g)?.every((address) => address === 'http://www.w3.org/2000/svg'),
    ).toBe(true);
    expect(page).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('takes every text for text', () => {
    const evil = `"><script>alert(1)</script><img src=x onerror='x'>`;
    const [rod] = Object.values(latchBracket.readings);
    const family: Family = {
      ...latchBracket,
      title: evil,
      summary: evil,
      readings: { ...latchBracket.readings, rod: { ...rod!, name: evil, tip: evil } },
      choices: { plate: { name: evil, options: [evil, 'without'], normal: evil, tip: evil } },
      sizes: { wall: { ...latchBracket.sizes.wall!, name: evil, tip: evil } },
      texts: { mark: line(evil, 24, evil) },
    };
    const hosts = withoutStop.meshes.hosts.map((host) => ({ ...host, name: evil }));
    const page = sheetPage({
      ...withoutStop,
      family,
      meshes: { ...withoutStop.meshes, hosts },
      readings: { rod: [evil] },
    });
    expect(page).not.toMatch(/<script|<img/i);
    expect(count(page, '&lt;script&gt;')).toBeGreaterThan(8);
  });

  it('gives the same text twice', () => {
    expect(sheetPage(withStop)).toBe(sheetPage(withStop));
  });

  it('explains callipers and page even where nothing can be drawn of a reading', () => {
    const family: Family = {
      ...latchBracket,
      callouts: (d) => ({
        ...latchBracket.callouts(d),
        gap: [
          [0, 0, 0],
          [0, 0, 0],
        ],
      }),
    };
    const page = sheetPage({ ...withoutStop, family });
    expect(rows(page).length).toBe(5);
    expect(count(page, '<text class="number"')).toBe(4);
    expect(page).toContain('Wiped clean and closed, the jaws show');
  });
});

describe('figures', () => {
  const readings = numberedReadings(withStop.family, withStop.values);
  const drawn = figures(withStop, readings);

  it('dimensions each reading in just one of them', () => {
    expect(drawn.flatMap(({ numbers }) => numbers).sort()).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('draws each dimension to the scale it states', () => {
    let checked = 0;
    for (const { svg, scale, numbers } of drawn) {
      if (numbers.length === 0) continue;
      const [paper, thing] = scale!.split(':').map(Number);
      const touches = [...svg.matchAll(/class="touch"[^>]*cx="([-\d.]+)" cy="([-\d.]+)"/g)].map(
        ([, x, y]) => [Number(x), Number(y)] as const,
      );
      expect(touches.length).toBe(2 * numbers.length);
      numbers.forEach((number, k) => {
        const [a, b] = readings[number - 1]!.callout!;
        const real = Math.hypot(...a.map((c, axis) => c - b[axis]!));
        const [p, q] = [touches[2 * k]!, touches[2 * k + 1]!];
        // Coordinates are written to 0.001 mm.
        expect(Math.hypot(p[0] - q[0], p[1] - q[1])).toBeCloseTo((real * paper!) / thing!, 2);
        checked++;
      });
    }
    expect(checked).toBe(6);
  });

  it('states a size in mm equal to the units of the drawing, and none is wider than the paper', () => {
    for (const { svg, size } of drawn) {
      const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg)!;
      expect(svg).toContain(` ${width} ${height}"`);
      expect(Number(width)).toBeCloseTo(size[0], 2);
      // A4 is 210 mm wide (ISO 216).
      expect(Number(width)).toBeLessThan(190);
      expect(Number(height)).toBeLessThan(277);
    }
  });

  it('shows the part at real size, and larger where it is small', () => {
    const scales = drawn.flatMap(({ scale }) => scale ?? []);
    expect(scales).toContain('1:1');
    // ISO 5455:1979 enlargements.
    expect(scales.some((scale) => ['2:1', '5:1', '10:1'].includes(scale))).toBe(true);
  });

  it('draws on a smaller scale what reaches further than the part', () => {
    const family: Family = {
      ...latchBracket,
      callouts: (d) => ({
        ...latchBracket.callouts(d),
        gap: [
          [-60, 0, -8],
          [60, 0, -8],
        ],
      }),
    };
    const overview = figures({ ...withoutStop, family }, numberedReadings(family, withoutStop.values)).find(
      ({ numbers }) => numbers.includes(5),
    )!;
    expect(overview.numbers).toEqual([5]);
    expect(overview.scale).toBe('1:1');
  });
});

describe('chooseViews', () => {
  const along = (number: number, to: readonly [number, number, number]): NumberedReading => ({
    number,
    key: `r${number}`,
    spec: latchBracket.readings.rod!,
    callout: [[0, 0, 0], [...to]],
  });

  it('takes as few as show all in full, the front first', () => {
    const views = chooseViews([along(1, [5, 0, 0]), along(2, [0, 0, 3]), along(3, [0, 4, 0])]);
    expect(views.map(({ title, readings }) => [title, readings.map(({ number }) => number)])).toEqual([
      ['from the front', [1, 2]],
      ['from the right', [3]],
    ]);
  });

  it('turns square to what leans in every principal view', () => {
    const span = [3, 4, 12] as const;
    const [own, ...more] = chooseViews([along(1, span)]);
    expect(more).toEqual([]);
    const [x, y] = project(own!.view, [...span]);
    expect(Math.hypot(x, y)).toBeCloseTo(13, 9);
    const [u, v] = project(viewOf('front'), [...span]);
    expect(Math.hypot(u, v)).toBeLessThan(12.7);
  });

  it('sees slanted lengths in full from the side', () => {
    expect(chooseViews([along(1, [0, 3, 4])]).map(({ title }) => title)).toEqual(['from the right']);
  });
});
