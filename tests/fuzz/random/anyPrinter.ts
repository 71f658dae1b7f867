import fc from 'fast-check';
import { z } from 'zod';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { printerProfileSchema } from '../../../src/printer/profile.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import { materialNames } from '../../../src/standards/materials.ts';
import { between, share } from './share.ts';

interface Leaf {
  readonly path: readonly string[];
  readonly from: number;
  readonly to: number;
}

interface Node {
  readonly type?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly properties?: Readonly<Record<string, Node>>;
}

/** Numbers of a profile with their ranges, as its schema declares them. */
const leaves = (node: Node, path: readonly string[] = []): readonly Leaf[] =>
  path[0] === 'calibration' || path[0] === 'fettlePrinter'
    ? []
    : node.minimum !== undefined && node.maximum !== undefined
      ? [{ path, from: node.minimum, to: node.maximum }]
      : Object.entries(node.properties ?? {}).flatMap(([key, inner]) => leaves(inner, [...path, key]));

const declared = leaves(z.toJSONSchema(printerProfileSchema) as Node);

type Box = Record<string, unknown>;

function put(box: Box, [key, ...rest]: readonly string[], value: number): Box {
  return { ...box, [key!]: rest.length === 0 ? value : put(box[key!] as Box, rest, value) };
}
const at = (box: unknown, path: readonly string[]): number =>
  path.reduce<unknown>((inner, key) => (inner as Box)[key], box) as number;

/** Printers: as somebody has one (`known`), near to one, or with numbers from anywhere in what a profile may say. */
export const anyPrinter = (known: readonly PrinterProfile[]): fc.Arbitrary<PrinterProfile> =>
  fc
    .record({
      like: fc.constantFrom(defaultPrinter, ...known),
      name: fc.constantFrom('printer 2', 'Werkstatt', 'O\'Neil\'s "big" <one> & co', 'プリンタ'),
      material: fc.constantFrom(null, ...materialNames, 'oak'),
      moves: fc.array(fc.tuple(fc.constantFrom(...declared), share, fc.constantFrom(0.02, 0.02, 0.2, 1)), {
        maxLength: 8,
      }),
    })
    .map(({ like, name, material, moves }) => {
      let { calibration, ...profile } = { ...like, name, material } as PrinterProfile;
      for (const [{ path, from, to }, where, far] of moves) {
        const now = at(profile, path);
        const value = now + far * (between(from, to, where) - now);
        profile = put(
          profile as unknown as Box,
          path,
          Number(value.toPrecision(6)),
        ) as unknown as PrinterProfile;
      }
      return calibration === undefined ? profile : { ...profile, calibration };
    });
