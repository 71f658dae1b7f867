import type { ComponentChildren } from 'preact';

interface FileButtonProps {
  readonly accept: string;
  readonly take: (files: readonly File[]) => void;
  readonly children: ComponentChildren;
}

/** A button that asks for files; the browser's own field beneath it, so that keys and readers know it. */
export function FileButton({ accept, take, children }: FileButtonProps) {
  return (
    <label class="file-button">
      <input
        type="file"
        multiple
        accept={accept}
        onChange={({ currentTarget }) => {
          const files = [...(currentTarget.files ?? [])];
          // The same file chosen twice is asked for twice.
          currentTarget.value = '';
          take(files);
        }}
      />
      {children}
    </label>
  );
}
