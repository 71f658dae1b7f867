import { clearanceHolesFor } from '../../standards/clearanceHoles.ts';
import type { ScrewIdentity, ScrewMatch } from '../../standards/threads/identifyScrew.ts';
import { formatNumber } from '../../units/index.ts';
import { columns, type Looks, wrapped } from '../terminal.ts';
import { percent } from '../verdict.ts';
import type { ReadScrew } from './readScrew.ts';
import { tellingSentence } from './tellingSentence.ts';

/** Candidates less likely than this are counted, not shown, unless they are among the first ones. */
const SHOWN = { from: 0.01, least: 2, most: 8 } as const;

/** Threads ruled out that are named: the nearest. */
const NAMED_OUT = 3;

/** Agreement below which the best thread is called in doubt: one screw in twenty reads so. Common practice, no source. */
const DOUBTFUL = 0.05;

/** Threads to measure over, and how few leave the pitch in doubt. */
const ENOUGH_THREADS = 5;

/** What kind of screw it is, for a person at the bench, line by line. */
export function screwLines(screw: ReadScrew, identity: ScrewIdentity, looks: Looks): readonly string[] {
  return [
    title(screw, looks),
    ...answer(screw, identity, looks),
    ...table(identity),
    ...ruledOut(identity, looks),
    ...telling(identity, looks),
    ...holes(identity, looks),
  ];
}

function title({ diameter, pitch, threads }: ReadScrew, { paint }: Looks): string {
  const across = `${formatNumber(diameter.value, diameter.u)} mm across`;
  const told =
    pitch === undefined
      ? 'pitch not read'
      : `pitch ${formatNumber(pitch.value, pitch.u)} mm, over ${threads} thread${threads === 1 ? '' : 's'}`;
  return `${paint.bold('Screw')} - ${across}, ${told}`;
}

function answer(
  screw: ReadScrew,
  { candidates, none }: ScrewIdentity,
  { paint, width }: Looks,
): readonly string[] {
  const [best] = candidates;
  if (best === undefined) {
    const again = screw.pitch === undefined ? 'read it again' : 'read both again, the pitch over ten threads';
    return hanging(
      '  ',
      `${paint.red('X')} no thread here agrees: ${again}; worn, plated or of a kind not in the tables it may be`,
      width,
    );
  }
  const lines = [`  most likely  ${paint.bold(best.thread.designation)}  ${percent(best.likely)}`];
  const doubt = best.agreement < DOUBTFUL ? `agrees badly: ${off(best).join(', ')}` : '';
  if (doubt !== '')
    lines.push(...hanging('  ', `/!\\ ${doubt}; none of the known ones ${percent(none)}`, width));
  const wanting = screw.pitch === undefined || (screw.threads < ENOUGH_THREADS && best.likely < 0.95);
  if (wanting) lines.push('  next: measure over ten threads and say --threads 10 --over LENGTH');
  return lines;
}

function table({ candidates, none }: ScrewIdentity): readonly string[] {
  const shown = candidates
    .filter(({ likely }, k) => k < SHOWN.least || likely >= SHOWN.from)
    .slice(0, SHOWN.most);
  if (shown.length === 0) return [];
  const rest = candidates.slice(shown.length).reduce((sum, { likely }) => sum + likely, 0);
  const lines = columns([
    ['thread', 'may be across', 'pitch', 'read', 'likely'],
    ...shown.map((match) => {
      const { designation, outside, pitch } = match.thread;
      const { lo, hi } = outside.any;
      return [
        designation,
        `${formatNumber(lo)} .. ${formatNumber(hi)}`,
        pitch.toFixed(3),
        off(match).join(', ') || 'agrees',
        percent(match.likely),
      ];
    }),
    ...(candidates.length > shown.length
      ? [[`${candidates.length - shown.length} more`, '', '', '', percent(rest)]]
      : []),
    ['none of these', '', '', '', percent(none)],
  ]);
  return lines.map((line) => `  ${line}`);
}

/** Pitch that is this far off, mm, is worth a word. */
const PITCH_WORTH = 0.005;

/** Pitches that are the same to a hasty look, mm. */
const PITCH_NEAR = 0.02;

/** What is off, in words; nothing when both agree. */
function off({ diameterOff, pitchOff }: ScrewMatch): readonly string[] {
  const words: string[] = [];
  if (Math.abs(diameterOff) >= PITCH_WORTH)
    words.push(`${formatNumber(Math.abs(diameterOff))} mm too ${diameterOff > 0 ? 'thick' : 'thin'}`);
  if (pitchOff !== null && Math.abs(pitchOff) >= PITCH_WORTH)
    words.push(`pitch ${Math.abs(pitchOff).toFixed(3)} mm too ${pitchOff > 0 ? 'long' : 'short'}`);
  return words;
}

function ruledOut({ ruledOut, candidates }: ScrewIdentity, { width }: Looks): readonly string[] {
  if (candidates.length === 0) return suspects(ruledOut, width);
  const named = ruledOut
    .slice(0, NAMED_OUT)
    .map((match) => `${match.thread.designation} (${off(match).join(', ')})`);
  return named.length === 0 ? [] : hanging('  ', `ruled out  ${named.join('; ')}`, width, 13);
}

/** Where no thread agrees one of the two readings is likely wrong: what the other would say alone. */
function suspects(ruledOut: readonly ScrewMatch[], width: number): readonly string[] {
  const named = (matches: readonly ScrewMatch[]): string =>
    matches
      .slice(0, NAMED_OUT)
      .map(({ thread }) => thread.designation)
      .join(', ') || 'none';
  const across = ruledOut
    .filter(({ diameterOff }) => diameterOff === 0)
    .toSorted((a, b) => Math.abs(a.pitchOff ?? 0) - Math.abs(b.pitchOff ?? 0));
  const pitched = ruledOut
    .filter(({ pitchOff }) => pitchOff !== null && Math.abs(pitchOff) < PITCH_NEAR)
    .toSorted((a, b) => Math.abs(a.diameterOff) - Math.abs(b.diameterOff));
  const words = [`by its diameter alone ${named(across)}`];
  if (ruledOut[0]?.pitchOff !== null) words.push(`by its pitch alone ${named(pitched)}`);
  return hanging('  ', words.join('; '), width, 4);
}

function telling({ tests }: ScrewIdentity, { width }: Looks): readonly string[] {
  const lines: string[] = [];
  const pairs = new Set(tests.map(({ between }) => between.join('\n')));
  for (const pair of pairs) {
    const [own, other] = pair.split('\n');
    const said = tests.filter(({ between }) => between.join('\n') === pair).map(tellingSentence);
    lines.push(...hanging('  ', `if ${own}, not ${other}: ${said.join('; ')}`, width, 4));
  }
  return lines;
}

function holes({ candidates }: ScrewIdentity, { width }: Looks): readonly string[] {
  const [best] = candidates;
  if (best === undefined) return [];
  const { designation, nominal } = best.thread;
  const { fine, medium, coarse, source } = clearanceHolesFor(nominal);
  const sizes = `${formatNumber(fine)} fine, ${formatNumber(medium)} medium, ${formatNumber(coarse)} coarse`;
  return hanging('  ', `hole that ${designation} passes, mm: ${sizes} (${source})`, width, 4);
}

/** A paragraph with the lines after the first set in further. */
function hanging(first: string, text: string, width: number, further = 6): readonly string[] {
  return wrapped(text, width - further).map((line, k) => `${k === 0 ? first : ' '.repeat(further)}${line}`);
}
