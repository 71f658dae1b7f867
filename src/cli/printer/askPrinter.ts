import { type Question, questions, type Told } from '../../job/printerQuestions.ts';
import type { Asker } from '../measure/askLines.ts';
import type { Looks } from '../terminal.ts';

interface Interview {
  readonly asker: Pick<Asker, 'ask'>;
  readonly looks: Looks;
  readonly say: (line: string) => void;
}

/** Asks what has not been told yet. Enter alone, or the end of the lines, takes the usual answer in brackets. */
export async function askPrinter(told: Partial<Told>, interview: Interview): Promise<Told> {
  const answers: Record<string, unknown> = { ...told };
  for (const [key, question] of Object.entries(questions) as [keyof Told, Question<unknown>][])
    if (answers[key] === undefined) answers[key] = await answer(question, interview);
  return answers as unknown as Told;
}

async function answer<T>(question: Question<T>, { asker, looks, say }: Interview): Promise<T> {
  say(`${looks.paint.bold(question.ask)}  ${question.hint}`);
  for (;;) {
    const line = await asker.ask(`  [${question.usual}] > `);
    const text = line === null || line.trim() === '' ? question.usual : line;
    const read = question.read(text);
    if ('value' in read) return read.value;
    say(`  ${looks.paint.red('X')} "${text.trim().slice(0, 40)}" ${read.reason}; allowed: ${read.allowed}`);
  }
}
