import type { Finding } from '../../../src/check/finding.ts';
import { formatNumber } from '../../../src/units/index.ts';
import { Balloon } from '../../verdict/Balloon.tsx';
import { Mark } from '../../verdict/Mark.tsx';
import { nearestPlaces } from './fitWords.ts';

interface OnItsWayProps {
  readonly findings: readonly Finding[];
  /** Places of the machine's motion, in order. */
  readonly motion: readonly string[];
}

/** The machine's own motion in words: from where to where it goes, and how near it comes to the print. */
export function OnItsWay({ findings, motion }: OnItsWayProps) {
  const places = nearestPlaces({ findings });
  if (places.length === 0) return null;
  const [first, last] = [motion[0], motion.at(-1)];
  return (
    <section class="on-its-way">
      <h2>{motion.length > 1 ? `On its way, ${first} to ${last}` : 'In its place'}</h2>
      <table>
        <caption>How near the machine comes to the part as printed</caption>
        <tbody>
          {places.map(({ number, title, gap, pose, verdict }) => (
            <tr key={number}>
              <td>
                <Balloon number={number} about={title} />
              </td>
              <th scope="row">
                <Mark verdict={verdict} said /> {title}
              </th>
              <td class="number">{gap < 0.005 ? 'touches' : `${formatNumber(gap)} mm`}</td>
              <td class="pose">{pose}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
