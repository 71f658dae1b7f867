import type { Problem } from '../../../src/job/problem.ts';
import { percent } from '../../../src/output/words/index.ts';
import { titleOf } from '../../drawer/drawer.ts';
import { Mark } from '../../verdict/Mark.tsx';
import type { AlongLine } from './alongDesk.ts';
import { whyNot } from './alongWords.ts';
import type { BedDesk } from './bedDesk.ts';

interface AlongRowProps {
  readonly desk: BedDesk;
  readonly along: AlongLine;
  /** What came of it when it was laid. */
  readonly blamed: readonly Problem[];
}

/** A job of the drawer with its tick, or why it has none. */
export function AlongRow({ desk, along: { line, isAlong, problems }, blamed }: AlongRowProps) {
  const { id, now } = line;
  const why = whyNot(blamed.length > 0 ? blamed : problems);
  const place = desk.along.asked.value.findIndex((one) => one.id === id);
  const laid = isAlong && !desk.stale.value ? desk.facts.value?.jobs[place + 1] : undefined;
  const about = `along-${id}`;
  return (
    <li class={isAlong ? 'ticked' : undefined}>
      <label>
        <input
          type="checkbox"
          checked={isAlong}
          disabled={!isAlong && why !== ''}
          aria-describedby={about}
          onChange={({ currentTarget: { checked } }) => desk.along.tick(id, checked)}
        />
        <span>{titleOf(now)}</span>
      </label>
      <span id={about} class={isAlong && why !== '' ? 'why refused' : 'why aside'}>
        {why !== '' ? (
          why
        ) : (
          <>
            {now.quantity ?? 1} off
            {laid && laid.chance !== null && `, ${percent(laid.chance)} likely to fit first time`}
            {laid && laid.fails > 0 && (
              <>
                {' '}
                <Mark verdict="fails" said /> a finding fails: lay it on the bench to see which
              </>
            )}
          </>
        )}
      </span>
    </li>
  );
}
