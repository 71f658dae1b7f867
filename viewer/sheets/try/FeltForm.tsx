import { saidLimits } from '../../../src/job/trial/trialSaid.ts';
import { FeltRow } from './FeltRow.tsx';
import { saysNothing } from './feltDraft.ts';
import { TrialAnswerNote } from './TrialAnswerNote.tsx';
import type { TryDesk } from './tryDesk.ts';

/** Id of the heading, where a step leads. */
export const feltHeading = 'how-it-felt';

/** How the print felt on the machine, what broke, and a note; and the button that puts it on record. */
export function FeltForm({ desk }: { readonly desk: TryDesk }) {
  const facts = desk.print.facts.value;
  if (!facts) return null;
  const { index, record, readings } = facts;
  const draft = desk.draft.value;
  const lines = desk.lines.value;
  const kinds = new Map(readings.map(({ id, kind }) => [id, kind]));
  const tried = Object.keys(draft.felt).length > 0;
  const read = Object.values(record.inspected?.readings ?? {}).some((texts) => texts.length > 0);
  const blank = saysNothing(draft) && !read;
  const busy = desk.busy.value;
  return (
    <section class="felt-form" aria-labelledby={feltHeading}>
      <h2 id={feltHeading} tabIndex={-1}>
        How it felt on the machine
      </h2>
      <p class="tip">
        Gently, and stop before you need force. With the keyboard: first letter of the word, and on to the
        next.
      </p>
      <TrialAnswerNote desk={desk} />
      <div class="felt-rows">
        {lines.map((line, k) => (
          <FeltRow key={line.id} desk={desk} line={line} kinds={kinds} next={lines[k + 1]?.id} />
        ))}
      </div>
      <div class="said">
        <label>
          <span>Anything broken, in your words</span>
          <input
            type="text"
            maxLength={saidLimits.broken}
            value={draft.broken}
            placeholder="nothing; several between semicolons"
            onInput={({ currentTarget }) => desk.say((now) => ({ ...now, broken: currentTarget.value }))}
          />
        </label>
        <label>
          <span>Note</span>
          <input
            type="text"
            maxLength={saidLimits.note}
            value={draft.note}
            placeholder="none"
            onInput={({ currentTarget }) => desk.say((now) => ({ ...now, note: currentTarget.value }))}
          />
        </label>
      </div>
      <p class="record">
        <button type="button" class="strong" disabled={blank || busy} onClick={() => void desk.putOnRecord()}>
          {tried || blank
            ? `put print ${index + 1} on record`
            : `put print ${index + 1} on record, not tried`}
        </button>
        <span class="tip">
          {busy
            ? 'reckoning what it teaches ...'
            : blank
              ? 'Say how one place felt, or read one, first.'
              : 'It stays on record; the next one is drawn by it. What was said last can be taken back.'}
        </span>
      </p>
    </section>
  );
}
