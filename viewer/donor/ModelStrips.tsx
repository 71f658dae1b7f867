import { useDrawer } from '../drawer/drawer.ts';
import { ModelButton } from '../drawer/ModelButton.tsx';
import { Strip } from '../start/Strip.tsx';
import { ModelDoingLine } from './ModelDoingLine.tsx';
import { lookingAt, modelWanted } from './modelWanted.ts';

/** Says what is being done with a model that was dropped, and how far it is; asks for the one that the job on the bench lacks. */
export function ModelStrips() {
  const drawer = useDrawer();
  const name = lookingAt.value;
  if (name !== null) {
    return (
      <Strip
        kind="note"
        name="Model"
        deeds={
          <button type="button" onClick={() => drawer.bench.spine.stop()}>
            stop
          </button>
        }
      >
        <ModelDoingLine name={name} />
      </Strip>
    );
  }
  const wanted = modelWanted(drawer.bench);
  if (wanted === null) return null;
  return (
    <Strip kind="mind" name="Model wanted" deeds={<ModelButton>choose the file</ModelButton>}>
      <strong>The job refits a model, {wanted}, that is not in this browser.</strong> Choose it, or drop it
      anywhere. Nothing of the job is lost without it.
    </Strip>
  );
}
