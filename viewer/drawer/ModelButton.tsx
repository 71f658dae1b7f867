import type { ComponentChildren } from 'preact';
import { useDrawer } from './drawer.ts';
import { FileButton } from './FileButton.tsx';
import { takeFiles } from './takeFiles.ts';

/** A button that asks for a model of a similar part. */
export function ModelButton({ children }: { readonly children: ComponentChildren }) {
  const drawer = useDrawer();
  return (
    <FileButton accept=".stl,.3mf" take={(files) => void takeFiles(drawer, files.slice(0, 1), Date.now())}>
      {children}
    </FileButton>
  );
}
