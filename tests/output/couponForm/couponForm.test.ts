import { describe, expect, it } from 'vitest';
import { couponForm } from '../../../src/output/couponForm/index.ts';
import { spreadApart } from '../../../src/output/couponForm/spreadApart.ts';
import { coupon } from '../../../src/printer/coupon/coupon.ts';
import type { CouponFeature } from '../../../src/printer/coupon/feature.ts';
import { printer } from '../../printer/profile.ts';
import { meshOfShape } from '../solids.ts';

const profile = { ...printer(), name: 'Bench Ox' };
const { shape, features } = coupon(profile);
const input = {
  printer: profile,
  features,
  mesh: meshOfShape(shape),
  print: { mass: 7.83, minutes: 31 },
  next: 'fettle calibrate ox.printer.json',
};
const page = couponForm(input);
const count = (part: string | RegExp): number => page.split(part).length - 1;
const rows = page.match(/<tr id="feature-[\s\S]*?<\/tr>/g) ?? [];

describe('couponForm', () => {
  it('has a row for every feature, in the order of measuring, with room for its readings', () => {
    expect(rows).toHaveLength(features.length);
    features.forEach(({ id, number, reading, nominal, times, tip }, k) => {
      const row = rows[k]!;
      expect(row).toContain(`id="feature-${id}"`);
      expect(row).toContain(`<span class="balloon-text">${number}</span>`);
      expect(row).toContain(reading.name);
      expect(row).toContain(`<code>${id}</code>`);
      expect(row).toContain(tip);
      const drawn = /class="drawn">([\d.]+)</.exec(row)![1];
      expect(Math.abs(Number(drawn) - nominal)).toBeLessThan(0.005 + 1e-9);
      expect(row.split('class="box"').length - 1).toBe(times);
    });
  });

  it('shows the callipers once for each way of holding them', () => {
    expect(count('class="pictogram"')).toBe(3);
    for (const words of ['large jaws', 'small jaws', 'depth rod'])
      expect(page).toContain(`<title>${words}</title>`);
  });

  it('balloons every number once, and no two balloons touch', () => {
    for (const { number } of features)
      expect(count(new RegExp(`<text class="number"[^>]*>${number}</text>`)), String(number)).toBe(1);
    // Balloons of the plan; those of the tower are in a group of their own.
    const plan = page.slice(page.indexOf('<svg'), page.indexOf('<g transform'));
    const balloons = [
      ...plan.matchAll(/class="balloon"[^>]*cx="([-\d.]+)" cy="([-\d.]+)" r="([\d.]+)"/g),
    ].map(([, x, y, r]) => ({ x: Number(x), y: Number(y), r: Number(r) }));
    const level = features.filter(({ measurand }) => measurand.direction[2] === 0);
    expect(balloons).toHaveLength(level.length);
    balloons.forEach((one, k) => {
      for (const other of balloons.slice(k + 1))
        expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThan(one.r + other.r);
    });
  });

  it('marks where jaws touch, to the scale it states', () => {
    const plan = page.slice(page.indexOf('<svg'), page.indexOf('<g transform'));
    expect(plan).toContain('coupon from above, 2:1');
    const touches = new Set(
      [...plan.matchAll(/class="touch"[^>]*cx="([-\d.]+)" cy="([-\d.]+)"/g)].map(
        ([, x, y]) => `${Number(x)} ${Number(y)}`,
      ),
    );
    const onPaper = (value: number): number => Number((2 * value).toFixed(3));
    for (const { id, callout, measurand } of features) {
      if (measurand.direction[2] !== 0) continue;
      for (const [x, y] of callout) expect(touches, id).toContain(`${onPaper(x)} ${onPaper(-y)}`);
    }
  });

  it('fits A4 and says so to the printer', () => {
    const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(page)!;
    // A4 is 210 x 297 mm (ISO 216); margins 14 and 10 mm, heading and title block take the rest.
    expect(Number(width)).toBeLessThan(182);
    expect(Number(height)).toBeLessThan(200);
    expect(page).toContain('@page{size:A4');
  });

  it('is one page that fetches and runs nothing', () => {
    expect(page).not.toMatch(/<script|<link|<img|@import|url\(|javascript:|\son\w+=/i);
    expect(
      page.match(/https?:\/\/[^"]*/g)?.every((address) => address === 'http://www.w3.org/2000/svg'),
    ).toBe(true);
    expect(page).not.toMatch(/NaN|undefined|Infinity/);
    expect(couponForm(input)).toBe(page);
  });

  it('takes every text for text', () => {
    const evil = `"><script>alert(1)</script><img src=x onerror='x'>`;
    const [first, ...rest] = features;
    const bent: CouponFeature = { ...first!, tip: evil, reading: { ...first!.reading, name: evil } };
    const evilPage = couponForm({
      ...input,
      printer: { ...profile, name: evil, material: evil },
      features: [bent, ...rest],
      next: evil,
    });
    expect(evilPage).not.toMatch(/<script|<img/i);
    expect(evilPage.split('&lt;script&gt;').length - 1).toBeGreaterThan(4);
  });

  it('says how to print it and what comes next', () => {
    expect(page).toContain('no brim');
    expect(page).toContain('Let it cool');
    expect(page).toContain('fettle calibrate ox.printer.json');
    expect(page).toContain('7.8 g and 31 min');
  });
});

describe('spreadApart', () => {
  it.each([
    [[0, 1, 10], 3, [-1, 2, 10]],
    [[5], 3, [5]],
    [[], 3, []],
    [[4, 4, 4], 2, [2, 4, 6]],
    [[10, 1, 0], 3, [10, 2, -1]],
  ])('puts %j %d apart', (wished, gap, expected) => {
    expect(spreadApart(wished, gap)).toEqual(expected);
  });
});
