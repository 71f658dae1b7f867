import { questions, type Told } from '../../../src/job/printerQuestions.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';

export type QuestionKey = keyof Told;
/** Answers as typed. */
export type AnswerTexts = Readonly<Record<QuestionKey, string>>;

export const questionKeys = Object.keys(questions) as readonly QuestionKey[];

/** What stands in the fields at first: what a profile has, or what is usual; the material of the job where there is none. */
export function answersOf(profile: PrinterProfile | null, material: string): AnswerTexts {
  if (!profile) {
    const usual = questionKeys.map((key) => [key, questions[key].usual] as const);
    return { ...(Object.fromEntries(usual) as AnswerTexts), material };
  }
  const { name, bed, lineWidth, layer, firstLayer } = profile;
  return {
    name,
    bed: `${bed.x} x ${bed.y} x ${bed.z}`,
    lineWidth: String(lineWidth),
    layer: String(layer),
    firstLayer: String(firstLayer),
    material: profile.material ?? material,
  };
}

/** Why an answer is none, as the end of a sentence; null for one that is. */
export function wrongAnswer(key: QuestionKey, text: string): string | null {
  const read = questions[key].read(text);
  return 'value' in read ? null : `${read.reason}; allowed: ${read.allowed}`;
}

/** The profile that the answers make. What a coupon told of another line, layer or material does not hold for these, so it
 *  starts anew then. Null while an answer is none. */
export function profileFrom(texts: AnswerTexts, before: PrinterProfile | null): PrinterProfile | null {
  const told: Record<string, unknown> = {};
  for (const key of questionKeys) {
    const read = questions[key].read(texts[key]);
    if (!('value' in read)) return null;
    told[key] = read.value;
  }
  const answers = told as unknown as Told;
  const kept = before !== null && !startsAnew(answers, before) ? before : defaultPrinter;
  return { ...kept, ...answers };
}

/** Whether what was measured of a printer does not hold any more once it prints like this. */
export const startsAnew = (
  told: Pick<Told, 'lineWidth' | 'layer' | 'firstLayer' | 'material'>,
  before: PrinterProfile,
): boolean =>
  told.lineWidth !== before.lineWidth ||
  told.layer !== before.layer ||
  told.firstLayer !== before.firstLayer ||
  (before.material !== null && told.material !== before.material);
