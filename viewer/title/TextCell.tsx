import { useBench } from '../bench/bench.ts';
import { withText } from './withText.ts';

interface TextCellProps {
  readonly field: 'title' | 'author';
  readonly label: string;
  /** Letters at most. */
  readonly most: number;
  /** What stands there while it is empty. */
  readonly empty: string;
}

/** A box of the title block with a text of one's own. */
export function TextCell({ field, label, most, empty }: TextCellProps) {
  const bench = useBench();
  return (
    <label class={`cell ${field}`}>
      <span class="label">{label}</span>
      <input
        type="text"
        data-field={field}
        value={bench.job.value[field] ?? ''}
        maxLength={most}
        placeholder={empty}
        autocomplete="off"
        onInput={({ currentTarget: { value } }) =>
          bench.change(label, (job) => withText(job, field, value), true)
        }
      />
    </label>
  );
}
