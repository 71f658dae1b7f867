import { duration, significant } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';
import { capital } from '../measure/capital.ts';
import type { LadderDesk } from './ladderDesk.ts';
import { StripPicture } from './StripPicture.tsx';
import { TakeButton } from './TakeButton.tsx';

/** The strip to print, with what it costs and how to try it. */
export function LadderStrip({ desk }: { readonly desk: LadderDesk }) {
  const drawn = desk.drawn.value;
  if (!drawn) return null;
  const { lay, extents, layers, mass, minutes, free, rungs, stepped, names, cautions, record, files } = drawn;
  const still = Object.keys(record.aim).filter((id) => !stepped.includes(id));
  return (
    <div class="strip-print">
      <StripPicture
        files={files}
        name={`The strip: ${rungs.length} copies side by side, numbered from the tightest`}
      />
      <TakeButton
        label={`Take the ladder, ${files.map(({ name }) => name).join(' and ')}`}
        make={async () => files}
      >
        ladder
      </TakeButton>
      <p>
        {capital(lay)}, as the part; {extents.map((each) => formatNumber(each)).join(' × ')} mm, {layers}{' '}
        layers, {significant(mass)} g, about {duration(minutes)}.
        {still.map((id) => (
          <> {capital(names[id] ?? id)} is the same on every number: it comes in whole layers.</>
        ))}
      </p>
      <p class="mind">
        Start with {rungs.length}, the loosest, and go down one at a time, gently; the old part cannot be
        bought again, so stop before you need force.
        {!free &&
          ' The machine leaves no side free for the strip: cut the numbers off it, one by one, before you try them.'}
      </p>
      {cautions.map((caution) => (
        <p key={caution} class="mind">
          {caution}
        </p>
      ))}
    </div>
  );
}
