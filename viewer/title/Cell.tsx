import type { ComponentChildren } from 'preact';

interface CellProps {
  readonly label: string;
  /** Which one it is, for its place and width. */
  readonly name: string;
  readonly children: ComponentChildren;
}

/** One box of the title block: what it is, small, above what it says. */
export function Cell({ label, name, children }: CellProps) {
  return (
    <div class={`cell ${name}`}>
      <span class="label">{label}</span>
      <div class="content">{children}</div>
    </div>
  );
}
