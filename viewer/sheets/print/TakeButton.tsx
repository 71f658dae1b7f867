import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { handOver } from '../../drawer/handOver.ts';
import type { RefusedJob } from '../../spine/answers.ts';
import { Stopped } from '../../spine/spineClient.ts';
import type { TakenFile } from '../../spine/tasks/takeAway.ts';
import { refusalWords } from './refusalWords.ts';

interface TakeButtonProps {
  /** What the button is for, where it says less than that itself. */
  readonly label: string;
  readonly disabled?: boolean;
  /** Makes the files; problems where that cannot be. */
  readonly make: () => Promise<readonly TakenFile[] | RefusedJob>;
  readonly children: ComponentChildren;
}

type State =
  | { readonly kind: 'rest' | 'busy' }
  | { readonly kind: 'taken'; readonly names: string }
  | { readonly kind: 'failed'; readonly why: string };

/** Makes a file and hands it over; says beside itself that it does, that it did, or why it could not. */
export function TakeButton({ label, disabled = false, make, children }: TakeButtonProps) {
  const state = useSignal<State>({ kind: 'rest' });
  const now = state.value;
  const take = async () => {
    state.value = { kind: 'busy' };
    try {
      const files = await make();
      if ('kind' in files) {
        state.value = { kind: 'failed', why: files.problems.map(refusalWords).join('; ') };
        return;
      }
      for (const { name, bytes, type } of files) handOver(name, bytes, type);
      state.value = { kind: 'taken', names: files.map(({ name }) => name).join(', ') };
    } catch (error) {
      const why =
        error instanceof Stopped
          ? 'stopped; take it once more'
          : 'the reckoning broke; go on and take it once more';
      state.value = { kind: 'failed', why };
    }
  };
  return (
    <span class="take">
      <button
        type="button"
        aria-label={label}
        aria-disabled={disabled || now.kind === 'busy'}
        onClick={() => {
          if (!disabled && now.kind !== 'busy') void take();
        }}
      >
        {children}
      </button>
      <span class={`took ${now.kind}`} role="status">
        {now.kind === 'busy' && 'making it ...'}
        {now.kind === 'taken' && (
          <>
            <svg class="tick" viewBox="0 0 16 16" aria-hidden="true">
              <path d="M2.5 8.5L6.5 12.5L13.5 3.5" />
            </svg>{' '}
            taken<span class="unseen">: {now.names}</span>
          </>
        )}
        {now.kind === 'failed' && now.why}
      </span>
    </span>
  );
}
