import type { NextAfterInspection } from '../../../src/job/inspection/nextAfterInspection.ts';
import type { PrintFacts } from '../../../src/job/inspection/printFacts.ts';
import { leadTo } from '../../verdict/leadTo.ts';
import { focusReading } from '../measure/focusReading.ts';
import { feltHeading } from './FeltForm.tsx';
import type { TryDesk } from './tryDesk.ts';
import { listed, stepWords } from './tryWords.ts';

/** What to do next with the print, each step with the button that does it or leads there. */
export function NextSteps({ desk, facts }: { readonly desk: TryDesk; readonly facts: PrintFacts }) {
  const names = new Map(facts.readings.map(({ id, name }) => [id, name]));
  const nameOf = (id: string) => names.get(id) ?? id;
  return (
    <ul class="next-steps" aria-label="Next">
      {facts.next.map((step) => {
        const { words, deed } = stepWords(step, nameOf, facts.sizes);
        return (
          <li key={words} class="step">
            <span>{words}</span>
            <button type="button" onClick={() => take(step, desk, facts, nameOf)}>
              {deed}
            </button>
          </li>
        );
      })}
    </ul>
  );
}

function take(
  step: NextAfterInspection,
  desk: TryDesk,
  facts: PrintFacts,
  nameOf: (id: string) => string,
): void {
  switch (step.kind) {
    case 'read':
    case 'rest':
      focusReading(facts.unread[0] ?? facts.readings[0]?.id ?? '');
      break;
    case 'again':
    case 'filed':
      focusReading(step.ids[0] ?? '');
      break;
    case 'rework':
      desk.noteFiled(step.ids, listed(step.ids.map(nameOf)));
      focusReading(step.ids[0] ?? '');
      break;
    case 'measure':
      desk.bench.sheet.value = 'measure';
      break;
    case 'closer':
      if (step.of === 'print') focusReading(step.id);
      else leadTo(desk.bench, `readings.${step.id}`);
      break;
    case 'record':
      void desk.putOnRecord();
      break;
    case 'try':
      document.getElementById(feltHeading)?.focus();
      break;
  }
}
