import type { PrinterProfile } from './types.ts';

/** A printer profile as the text of its file: two blanks of indent, what holds nothing but values on one line. */
export const profileText = (profile: PrinterProfile): string =>
  `${JSON.stringify(profile, null, 2).replace(
    /([[{])\n\s*([^[\]{}]*?)\n\s*[\]}]/g,
    (_, open: string, inner: string) => {
      const line = inner.replace(/\n\s*/g, ' ');
      return open === '{' ? `{ ${line} }` : `[${line}]`;
    },
  )}\n`;
