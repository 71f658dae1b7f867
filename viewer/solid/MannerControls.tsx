import { Segments } from './Segments.tsx';
import { manners, type SolidState } from './solidState.ts';

const names = { drawn: 'as drawn', print: 'as printed', gaps: 'its gaps' } as const;

/** The part as drawn or as it is expected off the printer. */
export function MannerControls({ state }: { readonly state: SolidState }) {
  return (
    <div class="row">
      <Segments legend="show" value={state.manner} options={manners.map((id) => ({ id, name: names[id] }))} />
    </div>
  );
}
