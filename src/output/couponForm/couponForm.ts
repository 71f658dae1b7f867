import type { Vec2 } from '../../solid/vector.ts';
import {
  boxAround,
  chains,
  decimal,
  dimensioning,
  escapeText,
  filled,
  grown,
  lineType,
  lineView,
  scaleName,
  strokes,
  svgDocument,
  text,
  viewFrom,
} from '../drawing/index.ts';
import { titleBlock } from '../sheet/titleBlock.ts';
import type { CouponFormInput } from './couponFormInput.ts';
import { type Drawing, planView } from './planView.ts';
import { readingsTable } from './readingsTable.ts';
import { style } from './style.ts';
import { towerView } from './towerView.ts';

/** Paper over part. */
const SCALE = 2;
/** Width of the picture in the round, mm on paper, and the gap between it and what stands below. */
const ROUND = 52;
const GAP = 2;

/** The form of a coupon: one HTML page, to print on A4 or to read at the bench, that shows where each reading of the print
 *  is taken, with which jaws and how often, and has room for the numbers. No scripts, nothing fetched, all text
 *  escaped; the same input gives the same text. */
export function couponForm(input: CouponFormInput): string {
  const { printer, features, print, next } = input;
  const readings = features.reduce((sum, { times }) => sum + times, 0);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeText(printer.name)}: what to measure on the coupon</title>
<style>
${style}
</style>
</head>
<body>
<main class="coupon">
<div class="drawing">
<header>
<h1>Coupon: what to measure</h1>
<p class="lead">The numbers stand on the print as here; blue dots are where the jaws touch. ${readings} readings, ten minutes.</p>
</header>
<div class="frame">
<div class="plan"><figure>
${figure(input)}
</figure></div>
<div class="how">
<div><h2>First the print</h2><ol>
<li>Print it as you print parts: your usual settings, no brim, no raft, no support, size 100 %, not turned: the long arms lie along x and y of the bed.</li>
<li>Let it cool on the bed, then lie for an hour. Cut off strings, sand nothing.</li>
<li>About ${decimal(Math.round(print.mass * 10) / 10)} g and ${print.minutes} min.</li></ol></div>
<div><h2>Then the callipers</h2><ol>
<li>Wiped and closed they show <span class="box"></span> mm</li>
<li>Flat of the small jaws <span class="box"></span> mm, 0 for knife edges</li>
<li>Write each reading as shown; let go and start afresh between two.</li>
<li>Afterwards: <code>${escapeText(next)}</code></li></ol></div>
</div>
${formTitle(input)}
</div>
</div>
<section class="measure">
<h2>Readings</h2>
<table class="readings">
<thead><tr><th scope="col">No.</th><th scope="col">Reading, and its name in files</th><th scope="col">Drawn, mm</th><th scope="col">Read, as the callipers show it</th></tr></thead>
${readingsTable(features)}
</table>
</section>
</main>
</body>
</html>
`;
}

/** Plan, with the coupon in the round and the tower from the front where the square is empty. */
function figure({ mesh, features }: CouponFormInput): string {
  const plan = planView(mesh, features, SCALE);
  const tower = towerView(mesh, features, SCALE);
  const round = inTheRound({ mesh });
  const right = plan.box.max[0];
  const top = plan.box.max[1] + 6;
  const roundAt: Vec2 = [right - round.box.max[0], top - round.box.max[1]];
  const towerAt: Vec2 = [
    right - tower.box.max[0] - 4,
    roundAt[1] + round.box.min[1] - GAP - tower.box.max[1],
  ];
  const box = boxAround([plan.box.min, plan.box.max, [right, top]].map(([x, y]) => [x!, y!] as const));
  return svgDocument(box, `coupon from above, ${scaleName(SCALE)}`, [
    ...plan.svg,
    ...shifted(round, roundAt),
    ...shifted(tower, towerAt),
    caption(
      [right - 2, tower.box.min[1] + towerAt[1] - 2],
      `tower from the front, ${scaleName(SCALE)}`,
      'end',
    ),
    ...axes([plan.box.min[0] + 4, plan.box.min[1] + 7]),
    caption([plan.box.min[0] + 3, plan.box.min[1] + 2], `from above, ${scaleName(SCALE)}`, 'start'),
  ]);
}

const caption = (at: Vec2, words: string, anchor: 'start' | 'middle' | 'end'): string =>
  text(at, words, { height: dimensioning.figure, mark: 'words', anchor });

/** Which way x and y of the bed run. */
function axes([x, y]: Vec2): string[] {
  const { arrowLength, arrowWidth } = dimensioning;
  const [long, half] = [12, arrowWidth / 2];
  const [right, up]: [Vec2, Vec2] = [
    [x + long, y],
    [x, y + long],
  ];
  return [
    strokes([[right, [x, y], up]], lineType.dimensionLine, 'dimension'),
    filled(
      [
        [right, [right[0] - arrowLength, y + half], [right[0] - arrowLength, y - half]],
        [up, [x - half, up[1] - arrowLength], [x + half, up[1] - arrowLength]],
      ],
      'arrow',
    ),
    caption([right[0] + 2, y], 'x', 'middle'),
    caption([x, up[1] + 3], 'y', 'middle'),
  ];
}

const shifted = ({ svg }: Drawing, [x, y]: Vec2): string[] => [
  `<g transform="translate(${decimal(x)} ${decimal(-y)})">`,
  ...svg,
  '</g>',
];

function inTheRound({ mesh }: Pick<CouponFormInput, 'mesh'>): Drawing {
  const seen = lineView([mesh], viewFrom([0.45, -1, 1])).visible;
  const whole = boxAround(seen.flat().map(([x, y]) => [x, y] as const));
  const scale = ROUND / (whole.max[0] - whole.min[0]);
  const lines = seen.map(
    ([p, q]) =>
      [
        [p[0] * scale, p[1] * scale],
        [q[0] * scale, q[1] * scale],
      ] as const,
  );
  return {
    svg: [strokes(chains(lines), { ...lineType.adjacentEdge, width: 0.18 }, 'part')],
    box: grown(boxAround(lines.flat().map(([x, y]) => [x!, y!] as const)), 0.5),
  };
}

/** What stands in the title block. */
function formTitle({ printer }: CouponFormInput): string {
  const fields: readonly (readonly [string, string])[] = [
    ['printer', printer.name],
    ['kind of sheet', 'Coupon form'],
    [
      'layers, line',
      `${decimal(printer.firstLayer)} / ${decimal(printer.layer)}, ${decimal(printer.lineWidth)} mm`,
    ],
    ['material', printer.material ?? ''],
    ['filament, colour', ''],
    ['callipers', ''],
    ['read by', ''],
    ['date', ''],
  ];
  return titleBlock(fields);
}
