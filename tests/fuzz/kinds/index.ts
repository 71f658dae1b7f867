import type { Kind } from '../kind.ts';
import { damagedBundles } from './bundles.ts';
import { commands } from './commands.ts';
import { damagedJobs } from './damagedJobs.ts';
import { donorJobs } from './donorJobs.ts';
import { familyJobs } from './familyJobs.ts';
import { damagedModels } from './models.ts';
import { damagedTables } from './tables.ts';

/** All that is handed over. */
export const kinds: readonly Kind[] = [
  ...familyJobs,
  ...donorJobs,
  ...commands,
  ...damagedJobs,
  ...damagedModels,
  ...damagedBundles,
  ...damagedTables,
];
