import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { useBench } from '../../bench/bench.ts';

/** Settings in one line, which says what they are, until it is opened. Opens by itself when one of them, told by the
 *  `heads` of their paths, keeps the job from being made. */
export function Strip({
  title,
  brief,
  heads,
  children,
}: {
  readonly title: string;
  readonly brief: readonly string[];
  readonly heads: readonly string[];
  readonly children: ComponentChildren;
}) {
  const outcome = useBench().outcome.value;
  const [open, setOpen] = useState(false);
  const wrong =
    outcome?.kind === 'refused' && outcome.problems.some(({ field }) => heads.includes(field.split('.')[0]!));
  useEffect(() => {
    if (wrong) setOpen(true);
  }, [wrong]);
  return (
    <details class="strip" open={open} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary data-field={heads[0]}>
        <b>{title}</b> <span class="brief">{brief.join(' · ')}</span>
      </summary>
      <div class="settings">{children}</div>
    </details>
  );
}
