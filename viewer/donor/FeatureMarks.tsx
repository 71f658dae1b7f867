import type { RefitSheet } from '../../src/job/refitSheet.ts';

interface FeatureMarksProps {
  readonly sheet: RefitSheet;
  readonly x: (level: number) => number;
  readonly y: (across: number) => number;
  readonly scale: number;
}

/** Centre lines of bores and posts, with their names while there is room. */
export function FeatureMarks({ sheet: { picture }, x, y, scale }: FeatureMarksProps) {
  const named = picture.marks.length <= 12;
  return (
    <g class="marks">
      {picture.marks.map(({ id, at, diameter, ends }) => {
        const [cx, cy] = [x(at[0]), y(at[1])];
        const reach = diameter === null ? 0 : (diameter * scale) / 2 + 5;
        return (
          <g key={id}>
            {ends ? (
              <path
                class="chain"
                d={`M${x(ends[0][0])} ${y(ends[0][1])}L${x(ends[1][0])} ${y(ends[1][1])}`}
              />
            ) : (
              <path class="chain" d={`M${cx - reach} ${cy}h${2 * reach}M${cx} ${cy - reach}v${2 * reach}`} />
            )}
            {named && (
              <text x={cx + 4} y={cy - 5}>
                {id}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}
