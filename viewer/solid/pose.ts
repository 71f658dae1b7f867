import type { SolidState } from './solidState.ts';

/** Number of the pose that is shown; -1 while the machine is taken apart. */
export function poseOf(state: SolidState): number {
  const { id, frame } = state.play.value;
  return id === '' ? 0 : id === 'motion' ? frame : -1;
}
