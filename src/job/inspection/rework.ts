import { aimOf, windowOf } from '../../fit/classes.ts';
import type { Meeting } from './meetings.ts';

/** Taking plastic off a print until it fits, as data. */
export interface Rework {
  readonly tool: 'flat file' | 'needle file' | 'abrasive strip' | 'drill';
  /** To come off in all, mm, and off each of the faces that are filed. */
  readonly off: number;
  readonly aSide: number;
  readonly faces: 1 | 2;
  /** Diameter of the drill, mm. */
  readonly drill?: number;
}

/** Why a print that does not fit is made again. */
export type NoRework =
  | 'too-small'
  | 'too-much'
  | 'no-drill'
  | 'slot-too-narrow'
  | 'round-ends'
  | 'centres'
  | 'window-too-narrow';

/** What files and drills do to a print. Common practice, no source. */
export const reworkRules = {
  /** Most that comes off one face, as a share of a line: beyond it the file goes through the outermost line. */
  mostOfLine: 0.5,
  /** Narrowest slot that a flat needle file goes into, mm. */
  needleFile: 1.5,
  /** Drills come in steps of this, mm, from the smallest up. ISO 235 lists them so to 14 mm (from memory). */
  drillStep: 0.1,
  drills: { from: 1, to: 13 },
  /** How near a careful hand comes to a size with a file, mm; a window narrower than twice that is not met by filing. */
  fileReach: 0.02,
  source: 'common practice, no source',
} as const;

/** How a print that reads outside its window is put right, or why it cannot be. `clearance` as read, mm; plastic only ever
 *  comes off. It is worked towards the clearance aimed for.
 *  @example a post that leaves -0.03 of a window 0 to 0.15 // => { tool: 'flat file', off: 0.1, aSide: 0.05, faces: 2 } */
export function reworkOf(meeting: Meeting, clearance: number, lineWidth: number): Rework | NoRework {
  const { one } = meeting;
  const { lo, hi } = one.window;
  const aim = aimOf(windowOf(one.window));
  const step = one.kind === 'step';
  // A step is long where a hollow would be wide: there plastic comes off when it is above its window.
  const removable = step ? clearance > hi : clearance < lo;
  if (one.centres) return 'centres';
  if (!removable) return 'too-small';
  const off = Math.abs(clearance - aim);
  if (one.kind === 'bore' && one.hydraulic === undefined) return drilled(one.host, one.window, off);
  if (hi - lo < 2 * reworkRules.fileReach) return 'window-too-narrow';
  const hollow = one.kind === 'bore' || one.kind === 'slot';
  const round = one.round !== undefined || one.kind === 'bore';
  if (hollow && round) return 'round-ends';
  if (hollow && one.host + clearance < reworkRules.needleFile) return 'slot-too-narrow';
  const faces = step ? 1 : 2;
  const aSide = toSteps(off / faces);
  if (aSide > reworkRules.mostOfLine * lineWidth) return 'too-much';
  const tool = hollow ? 'needle file' : round ? 'abrasive strip' : 'flat file';
  return { tool, off: aSide * faces, aSide, faces };
}

/** As near as callipers show it, and never nothing. */
const toSteps = (off: number): number => Math.max(1, Math.round(off / STEP)) * STEP;
const STEP = 0.01;

/** The drill nearest to the middle of what fits. It follows the hole, so how much it takes is no matter. */
function drilled(host: number, { lo, hi }: Meeting['one']['window'], off: number): Rework | NoRework {
  const { drillStep, drills } = reworkRules;
  const aim = host + aimOf({ lo, hi });
  const drill = Number((Math.round(aim / drillStep) * drillStep).toFixed(1));
  const fits = drill >= host + lo && drill <= host + hi && drill >= drills.from && drill <= drills.to;
  return fits ? { tool: 'drill', off, aSide: off / 2, faces: 2, drill } : 'no-drill';
}
