import type { Vec2 } from '../../../src/solid/vector.ts';
import { formatNumber } from '../../../src/units/index.ts';
import type { RefitDesk } from '../../donor/refitDesk.ts';
import { usePull } from '../../donor/usePull.ts';
import { alongWords, byWords } from '../../donor/words.ts';
import type { ShownModel } from '../../spine/answers.ts';
import type { AlongPicture } from './alongPicture.ts';

interface BandHandleProps {
  readonly desk: RefitDesk;
  readonly model: ShownModel;
  readonly index: number;
  readonly name: string;
  /** Its middle in the picture, the place that it holds, and how large the picture is; pixels. */
  readonly at: Vec2;
  readonly spot: Vec2;
  readonly size: Vec2;
  /** How far its end moves up the axis for each mm. */
  readonly gain: number;
  readonly lies: AlongPicture;
}

/** Half as wide as what is said beside a handle, and as far away from its middle sideways and upwards, pixels. */
const [HALF, BESIDE, ABOVE] = [62, 28, 54];

/** What is said of a pull stands beyond the handle as seen from its part where there is room, else above it, else below. */
function besideIn([x, y]: Vec2, spot: Vec2, [width]: Vec2): Vec2 {
  const beyond = x + (x < spot[0] ? -1 : 1) * (BESIDE + HALF);
  if (beyond >= HALF && beyond <= width - HALF) return [beyond, y];
  return [Math.min(width - HALF - 2, Math.max(HALF + 2, x)), y > 2 * ABOVE ? y - ABOVE : y + ABOVE];
}

/** A handle in the picture: drawn along the axis it makes its stretch longer or shorter. */
export function BandHandle({ desk, model, index, name, at, spot, size, gain, lies }: BandHandleProps) {
  const { along, perMm } = lies;
  const { axis } = model.axes[model.shown]!;
  const span = model.spans[index]!;
  const { now, isHeld, props } = usePull({
    ...{ desk, sheet: model, index },
    said: `Stretch ${name} ${alongWords(axis)}, on the part`,
    isUpright: Math.abs(along[1]) > Math.abs(along[0]),
    mmOf: (right, down) => (right * along[0] + down * along[1]) / (perMm * gain),
  });
  const change = now - span.was;
  const said = besideIn(at, spot, size);
  const turn = (Math.atan2(along[1], along[0]) * 180) / Math.PI;
  return (
    <>
      <div
        class={`band-handle${isHeld ? ' held' : ''}`}
        style={{ left: `${at[0]}px`, top: `${at[1]}px` }}
        aria-describedby="stretch-at"
        {...props}
      >
        <svg viewBox="-22 -22 44 44" aria-hidden="true">
          <g transform={`rotate(${turn})`}>
            <path class="arrows" d="M-22 0l9.5-8v16zM22 0l-9.5-8v16z" />
          </g>
          <circle class="knob" r="12.5" />
          <text y="5.5">{name}</text>
        </svg>
      </div>
      {isHeld && (
        <div class="band-said" style={{ left: `${said[0]}px`, top: `${said[1]}px` }} aria-hidden="true">
          <b>{formatNumber(now)} mm</b>
          {Math.abs(change) > 0.005 ? byWords(change) : 'as in the model'}
        </div>
      )}
    </>
  );
}
