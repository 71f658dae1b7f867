import { useId } from 'preact/hooks';
import { sentence } from '../../src/output/words/index.ts';
import type { SolidState } from './solidState.ts';

/** The machine in motion, and the ways of putting the part in, picture by picture. */
export function PlayControls({ state }: { readonly state: SolidState }) {
  const id = useId();
  const plays = state.plays.value;
  if (plays.length === 0) return null;
  const { id: chosen, frame } = state.play.value;
  const play = plays.find((one) => one.id === chosen);
  const shown = state.frame.value;
  const words = shown
    ? shown.step === undefined
      ? shown.name
      : `Step ${shown.step}: ${sentence(shown.name)}`
    : '';
  return (
    <div class="row play">
      <p class="choice">
        <label for={`${id}-what`}>machine</label>
        <select
          id={`${id}-what`}
          value={play ? chosen : ''}
          onChange={({ currentTarget: { value } }) => {
            state.play.value = { id: value, frame: 0 };
          }}
        >
          <option value="">at rest</option>
          {plays.map(({ id: one, kind, name }) => (
            <option key={one} value={one}>
              {kind === 'motion' ? name : `put in: ${name}`}
            </option>
          ))}
        </select>
      </p>
      {play && (
        <div class="slider">
          <label for={id}>{play.kind === 'motion' ? 'travel' : 'step'}</label>
          <input
            id={id}
            type="range"
            min={0}
            max={play.frames.length - 1}
            step={1}
            value={frame}
            aria-valuetext={words}
            onInput={({ currentTarget: { value } }) => {
              state.play.value = { id: chosen, frame: Number(value) };
            }}
          />
          <output for={id}>{words}</output>
        </div>
      )}
    </div>
  );
}
