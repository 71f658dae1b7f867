import type { z } from 'zod';
import { manifestSchema } from '../../output/bundle/index.ts';
import { printerProfileSchema } from '../../printer/profile.ts';
import { resultSchema } from '../resultSchema.ts';
import { jobSchema } from '../schema.ts';
import { batchSchema } from './batchFormat.ts';
import { openedSchema, packedSchema } from './bundleFormat.ts';
import { calibrationSchema } from './calibrationFormat.ts';
import { couponSchema } from './couponFormat.ts';
import { donorSchema } from './donorFormat.ts';
import { familiesSchema } from './familiesFormat.ts';
import { inspectionSchema } from './inspectionFormat.ts';
import { ladderSchema, verdictSchema } from './ladderFormat.ts';
import type { FormatName } from './names.ts';
import { plateSchema } from './plateFormat.ts';
import { screwSchema } from './screwFormat.ts';
import { historySchema, trialToldSchema, undoneSchema } from './trialFormat.ts';

/** Every form of JSON that a program may read: the files, and what `--json` prints. */
export const formats = {
  job: jobSchema,
  printer: printerProfileSchema,
  result: resultSchema,
  batch: batchSchema,
  plate: plateSchema,
  bundle: manifestSchema,
  packed: packedSchema,
  opened: openedSchema,
  coupon: couponSchema,
  calibration: calibrationSchema,
  ladder: ladderSchema,
  verdict: verdictSchema,
  inspection: inspectionSchema,
  trial: trialToldSchema,
  history: historySchema,
  undone: undoneSchema,
  donor: donorSchema,
  screw: screwSchema,
  families: familiesSchema,
} as const satisfies Readonly<Record<FormatName, z.ZodType>>;
