import { formatNumber } from '../../../src/units/index.ts';
import { isFree, type RefitDesk } from '../../donor/refitDesk.ts';
import { tracedBands } from '../../donor/tracedBands.ts';
import { alongWords, lengthWords, sectionWords } from '../../donor/words.ts';
import type { ShownModel } from '../../spine/answers.ts';
import { Mark } from '../../verdict/Mark.tsx';
import { namesIn } from './shownBands.ts';

interface StretchReadoutProps {
  readonly desk: RefitDesk;
  readonly model: ShownModel;
  /** Width of the picture, pixels. */
  readonly width: number;
  /** The axis points at the reader, so that nothing of its stretches is seen. */
  readonly isEndOn: boolean;
}

/** The stretch that somebody is at, in figures: how long it becomes, and whether its section is the same at both ends. */
export function StretchReadout({ desk, model, width, isEndOn }: StretchReadoutProps) {
  const at = desk.at.value;
  const name = at === null ? undefined : namesIn(model, width).get(at);
  const span = at === null ? undefined : model.spans[at];
  const { axis } = model.axes[model.shown]!;
  if (name === undefined || !span) {
    const some = namesIn(model, width).size > 0;
    return (
      <p class="stretch-at" id="stretch-at">
        {!some
          ? `No stretch ${alongWords(axis)} keeps its section.`
          : isEndOn
            ? `You look ${alongWords(axis)}, so its bands cannot be seen: turn the part. Handles still work, upwards is longer.`
            : `Lettered bands keep their section ${alongWords(axis)}. Pull a handle, or use the arrow keys on it: its band becomes longer or shorter, everything else moves as one.`}
        {tracedBands(model, desk.lit.value).length > 0 && ' Hatched is what the change goes through.'}
      </p>
    );
  }
  const draft = desk.draft.value;
  const isOwn = draft !== null && (draft.span === at || draft.span === span.partner);
  const now = span.length + (isOwn ? draft.by : 0);
  const round = model.round.stretches[at!];
  const section = sectionWords(span, { step: round?.step ?? null, sameSection: model.round.sameSection });
  const isShortest = now - (span.length - span.available) < 0.005;
  return (
    <dl class="stretch-at" id="stretch-at">
      <dt>{name}</dt>
      <dd>
        <strong>{lengthWords(now, span.was)}</strong>
        {isFree(model, span) && (
          <span class="tip">
            {isShortest
              ? 'as short as it can be without a trace'
              : `can lose ${formatNumber(now - span.length + span.available)} more`}
          </span>
        )}
      </dd>
      <dt>its ends</dt>
      <dd>
        <Mark verdict={section.isSame && span.distorts.length === 0 ? 'holds' : 'caution'} />{' '}
        <span>
          {section.words}
          {span.distorts.length > 0 && `; ${span.distorts.join(', ')} would be no longer round`}
        </span>
      </dd>
    </dl>
  );
}
