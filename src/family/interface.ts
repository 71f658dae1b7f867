import type { FitClass, Window } from '../fit/types.ts';
import type { Vec3 } from '../solid/vector.ts';

/** What kind of feature of the part meets the machine.
 *  `bore`, `slot`: hollow, clearance = printed - host. `post`, `rib`: solid, clearance = host - printed.
 *  `step`: a distance from an outer face, clearance = printed - host. */
export type InterfaceKind = 'bore' | 'slot' | 'post' | 'rib' | 'step';

/** One size in which part and machine meet. A rectangular post is two of them, `socket.width` and
 *  `socket.length`: what stands before the point is the group. Frame of the part, mm. */
export interface Interface {
  readonly id: string;
  /** For tables: "bar in slot". */
  readonly name: string;
  readonly kind: InterfaceKind;
  /** Size of the machine there, mm. */
  readonly host: number;
  /** How it should feel, or the clearance window itself, mm. */
  readonly fit: FitClass | Window;
  /** Middle of the feature; of a step its far end, `across` pointing from there back to the face it starts from. */
  readonly at: Vec3;
  /** Unit vector along the feature: the axis of a bore, the way a post goes in. */
  readonly axis: Vec3;
  /** Extent along the axis, mm. */
  readonly length: number;
  /** Unit vector in which the size is measured; across the axis. */
  readonly across: Vec3;
  /** Hydraulic diameter 4 A / P of the hollow it belongs to, mm: how round its walls are. Absent: a round bore. */
  readonly hydraulic?: number;
  /** Diameter, mm, of the round whose width this is: the post itself, the round ends of a slot read along it. Absent:
   *  faces are flat, but for a bore without `hydraulic`, which is round. */
  readonly round?: number;
  /** Step that ends at the axis of a hollow: id of the hollow's interface, measured along the same `across`. */
  readonly hollow?: string;
  /** Step from middle to middle of two features, as of two holes: no face at its ends that grows, so only shrink tells. */
  readonly centres?: boolean;
}

type Told = Omit<Interface, 'id' | 'kind'>;

const interfaceOf =
  (kind: InterfaceKind) =>
  (id: string, told: Told): Interface => ({ id, kind, ...told });

export const bore = interfaceOf('bore');
export const slot = interfaceOf('slot');
export const post = interfaceOf('post');
export const rib = interfaceOf('rib');
export const step = interfaceOf('step');
