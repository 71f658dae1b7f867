import { parameterLabel } from '../printer/parameterLabel.ts';
import { knownOf } from '../printer/parameters.ts';
import { PARAMETERS } from '../printer/types.ts';
import { formatNumber } from '../units/index.ts';
import type { LadderLesson } from './ladderLesson.ts';

/** What a lesson came from. */
type Teacher = 'ladder' | 'print';

/** Changes of a parameter below this part of its doubt are not worth a line. */
const WORTH_SAYING = 0.05;

/** What a printer profile learnt from a ladder or a print, or why nothing, as one line; null: the job has no profile of its
 *  own. */
export function lessonText(lesson: LadderLesson | null, teacher: Teacher): string {
  if (lesson === null) return 'this job names no printer profile, so nothing but this part learns from it';
  if (!lesson.learnt) return unlearnt[lesson.because](teacher);
  const { before, after } = lesson;
  const changes = PARAMETERS.flatMap((parameter) => {
    const [was, now] = [knownOf(before, parameter), knownOf(after, parameter)];
    if (Math.abs(now.value - was.value) <= WORTH_SAYING * was.u) return [];
    const label = parameterLabel[parameter].replace(/^printer, /, '');
    const [from, to] = [formatNumber(was.value, was.u), formatNumber(now.value, now.u)];
    return from === to ? [] : [`${label} ${from} -> ${to}`];
  });
  return `${after.name} has learnt: ${changes.length === 0 ? 'it is as it was thought to be, and better known' : changes.join(', ')}`;
}

const unlearnt = {
  'another-printer': (teacher: Teacher) =>
    `the ${teacher} was drawn for another printer, material or layer height, so the profile stays as it is`,
  'says-nothing': (teacher: Teacher) =>
    `the ${teacher === 'ladder' ? 'verdict' : 'print'} says nothing about the printer, so the profile stays as it is`,
  'changed-since': (teacher: Teacher) =>
    teacher === 'ladder'
      ? 'the profile has learnt from an earlier verdict on this ladder and has changed since, so it stays as it is'
      : 'the profile has learnt from this print before and has changed since, so it stays as it is',
  'out-of-range': () =>
    'what follows for the printer is beyond what a printer does, so the profile stays as it is',
} as const;
