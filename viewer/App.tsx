import { lazy, Suspense } from 'preact/compat';
import { type Bench, BenchProvider, type SheetName, sheets } from './bench/bench.ts';
import { MeasureSheet } from './sheets/measure/MeasureSheet.tsx';
import { TitleBlock } from './title/TitleBlock.tsx';
import { VerdictStrip } from './verdict/VerdictStrip.tsx';

// What the first look does not need comes when it is asked for.
const later = {
  fit: lazy(() => import('./sheets/fit/FitSheet.tsx')),
  print: lazy(() => import('./sheets/print/PrintSheet.tsx')),
  try: lazy(() => import('./sheets/try/TrySheet.tsx')),
} as const;
const SolidView = lazy(() => import('./solid/SolidView.tsx'));

const names: Readonly<Record<SheetName, string>> = {
  measure: 'Measure',
  fit: 'Fit',
  print: 'Print',
  try: 'Try',
};

/** The page: one sheet of the job at a time, the part beside it, the verdict always one line away. */
export function App({ bench }: { readonly bench: Bench }) {
  const sheet = bench.sheet.value;
  const Sheet = sheet === 'measure' ? MeasureSheet : later[sheet];
  return (
    <BenchProvider value={bench}>
      <header class="sheets">
        <nav aria-label="Sheets">
          <ol>
            {sheets.map((name, k) => (
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
      </header>
      <main class={`paper ${sheet}`}>
        <Suspense fallback={<p class="waiting">unrolling the sheet ...</p>}>
          <section class="sheet" aria-label={names[sheet]}>
            <Sheet />
          </section>
        </Suspense>
        <section class="solid" aria-label="The part in the machine">
          <Suspense fallback={<p class="waiting">the picture comes ...</p>}>
            <SolidView />
          </Suspense>
        </section>
        <VerdictStrip />
        <TitleBlock />
      </main>
    </BenchProvider>
  );
}
