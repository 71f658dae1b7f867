import { ink } from '../drawing/index.ts';

/** Colours of the report by day and by night. Verdicts differ by shape first; every text stands out from its ground by at
 *  least 4.5 : 1, every line of a picture by 3 : 1 (WCAG 2.2, 1.4.3 and 1.4.11). */
export const palette = {
  day: {
    paper: ink.paper,
    ink: ink.ink,
    faint: '#4b535d',
    line: '#1b2430',
    rule: '#858b90',
    accent: ink.accent,
    fails: '#a92d0b',
    caution: '#7a4f00',
    holds: '#1b2430',
  },
  night: {
    paper: '#0f2236',
    ink: '#dbe7f3',
    faint: '#a3b7cb',
    line: '#dbe7f3',
    rule: '#6d859e',
    accent: '#7fb8ff',
    fails: '#ff9b78',
    caution: '#f0c259',
    holds: '#dbe7f3',
  },
} as const;

/** A palette as custom properties of a style sheet. */
export const properties = (colours: Readonly<Record<string, string>>): string =>
  Object.entries(colours)
    .map(([name, colour]) => `--${name}:${colour}`)
    .join(';');
