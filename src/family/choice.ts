/** One way of building the part out of a few; never a number. */
export interface ChoiceSpec {
  readonly name: string;
  readonly options: readonly string[];
  readonly normal: string;
  readonly tip: string;
}

export type Choices = Readonly<Record<string, string>>;

/** A choice among words. `normal` must be one of the options (throws `RangeError`). */
export function oneOf(name: string, options: readonly string[], normal: string, tip: string): ChoiceSpec {
  if (!options.includes(normal))
    throw new RangeError(`oneOf requires normal among its options (normal ${normal})`);
  return { name, options, normal, tip };
}

/** A size the maker may set but need not: arm thickness, lead-in. Lengths in mm unless the name says otherwise. */
export interface SizeSpec {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly tip: string;
  /** `mm`, or `1` for a ratio. */
  readonly unit: 'mm' | '1';
}

/** A length in mm the job may set. */
export const size = (name: string, spec: Omit<SizeSpec, 'name' | 'unit'>): SizeSpec => ({
  ...spec,
  name,
  unit: 'mm',
});

/** A plain ratio the job may set. */
export const ratio = (name: string, spec: Omit<SizeSpec, 'name' | 'unit'>): SizeSpec => ({
  ...spec,
  name,
  unit: '1',
});

/** A line of text the part may carry. */
export interface TextSpec {
  readonly name: string;
  /** Most characters it may have. */
  readonly longest: number;
  readonly tip: string;
}

/** A line of text the job may set; empty when it does not. */
export const line = (name: string, longest: number, tip: string): TextSpec => ({ name, longest, tip });
