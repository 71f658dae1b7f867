import { ruleMarks } from './layAlong.ts';

interface RuleProps {
  /** Where it begins on the screen, and at what level of the part. */
  readonly left: number;
  readonly low: number;
  readonly long: number;
  readonly scale: number;
  readonly y: number;
}

/** The rule that the part lies along, mm. */
export function Rule({ left, low, long, scale, y }: RuleProps) {
  const marks = ruleMarks(low, long, scale);
  const x = (mm: number): number => left + (mm - low) * scale;
  const d = marks.map(({ mm, isLong }) => `M${x(mm)} ${y}v${isLong ? 11 : 6}`).join('');
  return (
    <g class="rule">
      <path d={`M${left} ${y}h${long * scale}${d}`} />
      {marks
        .filter(({ isLong }) => isLong)
        .map(({ mm }) => (
          <text key={mm} x={x(mm)} y={y + 25}>
            {`${mm}`.replace('-', '\u2212')}
          </text>
        ))}
      <text x={left + long * scale + 6} y={y + 10} class="unit">
        mm
      </text>
    </g>
  );
}
