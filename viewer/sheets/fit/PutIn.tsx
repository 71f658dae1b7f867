import type { Finding } from '../../../src/check/finding.ts';
import type { MakeResult } from '../../../src/job/result.ts';
import { measured, sentence } from '../../../src/output/words/index.ts';
import { Balloon } from '../../verdict/Balloon.tsx';
import { Mark } from '../../verdict/Mark.tsx';
import { unbroken } from '../../verdict/unbroken.ts';
import { assemblyFindings } from './assemblyFindings.ts';

interface PutInProps {
  readonly assembly: NonNullable<MakeResult['assembly']>;
  readonly findings: readonly Finding[];
}

/** The order of putting the part in, step by step, what it asks of part and machine, and which other ways there are. */
export function PutIn({ assembly, findings }: PutInProps) {
  const { asked, others } = assemblyFindings(findings, assembly.id);
  return (
    <section class="put-in">
      <h2>Putting it in: {assembly.name}</h2>
      <ol class="steps">
        {assembly.steps.map((step) => (
          <li key={step}>{sentence(step)}</li>
        ))}
      </ol>
      <AskedOf title="What it asks of part and machine" findings={asked} />
      <AskedOf title="Other ways" findings={others} />
    </section>
  );
}

function AskedOf(props: {
  readonly title: string;
  readonly findings: ReturnType<typeof assemblyFindings>['asked'];
}) {
  if (props.findings.length === 0) return null;
  return (
    <>
      <h3>{props.title}</h3>
      <ul class="asked-of">
        {props.findings.map((finding) => (
          <li key={finding.id}>
            <Balloon number={finding.number} about={finding.title} />
            <span>
              <Mark verdict={finding.verdict} said /> {finding.title} <b>{unbroken(measured(finding))}</b>
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}
