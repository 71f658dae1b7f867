import { z } from 'zod';

/** Name of the list in a bundle of what is in it. */
export const MANIFEST = 'fettle-bundle.json';
/** Version of the list that this Fettle writes. */
export const BUNDLE_VERSION = 1;

const kinds = ['readme', 'job', 'printer', 'donor', 'stl', '3mf', 'drawing', 'report', 'result'] as const;
export type BundledKind = (typeof kinds)[number];

/** How the name of a file of each kind ends, and what that is in words. The job and what it names lie where the bundle
 *  begins, or a donor in a folder below, for a job finds them beside itself. */
export const namesOf: Readonly<Record<BundledKind, { readonly pattern: RegExp; readonly words: string }>> = {
  readme: { pattern: /^[^/]+\.txt$/, words: 'NAME.txt' },
  job: { pattern: /^[^/]+\.job\.json$/, words: 'NAME.job.json' },
  printer: { pattern: /^[^/]+\.printer\.json$/, words: 'NAME.printer.json' },
  donor: { pattern: /\.(stl|3mf)$/i, words: 'a name that ends in .stl or .3mf' },
  stl: { pattern: /\.stl$/, words: 'a name that ends in .stl' },
  '3mf': { pattern: /\.3mf$/, words: 'a name that ends in .3mf' },
  drawing: { pattern: /\.svg$/, words: 'a name that ends in .svg' },
  report: { pattern: /\.html$/, words: 'a name that ends in .html' },
  result: { pattern: /\.json$/, words: 'a name that ends in .json' },
};

/** The list of a bundle, version 1. */
export const manifestSchema = z
  .strictObject({
    fettleBundle: z.literal(BUNDLE_VERSION).describe('Version of the list'),
    fettle: z.string().max(40).describe('Version of Fettle that made it'),
    title: z.string().max(1200).describe('What the job is called'),
    family: z.string().max(100).describe('Which kind of part'),
    hash: z
      .string()
      .regex(/^[0-9a-f]{64}$/, 'a SHA-256, 64 hex digits')
      .describe('Of the job, as its result has it'),
    author: z.string().max(200).optional(),
    licence: z.string().max(200).optional().describe('An SPDX expression; absent: nobody said'),
    files: z
      .array(
        z.strictObject({
          path: z.string().min(1).max(240),
          kind: z.enum(kinds),
          bytes: z.number().int().min(0),
          sha256: z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256, 64 hex digits'),
        }),
      )
      .min(1)
      .max(1000)
      .describe('All files but this one'),
  })
  .describe('Fettle bundle');

export type Manifest = z.output<typeof manifestSchema>;
