import type { ScrewTold } from '../../../src/job/screw/screwTold.ts';
import { sentence } from '../../../src/output/words/index.ts';
import { Mark } from '../../verdict/Mark.tsx';

/** What screw it is: the likeliest thread, what else it may be and how to tell, the holes it passes. */
export function ScrewAnswered({ told }: { readonly told: ScrewTold }) {
  const { read, likeliest, doubt, wantsPitch, rows, more, none, ruledOut, telling, holes } = told;
  return (
    <div class="screw-told">
      <p>{sentence(read)}</p>
      {likeliest && (
        <p class="likeliest">
          most likely <b>{likeliest.designation}</b> {likeliest.likely}
        </p>
      )}
      {doubt !== '' && (
        <p>
          <Mark verdict={likeliest ? 'caution' : 'fails'} said /> {sentence(doubt)}
        </p>
      )}
      {wantsPitch && (
        <p>
          <b>Next:</b> count ten threads, and measure over them.
        </p>
      )}
      {rows.length > 0 && (
        <div class="scrolls">
          <table>
            <thead>
              <tr>
                {['thread', 'may be across, mm', 'pitch, mm', 'read', 'likely'].map((title) => (
                  <th key={title} scope="col">
                    {title}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.designation}>
                  <th scope="row">{row.designation}</th>
                  <td>{row.across}</td>
                  <td>{row.pitch}</td>
                  <td>{row.read}</td>
                  <td>{row.likely}</td>
                </tr>
              ))}
              {more && (
                <tr>
                  <th scope="row">{more.count} more</th>
                  <td colSpan={3} />
                  <td>{more.likely}</td>
                </tr>
              )}
              <tr>
                <th scope="row">none of these</th>
                <td colSpan={3} />
                <td>{none}</td>
              </tr>
            </tbody>
          </table>
        </div>
      )}
      {ruledOut !== '' && <p>{likeliest ? `Ruled out: ${ruledOut}.` : sentence(ruledOut)}</p>}
      {telling.map((words) => (
        <p key={words}>{sentence(words)}</p>
      ))}
      {holes !== '' && <p>{sentence(holes)}</p>}
    </div>
  );
}
