import { plateBase } from '../../../src/job/plateBase.ts';
import type { PlateKind } from '../../../src/job/plateFiles.ts';
import { useBench } from '../../bench/bench.ts';
import { baseOf } from '../../spine/tasks/baseOf.ts';
import type { BedDesk } from './bedDesk.ts';
import { TakeButton } from './TakeButton.tsx';

const kinds: readonly { readonly kind: PlateKind; readonly word: string; readonly ending: string }[] = [
  { kind: 'stl', word: 'bed STL', ending: 'stl' },
  { kind: '3mf', word: 'bed 3MF', ending: '3mf' },
  { kind: 'view', word: 'bed view', ending: 'svg' },
];

/** The whole bed to take away, as it lies. */
export function PlateFiles({ desk }: { readonly desk: BedDesk }) {
  const bench = useBench();
  const base = plateBase(`${baseOf(bench.job.value)}.job.json`);
  const facts = desk.facts.value;
  const cannot = bench.outcome.value?.kind === 'refused' || desk.refused.value !== null;
  const cautions = [
    ...new Set((desk.stale.value ? [] : (facts?.jobs.slice(1) ?? [])).flatMap((job) => job.cautions)),
  ].filter((caution) => !facts?.jobs[0]?.cautions.includes(caution));
  return (
    <>
      {cautions.map((caution) => (
        <p key={caution} class="mind">
          {caution}
        </p>
      ))}
      <p class="plate-files">
        {kinds.map(({ kind, word, ending }) => (
          <TakeButton
            key={kind}
            label={`Take the ${word}, ${base}.${ending}`}
            disabled={cannot}
            make={() => desk.files(kind)}
          >
            {word}
          </TakeButton>
        ))}
        <span class="aside">everything that lies on the bed, as it lies: {base}.stl, .3mf, .svg</span>
      </p>
    </>
  );
}
