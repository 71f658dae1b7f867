import { useDrawer } from '../../drawer/drawer.ts';
import { newer, takeNewer } from '../offline.ts';
import { Strip } from '../Strip.tsx';

/** Says that a newer Fettle lies ready; no hurry. */
export function UpdateStrip() {
  const { keeper } = useDrawer();
  if (!newer.value) return null;
  return (
    <Strip
      kind="note"
      name="Newer Fettle"
      deeds={
        <button type="button" onClick={() => void keeper.flush().then(takeNewer)}>
          reload
        </button>
      }
    >
      A newer Fettle is here: reload when it suits.
    </Strip>
  );
}
