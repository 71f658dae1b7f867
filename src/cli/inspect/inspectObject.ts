import { decisionRule } from '../../job/inspection/decision.ts';
import type { Inspection } from '../../job/inspection/inspection.ts';
import { driftText, todoFor, whyOf } from '../../job/inspection/inspectionWords.ts';
import { reworkRules } from '../../job/inspection/rework.ts';
import { reworkCautions } from '../../job/inspection/reworkCautions.ts';
import type { Prepared } from '../../job/prepare.ts';
import type { TrialRecord } from '../../job/trialSchema.ts';
import { nextSteps } from './inspectText.ts';

/** A verdict on a print as one JSON object; an end that a window has not is null. `number`: which print of the job, from 1. */
export function inspectObject(
  inspection: Inspection,
  { job, family }: Prepared,
  { date, made, printer, material, layer }: TrialRecord,
  number: number,
  path: string,
) {
  const { sizes, unread, drift, verdict } = inspection;
  return {
    job: { title: job.title ?? family.title, family: family.id, path },
    trial: { number, date, made, printer, material, layer },
    verdict: verdict ?? null,
    interfaces: sizes.map((size) => ({
      id: size.id,
      name: size.name,
      kind: size.kind,
      verdict: size.verdict,
      print: { value: size.print.value, u: size.print.u, n: size.print.n },
      expected: size.expected,
      deviation: size.deviation,
      machine: size.machine,
      clearance: { value: size.clearance.value, u: size.clearance.u },
      window: size.window.map((end) => (Number.isFinite(end) ? end : null)),
      chance: size.clearance.inside,
      risk: { below: size.clearance.below, above: size.clearance.above },
      shares: size.clearance.shares,
      rework: size.rework ?? null,
      noRework: size.noRework ?? null,
      stale: size.stale,
      cause: size.cause,
      todo: todoFor(size),
      because: whyOf(size, drift),
      remarks: size.print.remarks,
    })),
    unread,
    drift: drift === undefined ? null : { ...drift, sentence: driftText(inspection) },
    cautions: reworkCautions(sizes.flatMap(({ rework }) => (rework === undefined ? [] : [rework.tool]))),
    rules: { decision: decisionRule, rework: reworkRules },
    next: nextSteps(inspection, path),
  };
}
