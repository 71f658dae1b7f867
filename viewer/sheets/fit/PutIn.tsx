import type { Finding } from '../../../src/check/finding.ts';
import type { MakeResult } from '../../../src/job/result.ts';
import { numbered } from '../../../src/output/report/numbered.ts';
import { measured, sentence } from '../../../src/output/words/index.ts';
import { Balloon } from '../../verdict/Balloon.tsx';
import { Mark } from '../../verdict/Mark.tsx';

interface PutInProps {
  readonly assembly: NonNullable<MakeResult['assembly']>;
  readonly findings: readonly Finding[];
}

/** The order of putting the part in, step by step, and what it asks of part and machine. */
export function PutIn({ assembly, findings }: PutInProps) {
  const asked = numbered(findings).filter(
    ({ id }) => /(^|\.)(push|pull|strain|route)[.]/.test(id) && !/\.drawn$/.test(id),
  );
  return (
    <section class="put-in">
      <h2>Putting it in: {assembly.name}</h2>
      <ol class="steps">
        {assembly.steps.map((step) => (
          <li key={step}>{sentence(step)}</li>
        ))}
      </ol>
      {asked.length > 0 && (
        <ul class="asked-of">
          {asked.map((finding) => (
            <li key={finding.id}>
              <Balloon number={finding.number} about={finding.title} />
              <span>
                <Mark verdict={finding.verdict} said /> {finding.title} {measured(finding)}
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
