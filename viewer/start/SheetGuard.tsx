import { Component, type ComponentChildren } from 'preact';

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
    const said = fault instanceof Error ? fault.message : String(fault);
    return (
      <div class="torn" role="alert">
        <p>
          <strong>{this.props.name} cannot be drawn</strong>
          {said ? `: ${said.slice(0, 200)}` : ''}. Your job is safe, and the other sheets work on.
        </p>
        <p>
          <button type="button" onClick={() => this.setState({ fault: undefined })}>
            draw it again
          </button>{' '}
          <button type="button" onClick={() => location.reload()}>
            reload the page
          </button>
        </p>
      </div>
    );
  }
}
