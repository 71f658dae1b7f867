import type { Finding } from '../../src/check/finding.ts';
import type { Numbered } from '../../src/output/report/numbered.ts';
import { measured, sentence } from '../../src/output/words/index.ts';
import { useBench } from '../bench/bench.ts';
import { Balloon } from './Balloon.tsx';
import { Mark } from './Mark.tsx';
import { unbroken } from './unbroken.ts';

/** One finding in full: number, what was found against what is allowed, why, what puts it right, and whose rule it is. */
export function FindingNote({ finding }: { readonly finding: Numbered<Finding> }) {
  const { number, verdict, title, because, source, remedy } = finding;
  const { balloon } = useBench();
  return (
    <li id={`finding-${number}`} class={`note ${verdict}${balloon.value === number ? ' picked' : ''}`}>
      <Balloon number={number} about={title} />
      <div>
        <p class="found">
          <Mark verdict={verdict} said /> <b>{title}</b>{' '}
          <span class="figure">{unbroken(measured(finding))}</span>
        </p>
        <p>{unbroken(sentence(because))}</p>
        {remedy !== '' && (
          <p class="remedy">
            <b>Do:</b> {unbroken(sentence(remedy))}
          </p>
        )}
        <p class="source">{source}</p>
      </div>
    </li>
  );
}
