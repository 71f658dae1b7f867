import { type Donor, openDonor } from '../donor/donor.ts';
import { DonorRefusal, placeText } from '../donor/donorRefusal.ts';
import { axisFrame, extentOf } from '../donor/spans/axisFrame.ts';
import { unit, type Vec3 } from '../solid/vector.ts';
import { parseLength } from '../units/index.ts';
import type { DonorTask } from './donorFamily.ts';
import { sha256Hex } from './hash.ts';
import { type Problem, Refused } from './problem.ts';
import type { WantedLength } from './refitSteps.ts';
import type { Job } from './schema.ts';
import { shown } from './zodProblems.ts';

type ToldDonor = NonNullable<Job['donor']>;

/** Reads the model a job names and understands what the job wants of it. Throws `Refused`. */
export const donorTask = (
  told: ToldDonor,
  bytes: Uint8Array,
  job: Pick<Job, 'unit'>,
  onProgress?: (share: number) => void,
): DonorTask =>
  taskOfDonor(told, openedDonor(bytes, told.file, told.units, onProgress), sha256Hex(bytes), job);

/** The same for a model that was read already; `model` is the SHA-256 of its bytes. Throws `Refused`. */
export function taskOfDonor(told: ToldDonor, donor: Donor, model: string, job: Pick<Job, 'unit'>): DonorTask {
  const problems: Problem[] = [];
  const wanted = told.changes.flatMap(
    (change, k) => wantedLength(change, k, donor, job.unit, problems) ?? [],
  );
  if (problems.length > 0) throw new Refused(problems);
  return { model, donor, wanted, keepSymmetry: !told.lopsided, take: told.take ?? {} };
}

/** A model from its bytes; what is wrong with it as a problem of the field that names it. Throws `Refused`. */
export function openedDonor(
  bytes: Uint8Array,
  name: string,
  unit: ToldDonor['units'],
  onProgress?: (share: number) => void,
  field = 'donor.file',
): Donor {
  try {
    return openDonor(bytes, name, { unit, ...(onProgress && { onProgress }) });
  } catch (error) {
    if (!(error instanceof DonorRefusal)) throw error;
    const { code, given, allowed, at } = error;
    const value = at ? `${given} (at ${placeText(at)})` : given;
    throw new Refused([{ code, field, value, allowed }]);
  }
}

function wantedLength(
  { axis, by, to, take }: ToldDonor['changes'][number],
  index: number,
  donor: Donor,
  lengthUnit: 'mm' | 'in',
  problems: Problem[],
): WantedLength | undefined {
  const field = `donor.changes[${index}]`;
  const refuse = (of: string, value: unknown, allowed: string, reason: string): undefined =>
    void problems.push({
      code: 'change_unclear',
      field: `${field}${of}`,
      value: shown(value),
      allowed,
      reason,
    });
  if ((by === undefined) === (to === undefined))
    return refuse('', { by, to }, 'either by or to', 'says both or neither of by and to');
  const direction = axisVector(axis);
  if (!direction) return refuse('.axis', axis, 'x, y, z or a vector that is not 0', 'has no direction');
  const typed = by ?? to!;
  const parsed = parseLength(String(typed), lengthUnit, { sign: by === undefined ? 'positive' : 'any' });
  const of = by === undefined ? '.to' : '.by';
  if (!parsed.ok) return refuse(of, typed, parsed.allowed, parsed.reason);
  const change = by === undefined ? parsed.mm - extentAlong(donor, direction) : parsed.mm;
  return { axis: direction, by: change, take };
}

/** Unit vector of an axis as a job names it; undefined for the zero vector. */
export function axisVector(axis: ToldDonor['changes'][number]['axis']): Vec3 | undefined {
  if (typeof axis === 'string') return [Number(axis === 'x'), Number(axis === 'y'), Number(axis === 'z')];
  return Math.hypot(...axis) > 1e-9 ? unit(axis) : undefined;
}

/** Extent of a donor along an axis, mm. */
function extentAlong({ mesh }: Donor, axis: Vec3): number {
  const [low, high] = extentOf(axisFrame(mesh.positions, axis));
  return high - low;
}
