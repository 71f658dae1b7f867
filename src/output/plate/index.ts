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
