import type { JobLine } from '../bench/jobStore.ts';
import { titleOf, useDrawer } from './drawer.ts';
import { when } from './when.ts';

/** A job in the drawer: its title to write over, where it stands, and what can be done with it. */
export function JobRow({ line, now }: { readonly line: JobLine; readonly now: number }) {
  const drawer = useDrawer();
  const onBench = line.id === drawer.keeper.id.value;
  const job = onBench ? drawer.bench.job.value : line.now;
  const title = titleOf(job);
  const read = Object.values(job.readings ?? {}).filter((texts) => texts.length > 0).length;
  return (
    <li class={onBench ? 'on-bench' : undefined}>
      <div class="what">
        <input
          aria-label={`Title of ${title}`}
          value={job.title ?? ''}
          placeholder={title}
          maxLength={200}
          onInput={({ currentTarget: { value } }) => void drawer.rename(line.id, value)}
        />
        <span class="aside">
          {job.family.replaceAll('-', ' ')} · {read} read · {onBench ? 'on the bench' : when(line.saved, now)}
        </span>
      </div>
      <div class="deeds">
        {!onBench && (
          <button
            type="button"
            aria-label={`Open ${title} on the bench`}
            onClick={() =>
              void drawer.open(line.id).then((there) => {
                if (there) drawer.isOut.value = false;
              })
            }
          >
            open
          </button>
        )}
        <button type="button" aria-label={`Copy ${title}`} onClick={() => void drawer.copy(line.id)}>
          copy
        </button>
        <button
          type="button"
          aria-label={`Take ${title} away as a file`}
          onClick={() => drawer.exportJob(job)}
        >
          file
        </button>
        <button
          type="button"
          aria-label={`Throw away ${title}`}
          onClick={() => void drawer.throwAway(line.id, Date.now())}
        >
          throw away
        </button>
      </div>
    </li>
  );
}
