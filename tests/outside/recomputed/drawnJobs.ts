import type { families } from '../../../parts/index.ts';
import { membersOf } from '../../../src/job/members.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import type { MakeResult } from '../../../src/job/result.ts';
import { type ScenePart, sceneOf } from '../../../src/job/scene.ts';
import { takeAway } from '../../../src/job/takeAway.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { PlainJob } from '../../job/demo.ts';
import { anyJob, eachMade } from '../../metamorphic/anyJob.ts';
import { type Randomness, randomness } from '../../simulation/randomness.ts';
import { type WrittenPart, writtenPart } from './writtenPart.ts';

/** One part of a job: what was written of it and what was found. */
export interface Judged {
  readonly result: MakeResult;
  readonly prepared: Prepared;
  /** Of a set the part's own, its numbers as the first one's. */
  readonly written: WrittenPart;
  readonly scene: ScenePart;
  readonly finding: (id: string) => MakeResult['findings'][number] | undefined;
}

/** Parts of random jobs of a family, read back from the file that was written. */
export function eachPart(
  kernel: ManifoldToplevel,
  family: (typeof families)[number],
  seed: number,
  count: number,
  visit: (judged: Judged) => void,
  change: (job: PlainJob, random: Randomness) => PlainJob = (job) => job,
): void {
  const random = randomness(seed);
  eachMade(
    kernel,
    family,
    count,
    () => change(anyJob(random, family), random),
    ({ prepared, result }) => {
      const files = takeAway({ kernel, prepared, result }, 'part', { kinds: ['stl'] });
      const scenes = sceneOf(kernel, prepared);
      // The parts of a set are much alike; its first stands for it.
      const [file, scene] = [files[0]!, scenes[0]!];
      const of = (id: string): string => (scene.id === '' ? id : `${scene.id}.${id}`);
      visit({
        ...{ result, prepared: membersOf(prepared)[0]!.prepared, scene },
        written: writtenPart(file.bytes),
        finding: (id) =>
          result.findings.find((one) => one.id === of(id)) ?? result.findings.find((one) => one.id === id),
      });
    },
  );
}
