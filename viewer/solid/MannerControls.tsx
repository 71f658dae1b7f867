import { batch } from '@preact/signals';
import { deskAtHand } from '../donor/deskAtHand.ts';
import { Segments } from './Segments.tsx';
import { manners, type SolidState } from './solidState.ts';

const names = {
  stretches: 'its stretches',
  drawn: 'as drawn',
  print: 'as printed',
  gaps: 'its gaps',
} as const;

/** A model with its stretches while its sheet is unrolled, the part as drawn or as it is expected off the printer; what is
 *  shown by colours only where there are any. */
export function MannerControls({ state, lines }: { readonly state: SolidState; readonly lines: boolean }) {
  const [isModel, ways] = [
    deskAtHand.value !== null && !lines,
    manners.filter((id) => !(lines && id === 'gaps')),
  ];
  return (
    <div class="row">
      <Segments
        legend="show"
        value={isModel && state.stretches.value ? 'stretches' : state.manner.value}
        options={[...(isModel ? (['stretches'] as const) : []), ...ways].map((id) => ({
          id,
          name: names[id],
        }))}
        onChoose={(id) =>
          batch(() => {
            state.stretches.value = id === 'stretches';
            if (id !== 'stretches') state.manner.value = id;
          })
        }
      />
    </div>
  );
}
