import { Component, type ComponentChildren } from 'preact';
import { faultWords } from '../spine/faultWords.ts';

interface GuardProps {
  readonly children: ComponentChildren;
  /** What is guarded, as in "the sheet Fit". */
  readonly name: string;
}

/** Keeps a fault within one sheet from taking the page: says so in its place, and draws it again when asked. */
export class SheetGuard extends Component<GuardProps, { fault: unknown }> {
  override state: { fault: unknown } = { fault: undefined };

  static override getDerivedStateFromError(fault: unknown): { fault: unknown } {
    return { fault: fault ?? new Error('') };
  }

  override render() {
    const { fault } = this.state;
    if (fault === undefined) return this.props.children;
    // What could not be fetched is asked for again by a reload alone: the browser remembers that it failed.
    const canDrawAgain = !(fault instanceof Error && /imported module|importing/i.test(fault.message));
    return (
      <div class="torn" role="alert">
        <p>
          <strong>{this.props.name} cannot be drawn:</strong> {faultWords(fault)}. Your job is safe, and the
          rest of the page works on.
        </p>
        <p>
          {canDrawAgain && (
            <button type="button" onClick={() => this.setState({ fault: undefined })}>
              draw it again
            </button>
          )}
          <button type="button" onClick={() => location.reload()}>
            reload the page
          </button>
        </p>
      </div>
    );
  }
}
