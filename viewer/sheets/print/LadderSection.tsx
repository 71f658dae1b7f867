import { steppedOf } from '../../../src/fit/feltRecord.ts';
import { RUNGS, STEP } from '../../../src/job/ladderLimits.ts';
import type { LadderRecord } from '../../../src/job/schema.ts';
import { clearanceWindow, duration, percent, significant } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';
import { useBench } from '../../bench/bench.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { Mark } from '../../verdict/Mark.tsx';
import { capital } from '../measure/capital.ts';
import { feltMarks, feltWord } from './feltMarks.ts';
import { type LadderDesk, ladderDesk } from './ladderDesk.ts';
import { ladderGroups } from './ladderGroups.ts';
import { refusalWords } from './refusalWords.ts';
import { StripPicture } from './StripPicture.tsx';
import { TakeButton } from './TakeButton.tsx';

/** Steps are often a half of the usual last digit, and would look uneven, mm. */
const FINE = 0.01;

/** How many copies there can be. */
const COUNTS = Array.from({ length: RUNGS.most - RUNGS.fewest + 1 }, (_, k) => RUNGS.fewest + k);

/** A ladder: where one fit must be beyond doubt, copies of that surface in steps of clearance, tried on the machine. */
export function LadderSection() {
  const bench = useBench();
  const desk = ladderDesk(bench);
  const result = bench.made.value?.result;
  const choices = ladderGroups(
    result?.interfaces ?? [],
    (result?.parts ?? []).map(({ id }) => id),
  );
  const group = choices.find((one) => one.group === desk.group.value)?.group ?? choices[0]?.group ?? null;
  const refused = bench.outcome.value?.kind === 'refused';
  return (
    <details
      class="ladder"
      open={desk.isOpen.value}
      onToggle={({ currentTarget: { open } }) => {
        desk.isOpen.value = open;
        if (open && desk.group.peek() === null) desk.group.value = group;
      }}
    >
      <summary data-field="ladders">
        <h2>Ladder</h2>
        <span class="aside">
          where one fit must be beyond doubt: that surface in steps of clearance, to try on the machine
        </span>
      </summary>
      {!desk.isOpen.value ? null : group === null || refused ? (
        <p>There is nothing to step yet: the verdict says what the part lacks.</p>
      ) : (
        <>
          <div class="choose">
            <label>
              <span class="label">of</span>
              <select
                value={group}
                onChange={({ currentTarget: { value } }) => {
                  desk.group.value = value;
                }}
              >
                {choices.map((one) => (
                  <option key={one.group} value={one.group}>
                    {one.name}
                  </option>
                ))}
              </select>
            </label>
            <label class="rungs">
              <span class="label">numbers</span>
              <select
                value={String(desk.rungs.value)}
                onChange={({ currentTarget: { value } }) => {
                  desk.rungs.value = Number(value);
                }}
              >
                {COUNTS.map((count) => (
                  <option key={count}>{count}</option>
                ))}
              </select>
            </label>
            <label class="rungs">
              <span class="label">step, mm</span>
              <input
                type="text"
                inputMode="decimal"
                autocomplete="off"
                maxLength={20}
                placeholder="usual"
                aria-describedby="step-hint"
                value={desk.step.value}
                onInput={({ currentTarget: { value } }) => {
                  desk.step.value = value;
                }}
              />
            </label>
            <button
              type="button"
              class={desk.record.value ? undefined : 'main'}
              aria-disabled={desk.drawing.value}
              onClick={() => {
                if (!desk.drawing.peek()) void desk.draw(group);
              }}
            >
              {desk.record.value ? 'draw another' : 'draw the ladder'}
            </button>
            <span role="status">{desk.drawing.value ? 'drawing it ...' : ''}</span>
          </div>
          <p id="step-hint" class="aside">
            The usual step is a third of the window, at least {STEP.leastNormal} mm; {STEP.least} to{' '}
            {STEP.most} mm. With an even count no number is as the part.
          </p>
          {desk.trouble.value.map((problem) => (
            <p key={problem.code} class="mind" role="alert">
              {refusalWords(problem)}
            </p>
          ))}
          <Drawn desk={desk} />
          {desk.record.value && <Felt desk={desk} record={desk.record.value} />}
        </>
      )}
    </details>
  );
}

