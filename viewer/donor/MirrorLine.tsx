/** The plane of symmetry: a chain line with two short strokes across each end (ISO 128-3, symmetrical parts). */
export function MirrorLine({
  x,
  top,
  foot,
}: {
  readonly x: number;
  readonly top: number;
  readonly foot: number;
}) {
  const ends = [top, foot].flatMap((y, k) => [0, 4].map((d) => `M${x - 5} ${y + (k === 0 ? d : -d)}h10`));
  return (
    <g class="mirror">
      <path class="chain" d={`M${x} ${top - 4}V${foot + 4}`} />
      <path d={ends.join('')} />
    </g>
  );
}
