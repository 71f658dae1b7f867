import { useSignal } from '@preact/signals';
import type { Problem } from '../../../src/job/problem.ts';
import { sentence } from '../../../src/output/words/index.ts';
import { FileButton } from '../../drawer/FileButton.tsx';
import { problemWords } from '../../verdict/problemWords.ts';
import type { TryDesk } from './tryDesk.ts';

/** Problems shown of a file; a table in the wrong place has hundreds. */
const SHOWN = 8;

/** Takes the readings of the print from a file: one row a place, one cell a reading. */
export function PrintFile({ desk }: { readonly desk: TryDesk }) {
  const problems = useSignal<readonly Problem[]>([]);
  if (!desk.print.facts.value) return null;
  return (
    <>
      <p class="deeds">
        <FileButton
          accept=".csv,.tsv,.txt,.json"
          take={async ([file]) => {
            if (file) problems.value = await desk.takeFile(file);
          }}
        >
          readings from a file
        </FileButton>
        <span class="tip">a row a place: its name in the job, then what the callipers showed</span>
      </p>
      {problems.value.length > 0 && (
        <ul class="refusals" role="alert">
          {problems.value.slice(0, SHOWN).map((problem) => (
            <li key={`${problem.field} ${problem.value}`}>{fileWords(problem)}</li>
          ))}
          {problems.value.length > SHOWN && (
            <li>and {problems.value.length - SHOWN} more; nothing was taken</li>
          )}
        </ul>
      )}
    </>
  );
}

/** Where in the file, what, and what is allowed. */
function fileWords(problem: Problem): string {
  const { what, wanted } = problemWords(problem);
  const where = problem.field === '' ? 'the file' : problem.field;
  return sentence(`${where}: ${what}; allowed: ${wanted}`);
}
