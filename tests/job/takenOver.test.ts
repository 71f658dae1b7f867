import { expect, it } from 'vitest';
import type { JobFile } from '../../src/job/schema.ts';
import { takenOver } from '../../src/job/takenOver.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { PARAMETERS, type PrinterProfile } from '../../src/printer/types.ts';
import { demo, read } from './demo.ts';

const nothing = PARAMETERS.map(() => 0);
/** A printer whose coupon was read with callipers of that name. */
const known = (callipers: string): PrinterProfile => ({
  ...defaultPrinter,
  calibration: { covariance: PARAMETERS.map(() => nothing), shared: [], callipers, dof: 10, readings: {} },
});
const theirs = { ...demo(), ladders: {}, trials: [] } as unknown as JobFile;

it('leaves a job as it is where nobody brings anything', () => {
  expect(takenOver(theirs, {})).toEqual({ file: theirs, without: [] });
});

it('leaves out what was felt on another printer, and keeps the rest in its order', () => {
  const { file, without } = takenOver(theirs, { printer: { name: 'p.json', profile: defaultPrinter } });
  expect(without).toEqual(['ladders', 'trials']);
  const { ladders, trials, ...rest } = theirs;
  expect(file).toEqual({ ...rest, printer: 'p.json' });
  expect(Object.keys(file)).toEqual(Object.keys(rest));
  expect(theirs).toHaveProperty('ladders');
});

it('takes two pairs of callipers of one name for two', () => {
  const own = (name: string) => ({ printer: { name: 'p.json', profile: known(name) } });
  // Nobody gave the pair of the demo a name, so it has the usual one.
  const { file, without } = takenOver(theirs, own('my callipers'));
  expect(without).toContain('callipers');
  expect(file.callipers).toEqual({ ...theirs.callipers, name: 'my callipers (first owner)' });
  expect(read({ ...file, printer: known('my callipers') }).callipers.name).not.toBe('my callipers');
  expect(takenOver(theirs, own('steel ones')).without).not.toContain('callipers');
  const long = 'x'.repeat(80);
  const named = { ...theirs, callipers: { ...theirs.callipers, name: long } };
  expect(
    read({ ...takenOver(named, own(long)).file, printer: known(long), trials: undefined, ladders: undefined })
      .callipers.name,
  ).not.toBe(long);
});

it('forgets readings and callipers where another machine is measured', () => {
  const { file, without } = takenOver(theirs, { fresh: true });
  expect(without).toEqual(['ladders', 'trials', 'readings']);
  expect(file.readings).toEqual({});
  expect(file).not.toHaveProperty('callipers');
  expect(file.printer).toEqual(demo().printer);
});
