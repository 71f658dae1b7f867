import { percent } from '../../output/words/index.ts';
import { clearanceHolesFor } from '../../standards/clearanceHoles.ts';
import type { ScrewIdentity, ScrewMatch } from '../../standards/threads/identifyScrew.ts';
import { formatNumber } from '../../units/index.ts';
import type { ReadScrew } from './readScrew.ts';
import { tellingSentence } from './tellingSentence.ts';

/** One row of the table of threads a screw may have. */
export interface ThreadRow {
  readonly designation: string;
  /** Outside diameter its standard permits, pitch, mm. */
  readonly across: string;
  readonly pitch: string;
  /** What is off, or that it agrees. */
  readonly read: string;
  readonly likely: string;
}

/** What kind of screw it is, in words for terminal and page. */
export interface ScrewTold {
  /** What was read: "4.920 mm across, pitch 0.800 mm, over 10 threads". */
  readonly read: string;
  /** The likeliest thread; null where none agrees. */
  readonly likeliest: { readonly designation: string; readonly likely: string } | null;
  /** Why not to trust the likeliest, or why there is none; empty where all is well. */
  readonly doubt: string;
  /** Whether a pitch over ten threads would tell more. */
  readonly wantsPitch: boolean;
  readonly rows: readonly ThreadRow[];
  /** Threads that agree and have no row, all together. */
  readonly more: { readonly count: number; readonly likely: string } | null;
  /** How likely it is none of them. */
  readonly none: string;
  /** Threads that do not agree, the nearest; where none agrees what either reading would say alone. Empty for nothing. */
  readonly ruledOut: string;
  /** How to tell the likeliest from each rival, no full stop. */
  readonly telling: readonly string[];
  /** The holes it passes, no full stop; empty where no thread agrees. */
  readonly holes: string;
}

/** Candidates less likely than this are counted, not shown, unless they are among the first ones. */
const SHOWN = { from: 0.01, least: 2, most: 8 } as const;

/** Threads ruled out that are named: the nearest. */
const NAMED_OUT = 3;

/** Agreement below which the best thread is called in doubt: one screw in twenty reads so. Common practice, no source. */
const DOUBTFUL = 0.05;

/** Threads to measure over, and how few leave the pitch in doubt. */
const ENOUGH_THREADS = 5;

/** Pitch that is this far off, mm, is worth a word. */
const PITCH_WORTH = 0.005;

/** Pitches that are the same to a hasty look, mm. */
const PITCH_NEAR = 0.02;

/** Says what a screw is by its readings and what the tables made of them. */
export function screwTold(screw: ReadScrew, identity: ScrewIdentity): ScrewTold {
  const { candidates, none } = identity;
  const [best] = candidates;
  const shown = candidates
    .filter(({ likely }, k) => k < SHOWN.least || likely >= SHOWN.from)
    .slice(0, SHOWN.most);
  const rest = candidates.slice(shown.length);
  return {
    read: readWords(screw),
    likeliest: best ? { designation: best.thread.designation, likely: percent(best.likely) } : null,
    doubt: doubtWords(screw, identity),
    wantsPitch:
      best !== undefined &&
      (screw.pitch === undefined || (screw.threads < ENOUGH_THREADS && best.likely < 0.95)),
    rows: shown.map(threadRow),
    more:
      rest.length > 0
        ? { count: rest.length, likely: percent(rest.reduce((sum, { likely }) => sum + likely, 0)) }
        : null,
    none: percent(none),
    ruledOut: best ? nearestOut(identity.ruledOut) : suspects(identity.ruledOut),
    telling: tellingWords(identity),
    holes: best ? holesWords(best) : '',
  };
}

function readWords({ diameter, pitch, threads }: ReadScrew): string {
  const across = `${formatNumber(diameter.value, diameter.u)} mm across`;
  const told =
    pitch === undefined
      ? 'pitch not read'
      : `pitch ${formatNumber(pitch.value, pitch.u)} mm, over ${threads} thread${threads === 1 ? '' : 's'}`;
  return `${across}, ${told}`;
}

function doubtWords({ pitch }: ReadScrew, { candidates: [best], none }: ScrewIdentity): string {
  if (best === undefined) {
    const again = pitch === undefined ? 'read it again' : 'read both again, the pitch over ten threads';
    return `no thread here agrees: ${again}; worn, plated or of a kind not in the tables it may be`;
  }
  return best.agreement < DOUBTFUL
    ? `agrees badly: ${off(best).join(', ')}; none of the known ones ${percent(none)}`
    : '';
}

function threadRow(match: ScrewMatch): ThreadRow {
  const { designation, outside, pitch } = match.thread;
  const { lo, hi } = outside.any;
  return {
    designation,
    across: `${formatNumber(lo)} .. ${formatNumber(hi)}`,
    pitch: pitch.toFixed(3),
    read: off(match).join(', ') || 'agrees',
    likely: percent(match.likely),
  };
}

/** What is off, in words; nothing when both agree. */
function off({ diameterOff, pitchOff }: ScrewMatch): readonly string[] {
  const words: string[] = [];
  if (Math.abs(diameterOff) >= PITCH_WORTH)
    words.push(`${formatNumber(Math.abs(diameterOff))} mm too ${diameterOff > 0 ? 'thick' : 'thin'}`);
  if (pitchOff !== null && Math.abs(pitchOff) >= PITCH_WORTH)
    words.push(`pitch ${Math.abs(pitchOff).toFixed(3)} mm too ${pitchOff > 0 ? 'long' : 'short'}`);
  return words;
}

const nearestOut = (ruledOut: readonly ScrewMatch[]): string =>
  ruledOut
    .slice(0, NAMED_OUT)
    .map((match) => `${match.thread.designation} (${off(match).join(', ')})`)
    .join('; ');

/** Where no thread agrees one of the two readings is likely wrong: what the other would say alone. */
function suspects(ruledOut: readonly ScrewMatch[]): string {
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
  return words.join('; ');
}

function tellingWords({ tests }: ScrewIdentity): readonly string[] {
  const pairs = new Set(tests.map(({ between }) => between.join('\n')));
  return [...pairs].map((pair) => {
    const [own, other] = pair.split('\n');
    const said = tests.filter(({ between }) => between.join('\n') === pair).map(tellingSentence);
    return `if ${own}, not ${other}: ${said.join('; ')}`;
  });
}

function holesWords({ thread: { designation, nominal } }: ScrewMatch): string {
  const { fine, medium, coarse, source } = clearanceHolesFor(nominal);
  const sizes = `${formatNumber(fine)} fine, ${formatNumber(medium)} medium, ${formatNumber(coarse)} coarse`;
  return `hole that ${designation} passes, mm: ${sizes} (${source})`;
}
