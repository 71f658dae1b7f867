import type { ReadingDesk } from './readingDesk.ts';

/** The lines of the drawing beneath the fields: views, dimension lines, where the jaws touch. What they say stands in the
 *  table, so they are left out for those who hear the page. */
export function DrawingLines({ desk }: { readonly desk: ReadingDesk }) {
  const form = desk.form.value;
  if (!form) return null;
  const [width, height] = form.size;
  const states = new Map(desk.rows.value.map(({ facts, state }) => [facts.id, state]));
  const current = desk.typing.draft.value?.id;
  return (
    <svg class="lines" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      {form.views.map(({ paths }) => paths.map(({ kind, d }) => <path key={kind + d} class={kind} d={d} />))}
      {form.views.map(({ title, scale, place: [left, top, w, h] }) => (
        <text key={`${title} ${left} ${top}`} class="view-title" x={left + w / 2} y={top + h + 4.6}>
          {title} <tspan class="view-scale">{scale}</tspan>
        </text>
      ))}
      {form.fields.map(
        ({ reading, dimension }) =>
          dimension && (
            <g
              key={reading}
              class={`dimension ${states.get(reading) ?? 'missing'}${reading === current ? ' current' : ''}`}
            >
              <path class="run" d={dimension.lines} />
              <path class="arrows" d={dimension.arrows} />
              {reading === current &&
                dimension.touches.map(([x, y]) => (
                  <circle key={`${x} ${y}`} class="touch" cx={x} cy={y} r="1.1" />
                ))}
            </g>
          ),
      )}
    </svg>
  );
}
