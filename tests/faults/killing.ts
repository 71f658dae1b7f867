import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { workshop } from '../cli/fettle.ts';
import { acknowledged, type Ended, run } from './atWork.ts';
import { differences, type FileSet, filesIn, isTrace, putFiles, same } from './fileSet.ts';
import type { Scene } from './scenes.ts';
import { type Step, stepsIn } from './tampered.ts';

/** What an undisturbed run of a scene does. */
export interface Learnt {
  readonly before: FileSet;
  readonly after: FileSet;
  readonly code: number | null;
  /** What it does to the disk, in order. */
  readonly steps: readonly Step[];
  /** How long it takes, ms. */
  readonly ms: number;
  /** Of a scene with typing, the file after so many lines; undefined where it is not there yet. */
  readonly states: readonly (Buffer | undefined)[];
}

/** Runs a scene undisturbed. */
export async function learn(scene: Scene): Promise<Learnt> {
  const { folder, clear } = workshop();
  try {
    const at = join(folder, 'bench');
    const log = join(folder, 'log');
    mkdirSync(at);
    await scene.lay(at);
    const before = filesIn(at);
    const states: (Buffer | undefined)[] = [];
    const asked = () => void states.push(filesIn(at).get(scene.typed!.into));
    const { code, ms, stderr } = await run(scene, at, { below: at, log }, { asked });
    if (code !== 0 && code !== 3) throw new Error(`${scene.name} ends with ${code}: ${stderr}`);
    const after = filesIn(at);
    if (scene.typed) states.push(after.get(scene.typed.into));
    return { before, after, code, steps: stepsIn(log), ms, states };
  } finally {
    clear();
  }
}

/** When and how a run is ended. */
export type Blow = { readonly signal: NodeJS.Signals } & (
  | { readonly ms: number; readonly steps?: number }
  | { readonly step: number }
);

export interface Judged {
  readonly phase: 'before' | 'writing' | 'after' | 'ended';
  /** What must not be, in words. */
  readonly wrong: readonly string[];
}

/** Strikes a run of a scene down, looks at what is left, and runs what a person would run next. */
export async function strike(scene: Scene, learnt: Learnt, blow: Blow): Promise<Judged> {
  const { folder, clear } = workshop();
  try {
    const at = join(folder, 'bench');
    const log = join(folder, 'log');
    mkdirSync(at);
    putFiles(at, learnt.before);
    const ended = await ('ms' in blow
      ? run(scene, at, { below: at, log }, { kill: blow })
      : run(scene, at, { below: at, log, at: blow.step, act: blow.signal }));
    const phase = phaseOf(ended, stepsIn(log));
    const next = scene.typed ? goOn : scene.once ? lookFirst : again;
    const wrong = [...judged(scene, learnt, at, ended), ...(await next(scene, learnt, at, ended))];
    return { phase, wrong };
  } finally {
    clear();
  }
}

function phaseOf({ signal }: Ended, steps: readonly Step[]): Judged['phase'] {
  if (signal === null) return 'ended';
  const last = steps.at(-1);
  if (last === undefined) return 'before';
  return last.what === 'unlinkSync' && last.name === '.fettle-lock' ? 'after' : 'writing';
}

/** At once after the end: every file as it was, as it becomes, or not there yet, and every reading that was acknowledged in it. */
function judged(
  scene: Scene,
  { before, after, states }: Learnt,
  at: string,
  ended: Ended,
): readonly string[] {
  const now = filesIn(at);
  const into = scene.typed?.into;
  const names = [...new Set([...now.keys(), ...before.keys()])].filter(
    (name) => !isTrace(name) && name !== into,
  );
  const half = names
    .filter((name) => !same(now.get(name), before.get(name)) && !same(now.get(name), after.get(name)))
    .map((name) => `${name} is neither the old file nor the new one`);
  if (into === undefined) return half;
  const taken = states.findLastIndex((state) => same(state, now.get(into)));
  const said = acknowledged(ended);
  if (taken === -1) return [...half, `${into} is as it never is in an undisturbed run`];
  return taken < said ? [...half, `${said} readings were acknowledged, ${taken} are there`] : half;
}

/** The same command once more makes the same bytes and leaves nothing else. */
async function again(scene: Scene, learnt: Learnt, at: string): Promise<readonly string[]> {
  const { code, stderr } = await run(scene, at, { below: at });
  if (code !== learnt.code) return [`the next run ends with ${code}: ${stderr}`];
  return differences(filesIn(at), learnt.after).map((name) => `the next run leaves another ${name}`);
}

/** The readings that are not there yet are taken by the next run. */
async function goOn(scene: Scene, learnt: Learnt, at: string): Promise<readonly string[]> {
  const { lines, into } = scene.typed!;
  const now = filesIn(at).get(into);
  const taken = learnt.states.findLastIndex((state) => same(state, now));
  const { code, stderr } = await run(scene, at, { below: at }, { lines: lines.slice(Math.max(0, taken)) });
  if (code !== learnt.code) return [`the next run ends with ${code}: ${stderr}`];
  return differences(filesIn(at), learnt.after).map((name) => `the next run leaves another ${name}`);
}

/** Whoever looks first finds it done or not begun, all files alike; only then is it done again. */
async function lookFirst(scene: Scene, learnt: Learnt, at: string, ended: Ended): Promise<readonly string[]> {
  const { look, said } = scene.once!;
  await run({ args: look }, at, { below: at });
  const now = filesIn(at);
  if (differences(now, learnt.after).length === 0) return [];
  if (said.test(ended.stdout)) return ['it was said to be done, and is not'];
  const others = differences(now, learnt.before);
  if (others.length > 0) return [`after a look, neither done nor not begun: ${others.join(', ')}`];
  return again(scene, learnt, at);
}
