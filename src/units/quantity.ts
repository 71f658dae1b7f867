/** What a typed text may stand for. */
export type Quantity = 'length' | 'angle' | 'temperature' | 'count' | 'mass';

/** One unit a person may type. `numerator / denominator` turns it into the base unit, as two whole
 *  numbers, so that a conversion is rounded once and not twice: 3/64 in is exactly 1.190625 mm. */
export interface Unit {
  /** How the project writes it. */
  readonly symbol: string;
  /** How people write it, in lower case. */
  readonly names: readonly string[];
  readonly numerator: number;
  readonly denominator: number;
  /** True where rulers and drawings carry fractions of it. */
  readonly fractions: boolean;
}

/** Grammar of one quantity: its units, the first of them the base unit that comes back. */
export interface QuantityGrammar {
  /** "length", "angle" ... as it reads in a sentence. */
  readonly noun: string;
  readonly units: readonly [Unit, ...Unit[]];
  /** Whether a value below 0 makes sense without being asked for. */
  readonly negative: boolean;
  /** Only whole numbers make sense. */
  readonly whole: boolean;
  /** Texts shown where one was refused. */
  readonly examples: string;
  /** Names that are understood and yet refused, each with its reason. */
  readonly refused: Readonly<Record<string, string>>;
}

/** Millimetres in an inch, exactly. International yard and pound agreement of 1959; ISO 80000-3:2019. */
export const MILLIMETRES_PER_INCH = 25.4;

const feet = 'is in feet, which no callipers show; give inches or millimetres';
const mil = 'says mil, a thousandth of an inch to some and a millimetre to others; give thou or mm';

/** The units of every quantity; one more unit is one more row. */
export const quantities: Readonly<Record<Quantity, QuantityGrammar>> = {
  length: {
    noun: 'length',
    units: [
      {
        symbol: 'mm',
        names: ['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
        numerator: 1,
        denominator: 1,
        fractions: false,
      },
      {
        symbol: 'in',
        names: ['in', 'inch', 'inches', '"'],
        numerator: 254,
        denominator: 10,
        fractions: true,
      },
      {
        symbol: 'cm',
        names: ['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
        numerator: 10,
        denominator: 1,
        fractions: false,
      },
      { symbol: 'thou', names: ['thou'], numerator: 254, denominator: 10_000, fractions: false },
    ],
    negative: false,
    whole: false,
    examples: '12,34 or 12.34 mm, 0.125 in, 1 1/8", 3/64 in, 2 cm, 3 thou',
    refused: { "'": feet, ft: feet, foot: feet, feet, mil, mils: mil },
  },
  angle: {
    noun: 'angle',
    units: [
      {
        symbol: 'deg',
        names: ['deg', 'degree', 'degrees', '°'],
        numerator: 1,
        denominator: 1,
        fractions: false,
      },
    ],
    negative: true,
    whole: false,
    examples: '45, 7.5 deg, 30°',
    refused: { rad: 'is in radians; give degrees' },
  },
  temperature: {
    noun: 'temperature',
    units: [
      {
        symbol: 'degC',
        names: ['°c', '° c', 'c', 'degc', 'deg c'],
        numerator: 1,
        denominator: 1,
        fractions: false,
      },
    ],
    negative: true,
    whole: false,
    examples: '45, 45 °C',
    refused: {
      f: 'is in degrees Fahrenheit; give degrees Celsius',
      '°f': 'is in degrees Fahrenheit; give degrees Celsius',
      k: 'is in kelvins; give degrees Celsius',
    },
  },
  mass: {
    noun: 'mass',
    units: [
      { symbol: 'g', names: ['g', 'gram', 'grams'], numerator: 1, denominator: 1, fractions: false },
      { symbol: 'kg', names: ['kg', 'kilo', 'kilogram'], numerator: 1000, denominator: 1, fractions: false },
      // International yard and pound agreement of 1959: exactly 0.45359237 kg; 16 oz to the pound.
      {
        symbol: 'lb',
        names: ['lb', 'lbs', 'pound', 'pounds'],
        numerator: 45_359_237,
        denominator: 100_000,
        fractions: false,
      },
      {
        symbol: 'oz',
        names: ['oz', 'ounce', 'ounces'],
        numerator: 45_359_237,
        denominator: 1_600_000,
        fractions: false,
      },
    ],
    negative: false,
    whole: false,
    examples: '7.4 kg, 950 g, 16 lb, 12 oz',
    refused: {},
  },
  count: {
    noun: 'count',
    units: [{ symbol: '1', names: ['off', 'pcs'], numerator: 1, denominator: 1, fractions: false }],
    negative: false,
    whole: true,
    examples: '2, 2 off',
    refused: {},
  },
};
