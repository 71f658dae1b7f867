import type { Jaw } from '../../../src/measure/types.ts';
import { jawName, pictogramMarks, pictogramSize } from '../../../src/output/sheet/calliperPictogram.ts';

/** Which jaws go where, as on the measuring sheet. */
export function JawPicture({ jaw, round }: { readonly jaw: Jaw; readonly round: boolean }) {
  const [width, height] = pictogramSize;
  const name = `${jawName[jaw]}${round ? ', round hole' : ''}`;
  return (
    <figure class="jaws">
      <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
        {pictogramMarks(jaw).map(({ kind, d }) => (
          <path key={d} class={kind} d={d} />
        ))}
      </svg>
      <figcaption>{name}</figcaption>
    </figure>
  );
}
