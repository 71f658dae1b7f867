export { type BedView, bedView, type Standing } from './bedView.ts';
export { mergedMesh } from './mergedMesh.ts';
export { placementOf } from './placementOf.ts';
export { plateOf } from './plateOf.ts';
export type {
  Bed,
  Plate,
  PlateItem,
  PlateOptions,
  PlatePlacement,
  PlateRefusal,
  Turn,
} from './plateTypes.ts';
export { shadowOf } from './shadowOf.ts';
export { type TopViewInput, topView } from './topView.ts';
