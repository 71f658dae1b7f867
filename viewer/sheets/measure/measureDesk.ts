import type { ReadonlySignal } from '@preact/signals';
import type { JobFacts } from '../../../src/job/jobFacts.ts';
import type { Problem } from '../../../src/job/problem.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { Bench } from '../../bench/bench.ts';
import type { Text } from './draft.ts';
import { ReadingDesk, type ReadingSource } from './readingDesk.ts';
import { SheetAsker } from './sheetAsker.ts';

/** Readings of the machine, which stand in the job itself. */
class MachineSource extends SheetAsker implements ReadingSource {
  texts({ readings = {} }: JobFile, id: string): readonly Text[] {
    return (Object.hasOwn(readings, id) ? readings[id] : undefined) ?? [];
  }

  withTexts(job: JobFile, id: string, texts: readonly Text[]): JobFile {
    return { ...job, readings: { ...job.readings, [id]: [...texts] } };
  }

  told(name: string): string {
    return name;
  }
}

/** The desk of sheet 1: what to read of the machine. */
export class MeasureDesk extends ReadingDesk<MachineSource> {
  constructor(bench: Bench) {
    super(bench, (typing) => new MachineSource(bench, typing));
  }

  get facts(): ReadonlySignal<JobFacts | null> {
    return this.source.facts;
  }

  /** Why the sheet cannot say what to measure; empty when it can. */
  get trouble(): ReadonlySignal<readonly Problem[]> {
    return this.source.trouble;
  }
}

const desks = new WeakMap<Bench, MeasureDesk>();

/** The desk of a bench, the same one each time. */
export function measureDesk(bench: Bench): MeasureDesk {
  const there = desks.get(bench);
  if (there) return there;
  const desk = new MeasureDesk(bench);
  desks.set(bench, desk);
  return desk;
}
