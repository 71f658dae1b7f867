import { askedReadings } from '../family/family.ts';
import type { HostPart } from '../family/machine.ts';
import type {
  ReportChange,
  ReportFinding,
  ReportFit,
  ReportInput,
  ReportPart,
  ReportReading,
} from '../output/report/reportInput.ts';
import { printMinutes, printMinutesMethod } from '../printer/printMinutes.ts';
import { inverse, place, turn } from '../solid/placement.ts';
import { formatNumber } from '../units/index.ts';
import { idOf, type MemberJob, membersOf } from './members.ts';
import type { Prepared } from './prepare.ts';
import type { MakeResult } from './result.ts';
import type { ScenePart } from './scene.ts';
import { FETTLE_VERSION } from './version.ts';

/** What the report needs besides the result. */
export interface ReportBesides {
  /** Name of the job file; absent: the family's. */
  readonly file?: string;
  /** What is drawn otherwise because of earlier prints. */
  readonly changes?: readonly ReportChange[];
}

/** What the report of a job is written from: `result` and `scene` of the very same job. Plain data. */
export function reportInput(
  prepared: Prepared,
  result: MakeResult,
  scene: readonly ScenePart[],
  { file, changes = [] }: ReportBesides = {},
): ReportInput {
  const { job, family, printer, callipers } = prepared;
  const members = membersOf(prepared);
  return {
    title: result.job.title,
    family: { id: family.id, title: family.title, version: family.version },
    summary: family.summary,
    quantity: result.job.quantity,
    material: result.job.material,
    printer: {
      name: printer.name,
      calibrated: printer.calibrated,
      lineWidth: printer.lineWidth,
      layer: printer.layer,
      firstLayer: printer.firstLayer,
    },
    chance: result.chance,
    shares: result.shares,
    advice: result.advice,
    callipers,
    readings: readingsOf(prepared),
    fits: fitsOf(members, result, scene),
    findings: result.findings.map(
      (finding): ReportFinding => ({ ...finding, part: partOf(members, finding.id) }),
    ),
    print: {
      lay: result.print.lay,
      mass: result.print.mass,
      minutes: result.parts.reduce(
        (sum, { print }) => sum + printMinutes(print.volume, print.layers, printer),
        0,
      ),
      method: printMinutesMethod,
      layers: result.print.layers,
      relieved: family.relieved,
    },
    parts: scene.map((part, k): ReportPart => {
      const { print } = result.parts[k]!;
      return {
        name: part.name,
        mesh: part.mesh,
        hosts: shownHosts(members[k]!, part),
        onBed: part.onBed,
        mass: print.mass,
        extents: print.extents,
      };
    }),
    assembly: result.assembly,
    cautions: result.cautions,
    refits: result.changes ?? [],
    changes,
    again: {
      file: file ?? `${family.id}.job.json`,
      hash: result.job.hash,
      version: FETTLE_VERSION,
      settings: settingsOf(prepared),
      note: job.note ?? '',
      author: job.author ?? '',
      licence: job.licence ?? '',
    },
  };
}

function readingsOf({ job, family, values, dimensions }: Prepared): readonly ReportReading[] {
  return askedReadings(family, values.choices).map(([id, { name, jaw }]) => ({
    ...{ id, name, jaw },
    typed: (job.readings[id] ?? []).map(String),
    dimension: dimensions[id] ?? null,
  }));
}

/** Which of the parts an id of the result belongs to, from 0; null when it is about all of them. */
function partOf(members: readonly MemberJob[], id: string): number | null {
  if (members.length === 1) return 0;
  const found = members.findIndex(({ member }) => id.startsWith(idOf(member, '')));
  return found < 0 ? null : found;
}

function fitsOf(
  members: readonly MemberJob[],
  { interfaces, findings }: MakeResult,
  scene: readonly ScenePart[],
): readonly ReportFit[] {
  const numbers = new Map(findings.map(({ id }, k) => [id, k + 1]));
  return members.flatMap(({ member, prepared }, part) => {
    const declared = prepared.family.interfaces(prepared.values, {});
    return declared.flatMap(({ id: own, hollow, centres }): ReportFit[] => {
      const one = interfaces.find(({ id }) => id === idOf(member, own));
      if (one === undefined) return [];
      const toPart = inverse(scene[part]!.onBed);
      // What is said of every part in the same words is said once, without the name of a part.
      const number = numbers.get(idOf(member, `clearance.${own}`)) ?? numbers.get(`clearance.${own}`) ?? null;
      return [
        {
          ...one,
          readTo: centres ? 'centres' : hollow === undefined ? 'face' : 'hollow',
          number,
          part,
          at: place(toPart, one.at),
          across: turn(toPart, one.across),
        },
      ];
    });
  });
}

/** What of the machine is worth showing around a part: what it meets, or else what it rests against, or else all. What
 *  merely must be kept clear of would hide the rest. */
function shownHosts({ prepared }: MemberJob, { hosts }: ScenePart): ReportPart['hosts'] {
  const declared = prepared.family.host(prepared.values);
  const those = (which: (host: HostPart) => boolean) => {
    const ids = new Set(declared.filter(which).map(({ id }) => id));
    return hosts.filter(({ id }) => ids.has(id));
  };
  const meeting = those(({ meets = [] }) => meets.length > 0);
  const bearing = meeting.length > 0 ? meeting : those(({ seat }) => seat !== undefined);
  return bearing.length > 0 ? bearing : hosts;
}

/** Choices, sizes, texts and the rest that make the part what it is, each with whether the job told it. */
function settingsOf({ job, family, values, temperature, fits }: Prepared): ReportInput['again']['settings'] {
  const choices = Object.entries(family.choices).map(([id, { name }]) => ({
    ...{ name, value: values.choices[id]!, told: Object.hasOwn(job.choices, id) },
  }));
  const sizes = Object.entries(family.sizes).flatMap(([id, { name, unit }]) => {
    const value = values[id];
    if (value === undefined || !Number.isFinite(value)) return [];
    const shown = `${formatNumber(value)}${unit === 'mm' ? ' mm' : ''}`;
    return [{ name, value: shown, told: Object.hasOwn(job.sizes, id) }];
  });
  const texts = Object.entries(family.texts).flatMap(([id, { name }]) => {
    const value = values.texts[id] ?? '';
    return value === '' ? [] : [{ name, value, told: true }];
  });
  const names = new Map(family.interfaces(values, {}).map(({ id, name }) => [id, name]));
  const told = Object.entries(fits).map(([id, fit]) => ({
    name: `fit: ${names.get(id) ?? id}`,
    value: fitWords(job.fits[id]!, fit),
    told: true,
  }));
  const warmest = {
    name: 'warmest it gets',
    value: `${formatNumber(temperature)} degC`,
    told: job.surroundings !== undefined,
  };
  const model = job.donor === undefined ? [] : [{ name: 'model', value: job.donor.file, told: true }];
  return [...model, ...choices, ...sizes, ...texts, ...told, warmest];
}

function fitWords(asked: Prepared['job']['fits'][string], fit: Prepared['fits'][string]): string {
  if (typeof asked === 'string') return asked;
  return typeof fit === 'string' ? fit : `${formatNumber(fit.lo)} to ${formatNumber(fit.hi)} mm`;
}
