import { effect } from '@preact/signals';
import { profileText } from '../../src/printer/profileText.ts';
import type { Drawer } from './drawer.ts';
import { lessonBetween } from './lessonBetween.ts';

/** A printer in the drawer learns with the job on the bench, and forgets with it when that is taken back or undone. Returns
 *  what ends it. */
export function followLessons(drawer: Drawer): () => void {
  const { bench } = drawer;
  let [before, laid] = [bench.job.peek(), bench.laid.peek()];
  return effect(() => {
    const [job, lies] = [bench.job.value, bench.laid.value];
    // Another job was laid on the bench: its printer was taught by nobody just now.
    const lesson = lies === laid ? lessonBetween(before, job) : null;
    [before, laid] = [job, lies];
    if (lesson === null) return;
    const was = profileText(lesson.from);
    const kept = drawer.printers
      .peek()
      .find(({ profile, thrown }) => thrown === undefined && profileText(profile) === was);
    if (kept) void drawer.keepPrinter(lesson.to, Date.now(), kept.id);
  });
}
