import { SliderRow } from './SliderRow.tsx';
import type { SolidState } from './solidState.ts';

/** Which part of a set is looked at; nothing where the job makes one. */
export function MemberChoice({ state }: { readonly state: SolidState }) {
  const { members } = state;
  if (members.length < 2) return null;
  return (
    <SliderRow
      name="part"
      choice={state.member}
      options={members.map(({ id, name }) => ({ id, name }))}
      onChoose={(id) => state.choose(id)}
      slider={null}
    />
  );
}
