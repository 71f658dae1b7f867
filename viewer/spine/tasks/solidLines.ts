import { lineView, type View } from '../../../src/output/drawing/index.ts';
import type { Mesh } from '../../../src/solid/mesh.ts';
import type { SolidLines } from '../answers.ts';

/** The part and the machine around it as a line drawing, for browsers that show no solids. */
export const solidLines = (part: Mesh, machine: readonly Mesh[], view: View): SolidLines => ({
  part: lineView([part], view).visible,
  machine: machine.length > 0 ? lineView(machine, view, [part]).visible : [],
});
