import { useId } from 'preact/hooks';
import type { SolidState } from './solidState.ts';

/** Which part of a set is looked at; nothing where the job makes one. */
export function MemberChoice({ state }: { readonly state: SolidState }) {
  const id = useId();
  const { members } = state;
  if (members.length < 2) return null;
  return (
    <p class="member">
      <label for={id}>part</label>
      <select id={id} value={state.member} onChange={({ currentTarget: { value } }) => state.choose(value)}>
        {members.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
    </p>
  );
}
