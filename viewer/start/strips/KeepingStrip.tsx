import { useDrawer } from '../../drawer/drawer.ts';
import { Strip } from '../Strip.tsx';

const why = {
  'no storage': 'This browser keeps nothing for the page',
  full: 'The storage of this browser is full',
  fault: 'The storage of this browser does not work',
} as const;

/** Says plainly that nothing is kept, and what to do then. */
export function KeepingStrip() {
  const drawer = useDrawer();
  const keeping = drawer.keeper.keeping.value;
  if (keeping.kind !== 'unkept') return null;
  return (
    <Strip
      kind="mind"
      name="Keeping"
      deeds={
        <>
          <button type="button" onClick={() => drawer.exportJob(drawer.bench.job.peek())}>
            take the job away as a file
          </button>
          {keeping.because !== 'no storage' && (
            <button type="button" onClick={() => void drawer.keeper.flush()}>
              try again
            </button>
          )}
        </>
      }
    >
      <strong>Nothing is kept.</strong> {why[keeping.because]}
      {keeping.said ? ` (${keeping.said.replace(/[.\s]+$/, '')})` : ''}. All works on; what is typed is gone
      when the page closes.
      {keeping.because === 'full' ? ' Room comes when other pages keep less.' : ''}
    </Strip>
  );
}
