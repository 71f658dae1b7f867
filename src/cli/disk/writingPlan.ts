import { relative } from 'node:path';
import { z } from 'zod';

/** A file that takes its name once a plan counts. */
export interface PlannedFile {
  /** From the folder of the plan. */
  readonly folder: string;
  readonly part: string;
  readonly name: string;
  /** What had the name when the plan was made, as `identityOf` tells it; null where nothing had. */
  readonly was: string | null;
}

const plan = z.object({
  files: z.array(
    z.object({ folder: z.string(), part: z.string(), name: z.string(), was: z.string().nullable() }),
  ),
});

export const planText = (files: readonly PlannedFile[]): string => `${JSON.stringify({ files }, null, 1)}\n`;

/** The files of a plan; undefined where a text is none. */
export function plannedIn(text: string): readonly PlannedFile[] | undefined {
  try {
    return plan.safeParse(JSON.parse(text)).data?.files;
  } catch {
    return undefined;
  }
}

/** A folder seen from another, so that a plan holds where both are moved together. */
export const seenFrom = (home: string, folder: string): string => relative(home, folder) || '.';
