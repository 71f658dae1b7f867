import { effect } from '@preact/signals';
import { dot, type Vec3 } from '../../../src/solid/vector.ts';
import { lookingFrom } from '../camera.ts';
import type { CameraMover } from '../moveCamera.ts';
import type { SolidState } from '../solidState.ts';

/** Directions out of which a part is looked at from in front, above and beside: the first that shows an axis at full length is
 *  taken. */
const around: readonly Vec3[] = [
  [1, -1, 1],
  [0, -1, 0.5],
  [1, 0, 0.5],
  [0.5, -0.3, 1],
];
/** An axis that is shortened to less than this share of its length is hard to see stretches on. */
const SEEN = 0.6;

/** Turns the model whenever another axis is asked for that can hardly be seen as it stands. Gives back how to let go. */
export function keepAxisInSight(state: SolidState, mover: CameraMover): () => void {
  let before = '';
  return effect(() => {
    const model = state.model.value;
    const axis = model?.axes[model.shown]?.axis;
    if (!axis || axis.join() === before) return;
    before = axis.join();
    const camera = state.camera.peek();
    const seen = (toward: Readonly<Vec3>): number =>
      Math.sqrt(Math.max(0, 1 - (dot(axis, toward) / Math.hypot(...toward)) ** 2));
    if (seen(state.view(camera).toward) >= SEEN) return;
    const way = around.find((one) => seen(one) >= SEEN) ?? around[0]!;
    mover.to(lookingFrom(camera, way));
  });
}
