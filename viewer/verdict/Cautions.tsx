import { sentence } from '../../src/output/words/index.ts';
import { Mark } from './Mark.tsx';

/** Where the work can hurt someone or the machine. Always there: it neither folds nor goes. */
export function Cautions({ cautions }: { readonly cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <div class="cautions">
      <h3>Mind</h3>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>
            <Mark verdict="caution" said />
            <span>{sentence(caution)}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}
