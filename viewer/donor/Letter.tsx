interface LetterProps {
  readonly at: number;
  readonly y: number;
  readonly name: string;
  readonly free: boolean;
}

/** Letter of a band above it, in a box; dashed where it cannot change. */
export function Letter({ at, y, name, free }: LetterProps) {
  return (
    <g class={`letter-box${free ? '' : ' stuck'}`}>
      <rect x={at - 11} y={y} width={22} height={20} rx={1} />
      <text x={at} y={y + 15}>
        {name}
      </text>
    </g>
  );
}
