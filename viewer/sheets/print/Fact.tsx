import type { ComponentChildren } from 'preact';

/** One thing said of something, with its name before it; in a list of them. */
export function Fact({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    <div class="fact">
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}
