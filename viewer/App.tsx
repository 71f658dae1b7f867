import { lazy, Suspense } from 'preact/compat';
import { type Bench, BenchProvider, type SheetName, sheetsOf } from './bench/bench.ts';
import { DropFrame } from './donor/DropFrame.tsx';
import { useDrawer } from './drawer/drawer.ts';
import { MeasureSheet } from './sheets/measure/MeasureSheet.tsx';
import { SheetGuard } from './start/SheetGuard.tsx';
import { WaitChip } from './start/strips/SpineStrip.tsx';
import { Strips } from './start/strips/Strips.tsx';
import { Tools } from './start/Tools.tsx';
import { TitleBlock } from './title/TitleBlock.tsx';
import { VerdictLine } from './verdict/VerdictLine.tsx';
import { VerdictStrip } from './verdict/VerdictStrip.tsx';

// What the first look does not need comes when it is asked for.
const later = {
  model: lazy(() => import('./donor/ModelSheet.tsx')),
  fit: lazy(() => import('./sheets/fit/FitSheet.tsx')),
  print: lazy(() => import('./sheets/print/PrintSheet.tsx')),
  try: lazy(() => import('./sheets/try/TrySheet.tsx')),
} as const;
const DrawerPanel = lazy(() => import('./drawer/DrawerPanel.tsx'));
const SolidView = lazy(() => import('./solid/SolidView.tsx'));

const names: Readonly<Record<SheetName, string>> = {
  model: 'Model',
  measure: 'Measure',
  fit: 'Fit',
  print: 'Print',
  try: 'Try',
};

/** The page: one sheet of the job at a time, the part beside it, the verdict always one line away. */
export function App({ bench }: { readonly bench: Bench }) {
  const sheet = bench.sheet.value;
  const { isOut } = useDrawer();
  const Sheet = sheet === 'measure' ? MeasureSheet : later[sheet];
  return (
    <BenchProvider value={bench}>
      <header class="sheets">
        <nav aria-label="Sheets">
          <ol>
            {sheetsOf(bench.job.value).map((name, k) => (
              <li key={name}>
                <button
                  type="button"
                  aria-current={name === sheet ? 'page' : undefined}
                  onClick={() => {
                    bench.sheet.value = name;
                  }}
                >
                  <span class="number">{k + 1}</span> {names[name]}
                </button>
              </li>
            ))}
          </ol>
        </nav>
        <Tools />
      </header>
      {isOut.value && (
        <SheetGuard name="The drawer">
          <Suspense fallback={null}>
            <DrawerPanel />
          </Suspense>
        </SheetGuard>
      )}
      <Strips />
      <VerdictLine />
      <main class={sheet === 'model' ? 'paper model' : 'paper'} key={bench.laid.value}>
        <section class="sheet" aria-label={names[sheet]}>
          <SheetGuard key={sheet} name={`The sheet ${names[sheet]}`}>
            <Suspense fallback={<p class="waiting">unrolling the sheet ...</p>}>
              <Sheet />
            </Suspense>
          </SheetGuard>
        </section>
        <section class="solid" aria-label="The part in the machine">
          <SheetGuard name="The picture">
            <Suspense fallback={<p class="waiting">the picture comes ...</p>}>
              <SolidView />
            </Suspense>
          </SheetGuard>
        </section>
        <VerdictStrip />
        <TitleBlock />
      </main>
      <WaitChip />
      <DropFrame />
    </BenchProvider>
  );
}
