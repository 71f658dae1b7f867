import type { Finding } from '../../src/check/finding.ts';
import { grave, numbered } from '../../src/output/report/numbered.ts';
import { useBench } from '../bench/bench.ts';
import { FindingNote } from './FindingNote.tsx';
import { Mark } from './Mark.tsx';

/** Every finding, the gravest first; those that hold are folded under one line. */
export function Findings({ findings }: { readonly findings: readonly Finding[] }) {
  const { balloon } = useBench();
  const all = numbered(findings);
  const holding = all.filter(({ verdict }) => verdict === 'holds');
  const looked = grave(all);
  return (
    <div class="findings">
      <h3>Findings</h3>
      {looked.length > 0 && (
        <ol class="notes">
          {looked.map((finding) => (
            <FindingNote key={finding.id} finding={finding} />
          ))}
        </ol>
      )}
      {holding.length > 0 && (
        <details open={holding.some(({ number }) => number === balloon.value)}>
          <summary>
            <Mark verdict="holds" /> {holding.length === 1 ? 'one holds' : `${holding.length} hold`}
          </summary>
          <ol class="notes">
            {holding.map((finding) => (
              <FindingNote key={finding.id} finding={finding} />
            ))}
          </ol>
        </details>
      )}
    </div>
  );
}
