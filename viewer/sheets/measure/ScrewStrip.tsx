import { useSignal } from '@preact/signals';
import { lazy, Suspense } from 'preact/compat';

// Needed seldom, with tables of its own.
const ScrewForm = lazy(() => import('./ScrewForm.tsx'));

/** What an odd screw is, by its diameter and pitch. One line until it is opened; part of no job. */
export function ScrewStrip() {
  const isOpen = useSignal(false);
  return (
    <details
      class="strip screw"
      open={isOpen.value}
      onToggle={({ currentTarget: { open } }) => {
        isOpen.value = open;
      }}
    >
      <summary>
        <b>Screw in hand</b> <span class="brief">what thread it has, by callipers</span>
      </summary>
      {isOpen.value && (
        <Suspense fallback={<p>looking for the tables ...</p>}>
          <ScrewForm />
        </Suspense>
      )}
    </details>
  );
}
