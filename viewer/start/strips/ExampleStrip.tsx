import { useDrawer } from '../../drawer/drawer.ts';
import { emptied, isExample } from '../../drawer/emptied.ts';
import { exampleJob } from '../exampleJob.ts';
import { Strip } from '../Strip.tsx';

/** Says that this is an example, and empties it in one click. */
export function ExampleStrip() {
  const drawer = useDrawer();
  if (!isExample(drawer.bench.job.value, exampleJob)) return null;
  return (
    <Strip
      kind="note"
      name="Example"
      deeds={
        <>
          <button type="button" onClick={() => drawer.bench.change('emptied', emptied)}>
            empty it
          </button>
          <button
            type="button"
            onClick={() => {
              drawer.isOut.value = true;
            }}
          >
            another part
          </button>
        </>
      }
    >
      <strong>An example,</strong> finished. Type over any number and see what comes of it, or empty it for
      your own machine.
    </Strip>
  );
}
