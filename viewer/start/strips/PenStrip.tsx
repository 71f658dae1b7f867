import { useDrawer } from '../../drawer/drawer.ts';
import { Strip } from '../Strip.tsx';

/** Says that another tab writes the job, and offers the pen. */
export function PenStrip() {
  const { keeper } = useDrawer();
  if (keeper.pen.place.value === 'here') return null;
  return (
    <Strip
      kind="note"
      name="Two tabs"
      deeds={
        <button type="button" onClick={() => void keeper.pen.take()}>
          take the pen
        </button>
      }
    >
      <strong>Another tab has the pen.</strong> What is typed there shows here as it is saved. Type here, and
      the pen comes along; nothing typed there is lost.
    </Strip>
  );
}