/** The strip to print, with what it costs and how to try it. */
function Drawn({ desk }: { readonly desk: LadderDesk }) {
  const drawn = desk.drawn.value;
  if (!drawn) return null;
  const { lay, extents, layers, mass, minutes, free, rungs, stepped, names, cautions, record, files } = drawn;
  const still = Object.keys(record.aim).filter((id) => !stepped.includes(id));
  return (
    <div class="strip-print">
      <StripPicture
        files={files}
        name={`The strip: ${rungs.length} copies side by side, numbered from the tightest`}
      />
      <TakeButton
        label={`Take the ladder, ${files.map(({ name }) => name).join(' and ')}`}
        make={async () => files}
      >
        ladder
      </TakeButton>
      <p>
        {capital(lay)}, as the part; {extents.map((each) => formatNumber(each)).join(' × ')} mm, {layers}{' '}
        layers, {significant(mass)} g, about {duration(minutes)}.
        {still.map((id) => (
          <> {capital(names[id] ?? id)} is the same on every number: it comes in whole layers.</>
        ))}
      </p>
      <p class="mind">
        Start with {rungs.length}, the loosest, and go down one at a time, gently; the old part cannot be
        bought again, so stop before you need force.
        {!free &&
          ' The machine leaves no side free for the strip: cut the numbers off it, one by one, before you try them.'}
      </p>
      {cautions.map((caution) => (
        <p key={caution} class="mind">
          {caution}
        </p>
      ))}
    </div>
  );
}

function Felt({ desk, record }: { readonly desk: LadderDesk; readonly record: LadderRecord }) {
  const bench = useBench();
  const drawer = useDrawer();
  const stepped = steppedOf(record);
  const interfaces = bench.made.value?.result.interfaces ?? [];
  const nameOf = (id: string) =>
    desk.drawn.value?.names[id] ??
    interfaces.find((one) => one.id === id || one.id.endsWith(`.${id}`))?.name ??
    id;
  const marks = desk.marks.value;
  const judged = desk.judged.value;
  const middle = (record.rungs.length + 1) / 2;
  return (
    <section aria-labelledby="felt-head">
      <h3 id="felt-head">How did they feel?</h3>
      <div class="scroll">
        <table class="rung-table">
          <thead>
            <tr>
              <th scope="col">number</th>
              {stepped.map((id) => (
                <th key={id} scope="col">
                  {nameOf(id)}: clearance, <span class="aside">drawn, mm</span>
                </th>
              ))}
              <th scope="col">felt too tight, right, too loose, best of all</th>
            </tr>
          </thead>
          <tbody>
            {record.rungs.map(({ clearance, drawn }, k) => {
              const number = k + 1;
              const note =
                number === 1
                  ? 'tightest'
                  : number === record.rungs.length
                    ? 'loosest'
                    : number === middle
                      ? 'as the part'
                      : '';
              return (
                <tr key={number} class={marks[k]}>
                  <th scope="row">
                    <span class="rung">{number}</span> <span class="aside">{note}</span>
                  </th>
                  {stepped.map((id) => (
                    <td key={id}>
                      {formatNumber(clearance[id]!, FINE)}{' '}
                      <span class="aside">{formatNumber(drawn[id]!)}</span>
                    </td>
                  ))}
                  <td>
                    <fieldset class="felt">
                      <legend class="unseen">Number {number}</legend>
                      {feltMarks.map((mark) => (
                        <label key={mark} class={mark}>
                          <input
                            type="radio"
                            name={`rung-${number}`}
                            checked={marks[k] === mark}
                            onChange={() => desk.mark(k, mark)}
                          />
                          <span>{feltWord[mark]}</span>
                        </label>
                      ))}
                    </fieldset>
                  </td>
                </tr>
              );
            })}
            <tr class="wanted">
              <th scope="row">wanted</th>
              {stepped.map((id) => {
                const [lo, hi] = record.window[id]!;
                return (
                  <td key={id}>
                    {clearanceWindow([lo ?? Number.NEGATIVE_INFINITY, hi ?? Number.POSITIVE_INFINITY])}
                  </td>
                );
              })}
              <td />
            </tr>
          </tbody>
        </table>
      </div>
      {judged && (
        <div class="judged" aria-live="polite">
          <p>
            {judged.spoken}: {judged.says}.
          </p>
          {judged.remarks.map((remark) => (
            <p key={remark} class="mind">
              {remark}
            </p>
          ))}
          <ul class="drawn-now">
            {judged.drawn.map(({ id, name, before, after }) => (
              <li key={id}>
                {name}, drawn {formatNumber(before)} → <strong>{formatNumber(after)}</strong> mm
              </li>
            ))}
          </ul>
          <p class="aside">{judged.printer}.</p>
          <div class="put-in">
            <p class="chances">
              <span class="label">fits first time</span>{' '}
              <span class="before">{percent(judged.chance.before)}</span> <span aria-hidden="true">→</span>
              <span class="unseen">, then</span> <strong>{percent(judged.chance.after)}</strong>
            </p>
            <p role="status">
              {desk.isIn.value ? (
                <>
                  <Mark verdict="holds" /> in the job
                </>
              ) : (
                <button type="button" class="main" onClick={() => void desk.putIn(drawer)}>
                  draw the job by it
                </button>
              )}
            </p>
          </div>
        </div>
      )}
      {!judged && record.felt && desk.isIn.value && (
        <p>
          <Mark verdict="holds" /> The job is drawn by this.
        </p>
      )}
    </section>
  );
}
