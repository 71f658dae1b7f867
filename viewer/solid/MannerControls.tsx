import { Segments } from './Segments.tsx';
import { manners, type SolidState } from './solidState.ts';

const names = { drawn: 'as drawn', print: 'as printed', gaps: 'gaps of the print' } as const;

/** The part as drawn or as it is expected off the printer, and what is shown around it. */
export function MannerControls({ state }: { readonly state: SolidState }) {
  return (
    <div class="row">
      <Segments legend="show" value={state.manner} options={manners.map((id) => ({ id, name: names[id] }))} />
      <fieldset class="ticks">
        <legend>with</legend>
        <div>
          <label>
            <input
              type="checkbox"
              checked={state.machine.value}
              onChange={({ currentTarget: { checked } }) => {
                state.machine.value = checked;
              }}
            />
            machine
          </label>
          <label>
            <input
              type="checkbox"
              checked={state.balloons.value}
              onChange={({ currentTarget: { checked } }) => {
                state.balloons.value = checked;
              }}
            />
            findings
          </label>
        </div>
      </fieldset>
    </div>
  );
}
