import type { Known, Parameter, PrinterProfile } from './types.ts';

/** A fitted number of a profile by its name.
 *  @example knownOf(defaultPrinter, 'scale.z').value // => 1 */
export function knownOf(profile: PrinterProfile, parameter: Parameter): Known {
  const [field, axis] = parameter.split('.') as [keyof PrinterProfile, 'x' | 'y' | 'z' | undefined];
  return axis === undefined ? (profile[field] as Known) : profile.scale[axis];
}

/** The profile with some of its fitted numbers replaced. */
export function withKnown(
  profile: PrinterProfile,
  known: Readonly<Partial<Record<Parameter, Known>>>,
): PrinterProfile {
  const { 'scale.x': x, 'scale.y': y, 'scale.z': z, ...fields } = known;
  const scale = { x: x ?? profile.scale.x, y: y ?? profile.scale.y, z: z ?? profile.scale.z };
  return { ...profile, ...fields, scale };
}
