import { ruleMarks } from './layAlong.ts';

/** The rule that the part lies along, mm from its low end. */
export function Rule({
  left,
  long,
  scale,
  y,
}: {
  readonly left: number;
  readonly long: number;
  readonly scale: number;
  readonly y: number;
}) {
  const marks = ruleMarks(long, scale);
  const d = marks.map(({ mm, isLong }) => `M${left + mm * scale} ${y}v${isLong ? 11 : 6}`).join('');
  return (
    <g class="rule">
      <path d={`M${left} ${y}h${long * scale}${d}`} />
      {marks
        .filter(({ isLong }) => isLong)
        .map(({ mm }) => (
          <text key={mm} x={left + mm * scale} y={y + 25}>
            {mm}
          </text>
        ))}
      <text x={left + long * scale + 6} y={y + 10} class="unit">
        mm
      </text>
    </g>
  );
}
