import { counted } from '../../solid/soundness.ts';
import type { Vec3 } from '../../solid/vector.ts';
import { placeText } from '../donorRefusal.ts';
import type { Repair, RepairKind } from '../types.ts';

const sentences: Readonly<Record<RepairKind, (count: number) => string>> = {
  'numbers-missing': (n) => `${counted(n, 'triangle')} with a coordinate that is no number left out`,
  'collapsed-dropped': (n) => `${counted(n, 'triangle')} with two corners in one place left out`,
  'corners-joined': (n) => `${counted(n, 'corner')} of open edges joined with one beside it`,
  'doubles-dropped': (n) => `${counted(n, 'triangle')} written twice left out once`,
  'seams-split': (n) => `${counted(n, 'edge')} split where a corner of the other side lies on it`,
  'faces-turned': (n) => `${counted(n, 'triangle')} turned to face as those around`,
  'holes-filled': (n) => `${counted(n, 'small hole')} filled`,
  'touching-parted': (n) => `${counted(n, 'edge')} at which surfaces touch parted`,
  'skins-dropped': (n) => `${counted(n, 'skin')} without thickness left out`,
  'turned-outward': (n) => `${counted(n, 'surface')} drawn inside out turned`,
  'flats-dropped': (n) => `${counted(n, 'triangle')} without height taken up by the one beside it`,
};

/** A repair with its sentence. */
export function repair(kind: RepairKind, count: number, at: Vec3 | null): Repair {
  const where = at === null ? '' : `, ${count > 1 ? 'the first ' : ''}near ${placeText(at)}`;
  return { kind, count, at, sentence: `${sentences[kind](count)}${where}` };
}
