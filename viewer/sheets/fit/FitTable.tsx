import type { FitFacts } from '../../../src/job/fitFacts.ts';
import type { MakeResult } from '../../../src/job/result.ts';
import { FitRow } from './FitRow.tsx';

interface FitTableProps {
  readonly result: MakeResult;
  readonly facts: FitFacts | null;
}

/** Where part and machine meet. */
export function FitTable({ result, facts }: FitTableProps) {
  if (result.interfaces.length === 0)
    return <p class="waiting">Nothing was measured that the part meets, so nothing is known of its fit.</p>;
  return (
    <table class="fits">
      <caption>
        Where part and machine meet <span class="unit">mm</span>
      </caption>
      <thead>
        <tr>
          <th scope="col">surface</th>
          <th scope="col" class="number">
            machine
          </th>
          <th scope="col" class="number">
            draw
          </th>
          <th scope="col" class="number">
            prints at
          </th>
          <th scope="col" class="number">
            clearance
          </th>
          <th scope="col">window</th>
          <th scope="col" class="number">
            chance
          </th>
        </tr>
      </thead>
      <tbody>
        {result.interfaces.map((fit) => (
          <FitRow key={fit.id} fit={fit} result={result} facts={facts} />
        ))}
      </tbody>
    </table>
  );
}
