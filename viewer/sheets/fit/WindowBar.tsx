import { type BarredFit, windowBarShape } from '../../../src/output/report/windowBarShape.ts';
import './windowBar.css';

/** Where the clearance lies in its window: the frame is the window, hatched too tight and too loose, dashed no clearance, the
 *  mark what is expected, the line through it twice its standard uncertainty. */
export function WindowBar({ fit }: { readonly fit: BarredFit }) {
  const { width, height, label, standing, hatches, frame, zero, whisker, at, sign, disc } =
    windowBarShape(fit);
  return (
    <svg class={`window-bar ${standing}`} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      <path class="hatch" d={hatches.join('')} />
      <path class="frame-line" d={frame} />
      {zero !== null && <path class="zero" d={zero} />}
      <path class="whisker" d={whisker} />
      {sign === null ? (
        <circle class="sign" cx={at.x} cy={at.y} r={disc} />
      ) : (
        <path class={standing === 'fails' ? 'sign cross' : 'sign'} d={sign} />
      )}
    </svg>
  );
}
