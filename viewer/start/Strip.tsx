import type { ComponentChildren } from 'preact';

interface StripProps {
  readonly kind: 'note' | 'mind' | 'bad';
  readonly name: string;
  readonly children: ComponentChildren;
  /** Buttons, at the end. */
  readonly deeds?: ComponentChildren;
}

const marks = { note: 'M12 7.2v.6M12 11v6', mind: 'M12 9v5M12 16.6v.6', bad: 'M8 8l8 8M16 8l-8 8' } as const;
const edges = {
  note: 'M12 2.5a9.5 9.5 0 1 0 0 19 9.5 9.5 0 0 0 0-19z',
  mind: 'M12 3 22 21H2z',
  bad: 'M3 3h18v18H3z',
} as const;

/** One thing the page has to say about itself, above the sheet: what, and what puts it right. */
export function Strip({ kind, name, children, deeds }: StripProps) {
  return (
    <section class={`notice ${kind}`} aria-label={name}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d={edges[kind]} />
        <path d={marks[kind]} />
      </svg>
      <div class="words" role={kind === 'bad' ? 'alert' : undefined}>
        {children}
      </div>
      {deeds && <div class="deeds">{deeds}</div>}
    </section>
  );
}
