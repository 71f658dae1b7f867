import { ink, lineType, strokes, svgDocument, text } from '../drawing/index.ts';

/** Length of the rule, mm: long enough that a printer's "fit to page" shows, short enough for every page. */
export const RULE = 50;

/** A rule with a mark every mm, to be held against callipers: it tells whether the page was printed at full size. */
export const checkRule = (): string =>
  svgDocument({ min: [-3, -1], max: [RULE + 3, 8.5] }, `rule of ${RULE} mm`, ruleMarks(1.8));

/** The marks of the rule from (0, 0) to (`RULE`, 0), its figures `height` mm tall, for a drawing that has more on it. */
export function ruleMarks(height: number): string[] {
  const marks = Array.from({ length: RULE + 1 }, (_, k): [number, number][] => {
    const tall = k % 10 === 0 ? 4 : k % 5 === 0 ? 2.8 : 1.6;
    return [
      [k, 0],
      [k, tall],
    ];
  });
  return [
    strokes(
      [
        [
          [0, 0],
          [RULE, 0],
        ],
        ...marks,
      ],
      lineType.dimensionLine,
      'dimension',
    ),
    ...[0, 10, 20, 30, 40, 50].map((k) => text([k, 5.3 + height / 2], String(k), { height, mark: 'words' })),
    `<path d="M0 0V-4M${RULE} 0V-4" fill="none" stroke="${ink.accent}" stroke-width="0.25"/>`,
  ];
}
