import { sentence } from '../../src/output/words/index.ts';
import { SliderRow } from './SliderRow.tsx';
import type { SolidState } from './solidState.ts';

/** The machine in motion, and the ways of putting the part in, picture by picture. */
export function PlayControls({ state }: { readonly state: SolidState }) {
  const plays = state.plays.value;
  if (plays.length === 0) return null;
  const { id: chosen, frame } = state.play.value;
  const play = plays.find((one) => one.id === chosen);
  const shown = state.frame.value;
  const words = shown?.step === undefined ? (shown?.name ?? '') : `${shown.step}. ${sentence(shown.name)}`;
  return (
    <SliderRow
      name="machine"
      choice={play ? chosen : ''}
      options={[
        { id: '', name: 'at rest' },
        ...plays.map(({ id, kind, name }) => ({ id, name: kind === 'motion' ? name : `put in: ${name}` })),
      ]}
      onChoose={(id) => {
        state.play.value = { id, frame: 0 };
      }}
      slider={
        play
          ? {
              name: play.kind === 'motion' ? 'travel of the machine' : 'putting it in',
              steps: play.frames.length - 1,
              value: frame,
              words,
              onSlide: (value) => {
                state.play.value = { id: chosen, frame: value };
              },
            }
          : null
      }
    />
  );
}
