import { block } from '../../solid/primitives.ts';
import type { Vec2 } from '../../solid/vector.ts';
import type { Feature } from '../feature.ts';

export interface PlateBelow {
  /** Id of the plate as part of the machine, and its name. */
  readonly id: string;
  readonly name: string;
  /** How far its face lies below z = 0, mm. */
  readonly below: number;
  /** From where to where it is drawn along y, mm. */
  readonly span: Vec2;
}

/** Gap wanted between part and plate, mm: dust and a bent plate take theirs. Common practice, no source. */
const KEEP_OFF = 0.3;
/** Thickness, and extent along x to either side, as drawn, mm. */
const DRAWN = { thick: 1.5, along: 8 } as const;

/** A flat plate of the machine below the part, which the part never touches. Brings that solid alone.
 *  @example groundPlate({ id: 'plate', name: 'plate', below: 13, span: [-20, 8] }) */
export function groundPlate({ id, name, below, span: [from, to] }: PlateBelow): Feature {
  const { thick, along } = DRAWN;
  const shape = () => block([-along, from, -below - thick], [along, to, -below]);
  return { hosts: () => [{ id, name, keepOff: KEEP_OFF, shape: shape() }] };
}
