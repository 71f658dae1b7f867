import type { Finding } from '../../src/check/finding.ts';
import type { Problem } from '../../src/job/problem.ts';
import type { MakeResult } from '../../src/job/result.ts';
import {
  countFindings,
  duration,
  findingsHeadline,
  findingsSum,
  GOOD_CHANCE,
  percent,
  sentence,
  worstVerdict,
} from '../../src/output/words/index.ts';
import { problemWords } from './problemWords.ts';

type Told = Omit<MakeResult, 'parts' | 'dimensions' | 'print'>;

/** Which sign stands before a verdict: tick, triangle, cross; a dash where there is none yet. */
export type VerdictMark = Finding['verdict'] | 'open';

/** A step that would help, and where it is done. */
export interface NextStep {
  /** "three more readings of the socket width", no full stop. */
  readonly words: string;
  /** What it brings: "to 97 %, about 2 min"; empty where that is not known. */
  readonly brings: string;
  /** What the button says. */
  readonly deed: string;
  /** Where it leads: to a field of the job, as problems name it, or to the finding of that number. */
  readonly to: { readonly field: string } | { readonly balloon: number };
}

/** Chances from here on limit nothing. */
const AS_GOOD_AS_SURE = 0.995;
/** Causes of doubt named; the others are small and would only hide them. */
const NAMED = 2;
/** Shares below this are not worth a word. */
const WORTH_SAYING = 0.05;

/** The sign of a made part: of its gravest finding, or of a chance that is not good. */
export function markOf({ chance, findings }: Told): VerdictMark {
  const worst = worstVerdict(countFindings(findings));
  // As it is shown: a number that reads 95 % is one.
  const good = chance !== null && Math.round(100 * chance) >= 100 * GOOD_CHANCE;
  return worst === 'holds' && !good ? 'caution' : worst;
}

/** The chance as a headline: figure, and what the figure is of. */
export const chanceWords = ({ chance }: Told): { readonly figure: string; readonly words: string } =>
  chance === null
    ? { figure: '?', words: 'whether it fits is not known: nothing was measured that it meets' }
    : { figure: percent(chance), words: 'likely to fit first time' };

/** What limits the chance: the surface that is likeliest to go wrong, and what the doubt rests on. Empty where nothing does. */
export function limitWords({ chance, interfaces, shares }: Told): string {
  if (chance === null || chance >= AS_GOOD_AS_SURE) return '';
  const [tightest, second] = [...interfaces].sort((a, b) => a.chance - b.chance);
  const named = shares.filter(({ share }) => share >= WORTH_SAYING).slice(0, NAMED);
  const doubt = named.map(({ label, share }) => `${label}, ${percent(share)}`).join('; ');
  const where =
    tightest && second && tightest.chance < AS_GOOD_AS_SURE
      ? `Closest call: ${tightest.name}, ${percent(tightest.chance)}. `
      : '';
  return `${where}${doubt === '' ? '' : `Doubt comes from ${doubt}.`}`.trim();
}

/** What to do next: put right what fails; else what the chance gains most from; else what is to be looked at; else print it,
 *  or go on with the print that lies on the bench, by its number. Null where nothing at the bench would help. */
export function nextStep({ advice, findings, chance }: Told, onBench: number | null): NextStep | null {
  const failing = remedyOf(findings, 'fails');
  if (failing !== null) return failing;
  if (advice !== null) {
    const reading = /^reading:(.+)$/.exec(advice.id)?.[1];
    return {
      words: advice.sentence,
      brings: `to ${percent(advice.to)}, about ${duration(advice.minutes)}`,
      ...(reading === undefined
        ? { deed: 'to the coupon', to: { field: 'coupon' } }
        : { deed: 'read it', to: { field: `readings.${reading}` } }),
    };
  }
  const look = remedyOf(findings, 'caution');
  if (look !== null || chance === null) return look;
  return onBench === null
    ? { words: 'print it', brings: '', deed: 'to the bed', to: { field: 'bed' } }
    : { words: `read and try print ${onBench}`, brings: '', deed: 'to the print', to: { field: 'print' } };
}

/** What puts the first finding of a verdict right; null where there is none. */
function remedyOf(findings: readonly Finding[], of: 'fails' | 'caution'): NextStep | null {
  const place = findings.findIndex(({ verdict, remedy }) => verdict === of && remedy !== '');
  const words = findings[place]?.remedy;
  return words === undefined ? null : { words, brings: '', deed: 'show it', to: { balloon: place + 1 } };
}

/** What is wrong, counted. */
export function problemsHeadline(problems: readonly Problem[]): string {
  const missing = problems.filter(({ code }) => code === 'reading_missing').length;
  const count = problems.length;
  if (missing === count) return count === 1 ? 'One reading to go.' : `${count} readings to go.`;
  return count === 1 ? 'One thing to put right first.' : `${count} things to put right first.`;
}

/** The verdict as it is spoken: whether it fits, what stands against it, what to do. */
export function spokenVerdict(result: Told, onBench: number | null): string {
  const { figure, words } = chanceWords(result);
  const count = countFindings(result.findings);
  const next = nextStep(result, onBench);
  return [
    result.chance === null ? sentence(words) : `${figure} ${words}.`,
    `${findingsHeadline[worstVerdict(count)]} ${sentence(findingsSum(count))}`,
    next === null ? '' : `Next: ${next.words}${next.brings === '' ? '' : `, ${next.brings}`}.`,
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** What is spoken of a refused job: the first thing to put right, and how many more. */
export function spokenProblems(problems: readonly Problem[]): string {
  const [first] = problems;
  if (!first) return '';
  const { name, what } = problemWords(first);
  const more = problems.length - 1;
  return `Not yet. ${sentence(`${name} ${what}`)}${more > 0 ? ` And ${more} more.` : ''}`;
}
