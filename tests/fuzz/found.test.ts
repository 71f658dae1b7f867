// What random jobs and damaged files brought to light, each by the fault it was.
import { describe, expect, it } from 'vitest';
import { calibrateAction } from '../../src/cli/calibrate/calibrateAction.ts';
import { sentence } from '../../src/job/problem.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { commandRun } from './commandRun.ts';
import { couponTable } from './corpus.ts';

const PRINTER = 'any.printer.json';

describe('calibrating', () => {
  it('refuses a printer that no coupon suits by its field (it broke down over it)', async () => {
    const coarse = JSON.stringify({ ...defaultPrinter, lineWidth: 1.4 });
    const run = await commandRun(
      { [PRINTER]: coarse, 'read.csv': couponTable(defaultPrinter, 1) },
      (inFolder) => calibrateAction(inFolder(PRINTER), inFolder('read.csv'), { date: '2026-11-20' }),
    );
    expect(run.refused).toEqual(['coupon_not_printable']);
  });
});

describe('the line of a refusal', () => {
  it('stays readable whatever stands in the file (a row run together took 9999 characters)', () => {
    const long = 'interface.reading'.repeat(500);
    const line = sentence('a.csv', { code: 'x', field: long, value: long, allowed: 'one of a, b' });
    expect(line.length).toBeLessThan(500);
    expect(line).toMatch(/^a\.csv: interface\.reading.*\.\.\.: interface.*\.\.\. - allowed: one of a, b$/);
  });
});
