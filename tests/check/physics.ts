import { assembly } from '../../src/check/assembly.ts';
import type { Check } from '../../src/check/context.ts';
import type { Finding } from '../../src/check/finding.ts';
import { build } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel, withScope } from '../../src/solid/kernel.ts';
import { demo, type PlainJob, read } from '../job/demo.ts';

const kernel = await loadKernel();

/** Findings of some checks on the demo job, changed, by id. */
export function findingsOf(
  checks: readonly Check[],
  change?: (job: PlainJob) => void,
): Readonly<Record<string, Finding>> {
  const prepared = read(demo(change));
  return withScope(kernel, (scope) => {
    const context = build(scope, prepared, plan(prepared));
    return Object.fromEntries(checks.flatMap((check) => check(context)).map((one) => [one.id, one]));
  });
}

/** The finding of that id; throws when there is none, so that a test never passes on nothing. */
export function finding(found: Readonly<Record<string, Finding>>, id: string): Finding {
  const one = found[id];
  if (one === undefined) throw new RangeError(`no finding ${id} among ${Object.keys(found).join(', ')}`);
  return one;
}

/** Number among the details of a finding. */
export function detail({ id, details }: Finding, name: string): number {
  const value = details?.[name];
  if (typeof value !== 'number') throw new RangeError(`finding ${id} has no number ${name}`);
  return value;
}

/** A printer that prints what is drawn. */
export const exact = (printer: PrinterProfile): PrinterProfile => {
  const nothing = { value: 0, u: 0 };
  const one = { value: 1, u: 0 };
  return {
    ...printer,
    scale: { x: one, y: one, z: one },
    outerGrowth: nothing,
    boreShrink: nothing,
    boreCurvature: nothing,
    firstLayerSpread: nothing,
  };
};

export const routes = (change?: (job: PlainJob) => void) => findingsOf([assembly], change);
