import { Segments } from './Segments.tsx';
import { manners, type SolidState } from './solidState.ts';

const names = { drawn: 'as drawn', print: 'as printed', gaps: 'its gaps' } as const;

/** The part as drawn or as it is expected off the printer; its gaps only where there are colours to show them. */
export function MannerControls({ state, lines }: { readonly state: SolidState; readonly lines: boolean }) {
  return (
    <div class="row">
      <Segments
        legend="show"
        value={state.manner}
        options={manners.filter((id) => !(lines && id === 'gaps')).map((id) => ({ id, name: names[id] }))}
      />
    </div>
  );
}
