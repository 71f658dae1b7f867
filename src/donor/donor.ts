import type { Vec3 } from '../solid/vector.ts';
import { formatLength } from '../units/index.ts';
import { boxOf } from './boxOf.ts';
import { DonorRefusal } from './donorRefusal.ts';
import { roundFeatures } from './features/roundFeatures.ts';
import type { RoundFeatures } from './features/types.ts';
import { featuresInMillimetres, meshInMillimetres } from './inMillimetres.ts';
import { readDonor } from './read/readDonor.ts';
import { partAxes } from './spans/partAxes.ts';
import { type PlainSpan, plainSpans } from './spans/plainSpans.ts';
import type { DonorMesh, LengthUnit, ReadDonor } from './types.ts';
import { guessUnit, type UnitGuess } from './units/guessUnit.ts';

/** A model of a similar part, understood: in mm, with what was recognised on it. */
export interface Donor {
  /** Name of its file. */
  readonly name: string;
  readonly read: Omit<ReadDonor, 'mesh'>;
  readonly unit: DonorUnit;
  /** mm from here on. */
  readonly mesh: DonorMesh;
  readonly low: Vec3;
  readonly high: Vec3;
  readonly features: RoundFeatures;
}

/** What the numbers of the file are taken for. */
export interface DonorUnit extends Pick<UnitGuess, 'guess' | 'confidence' | 'because'> {
  /** `person`: somebody said so. `file`: the file says so. `guess`: from the sizes of the part. */
  readonly from: 'person' | 'file' | 'guess';
}

interface DonorOptions {
  /** Overrules whatever the file says or looks like. */
  readonly unit?: LengthUnit | undefined;
  readonly onProgress?: (share: number) => void;
}

/** Share of the time that reading takes of a fine mesh; looking for round walls takes the rest. */
export const READING = 0.2;

/** Reads a model and understands it. `onProgress` hears what share is done, 0 to 1. Throws `DonorRefusal` for a file
 *  that holds no sound part, and `donor_too_far` for one that no bench could hold in the unit it has. */
export function openDonor(
  bytes: Uint8Array,
  name: string,
  { unit: told, onProgress }: DonorOptions = {},
): Donor {
  const { mesh, ...read } = readDonor(
    bytes,
    name,
    onProgress ? { onProgress: (share) => onProgress(READING * share) } : {},
  );
  const found = roundFeatures(mesh, onProgress && ((share) => onProgress(READING + (1 - READING) * share)));
  const unit = unitOf(told, read.declaredUnit, () => guessUnit(mesh, found));
  const scaled = meshInMillimetres(mesh, unit.guess);
  const box = boxOf(scaled.positions);
  refuseTooFar(box);
  return {
    name,
    read,
    unit,
    mesh: scaled,
    ...box,
    features: featuresInMillimetres(found, unit.guess),
  };
}

/** How far from its origin a model may reach, mm. Far beyond any part: damage and a wrong unit are told from a part here,
 *  while its numbers still have their digits. Kilometres away a micrometre is lost in them, and solids come apart. */
const FARTHEST = 10_000;

function refuseTooFar({ low, high }: Pick<Donor, 'low' | 'high'>): void {
  const farthest = Math.max(...[...low, ...high].map(Math.abs));
  if (farthest <= FARTHEST) return;
  const size = farthest < 1e9 ? formatLength(farthest) : `${farthest.toExponential(1)} mm`;
  throw new DonorRefusal(
    'donor_too_far',
    `reaches ${size} from its origin`,
    `a model within ${formatLength(FARTHEST)} of it; its numbers are in another unit, or damaged`,
  );
}

function unitOf(
  told: LengthUnit | undefined,
  declared: LengthUnit | null,
  guess: () => UnitGuess,
): DonorUnit {
  if (told) return { guess: told, confidence: 1, because: 'told so', from: 'person' };
  if (declared) return { guess: declared, confidence: 1, because: 'the file says so', from: 'file' };
  const { guess: unit, confidence, because } = guess();
  return { guess: unit, confidence, because, from: 'guess' };
}

/** The plain spans along x, y, z, along principal axes of its own, and along `also`, unit vectors; mm. */
export const allSpans = ({ mesh }: Pick<Donor, 'mesh'>, also: readonly Vec3[] = []): readonly PlainSpan[] =>
  [...partAxes(mesh).map(({ axis }) => axis), ...also].flatMap((axis) => plainSpans(mesh, axis));
