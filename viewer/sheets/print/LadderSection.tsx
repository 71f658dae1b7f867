import { RUNGS, STEP } from '../../../src/job/ladderLimits.ts';
import { useBench } from '../../bench/bench.ts';
import { LadderFelt } from './LadderFelt.tsx';
import { LadderStrip } from './LadderStrip.tsx';
import { ladderDesk } from './ladderDesk.ts';
import { ladderGroups } from './ladderGroups.ts';
import { refusalWords } from './refusalWords.ts';

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
          <LadderStrip desk={desk} />
          {desk.record.value && <LadderFelt desk={desk} record={desk.record.value} />}
        </>
      )}
    </details>
  );
}
