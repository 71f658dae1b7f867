import { feltWord, feltWords } from '../../job/inspection/feltWord.ts';
import type { Meeting } from '../../job/inspection/meetings.ts';
import { meetingsNamed } from '../../job/inspection/meetingsNamed.ts';
import { Refused } from '../../job/problem.ts';
import type { TrialSaid } from '../../job/trial/trialSaid.ts';
import type { FeltWord, TrialRecord } from '../../job/trialSchema.ts';
import type { Asker } from '../measure/askLines.ts';
import { type Looks, wrapped } from '../terminal.ts';

interface TrialSession {
  readonly asker: Pick<Asker, 'ask'>;
  readonly looks: Looks;
  readonly say: (line: string) => void;
  readonly ring: () => void;
}

const INDENT = '      ';

/** Asks how each meeting surface felt, what was filed before, what broke, and for a note: one line each, Enter for nothing.
 *  Nothing is written meanwhile. Lines that end early leave the rest unsaid; undefined when somebody types "stop". */
export async function askTrial(
  meetings: readonly Meeting[],
  record: TrialRecord,
  session: TrialSession,
): Promise<TrialSaid | undefined> {
  const { asker, looks, say } = session;
  const tell = (text: string, mark = INDENT) =>
    wrapped(text, looks.width - INDENT.length).forEach((line, k) => {
      say((k === 0 ? mark : INDENT) + line);
    });
  for (const line of wrapped(
    'How did each feel on the machine? A word or its first letter, then Enter; Enter alone: not tried. back: the one before. stop: leaves everything as it was.',
    looks.width,
  ))
    say(line);

  const felt: Record<string, FeltWord> = {};
  let ended = false;
  let k = 0;
  while (k < meetings.length && !ended) {
    const { id, name, one } = meetings[k]!;
    const words = feltWords(one.kind);
    const known = record.felt?.[id];
    if (known !== undefined) {
      k++;
      continue;
    }
    say('');
    say(`${looks.paint.dim(`${k + 1} of ${meetings.length}`)}  ${looks.paint.bold(name.toUpperCase())}`);
    const line = await asker.ask(`${INDENT}${words.join(', ')} > `);
    const text = line?.trim().toLowerCase();
    if (text === undefined) ended = true;
    else if (text === 'stop') return undefined;
    else if (text === 'back') k = Math.max(0, k - 1);
    else if (text === '') {
      delete felt[id];
      k++;
    } else {
      const word = feltWord(text, one.kind);
      if (word === undefined) {
        tell(`"${text.slice(0, 40)}" is none of ${words.join(', ')}`, looks.paint.red('   X  '));
        session.ring();
      } else {
        felt[id] = word;
        k++;
      }
    }
  }
  const reworked: string[] = [];
  const ask = async (prompt: string): Promise<string> => {
    if (ended) return '';
    const line = await asker.ask(`${INDENT}${prompt} > `);
    if (line === null) ended = true;
    return line?.trim() ?? '';
  };
  if (!ended) say('');
  if (Object.keys(felt).length > 0) {
    for (let asked = false; !asked && !ended; ) {
      const text = await ask('filed or drilled before (names)');
      const names = text.split(/[,;]/).filter((name) => name.trim() !== '');
      try {
        reworked.push(...names.flatMap((name) => meetingsNamed(name, meetings, '')));
        asked = true;
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        const [problem] = error.problems;
        tell(
          `"${problem!.value}" ${problem!.reason}; allowed: ${problem!.allowed}`,
          looks.paint.red('   X  '),
        );
        session.ring();
      }
    }
  }
  const broken = (await ask('anything broken, in your words')).slice(0, 200);
  const note = (await ask('note')).slice(0, 2000);
  return {
    ...{ felt, reworked: [...new Set(reworked)], taken: [] },
    broken: broken === '' ? [] : [broken],
    note: note === '' ? undefined : note,
  };
}
