import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/check/finding.ts';
import { looksOf } from '../../src/cli/terminal.ts';
import { percent, verdict } from '../../src/cli/verdict.ts';
import { fakeResult } from './fakeResult.ts';

const plain = looksOf({ isTTY: false } as NodeJS.WriteStream);
const terminal = (columns: number) =>
  looksOf({ isTTY: true, columns } as NodeJS.WriteStream, { NO_COLOR: '1' });

it('reads like this', () => {
  expect(verdict(fakeResult, ['out/clip.stl'], plain).join('\n')).toBe(
    `
Enter key clip - 2 off - PETG, printer 1 (calibrated 20 Nov 2025)
  fits first time  93 %    doubt: socket width 61 %; printer 27 %; bar 12 %
                           next: three more readings of the socket width -> 97 %
  meets (mm)   machine  draw  prints at  clearance  window        chance
  bar in slot  1.59     1.93  1.79       0.20       0.10 .. 0.30  98 %
  stop         4.00     4.20  4.21       0.21       from 0.05     > 99 %
  findings  2 hold, 1 caution, none fails
  /!\\  1  strain of the arms 1.9 % (at most 2.1 %); printed on its side as laid
          do: print it upright: 0.9 %
  print     on its side; 8.10 x 9.25 x 12.00 mm on the bed, 41 layers of 0.2 mm, 0.65 g each
  put in    clips on the bar first
            1. Snap each clip onto the bar
            2. Lower the keycap
  mind      Unplug it first
  wrote out/clip.stl`.trimStart(),
  );
});

const failing: Finding = {
  ...fakeResult.findings[1]!,
  verdict: 'fails',
  value: 0.4,
  margin: -0.4,
  remedy: 'thicken it',
};

it('puts what fails before what wants looking at, each under its number in the list', () => {
  const lines = verdict({ ...fakeResult, findings: [...fakeResult.findings, failing] }, [], plain);
  const marked = lines.filter((line) => /^ {2}( X |\/!\\) /.test(line));
  expect(marked[0]).toContain(' X   4  thinnest wall 0.4 mm (at least 0.8 mm)');
  expect(marked[1]).toContain('/!\\  1  strain');
  expect(lines).toContain('  findings  2 hold, 1 caution, 1 fails');
});

it.each([50, 80, 110])('keeps to a window of %i columns', (width) => {
  const lines = verdict({ ...fakeResult, findings: [failing, ...fakeResult.findings] }, [], terminal(width));
  const tooLong = lines.filter((line) => line.length > width);
  // Titles and sizes of the print are one phrase each and stay whole.
  expect(tooLong.filter((line) => !/off|on the bed/.test(line))).toEqual([]);
});

it('says so when nothing is calibrated, nothing meets and nothing is left to advise', () => {
  const lines = verdict(
    { ...fakeResult, job: { ...fakeResult.job, calibrated: null }, advice: null, interfaces: [], shares: [] },
    [],
    plain,
  );
  expect(lines[0]).toContain('(not calibrated)');
  expect(lines[1]).toBe('  fits first time  93 %');
  expect(lines.join('\n')).not.toMatch(/next:|meets/);
});

it('paints only where asked to', () => {
  const coloured = looksOf({ isTTY: true, columns: 100 } as NodeJS.WriteStream, {});
  expect(verdict(fakeResult, [], coloured).join('')).toContain('\u001b[');
  expect(verdict(fakeResult, [], plain).join('')).not.toContain('\u001b[');
});

describe('a chance in percent', () => {
  it.each([
    [0, '< 1 %'],
    [0.004, '< 1 %'],
    [0.006, '1 %'],
    [0.5, '50 %'],
    [0.994, '99 %'],
    [0.9951, '> 99 %'],
    [1, '> 99 %'],
  ])('%f is %s', (chance, text) => {
    expect(percent(chance)).toBe(text);
  });
});

describe('what earlier prints changed', () => {
  const changed = [
    {
      ...{ id: 'bar', name: 'bar in slot', before: 1.93, after: 1.99 },
      because: 'felt tight: the machine is 0.06 larger there than it was read',
    },
    { ...{ id: 'stop', name: 'stop', before: 4.2, after: 4.21 }, because: 'learnt from other sizes' },
  ];

  it('is said with the reason where it is clear, and counted where it is not', () => {
    const lines = verdict({ ...fakeResult, changed }, [], plain);
    const at = lines.findIndex((line) => line.startsWith('  changed'));
    expect(lines.slice(at, at + 3)).toEqual([
      '  changed   bar in slot: draw 1.99 instead of 1.93',
      '              felt tight: the machine is 0.06 larger there than it was read',
      '            1 other size by less than 0.02',
    ]);
  });

  it('keeps to a narrow window', () => {
    const lines = verdict({ ...fakeResult, changed }, [], terminal(40));
    const at = lines.findIndex((line) => line.startsWith('  changed'));
    expect(lines.slice(at, at + 5).filter((line) => line.length > 40)).toEqual([]);
  });
});
