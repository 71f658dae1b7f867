import type { Aside } from './aside.ts';
import { ReadingRow } from './ReadingRow.tsx';
import type { ReadingDesk } from './readingDesk.ts';

/** The readings in the order of measuring. A table to whoever hears the page, at all times; `drawn`, its fields stand on
 *  the drawing and the rest of it is out of sight. Roles are said, as a table laid out otherwise loses them. */
export function ReadingsTable({
  desk,
  drawn,
  aside,
}: {
  readonly desk: ReadingDesk;
  readonly drawn: boolean;
  readonly aside?: Aside | undefined;
}) {
  const rows = desk.rows.value;
  if (rows.length === 0) return null;
  const size = drawn ? desk.form.value?.size : undefined;
  return (
    // biome-ignore lint/a11y/noRedundantRoles: the drawing lays the table out as blocks, which takes the role away
    <table class="readings" role="table" aria-label="Readings">
      {/* biome-ignore lint/a11y/noRedundantRoles: as above */}
      <thead role="rowgroup">
        {/* biome-ignore lint/a11y/noRedundantRoles: as above */}
        <tr role="row">
          {['reading', 'number', 'as typed', 'comes to', 'state'].map((title) => (
            // biome-ignore lint/a11y/noRedundantRoles: as above
            <th key={title} scope="col" role="columnheader">
              {title}
            </th>
          ))}
        </tr>
      </thead>
      {/* biome-ignore lint/a11y/noRedundantRoles: as above */}
      <tbody role="rowgroup">
        {rows.map((row) => {
          const place = desk.form.value?.fields.find(({ reading }) => reading === row.facts.id)?.dimension;
          return (
            <ReadingRow
              key={row.facts.id}
              desk={desk}
              row={row}
              aside={aside?.(row.facts.id)}
              place={size && place ? { sheet: size[0], field: place.field } : undefined}
            />
          );
        })}
      </tbody>
    </table>
  );
}
